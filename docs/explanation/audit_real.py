#!/usr/bin/env python3
"""Audits derivatives of real recordings, made by other programs, without a ledger, and prints what was found of what is known.

  audit_real.py FOLDER... [--command CMD] [--most N] [--seconds S] [--seed K]

FOLDER is where Debian packages with recordings were unpacked (apt-get download NAME; dpkg-deb -x NAME.deb FOLDER). Of each the N longest
recordings are taken, decoded by ffmpeg at their own rate, at most S seconds from their middle. Of each excerpt six derivatives are made by numpy, scipy
and sox; into each go two local edits a second (a straight line, a click, a stretch faded to nothing, or one taken from 30 ms before), whose
difference reaches -54 dBFS at least. Needs numpy, scipy, soundfile, ffmpeg, sox.
"""
import argparse, json, math, os, shlex, subprocess, tempfile
import numpy as np, soundfile
from scipy import signal

HERE = os.path.dirname(os.path.abspath(__file__))
LAUNCHER = os.path.join(HERE, "..", "..", "restore-cli", "groovemend")
ENDINGS = (".ogg", ".oga", ".opus", ".mp3", ".flac", ".wav")
LEAST = 2e-3


def seconds(path):
    said = subprocess.run(["ffprobe", "-v", "error", "-show_entries", "format=duration", "-of", "csv=p=0", path], capture_output=True, text=True)
    try:
        return float(said.stdout)
    except ValueError:
        return 0


def excerpts(options, work):
    for folder in options.folders:
        files = [os.path.join(at, f) for at, _, names in os.walk(folder) for f in names if f.lower().endswith(ENDINGS)]
        files = sorted(files, key=os.path.getsize, reverse=True)[:2 * options.most]
        for k, (length, path) in enumerate(sorted(((seconds(p), p) for p in files), reverse=True)[:options.most]):
            wav = os.path.join(work, "original.wav")
            start = max(0, (length - options.seconds) / 2)
            subprocess.run(["ffmpeg", "-v", "error", "-y", "-ss", str(start), "-t", str(options.seconds), "-i", path, "-c:a", "pcm_s24le", wav], check=True)
            yield os.path.basename(folder.rstrip("/")) + " " + os.path.basename(path), wav


