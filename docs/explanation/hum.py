"""Hum added to noise, to pedal notes and to nothing, taken out, and what is left of it.

Needs numpy, scipy and soundfile:  python3 docs/explanation/hum.py --groovemend restore-cli/groovemend --work DIR
"""
import argparse
import os
import subprocess

import numpy as np
import soundfile as sf
from scipy.signal import welch


def hum(n, rate, hertz=50.0, lines=6, beat=0.2, drift=0.0, wow=0.0, seed=1, level=-45.0):
    """Multiples of one frequency, each beating slowly; wow once a turn at 33 1/3 rpm."""
    r = np.random.default_rng(seed)
    t = np.arange(n) / rate
    f = hertz * (1 + drift * (t / t[-1] - 0.5) + wow * np.sin(2 * np.pi * t / 1.8 + 1))
    phase = 2 * np.pi * np.cumsum(f) / rate
    y = np.zeros(n)
    for k in range(1, lines + 1):
        a = 10 ** ((level - (0 if k == 1 else 3 * k if k % 2 else 4 + 3 * k)) / 20)
        swing = 1 + beat * np.sin(2 * np.pi * (0.07 + 0.013 * k) * t + r.uniform(0, 6))
        y += a * swing * np.cos(k * phase + r.uniform(0, 6))
    return y


def pedals(n, rate, pitches, seed):
    r = np.random.default_rng(seed)
    t = np.arange(n) / rate
    y = np.zeros(n)
    at = 3.0
    while at < n / rate - 1:
        length, f = r.uniform(0.5, 3), r.choice(pitches)
        edge = np.clip((t - at) / 0.05, 0, 1) * np.clip((at + length - t) / 0.1, 0, 1)
        for k in range(1, 5):
            y += 0.1 / k * edge * np.sin(2 * np.pi * f * k * t + r.uniform(0, 6))
        at += length * r.uniform(0.9, 1.4)
    return y


def restore(args, name, x, rate):
    path = os.path.join(args.work, name + ".wav")
    sf.write(path, x, rate, subtype="PCM_24")
    subprocess.run([args.groovemend, "restore", path, "--out", args.work, "--replace", "--stages", "hum",
                    "--captured", "flat"], check=True, capture_output=True)
    return sf.read(path)[0], sf.read(os.path.join(args.work, name + ".restored.wav"))[0]


def floors(args):
    rate, n = 44_100, 44_100 * 20
    for name, kw in (("steady", dict(hertz=50, beat=0)), ("beating by 20 %", dict(hertz=60)),
                     ("drifting by 0.4 %", dict(hertz=49.3, beat=0, drift=0.004)),
                     ("wow of 0.1 %", dict(hertz=60.3, beat=0, wow=0.001))):
        at, beside = [], []
        for seed in range(4):
            noise = 0.003 * np.random.default_rng(100 + seed).standard_normal((n, 2))
            level = 10 * np.log10(2 * 100 * 2 * 0.003**2 / rate)  # 20 dB over the noise in 1 Hz
            h = hum(n, rate, lines=1, level=level, seed=seed, **kw)
            _, y = restore(args, "floor", noise + h[:, None], rate)
            for c in range(2):
                f, before = welch(noise[:, c], rate, nperseg=2 * rate)
                _, after = welch(y[:, c], rate, nperseg=2 * rate)

                def db(low, high):
                    band = (f >= kw["hertz"] + low) & (f <= kw["hertz"] + high)
                    return 10 * np.log10(after[band].mean() / before[band].mean())

                at.append(db(-1, 1))
                beside += [db(-4, -2), db(2, 4)]
        print(f"{name}: at the line {np.mean(at):+.1f} dB (worst {at[np.argmax(np.abs(at))]:+.1f}),"
              f" beside it at most {np.max(np.abs(beside)):.2f} dB")


def under_pedals(args):
    pitches = [49, 50, 51.9, 55, 58.3, 61.7, 65.4, 98, 100, 110]
    for rate, hertz, beat, seed in ((48_000, 50, 0.2, 1), (48_000, 50, 0.2, 2), (48_000, 50, 0.2, 3),
                                    (44_100, 60.3, 0.2, 4), (44_100, 60.3, 0, 6)):
        n = 30 * rate
        music = pedals(n, rate, pitches, seed)[:, None] * np.array([[1, 0.9]])
        music += 10 ** (-65 / 20) * np.random.default_rng(seed + 50).standard_normal((n, 2))
        h = hum(n, rate, hertz, beat=beat, seed=seed)[:, None] * np.array([[1, 0.8]])
        _, y = restore(args, "pedals", music + h, rate)
        x, z = restore(args, "without", music, rate)
        left = 10 * np.log10(np.sum((y - music) ** 2) / np.sum(h**2))
        print(f"pedals over {hertz} Hz, seed {seed}: {left:.1f} dB of the hum left;"
              f" without hum {np.count_nonzero(x != z)} samples changed")


def struck_anew(args):
    rate, n, r = 44_100, 44_100 * 20, np.random.default_rng(5)
    t = np.arange(n) / rate
    for breaks in (1, 2, 4):
        taken = 0
        for seed in range(8):
            env = np.ones(n)
            for b in range(breaks):
                end = 20 * (b + 1) / (breaks + 1) + r.uniform(-0.5, 0.5)
                gap = 1 - np.clip((end - t) / 0.1, 0, 1) - np.clip((t - end - 0.3) / 0.05, 0, 1)
                env *= 1 - np.clip(gap, 0, 1)
            pitch = r.uniform(49, 52)
            y = env * sum(0.2 / k * np.sin(2 * np.pi * pitch * k * t) for k in range(1, 5))
            x, z = restore(args, "struck", (y + 1e-4 * r.standard_normal(n))[:, None], rate)
            taken += np.any(x != z)
        print(f"a pedal struck anew {breaks} times, gaps of 0.3 s: taken for hum {taken} times of 8")


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--groovemend", required=True)
    parser.add_argument("--work", required=True)
    arguments = parser.parse_args()
    os.makedirs(arguments.work, exist_ok=True)
    floors(arguments)
    under_pedals(arguments)
    struck_anew(arguments)
