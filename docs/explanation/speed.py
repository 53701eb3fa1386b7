"""Right speed and resampling, measured by other means than the program's own.

Music is worked out at the moment the needle is at, so the wow of an invented disc is exact; a pilot tone above
what the estimator listens to tells what is left of it in the copy. Rates are compared with sine sweeps, with
SoX and with FFmpeg's soxr, and with scipy.

Needs numpy, scipy, soundfile and matplotlib, sox, ffmpeg:
  python3 docs/explanation/speed.py --groovemend restore-cli/groovemend --work DIR [--png docs/images/resampling.png]
"""
import argparse
import json
import os
import subprocess

import numpy as np
import soundfile as sf
from scipy.signal import hilbert, resample

PILOT = 7000.0


def run(args, *words, ok=True):
    done = subprocess.run([args.groovemend, *map(str, words)], capture_output=True, text=True)
    if ok and done.returncode:
        raise SystemExit(done.stderr)
    return done


def music(tau, seconds, seed, detune=4.0, short=0.25, long=1.2, glide=0.0, every=False):
    """Four voices in a major key; tau: where the music is at each sample, seconds."""
    r = np.random.default_rng(seed)
    key, scale, y = r.integers(12), (0, 2, 4, 5, 7, 9, 11), np.zeros(len(tau))
    v = 20 if every else 0
    for low, high, level, vib, partials in ((36, 52, .25, 0, 6), (52, 64, .15, v, 5), (58, 70, .15, v, 5), (67, 84, .2, 35, 4)):
        at, notes = 0.0, [m for m in range(low, high) if (m - key) % 12 in scale]
        while at < seconds:
            length = r.uniform(short, long)
            f = 440 * 2 ** ((r.choice(notes) - 69) / 12 + detune * r.standard_normal() / 1200)
            g, loud = glide * r.standard_normal() / 1200 * np.log(2), level * r.uniform(.5, 1.5)
            a, b = np.searchsorted(tau, (at, at + length))
            t = tau[a:b] - at
            env = np.minimum(1, t / .02) * np.minimum(1, (length - t) / .03) * np.exp(-t / (1.5 * length))
            w = 2 * np.pi * 5.6
            phase = 2 * np.pi * f * (t + vib / 1200 * np.log(2) / w * (1 - np.cos(w * t)) + g * t * t / 2)
            for k in range(1, partials + 1):
                y[a:b] += loud / k * env * np.sin(k * phase)
            at += length
    return y


def disc(path, rate, seconds, rpm, mm, outer, inner, factor=1.0, noise=.003, seed=1, **kw):
    """A side with an off-centre hole, played too fast by factor, and the pilot tone on it."""
    fine = np.arange(int(seconds * rate) * 4 + 1) / rate / 4
    w = mm / (outer - (outer - inner) * fine / seconds) * np.sin(2 * np.pi * fine * rpm / 60 + seed)
    tau = factor * np.concatenate(([0], np.cumsum((1 + (w[1:] + w[:-1]) / 2) / rate / 4)))[::4][:-1]
    x = music(tau, seconds * factor, seed, **kw)
    x += 0.003 * np.sin(2 * np.pi * PILOT * tau) + noise * .3 * np.random.default_rng(seed).standard_normal(len(tau))
    sf.write(path, .6 * x / np.abs(x).max(), rate, subtype="PCM_24")


def sway(path, rpm, speed=1.0):
    """Peak-to-peak share by which the pilot sways once a turn, in thirds of the side: the worst."""
    x, rate = sf.read(path)
    spectrum = np.fft.rfft(x)
    f = np.fft.rfftfreq(len(x), 1 / rate)
    spectrum[np.abs(f - PILOT * speed) > 120] = 0
    phase = np.unwrap(np.angle(hilbert(np.fft.irfft(spectrum, len(x)))))
    t = np.arange(len(x)) / rate
    worst = 0
    for part in range(3):
        a, b = (int(len(x) * q) for q in ((.02, .34, .66)[part], (.34, .66, .98)[part]))
        ts, p = t[a:b:200], phase[a:b:200]
        best = 0
        for r in np.linspace(.97, 1.03, 61) * rpm / 60:
            m = np.stack([np.ones_like(ts), ts, ts**2, np.cos(2*np.pi*r*ts), np.sin(2*np.pi*r*ts)], 1)
            c = np.linalg.lstsq(m, p, rcond=None)[0]
            best = max(best, 2 * np.hypot(c[3], c[4]) * 2 * np.pi * r / (2 * np.pi * PILOT * speed))
        worst = max(worst, best)
    return worst


