"""Figures of docs/explanation/plays.md: plays of a disc that is known by formula.

The sound of the disc is a formula of the moment of the groove, so a play with any wow is exact and no
resampler is asked. Runs the program given as argument and compares with what is known.

    python3 docs/explanation/plays.py restore-cli/groovemend FOLDER [SEED]
"""

import json
import subprocess
import sys
from pathlib import Path

import numpy as np
import soundfile
from scipy import optimize, signal

RATE = 44100
SECONDS = 40.0
NOISE = 0.003


def needle(ratio, offset, depth, phase, turn=1.3):
    """Moment of the groove as a function of the moment of the play."""
    def at(t):
        w = 2 * np.pi * turn
        return (offset + ratio * t + depth / w * np.sin(w * t + phase)
                + 0.2 * depth / (3 * w) * np.sin(3 * w * t))
    return at


def music(groove, seed, first=1.0, last=SECONDS - 1.5):
    rng = np.random.default_rng(seed)
    out = np.zeros((len(groove), 2))
    for voice in range(4):
        at = first + 0.3 * rng.random()
        while at < last - 0.5:
            length = 0.2 + 0.6 * rng.random()
            hertz = 98 * 2 ** ((rng.choice([0, 2, 4, 5, 7, 9, 11, 12]) + 12 * voice) / 12)
            level, balance = 0.08 * (0.4 + rng.random()), rng.random()
            end = min(at + 1.5, last)
            a, b = np.searchsorted(groove, [at, end])
            t = groove[a:b] - at
            fade = np.minimum(1, t / 0.002) * np.minimum(1, (end - at - t) / 0.05)
            tone = np.zeros(len(t))
            for k in range(1, int(min(24, 15000 / hertz)) + 1):
                tone += np.exp(-(2 + 0.35 * k) * t) / k * np.sin(2 * np.pi * hertz * k * t)
            tone *= level * fade
            out[a:b, 0] += (0.6 + 0.4 * balance) * tone
            out[a:b, 1] += (1 - 0.4 * balance) * tone
            at += length
    return out


SWEEP = (3.0, 33.0, 40.0, 20000.0)  # begin, end (groove seconds), lowest, highest Hz


def sweep(groove, level=0.02):
    a, b, low, high = SWEEP
    t = np.clip(groove - a, 0, b - a)
    rate = np.log(high / low) / (b - a)
    phase = 2 * np.pi * low * (np.exp(rate * t) - 1) / rate
    window = np.clip((groove - a) / 0.01, 0, 1) * np.clip((b - groove) / 0.01, 0, 1)
    return level * window * np.exp(1j * phase), low * np.exp(rate * t)


def noise(rng, n):
    white = rng.standard_normal((n, 2))
    low = signal.lfilter([np.sqrt(1 - 0.81)], [1, -0.9], rng.standard_normal((n, 2)), axis=0)
    return NOISE * np.sqrt(0.5) * (white + low)


def clicks(rng, count):
    at = 2 + (SECONDS - 6) * (np.arange(count) + 0.8 * rng.random(count)) / count
    height = 0.02 * 20 ** rng.random(count) * rng.choice([-1, 1], count)
    return np.column_stack([at, height, (30 + 120 * rng.random(count)) * 1e-6])


def add(x, groove, pulses):
    for at, height, width in pulses:
        a, b = np.searchsorted(groove, [at - 8 * width, at + 8 * width])
        u = (groove[a:b] - at) / width
        x[a:b] += (height * 1.6487 * -u * np.exp(-u * u / 2))[:, None]


def run(*args):
    done = subprocess.run([str(a) for a in args], capture_output=True, text=True)
    if done.returncode:
        sys.exit(done.stderr)
    return done.stdout


def delay_at(record, t):
    """The map of the record, evaluated by the formula of docs/reference/merge-record.md."""
    a = record["plays"][1]["alignment"]
    c, knot = np.array(a["delay"]["coefficients"]), a["delay"]["knotSeconds"]
    x = np.clip((t - a["delay"]["fromSeconds"]) / knot, 0, len(c) - 4)
    i = np.minimum(x.astype(int), len(c) - 4)
    u = x - i
    value = (c[i] * (1 - u) ** 3 + c[i + 1] * (3 * u**3 - 6 * u**2 + 4)
             + c[i + 2] * (3 * (1 - u) ** 3 - 6 * (1 - u) ** 2 + 4) + c[i + 3] * u**3) / 6
    return a["offsetSeconds"] + a["ratio"] * (t + value)


