#!/usr/bin/env python3
"""A round of `groovemend verify --all` over a store, killed at random moments and gone on with.

The store is the result of a small batch and a bag of many files of noise; some files are then altered, removed and added. One
round is made undisturbed. Then rounds with a record of their own get SIGKILL at a random moment, again and again, and go on each time
until they come to their end. Each must have found what the undisturbed round found, and have looked at each thing: no more than
was under work when it was killed is looked at twice. The store and the transfers must not change in bytes, times or permissions.

    python3 docs/explanation/verify_kills.py restore-cli/target/groovemend.jar --kills 20

Ends with 1 and a sentence if something differs. Needs numpy and soundfile.
"""
import argparse
import hashlib
import json
import os
import random
import signal
import subprocess
import sys
import tempfile
import time

from batch_kills import FORMS, make_side, state


def make_bag(folder, files, megabytes):
    """RFC 8493, written here by hand."""
    os.makedirs(os.path.join(folder, "data"))
    rng = random.Random(7)
    with open(os.path.join(folder, "bagit.txt"), "w") as f:
        f.write("BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n")
    with open(os.path.join(folder, "manifest-sha256.txt"), "w") as listed:
        for i in range(files):
            content = rng.randbytes(int(megabytes * 1e6))
            with open(os.path.join(folder, "data", f"noise {i:04d}.bin"), "wb") as f:
                f.write(content)
            listed.write(f"{hashlib.sha256(content).hexdigest()}  data/noise {i:04d}.bin\n")


def flip(file, at):
    with open(file, "r+b") as f:
        f.seek(at)
        byte = f.read(1)
        f.seek(at)
        f.write(bytes([byte[0] ^ 1]))


def rounds(record):
    """Finished and unfinished rounds of a record: keys by how often they were looked at, and whether the round has an end."""
    found = []
    with open(record, "rb") as f:
        for line in f.read().split(b"\n"):
            if not line:
                continue
            try:
                said = json.loads(line)
            except ValueError:
                continue  # the half line of a process that was killed; the next one cuts it off
            if "fixity" in said:
                found.append([{}, False])
            elif "key" in said:
                found[-1][0][said["key"]] = found[-1][0].get(said["key"], 0) + 1
            elif "ended" in said:
                found[-1][1] = True
    return found


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("jar")
    parser.add_argument("--kills", type=int, default=20)
    parser.add_argument("--sides", type=int, default=12)
    parser.add_argument("--files", type=int, default=250)
    parser.add_argument("--megabytes", type=float, default=3)
    parser.add_argument("--threads", type=int, default=2)
    parser.add_argument("--seed", type=int, default=1)
    args = parser.parse_args()
    rng = random.Random(args.seed)
    wrong = []
    with tempfile.TemporaryDirectory(prefix="groovemend-verify-") as work:
        transfers, store = os.path.join(work, "transfers"), os.path.join(work, "store")
        os.makedirs(transfers)
        for i in range(args.sides):
            form = FORMS[i % len(FORMS)]
            make_side(os.path.join(transfers, f"side {i:02d}.{form[0]}"), i, form, 1.5)
        java = ["java", "-Xmx700m", "-Djava.awt.headless=true", "-jar", args.jar]
        subprocess.run([*java, "batch", transfers, "--out", store, "--no-page", "--stages", "clicks"], check=True, stdout=subprocess.DEVNULL)
        make_bag(os.path.join(store, "bag"), args.files, args.megabytes)
        results = os.path.join(store, "sides", "transfers")
        flip(os.path.join(results, "side 00.restored.wav"), 5000)
        flip(os.path.join(results, "side 01.ledger.jsonl"), 900)
        os.remove(os.path.join(results, "side 02.restored.wav"))
        flip(os.path.join(store, "bag", "data", "noise 0003.bin"), 70_000)
        flip(os.path.join(transfers, "side 04.wav"), 60)
        with open(os.path.join(results, "stranger.txt"), "w") as f:
            f.write("who am I?")
        before = state(work)

        def verify(record):
            return [*java, "verify", "--all", store, "--json", "--threads", str(args.threads), "--record", os.path.join(work, record)]

        def findings(text):
            told = json.loads(text)
            return sorted((f["kind"], f["file"]) for f in told["findings"]), told

        began = time.time()
        quiet = subprocess.run(verify("quiet.jsonl"), stdout=subprocess.PIPE, text=True)
        whole = time.time() - began
        wanted, told = findings(quiet.stdout)
        [[keys, _]] = rounds(os.path.join(work, "quiet.jsonl"))
        print(f"undisturbed: exit {quiet.returncode}, {len(keys)} things, {told['bytes'] / 1e6:.0f} MB in {whole:.1f} s, "
              f"{len(wanted)} findings", flush=True)
        for kind, file in wanted:
            print(f"  {kind} {file.replace(work, '...')}")
        if quiet.returncode != 5 or len(wanted) != 6:
            wrong.append(f"undisturbed: exit {quiet.returncode}, {len(wanted)} findings where 6 were planted")

        kills = ended = twice = 0
        while kills < args.kills:
            record = f"killed-{ended}.jsonl"
            while True:
                run = subprocess.Popen(verify(record), stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
                try:
                    said, _ = run.communicate(timeout=rng.uniform(0.1, whole))
                    break
                except subprocess.TimeoutExpired:
                    run.send_signal(signal.SIGKILL)
                    run.communicate()
                    kills += 1
            got, told = findings(said)
            # more than one if a kill fell between the end of a round and that of the process
            for seen, over in rounds(os.path.join(work, record)):
                twice += sum(n > 1 for n in seen.values())
                if not over or set(seen) != set(keys):
                    wrong.append(f"round {ended}: {len(set(keys) ^ set(seen))} things differ from the undisturbed round")
            if run.returncode != 5 or got != wanted:
                wrong.append(f"round {ended}: exit {run.returncode}, {sorted(set(got) ^ set(wanted))}")
            ended += 1
        print(f"killed {kills} times in {ended} rounds, each gone on with to its end; {twice} things stand in a record more than once",
              flush=True)
        after = {name: value for name, value in state(work).items() if not name.endswith(".jsonl") or name.startswith("store")}
        if after != before:
            wrong.append(f"changed: {[name for name in set(after) | set(before) if after.get(name) != before.get(name)]}")
    for line in wrong:
        print(line)
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