def wows(args):
    for name, kw in (("steady, vibrato on one voice", {}),
                     ("unsteady, vibrato on three", dict(detune=8, short=.15, long=.8, glide=4.0, every=True, noise=.03))):
        levels = (.1, .2, .3, .4, .5) if not kw else (.1, .3, .5)
        for rpm, seconds, outer, inner in ((78.26, 120, 118, 55), (33.333, 180, 146, 80)):
            left, before, seen = [], [], 0
            for seed, percent in enumerate(levels, 1):
                path, out = os.path.join(args.work, "disc.wav"), os.path.join(args.work, "right.wav")
                disc(path, 24000, seconds, rpm, percent / 100 * (outer + inner) / 2, outer, inner, seed=seed, **kw)
                heard = json.loads(run(args, "speed", path, "--played", rpm, "--take-out-wow", "--factor", 1,
                                       "--rate", 24001, "--out", out, "--replace", "--json").stdout)["heard"]
                seen += heard["wow"]["found"]
                before.append(100 * sway(path, rpm))
                left.append(100 * sway(out, rpm))
            print(f"wow, {name}, {rpm} rpm: found {seen} of {len(levels)}; % p-p before", np.round(before, 3), "left", np.round(left, 4),
                  flush=True)


def factors(args):
    inside, cents = 0, []
    cases = 20
    for seed in range(cases):
        factor = 1 + .025 * np.random.default_rng(900 + seed).uniform(-1, 1)
        path = os.path.join(args.work, "disc.wav")
        disc(path, 24000, 20, 78.26, .05, 118, 110, factor, seed=50 + seed, glide=3.0)
        done = run(args, "speed", path, "--json", ok=False)
        e = [x for x in json.loads(done.stdout)["heard"]["evidence"] if x["kind"] == "TUNING"][0]
        inside += e["low"] <= 1 / factor <= e["high"]
        cents.append((1200 * np.log2(e["factor"] * factor), 1200 * np.log2(e["high"] / e["factor"])))
    cents = np.array(cents)
    print(f"factor from tuning: {inside} of {cases} inside their interval; error rms {np.sqrt(np.mean(cents[:, 0]**2)):.2f} cents,"
          f" interval +-{cents[:, 1].mean():.1f} cents on the mean", flush=True)


def tone(hertz, rate, seconds=1.0):
    return .5 * np.sin(2 * np.pi * hertz * np.arange(int(rate * seconds)) / rate)


