#!/usr/bin/env python3
"""Times whole runs of groovemend inspect on invented sides and prints a table.

  inspection_speed.py [--minutes 5,20,60] [--folder DIR] [--command CMD] [--no-page] [--threads N]

The sides are 96 kHz, 24 bit, two channels: harmonic notes, groove noise, and clicks of 1 to 20 samples, some 100 a minute, with a bare groove of
10 s at either end. Linux only: processor time and peak memory are those that the kernel reports for the process. On a machine with other work
to do the clock tells little; processor time tells what an idle processor would need at least, though shared memory and caches make it longer, too.
"""
import argparse, os, resource, shlex, struct, subprocess, sys, tempfile, time

import numpy as np

HERE = os.path.dirname(os.path.abspath(__file__))
LAUNCHER = os.path.join(HERE, "..", "..", "restore-cli", "groovemend")
RATE = 96000


def piece(rng, seconds, music):
    n = int(seconds * RATE)
    t = np.arange(n) / RATE
    out = np.zeros((2, n))
    if music:
        for at in np.arange(0, seconds - 0.5, 0.5):
            a, b = int(at * RATE), int((at + 0.5) * RATE)
            f = 220 * 2 ** (rng.integers(0, 25) / 12)
            tone = sum(np.sin(2 * np.pi * k * f * t[a:b]) / k**1.3 for k in range(1, 9))
            out[:, a:b] += 0.08 * tone * np.exp(-3 * (t[a:b] - at)) * np.minimum(1, (t[a:b] - at) / 0.01)
    hiss = rng.standard_normal((2, n)) + rng.standard_normal(n)
    hiss[:, 1:] += 0.7 * hiss[:, :-1]
    out += 0.0008 * hiss
    for _ in range(int(100 * seconds / 60)):
        at, size = rng.integers(0, n - 40), rng.integers(1, 21)
        out[:, at:at + size] += 0.3 * rng.standard_normal((2, size)) * rng.uniform(0.2, 1, (2, 1))
    return out


def words(x):
    w = np.round(np.clip(x.T, -0.999, 0.999) * 8388607).astype("<i4")
    return w.reshape(-1, 1).view(np.uint8).reshape(-1, 4)[:, :3].tobytes()


def make(path, minutes):
    rng = np.random.default_rng(1)
    frames = int(minutes * 60 * RATE)
    with open(path, "wb") as f:
        size = frames * 6
        f.write(b"RIFF" + struct.pack("<I", 36 + size) + b"WAVEfmt " + struct.pack("<IHHIIHH", 16, 1, 2, RATE, RATE * 6, 6, 24))
        f.write(b"data" + struct.pack("<I", size))
        left = frames
        groove = words(piece(rng, 10, False))
        f.write(groove)
        left -= 2 * 10 * RATE
        while left > 0:
            n = min(left, 20 * RATE)
            # noise and clicks never repeat: repeated words would be found
            f.write(words(piece(rng, n / RATE, True))[:6 * n])
            left -= n
        f.write(words(piece(rng, 10, False)))


def run(command, path, page, threads):
    with tempfile.TemporaryDirectory() as out:
        args = shlex.split(command) + ["inspect", path, "--limits", "shellac", "--quiet"]
        args += ["--page", out] if page else []
        args += ["--threads", str(threads)] if threads else []
        began = time.time()
        process = subprocess.Popen(args, stdout=subprocess.DEVNULL)
        _, status, used = os.wait4(process.pid, 0)
        code = os.waitstatus_to_exitcode(status)
        if code not in (0, 7):
            sys.exit(f"inspect ended with {code}")
        return time.time() - began, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--minutes", default="5,20,60")
    parser.add_argument("--folder", default=tempfile.gettempdir())
    parser.add_argument("--command", default=LAUNCHER)
    parser.add_argument("--no-page", action="store_true")
    parser.add_argument("--threads", type=int)
    options = parser.parse_args()
    print("| minutes | wall s | times real time | processor s | times real time of one processor | peak memory MiB | load |")
    print("|---|---|---|---|---|---|---|")
    for minutes in options.minutes.split(","):
        path = os.path.join(options.folder, f"inspect-{minutes}.wav")
        if not os.path.exists(path):
            make(path, float(minutes))
        wall, processor, memory = run(options.command, path, not options.no_page, options.threads)
        seconds = 60 * float(minutes)
        print(f"| {minutes} | {wall:.1f} | {seconds / wall:.0f} | {processor:.1f} | {seconds / processor:.0f} | {memory:,.0f} | {os.getloadavg()[0]:.0f} |", flush=True)


if __name__ == "__main__":
    main()
