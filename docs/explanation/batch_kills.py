#!/usr/bin/env python3
"""A collection of short invented sides, some damaged or hostile, killed at random moments and resumed.

Makes the sides, runs `groovemend batch` once undisturbed, then into another folder with SIGKILL again and again, and
compares: every file below `sides` must be the same to the byte, both catalogues must tell the same, no hidden
folder may be left, and no original may have changed in bytes, time or permissions. With --now the time in ledgers is
fixed, so nothing at all may differ.

    python3 docs/explanation/batch_kills.py restore-cli/target/groovemend.jar --sides 200 --bad 10 --kills 50

Needs numpy and soundfile. Ends with 1 and a sentence if something differs.
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

import numpy as np
import soundfile as sf

FORMS = [("wav", "WAV", "PCM_16", 44100, 2), ("wav", "WAV", "PCM_24", 48000, 1), ("flac", "FLAC", "PCM_24", 44100, 2),
         ("aiff", "AIFF", "PCM_24", 44100, 1), ("wav", "WAV", "FLOAT", 22050, 2), ("flac", "FLAC", "PCM_16", 32000, 1),
         ("wav", "RF64", "PCM_24", 44100, 2), ("wav", "WAVEX", "PCM_16", 22050, 2)]


def make_side(path, number, form, seconds):
    _, kind, coding, rate, channels = form
    rng = np.random.default_rng(number)
    length = int(rate * seconds * (0.8 + 0.4 * rng.random()))
    t = np.arange(length)
    x = 0.003 * rng.standard_normal((length, channels))
    music = int(0.6 * rate)
    x[music:] += (0.2 * np.sin(t[music:] * 0.06) + 0.1 * np.sin(t[music:] * 0.17))[:, None]
    for at in rng.integers(music, length - 50, 8):
        n = np.arange(10)
        x[at:at + 10] += 0.5 * (rng.random() + 0.3) * (np.exp(-n / 3) * np.cos(1.3 * n))[:, None]
    sf.write(path, np.clip(x, -1, 1), rate, subtype=coding, format=kind)


def make_bad(path, kind, wav, flac):
    data = {0: b"", 1: b"no sound at all, but words\n" * 99, 2: flac[:9000], 5: flac[:len(flac) // 2] + b"\xff" + flac[len(flac) // 2 + 1:],
            6: b"FORM\x7f\xff\xff\xffAIFFCOMM" + b"\xff" * 40, 7: b"OggS" + bytes(5000), 8: wav[:100],
            9: b"RIFF\xff\xff\xff\xffWAVEfmt \x10\0\0\0\x01\0\x09\0\x44\xac\0\0\0\0\0\0\x12\0\x10\0data\xff\xff\xff\xff" + bytes(1000)}
    if kind == 3:
        os.mkfifo(path + ".wav")
    elif kind == 4:
        os.symlink(path + "-gone.wav", path + ".wav")
    else:
        with open(path + (".flac" if kind in (2, 5) else ".wav"), "wb") as out:
            out.write(data[kind])


def make(folder, sides, bad, seconds):
    for i in range(sides):
        where = os.path.join(folder, f"shelf {i % 5}", "schöne Lieder" if i % 7 == 0 else "box")
        os.makedirs(where, exist_ok=True)
        form = FORMS[i % len(FORMS)]
        make_side(os.path.join(where, f"side {i:03d}.{form[0]}"), i, form, seconds)
        if i % 40 == 3:  # another side of the same name
            make_side(os.path.join(where, f"side {i:03d}.wav"), i + 1000, FORMS[0], seconds)
    os.makedirs(os.path.join(folder, "bad"), exist_ok=True)
    read = {}
    for base, _, files in sorted(os.walk(folder)):
        for name in sorted(files):
            read.setdefault(name.rsplit(".")[-1], os.path.join(base, name))
    with open(read["wav"], "rb") as a, open(read["flac"], "rb") as b:
        wav, flac = a.read(), b.read()
    for i in range(bad):
        make_bad(os.path.join(folder, "bad", f"bad {i:02d}"), i % 10, wav, flac)
    os.symlink("..", os.path.join(folder, "shelf 0", "circle"))


def state(folder):
    """Bytes of every file by name; for originals times and permissions too."""
    found = {}
    for base, folders, files in os.walk(folder):
        for name in files + folders:
            path = os.path.join(base, name)
            info = os.lstat(path)
            digest = ""
            if os.path.isfile(path) and not os.path.islink(path):
                with open(path, "rb") as file:
                    digest = hashlib.sha256(file.read()).hexdigest()
            found[os.path.relpath(path, folder)] = (digest, info.st_mtime_ns, info.st_mode)
    return found


def digests(folder):
    return {name: value[0] for name, value in state(folder).items()}


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("jar")
    parser.add_argument("--sides", type=int, default=200)
    parser.add_argument("--bad", type=int, default=10)
    parser.add_argument("--kills", type=int, default=50)
    parser.add_argument("--seconds", type=float, default=1.6)
    parser.add_argument("--longest", type=float, default=6, help="latest moment of a kill, seconds after the start")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--folder", help="where to work; default: a temporary folder")
    args = parser.parse_args()
    work = args.folder or tempfile.mkdtemp(prefix="groovemend-kills-")
    os.makedirs(work, exist_ok=True)
    transfers = os.path.join(work, "transfers")
    make(transfers, args.sides, args.bad, args.seconds)
    before = state(transfers)

    def batch(out):
        return ["java", "-Xmx1280m", "-Djava.awt.headless=true", "-jar", args.jar, "batch", transfers, "--out", os.path.join(work, out),
                "--now", "2026-01-02T03:04:05Z"]

    began = time.time()
    quiet = subprocess.run(batch("quiet"), stdout=subprocess.DEVNULL)
    print(f"undisturbed: exit {quiet.returncode}, {time.time() - began:.0f} s", flush=True)
    rng = random.Random(args.seed)
    kills = whole = 0
    while kills < args.kills:
        run = subprocess.Popen(batch("killed"), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        try:
            run.wait(timeout=rng.uniform(0.2, args.longest))
            whole += 1  # over before its time: only what fails was left
            if whole > 3:
                break
        except subprocess.TimeoutExpired:
            run.send_signal(signal.SIGKILL)
            run.wait()
            kills += 1
    last = subprocess.run(batch("killed"), stdout=subprocess.DEVNULL)
    print(f"killed {kills} times; last run: exit {last.returncode}", flush=True)

    wrong = []
    if quiet.returncode != last.returncode or quiet.returncode != (3 if args.bad else 0):
        wrong.append(f"exit codes {quiet.returncode} and {last.returncode}")
    a, b = digests(os.path.join(work, "quiet", "sides")), digests(os.path.join(work, "killed", "sides"))
    wrong += [f"differs: {name}" for name in sorted(set(a) | set(b)) if a.get(name) != b.get(name)]
    if state(transfers) != before:
        wrong.append("an original was changed")

    def catalogue(out):
        text = subprocess.run(["java", "-jar", args.jar, "catalogue", os.path.join(work, out), "--json"], check=True,
                              stdout=subprocess.PIPE).stdout
        keep = ("place", "state", "sha256", "treatment", "error_kind", "ledger_seal", "edits", "name")
        return [{key: side[key] for key in keep} for side in json.loads(text)["sides"]]

    if catalogue("quiet") != catalogue("killed"):
        wrong.append("the catalogues differ")
    done = sum(side["state"] == "done" for side in catalogue("killed"))
    print(f"{len(a)} files compared, {done} sides done")
    for line in wrong:
        print(line)
    sys.exit(1 if wrong or kills < args.kills else 0)


if __name__ == "__main__":
    main()
