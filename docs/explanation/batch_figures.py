#!/usr/bin/env python3
"""Figures of `groovemend batch`: time spent beside the sides themselves, planning of a large catalogue, throughput.

- overhead: the same short sides by `batch` and by one `restore`, one thread each; the difference for each side, by the clock
  and of processor;
- plan: a catalogue of many sides that are all done, with their files; `batch --dry-run` and `batch` on it;
- throughput: sides of half a minute with one thread and with two, and for comparison what two processes that share nothing gain;
- overview: a catalogue of many sides with invented measures; `overview` on it, what its files weigh, and how long a browser (chromium
  without a window) takes to open the page, start of the browser taken off.

    python3 docs/explanation/batch_figures.py restore-cli/target/groovemend.jar --what overhead,plan,throughput,overview

Needs numpy and soundfile. Figures hold for a machine that does nothing else; the load is printed beside them.
"""
import argparse
import os
import resource
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import time

import numpy as np

from batch_kills import FORMS, make_side


def run(*command):
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    began = time.time()
    done = subprocess.run(command, stdout=subprocess.PIPE, text=True)
    seconds = time.time() - began
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    processor = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    if done.returncode != 0:
        raise SystemExit(f"exit {done.returncode}: {done.stdout[-500:]}")
    return seconds, processor, done.stdout


def java(jar, *args):
    # as the launcher starts it
    return run("java", "-Xmx1280m", "-XX:MaxNewSize=160m", "-XX:+UseParallelGC", "-XX:-UsePerfData", "-Djava.awt.headless=true", "-jar", jar, *args)


def overhead(jar, work, sides):
    shelf = os.path.join(work, "short")
    os.makedirs(shelf)
    files = []
    for i in range(sides):
        files.append(os.path.join(shelf, f"s{i:04d}.wav"))
        make_side(files[-1], i, ("wav", "WAV", "PCM_16", 22050, 1), 0.9)
    common = ["--stages", "clicks", "--threads", "1", "--captured", "flat"]
    for turn in range(2):
        one = java(jar, "restore", *files, "--out", os.path.join(work, f"restore-{turn}"), "--no-clips", *common)
        many = java(jar, "batch", shelf, "--out", os.path.join(work, f"batch-{turn}"), *common)
        print(f"overhead, {sides} sides: restore {one[0]:.1f} s ({one[1]:.1f} of processor), batch {many[0]:.1f} s ({many[1]:.1f}): "
              f"{1000 * (many[0] - one[0]) / sides:.1f} ms a side by the clock, {1000 * (many[1] - one[1]) / sides:.1f} of processor, "
              f"load {os.getloadavg()[0]:.1f}", flush=True)


def plan(jar, work, sides):
    shelf, out = os.path.join(work, "many"), os.path.join(work, "many-out")
    os.makedirs(shelf)
    make_side(os.path.join(shelf, "first.wav"), 1, FORMS[0], 0.9)
    java(jar, "batch", shelf, "--out", out, "--stages", "clicks", "--no-page")
    data = sqlite3.connect(os.path.join(out, "catalogue.sqlite"))
    columns = [row[1] for row in data.execute("PRAGMA table_info(side)")]
    first = dict(zip(columns, data.execute("SELECT * FROM side").fetchone()))
    rows = []
    for i in range(sides):
        box = f"box{i // 1000:03d}"
        os.makedirs(os.path.join(shelf, box), exist_ok=True)
        os.makedirs(os.path.join(out, "sides", "many", box), exist_ok=True)
        path = os.path.join(shelf, box, f"side {i:06d}.wav")
        with open(path, "wb") as file:
            file.write(b"x" * 100)
        for name in (".ledger.jsonl", ".restored.wav"):
            with open(os.path.join(out, "sides", "many", box, f"side {i:06d}{name}"), "wb") as file:
                file.write(b"y" * 10)
        row = dict(first, id=i + 10, place=f"many/{box}/side {i:06d}.wav", original=path, folder=f"sides/many/{box}", name=f"side {i:06d}",
                   bytes=100, modified_ns=os.stat(path).st_mtime_ns, ledger=f"side {i:06d}.ledger.jsonl", ledger_bytes=10, restored_bytes=10)
        rows.append([row[name] for name in columns])
    data.executemany(f"INSERT INTO side VALUES ({','.join('?' * len(columns))})", rows)
    data.commit()
    data.close()
    for args in (["--dry-run"], []):
        seconds, processor, text = java(jar, "batch", shelf, "--out", out, "--stages", "clicks", "--no-page", *args)
        print(f"plan, {sides} sides done{' (dry run)' if args else ''}: {seconds:.1f} s by the clock, {processor:.1f} s of processor, "
              f"load {os.getloadavg()[0]:.1f}: {text.splitlines()[0]}", flush=True)


def machine():
    """How many times the work of one processor both do at once: plain arithmetic in two processes, nothing shared."""
    code = "import numpy as np\nx = np.arange(1.0, 1e5)\nfor i in range(2500): x = np.sqrt(x * x + 1e-9)"

    def once(processes):
        began = time.time()
        for process in [subprocess.Popen([sys.executable, "-c", code]) for _ in range(processes)]:
            process.wait()
        return time.time() - began

    times = [(once(1), once(2)) for _ in range(3)]
    one, two = (min(column) for column in zip(*times))
    print(f"machine: two processes of plain arithmetic do {2 * one / two:.2f} times what one does, load {os.getloadavg()[0]:.1f}", flush=True)