def edits(y, rate, rng):
    """Changes y, frames by channels, and tells channel, from, to."""
    made, tries = [], 0
    wanted = int(2 * len(y) / rate)
    while len(made) < wanted and tries < 50 * wanted:
        tries += 1
        c = int(rng.integers(y.shape[1]))
        n = int(4 * 150 ** rng.random() * rate / 44100)
        a = int(rng.integers(rate // 2, len(y) - rate // 2 - n))
        if any(e[0] == c and a < e[2] + rate // 100 and a + n > e[1] - rate // 100 for e in made):
            continue
        was, kind = y[a:a + n, c].copy(), int(rng.integers(4))
        if kind == 0:
            now = np.interp(np.arange(n), [-1, n], [y[a - 1, c], y[a + n, c]])
        elif kind == 1:
            now = was + 10 ** ((-50 + 40 * rng.random()) / 20) * np.exp(-3 * np.arange(n) / n) * np.where(np.arange(n) % 6 < 3, 1, -1)
        elif kind == 2:
            now = was * (1 - np.sin(np.pi * (np.arange(n) + 1) / (n + 1)))
        else:
            w = np.sin(np.pi * (np.arange(n) + 1) / (n + 1)) ** 2
            now = (1 - w) * was + w * y[a - rate * 3 // 100:a - rate * 3 // 100 + n, c]
        now = np.clip(now, -1, 0.9999)
        if np.max(np.abs(now - was)) >= LEAST:
            y[a:a + n, c] = now
            made.append((c, a, a + n))
    return made


def sox(wav, work, rate, *effects):
    out = os.path.join(work, "sox.wav")
    subprocess.run(["sox", "-D", wav, "-e", "floating-point", "-b", "32", out, *effects], check=True)
    y, r = soundfile.read(out, always_2d=True)
    assert r == rate, (r, rate)
    return y


def derivatives(wav, work, rng):
    """name, samples, rate, bits, gain in dB, upside down, place, speed"""
    x, rate = soundfile.read(wav, always_2d=True)
    other = 48000 if rate == 44100 else 44100
    gain = round(float(rng.uniform(-9, -0.5)), 3)
    g = 10 ** (gain / 20)
    yield "edits alone", x.copy(), rate, 24, 0, False, 0, 1
    cut = int(rng.integers(100, rate // 2))
    yield f"{gain} dB, {cut} frames less, 16 bits", g * x[cut:], rate, 16, gain, False, cut, 1
    part = round(float(rng.uniform(0.1, 0.9)), 3)
    f = np.fft.rfftfreq(2 * len(x))
    moved = np.fft.irfft(np.fft.rfft(x, 2 * len(x), axis=0) * np.exp(-2j * np.pi * f * part)[:, None], axis=0)[:len(x)]
    yield f"{gain} dB, {part} frames later, upside down", -g * moved, rate, 24, gain, True, -part, 1
    yield f"{gain} dB, sox rate -v {other}", g * sox(wav, work, other, "gain", "-6", "rate", "-v", str(other)) * 10 ** 0.3, other, 24, gain, False, 0, 1
    up, down = other // math.gcd(other, rate), rate // math.gcd(other, rate)
    yield f"{gain} dB, scipy resample_poly {other}", g * signal.resample_poly(x, up, down, axis=0), other, 24, gain, False, 0, 1
    speed = round(1 + float(rng.uniform(-0.01, 0.01)), 6)
    yield f"{gain} dB, sox speed {speed}, 16 bits", g * sox(wav, work, rate, "gain", "-6", "speed", str(speed), "rate", "-v", str(rate)) * 10 ** 0.3, rate, 16, gain, False, 0, speed


def figure(found, kind, name, default):
    for f in found["findings"]:
        if f["kind"] == kind and name in f["figures"]:
            return f["figures"][name]
    return default


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folders", nargs="+")
    parser.add_argument("--command", default=LAUNCHER)
    parser.add_argument("--most", type=int, default=2)
    parser.add_argument("--seconds", type=float, default=20)
    parser.add_argument("--seed", type=int, default=7)
    options = parser.parse_args()
    rng = np.random.default_rng(options.seed)
    total = {"edits": 0, "found": 0, "accused": 0, "samples": 0}
    worst = {"accused %": 0, "gain dB": 0, "place": 0, "ppm": 0}
    with tempfile.TemporaryDirectory() as work:
        for title, wav in excerpts(options, work):
            for name, y, rate, bits, gain, opposed, place, speed in derivatives(wav, work, rng):
                made = edits(y, rate, rng)
                step = 2.0 ** (1 - bits)
                if name != "edits alone":
                    y = y + step * (rng.random(y.shape) - rng.random(y.shape))
                copy = os.path.join(work, "copy.wav")
                soundfile.write(copy, np.clip(np.rint(y / step) * step, -1, 1 - step), rate, f"PCM_{bits}")
                run = subprocess.run(shlex.split(options.command) + ["audit", wav, copy, "--without-ledger", "--json"], capture_output=True, text=True)
                if run.returncode != 0:
                    print(f"{title:40.40} {name:50} exit code {run.returncode}: {run.stderr.strip()}", flush=True)
                    total["edits"] += len(made)
                    continue
                said = json.loads(run.stdout)
                truth = np.zeros(y.shape, bool)
                for c, a, b in made:
                    truth[a:b, c] = True
                listed = np.zeros(y.shape, bool)
                for d in said["differences"]:
                    listed[d["from"]:d["to"], d["channel"]] = True
                hits = sum(listed[a:b, c].any() for c, a, b in made)
                accused = int((listed & ~truth).sum())
                gains = figure(said, "GAIN", "gainDb", [0])
                wrong = {
                    "accused %": 100 * accused / truth.size,
                    "gain dB": max(abs(v - gain) for v in gains),
                    "place": abs(figure(said, "PLACE", "samples", 0) - place),
                    "ppm": abs(1e6 * (figure(said, "SPEED", "factor", 1) / speed - 1)),
                }
                turned = any(f["kind"] == "POLARITY" for f in said["findings"]) == opposed
                for k, v in wrong.items():
                    worst[k] = max(worst[k], v)
                total["edits"] += len(made)
                total["found"] += hits
                total["accused"] += accused
                total["samples"] += truth.size
                others = sorted({f["kind"] for f in said["findings"]} - {"GAIN", "PLACE", "SPEED", "RATE", "POLARITY", "DEPTH", "LOCAL_CHANGES"})
                print(f"{title:40.40} {name:50} {hits:3d}/{len(made):3d} " + " ".join(f"{k} {v:.5f}" for k, v in wrong.items()) + ("" if turned else " POLARITY") + (" also " + " ".join(others) if others else ""), flush=True)
    print(f"found {total['found']} of {total['edits']}, accused {100 * total['accused'] / max(1, total['samples']):.3f} %, worst " + ", ".join(f"{k} {v:.5f}" for k, v in worst.items()))


if __name__ == "__main__":
    main()