def sweep(args, rate, to):
    """Gain of tones, and power of all else, dB re the tone; one file with a second of every tone."""
    freqs = np.concatenate((np.linspace(.02, .45, 30) * min(rate, to), np.linspace(.4535, .499, 10) * min(rate, to), np.linspace(.502 * to, .49 * rate, 20) if rate > to else []))
    path, out = os.path.join(args.work, "tones.wav"), os.path.join(args.work, "tones.out.wav")
    freqs = np.round(freqs)
    sf.write(path, np.concatenate([tone(f, rate) for f in freqs]), rate, subtype="DOUBLE")
    run(args, "speed", path, "--rate", to, "--out", out, "--replace")
    y = sf.read(out)[0]
    gain, rest = [], []
    for i, f in enumerate(freqs):
        p = y[i * to + to // 4:(i + 1) * to - to // 4]
        n = np.arange(len(p)) / to
        m = np.stack([np.cos(2 * np.pi * f * n), np.sin(2 * np.pi * f * n)], 1)
        c = np.linalg.lstsq(m, p, rcond=None)[0] if f < to / 2 else np.zeros(2)
        gain.append(20 * np.log10(np.hypot(*c) / .5) if f < to / 2 else np.nan)
        rest.append(20 * np.log10(max(1e-12, np.sqrt(2 * np.mean((p - m @ c) ** 2)) / .5)))
    return freqs, np.array(gain), np.array(rest)


def pictures(args):
    import matplotlib
    matplotlib.use("Agg")
    import matplotlib.pyplot as plt
    fig, axes = plt.subplots(2, 1, figsize=(9, 7.5), sharex=True)
    for (rate, to), colour, mark in (((96000, 44100), "#0072B2", "o"), ((96000, 48000), "#D55E00", "s"), ((44100, 48000), "#222222", "^")):
        f, gain, rest = sweep(args, rate, to)
        kept = f <= .4535 * min(rate, to)
        print(f"{rate} to {to}: gain within {np.max(np.abs(gain[kept])):.6f} dB to {.4535 * min(rate, to):.0f} Hz; all else below "
              f"{rest[f < to / 2].max():.1f} dB; what would fold below {max(rest[f > to / 2], default=np.nan):.1f} dB", flush=True)
        name = f"{rate / 1000:g} to {to / 1000:g} kHz"
        axes[0].plot(f / 1000, gain, marker=mark, color=colour, label=name, markersize=4)
        axes[1].plot(f / 1000, rest, marker=mark, color=colour, label=name, markersize=4)
    axes[0].set_ylim(-3, .5)
    axes[0].set_ylabel("gain of the tone, dB")
    axes[1].set_ylim(-200, -100)
    axes[1].axhline(-140, color="#888888", linestyle="--")
    axes[1].text(33, -138, "aim: -140 dB", color="#555555")
    axes[1].set_ylabel("all that is not the tone, dB re the tone")
    axes[1].set_xlabel("frequency of the tone that goes in, kHz (above half the new rate: what would fold)")
    for a in axes:
        a.grid(color="#dddddd")
    axes[0].legend(loc="lower right")
    fig.tight_layout()
    fig.savefig(args.png, dpi=100)


def others(args):
    """Against independent converters: noise limited to 18 kHz, 32-bit float out of all."""
    rate, n = 96000, 96000 * 4
    r = np.random.default_rng(3)
    s = np.fft.rfft(r.standard_normal(n))
    s[np.fft.rfftfreq(n, 1 / rate) > 18000] = 0
    x = np.fft.irfft(s, n)
    x *= .3 / np.abs(x).max()
    path = os.path.join(args.work, "noise.wav")
    sf.write(path, x, rate, subtype="FLOAT")
    x = sf.read(path)[0]
    for to in (48000, 44100):
        ours = os.path.join(args.work, "ours.wav")
        run(args, "speed", path, "--rate", to, "--out", ours, "--replace")
        y = sf.read(ours)[0]
        soxed, soxred = os.path.join(args.work, "sox.wav"), os.path.join(args.work, "soxr.wav")
        subprocess.run(["sox", "-D", path, "-b", "32", "-e", "float", soxed, "rate", "-v", str(to)], check=True)
        subprocess.run(["ffmpeg", "-v", "error", "-y", "-i", path, "-af", f"aresample={to}:resampler=soxr:precision=33",
                        "-c:a", "pcm_f32le", soxred], check=True)
        ideal = resample(x, n * to // rate)
        for name, z in (("sox rate -v", sf.read(soxed)[0]), ("ffmpeg soxr, precision 33", sf.read(soxred)[0]), ("scipy.signal.resample", ideal)):
            m = min(len(y), len(z))
            a, b = y[2000:m - 2000], z[2000:m - 2000]
            print(f"96000 to {to} against {name}: difference {20 * np.log10(np.std(a - b) / np.std(b)):.1f} dB", flush=True)


def main():
    p = argparse.ArgumentParser()
    p.add_argument("--groovemend", required=True)
    p.add_argument("--work", required=True)
    p.add_argument("--png")
    p.add_argument("--only", choices=("resampling", "others", "factors", "wow"))
    args = p.parse_args()
    os.makedirs(args.work, exist_ok=True)
    args.png = args.png or os.path.join(args.work, "resampling.png")
    for name, part in (("resampling", pictures), ("others", others), ("factors", factors), ("wow", wows)):
        if args.only in (None, name):
            part(args)


if __name__ == "__main__":
    main()