def main():
    program, folder = Path(sys.argv[1]), Path(sys.argv[2])
    folder.mkdir(parents=True, exist_ok=True)
    seed = int(sys.argv[3]) if len(sys.argv) > 3 else 7
    rng = np.random.default_rng(seed)
    n = int(RATE * SECONDS)
    t = np.arange(n) / RATE
    a, b = needle(1, 0, 0.0015, 0.3), needle(1.003, -1.2, 0.002, 2.0)
    ga, gb = a(t), b(t)
    clean = music(ga, seed + 96) + sweep(ga)[0].real[:, None]
    other = music(gb, seed + 96) + sweep(gb)[0].real[:, None]
    ca, cb, both = clicks(rng, 150), clicks(rng, 150), clicks(rng, 20)
    na, nb = noise(rng, n), noise(rng, n)
    xa, xb = clean + na, other + nb
    for x, g, own in ((xa, ga, ca), (xb, gb, cb)):
        add(x, g, own)
        add(x, g, both)
    soundfile.write(folder / "a.wav", xa, RATE, subtype="PCM_24")
    soundfile.write(folder / "b.wav", 0.8 * xb, RATE, subtype="PCM_24")
    run(program, "merge", folder / "a.wav", folder / "b.wav", "--out", folder / "ab.wav", "--replace",
        "--quiet")
    merged, _ = soundfile.read(folder / "ab.wav")
    record = json.loads((folder / "ab.merge.json").read_text())

    inside = (t > 2) & (t < 36)
    dirty = np.zeros(n, bool)
    for at, _, width in np.vstack([ca, cb, both]):
        i, j = np.searchsorted(ga, [at - 10 * width, at + 10 * width])
        dirty[i:j] = True
    rest = inside & ~dirty
    level = lambda e: 10 * np.log10(np.mean(e[rest] ** 2))
    # the other play's noise at the reference's frames is as strong as its own
    print(f"noise: reference {level(xa - clean):.2f} dB, other {10 * np.log10(np.mean(nb**2)):.2f} dB, "
          f"merged {level(merged - clean):.2f} dB; gain {level(xa - clean) - level(merged - clean):.2f} dB"
          " (independent noise of equal strength: 3.01 dB)")

    truth = np.array([optimize.brentq(lambda s, g=g: b(s) - g, -10, 60, xtol=1e-13)
                      for g in a(t[inside][::441])])
    error = RATE * (delay_at(record, t[inside][::441]) - truth)
    print(f"alignment: rms {np.sqrt(np.mean(error**2)):.4f}, 95 % within {np.quantile(abs(error), 0.95):.4f},"
          f" largest {abs(error).max():.4f} samples")
    worst = t[inside][::441][np.argsort(-abs(error))[:5]]
    loud = np.sqrt(np.mean(clean[inside] ** 2))
    for at in np.sort(worst):
        near = clean[abs(t - at) < 0.035]
        print(f"  off by most at {at:.2f} s, where the sound is {20 * np.log10(np.sqrt(np.mean(near ** 2)) / loud):+.1f} dB"
              f" re its mean")

    good = count = wrong = sure = part = lost = 0
    for play, own in ((0, ca), (1, cb)):
        for at, height, width in own:
            i, j = np.searchsorted(ga, [at - 8 * width, at + 8 * width])
            u = (ga[i:j] - at) / width
            pulse = abs(height * 1.6487 * u * np.exp(-u * u / 2))
            core = np.flatnonzero(pulse > 0.5 * abs(height)) + i
            for c in range(2):
                count += 1
                hits = [p for p in record["places"] if p["channel"] == c and p["kind"] != "everywhere"
                        and p["start"] <= core[0] and p["end"] > core[-1]]
                if any(p["damaged"] == [play] for p in hits):
                    good += 1
                elif hits:
                    wrong += 1
                    sure += all(p["sure"] for p in hits)
                elif any(p["channel"] == c and p["start"] <= core[-1] and p["end"] > core[0]
                         for p in record["places"]):
                    part += 1
                else:
                    lost += 1
    print(f"one-sided clicks: {good} of {count} replaced ({100 * good / count:.1f} %), "
          f"{wrong} taken from the wrong play ({sure} of them called sure), {part} met in part or called"
          f" damage of both, {lost} not met")
    kinds = [p["kind"] for p in record["places"]]
    print("places by kind:", {k: kinds.count(k) for k in sorted(set(kinds))})

    # response: the sweep's share of what differs from the clean sound
    tone, hertz = sweep(ga)
    e = merged - clean
    e[dirty] = 0
    worst = []
    for low in 20000 * 2 ** (-np.arange(1, 54) / 6):
        band = (hertz >= low) & (hertz < low * 2 ** (1 / 6)) & (abs(tone) > 0.019) & ~dirty
        if band.sum() < 1000:
            continue
        share = np.array([2 * np.sum(e[band, c] * tone[band].conj()) / np.sum(abs(tone[band]) ** 2)
                          for c in range(2)])
        worst.append((max(abs(20 * np.log10(abs(1 + share)))), low))
    print(f"response to a sweep, {worst[-1][1]:.0f} Hz to 20000 Hz: within {max(worst)[0]:.3f} dB"
          f" (worst at {max(worst)[1]:.0f} Hz)")
    # what an alignment wrong by that much would have cost
    for off in (0.5, 1.0):
        print(f"  for comparison, half of each with {off} sample between them: "
              f"{20 * np.log10(abs(np.cos(np.pi * 20000 * off / RATE))):.2f} dB at 20 kHz")


if __name__ == "__main__":
    main()