def throughput(jar, work, sides):
    machine()
    shelf = os.path.join(work, "long")
    os.makedirs(shelf)
    for i in range(sides):
        make_side(os.path.join(shelf, f"s{i}.wav"), i, ("wav", "WAV", "PCM_24", 44100, 2), 30)
    took = {}
    for threads in (1, 2, 1, 2):
        out = os.path.join(work, "long-out")
        shutil.rmtree(out, ignore_errors=True)
        seconds, processor, _ = java(jar, "batch", shelf, "--out", out, "--threads", str(threads))
        took[threads] = min(seconds, took.get(threads, 1e9))
        print(f"throughput, {sides} sides of 30 s, {threads} thread(s): {seconds:.1f} s, {processor:.1f} s of processor, "
              f"load {os.getloadavg()[0]:.1f}", flush=True)
    print(f"throughput: two threads do {took[1] / took[2]:.2f} times what one does")


def invented(number, rng):
    """Measures of a side that was never heard: two series, spread about what is usual, one in a thousand unlike the rest."""
    odd = number % 1000 == 17
    noise = -48 - 8 * (number % 3 == 0) + rng.standard_normal() + 19 * odd
    edits = int(np.exp(6 + 0.4 * rng.standard_normal()))
    return {"rate_hz": 44100, "frames": int(44100 * (180 + 10 * rng.standard_normal())), "channels": 2, "edits": edits,
            "edits_per_minute": edits / 3, "clipped_samples": 0, "clipped_runs": 0, "removed_dbfs": -45 + rng.standard_normal(),
            "rms_dbfs": -20 + rng.standard_normal(), "channel_difference_db": 0.3 * rng.standard_normal() + 14 * (number % 1000 == 500),
            "noise_before_dbfs": noise, "noise_after_dbfs": noise - 10 + 0.5 * rng.standard_normal(),
            "edits_left_share": 0.5 + 0.02 * rng.standard_normal(), "repairs_on_onsets": float(np.exp(0.15 * rng.standard_normal())),
            "repairs_on_onsets_z": rng.standard_normal(), "seconds": 3.5, "series": "lp" if number % 3 == 0 else "shellac"}


def opened(page):
    """Shortest of three times from start of a browser to the page with its script run."""
    def once(address):
        return min(run("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--dump-dom", address)[0] for _ in range(3))
    return once("file://" + page) - once("about:blank")


def overview(jar, work, sides):
    shelf, out = os.path.join(work, "heard"), os.path.join(work, "heard-out")
    os.makedirs(shelf)
    make_side(os.path.join(shelf, "first.wav"), 1, FORMS[0], 0.9)
    java(jar, "batch", shelf, "--out", out, "--stages", "clicks", "--no-page")
    data = sqlite3.connect(os.path.join(out, "catalogue.sqlite"))
    columns = [row[1] for row in data.execute("PRAGMA table_info(side)")]
    first = dict(zip(columns, data.execute("SELECT * FROM side").fetchone()))
    rng = np.random.default_rng(1)
    rows = []
    for i in range(sides):
        box = f"box{i // 1000:03d}"
        row = dict(first, **invented(i, rng), id=i + 10, place=f"heard/{box}/side {i:06d}.wav", folder=f"sides/heard/{box}",
                   name=f"side {i:06d}", ledger=f"side {i:06d}.ledger.jsonl")
        if i % 2000 == 23:
            row.update(state="failed", error_kind="inputRefused", error="It is no sound, but text.", ledger=None)
        rows.append([row[name] for name in columns])
    data.executemany(f"INSERT INTO side VALUES ({','.join('?' * len(columns))})", rows)
    data.commit()
    data.close()
    for _ in range(2):
        seconds, processor, _ = java(jar, "overview", out)
        print(f"overview, {sides} sides: {seconds:.1f} s by the clock, {processor:.1f} s of processor, load {os.getloadavg()[0]:.1f}", flush=True)
    page, table = (os.path.join(out, name) for name in ("overview.html", "overview.csv"))
    print(f"overview, {sides} sides: page {os.path.getsize(page) / 1e3:.0f} kB, table {os.path.getsize(table) / 1e6:.1f} MB", flush=True)
    if shutil.which("chromium"):
        print(f"overview: a browser opens the page in {opened(page):.2f} s", flush=True)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("jar")
    parser.add_argument("--what", default="overhead,plan,throughput,overview")
    parser.add_argument("--short", type=int, default=300)
    parser.add_argument("--rows", type=int, default=100_000)
    parser.add_argument("--long", type=int, default=8)
    parser.add_argument("--folder", help="where to work, and what is left is left; default: a temporary folder")
    args = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="groovemend-figures-") as temporary:
        work = args.folder or temporary
        os.makedirs(work, exist_ok=True)
        if "overhead" in args.what:
            overhead(args.jar, work, args.short)
        if "plan" in args.what:
            plan(args.jar, work, args.rows)
        if "throughput" in args.what:
            throughput(args.jar, work, args.long)
        if "overview" in args.what:
            overview(args.jar, work, args.rows)


if __name__ == "__main__":
    main()
