#!/usr/bin/env python3
"""Times single verbs of groovemend as whole processes and prints a table of performance.md.

  verbs.py [--minutes 5,20] [--rates 44100,96000] [--folder DIR]

The side is invented: struck notes once a second over noise of two walls, 24 bit, two channels, four minutes of it again and again. Both
the clock and processor time (user and system) are told, each without that of a start which does nothing (`--version`). Linux only. Needs
python3-numpy.
"""
import argparse, os, resource, shutil, struct, subprocess, time
import numpy as np

HERE = os.path.dirname(os.path.abspath(__file__))
LAUNCHER = os.path.join(HERE, "..", "..", "restore-cli", "groovemend")


def make(path, rate, minutes):
    rng = np.random.default_rng(9)
    n = min(4, minutes) * 60 * rate
    t = np.arange(n) / rate
    x = np.zeros(n)
    notes = 220 * 2 ** (rng.integers(0, 24, n // rate + 1) / 12)
    for k, hertz in enumerate(notes[: n // rate]):
        u = t[: rate]
        x[k * rate:(k + 1) * rate] = np.exp(-2 * u) * sum(np.sin(2 * np.pi * hertz * h * u) / h for h in (1, 2, 3))
    both = np.stack([0.05 * x + 1e-3 * rng.standard_normal(n) for _ in range(2)], axis=1)
    words = np.round(both * (1 << 23)).astype("<i4")
    data = words.reshape(-1, 1).view(np.uint8)[:, :3].tobytes()
    total = minutes * 60 * rate * 6
    with open(path, "wb") as f:
        f.write(b"RIFF" + struct.pack("<I", 36 + total) + b"WAVEfmt " + struct.pack("<IHHIIHH", 16, 1, 2, rate, rate * 6, 6, 24))
        f.write(b"data" + struct.pack("<I", total))
        while total > 0:
            f.write(data[:total])
            total -= min(total, len(data))


def timed(arguments):
    before, clock = resource.getrusage(resource.RUSAGE_CHILDREN), time.time()
    subprocess.run([LAUNCHER] + arguments, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.time() - clock, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main():
    p = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    p.add_argument("--minutes", default="5,20")
    p.add_argument("--rates", default="44100,96000")
    p.add_argument("--folder", default="verbs-run")
    a = p.parse_args()
    os.makedirs(a.folder, exist_ok=True)
    start = [min(v) for v in zip(*(timed(["--version"]) for _ in range(3)))]
    print("start alone: %.2f s by the clock, %.2f s of processor" % tuple(start))
    print("| verb | rate, Hz | minutes | by the clock, s | times real time | processor, s | times real time of one processor |")
    print("|---|---|---|---|---|---|---|", flush=True)
    for rate in map(int, a.rates.split(",")):
        for minutes in map(int, a.minutes.split(",")):
            side, out = os.path.join(a.folder, "side.wav"), os.path.join(a.folder, "out")
            make(side, rate, minutes)
            for name, arguments in (
                ("walls", ["walls", side]),
                ("speed", ["speed", side]),
                ("speed --factor, a copy", ["speed", side, "--factor", "1.01", "--out", out + ".wav"]),
                ("levels", ["levels", side, "--captured", "flat"]),
                ("restore --stages curve", ["restore", side, "--captured", "flat", "--stages", "curve", "--curve", "riaa", "--curve-gain", "-20", "--out", out]),
            ):
                shutil.rmtree(out, ignore_errors=True)
                for name_of in (out + ".wav", out + ".wav.speed.json", out + ".speed.json"):
                    if os.path.exists(name_of):
                        os.remove(name_of)
                try:
                    wall, cpu = timed(arguments)
                except subprocess.CalledProcessError as e:
                    print("| %s | failed: %s |" % (name, e), flush=True)
                    continue
                wall, cpu = max(1e-3, wall - start[0]), max(1e-3, cpu - start[1])
                print("| %s | %d | %d | %.1f | %.0f | %.1f | %.0f |" % (name, rate, minutes, wall, 60 * minutes / wall, cpu, 60 * minutes / cpu), flush=True)
            os.remove(side)
            shutil.rmtree(out, ignore_errors=True)


if __name__ == "__main__":
    main()
