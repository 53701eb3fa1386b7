#!/usr/bin/env python3
"""Measures what the rumble stage takes and what it leaves, and prints the table of rumble.md.

  rumble.py --bench DIR [--cases DIR] [--seconds 20] [--rate 96000] [--pieces ...] [--seeds 1,2]

DIR holds a simulator of music with the command `tune.py`. To its stereo are added: a bass of 41.2 Hz that comes and goes (in the
middle, or on one side alone), groove noise, and the damage: rumble of 5 to 60 Hz, mostly vertical, 30 dB over the groove noise in that
band; a warp of 0.55 Hz and two multiples; an offset of 1 % left and -0.5 % right. All against what went in without the damage.
Needs python3-numpy, python3-scipy, python3-soundfile.
"""
import argparse, json, os, subprocess, sys
import numpy as np, soundfile
from scipy.signal import butter, sosfilt, sosfiltfilt

HERE = os.path.dirname(os.path.abspath(__file__))
LAUNCHER = os.path.join(HERE, "..", "..", "restore-cli", "groovemend")
BASS = 41.2


def run(*args):
    done = subprocess.run(args, capture_output=True, text=True)
    if done.returncode:
        sys.exit("%s\nfailed: %s%s" % (" ".join(args), done.stdout, done.stderr))
    return done.stdout


def db(x):
    return 10 * np.log10(max(np.mean(np.square(x)), 1e-30))


def band(x, rate, low, high):
    """Zero-phase, at a low rate for the sake of its low corner."""
    step = int(rate // 1000)
    y = sosfiltfilt(butter(8, 300, "low", fs=rate, output="sos"), x)[::step]
    y = sosfiltfilt(butter(4, high, "low", fs=rate / step, output="sos"), y)
    return sosfiltfilt(butter(4, low, "high", fs=rate / step, output="sos"), y) if low else y - y.mean()


def tone(x, rate, hertz, gate):
    """Amplitude of a note where it sounds."""
    n = np.arange(len(x))
    w = gate * np.exp(-2j * np.pi * hertz * n / rate)
    return abs(np.sum(x * w)) * 2 / np.sum(gate ** 2)


def make(a, piece, seed, where, rumble_db):
    clean = os.path.join(a.cases, "%s-%d.wav" % (piece, seed))
    if not os.path.exists(clean):
        run(sys.executable, os.path.join(a.bench, "tune.py"), clean, "--piece", piece, "--seconds", str(a.seconds), "--rate",
            str(a.rate), "--seed", str(seed))
    music, rate = soundfile.read(clean)
    music = 0.5 * music[:, :2]
    chance = np.random.default_rng(seed)
    n = len(music)
    t = np.arange(n) / rate
    gate = sosfiltfilt(butter(1, 4, fs=rate, output="sos"), ((t % 2.5) < 1.5) * (t > 2) * (t < t[-1] - 1))
    bass = 0.1 * gate * np.sin(2 * np.pi * BASS * t)
    music[:, 0] += bass
    if where == "middle":
        music[:, 1] += bass
    floor = 10 ** (-72 / 20) * chance.standard_normal((n, 2))
    good = music + floor
    low = sosfilt(butter(2, (5, 60), "band", fs=rate, output="sos"), chance.standard_normal(n))
    level = db(band(floor[:, 0], rate, 5, 60)) + rumble_db
    low *= 10 ** ((level - db(low)) / 20) * (1 + 0.3 * np.sin(2 * np.pi * 0.5556 * t))
    warp = 0.05 * sum(np.sin(2 * np.pi * 0.5556 * k * t + k) / k ** 2 for k in (1, 2, 3))
    lateral = 0.25 * np.roll(low, 7777) + 0.25 * warp
    vertical = low + warp
    bad = good + np.stack([lateral + vertical + 0.01, lateral - vertical - 0.005], 1)
    if rumble_db < -50:
        bad = good.copy()
    path = os.path.join(a.cases, "%s-%d-%s-%d.wav" % (piece, seed, where, rumble_db))
    soundfile.write(path, bad, rate, subtype="PCM_24")
    return path, good, bad, gate, rate


def figures(a, piece, seed, where, rumble_db):
    path, good, bad, gate, rate = make(a, piece, seed, where, rumble_db)
    out = path[:-4] + "-out"
    run(LAUNCHER, "restore", path, "--out", out, "--stages", "rumble", "--captured", "flat", "--replace")
    stem = os.path.basename(path)[:-4]
    done, _ = soundfile.read(os.path.join(out, stem + ".restored.wav"))
    found = taken = None
    for line in open(os.path.join(out, stem + ".ledger.jsonl")):
        record = json.loads(line)
        if record.get("name") == "rumble":
            found = record["result"]
        if record.get("name") == "rumbleTaken":
            taken = record["result"]
    part = {"lateral": lambda x: (x[:, 0] + x[:, 1]) / 2, "vertical": lambda x: (x[:, 0] - x[:, 1]) / 2}
    row = [piece, seed, where, rumble_db, "yes" if found["verticalTaken"] else "no"]
    for name, of in part.items():
        for low, high in ((0, 16), (20, 60)):
            before = db(band(of(bad - good), rate, low, high))
            after = db(band(of(done - good), rate, low, high))
            row.append("%.1f → %.1f" % (before, after))
    row.append("%.5f" % (100 * max(abs(done.mean(0) - good.mean(0)))))
    row.append("%.2f" % (20 * np.log10(tone(done[:, 0], rate, BASS, gate) / tone(good[:, 0], rate, BASS, gate))))
    high = lambda x: sosfiltfilt(butter(4, 200, "high", fs=rate, output="sos"), x, axis=0)
    row.append("%.0f" % (db(high(good)) - db(high(done - good))))
    row.append("%.2f" % (taken["headroomDb"] if taken else 0))
    print("| " + " | ".join(str(x) for x in row) + " |", flush=True)
    if a.words:
        print(found["reason"], json.dumps(taken))


def main():
    p = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    p.add_argument("--bench", required=True)
    p.add_argument("--cases", default="rumble-cases")
    p.add_argument("--seconds", type=float, default=20)
    p.add_argument("--rate", type=int, default=96000)
    p.add_argument("--pieces", default="strings,dance,piano")
    p.add_argument("--seeds", default="1,2")
    p.add_argument("--words", action="store_true", help="also what the ledger says")
    a = p.parse_args()
    os.makedirs(a.cases, exist_ok=True)
    print("| piece | seed | bass | rumble over groove noise, dB | vertical taken | lateral below 16 Hz, dBFS | lateral 20 to 60 Hz | vertical"
          " below 16 Hz | vertical 20 to 60 Hz | offset left, % | 41.2 Hz note, dB | above 200 Hz: music over change, dB | headroom, dB |")
    print("|" + "---|" * 13)
    for piece in a.pieces.split(","):
        for seed in a.seeds.split(","):
            for where, rumble in (("middle", 30), ("left", 30), ("middle", -99), ("left", -99)):
                figures(a, piece, int(seed), where, rumble)


if __name__ == "__main__":
    main()
