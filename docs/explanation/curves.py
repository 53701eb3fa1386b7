#!/usr/bin/env python3
"""Measures the digital playback curves against the analogue networks and prints the table of curves.md.

  curves.py

Takes the coefficients that `groovemend curve --json --rate HZ` exports and evaluates them with scipy; the analogue side is computed here
from the time constants alone. Needs python3-numpy, python3-scipy.
"""
import json, os, subprocess
import numpy as np
from scipy.signal import sosfilt, sosfreqz

HERE = os.path.dirname(os.path.abspath(__file__))
LAUNCHER = os.path.join(HERE, "..", "..", "restore-cli", "groovemend")


def exported(rate):
    done = subprocess.run([LAUNCHER, "curve", "--json", "--rate", str(rate)], capture_output=True, text=True, check=True)
    return json.loads(done.stdout)["curves"]


def analogue(c, f):
    s, us = 2j * np.pi * f, {k: (c[k + "Microseconds"] or 0) * 1e-6 for k in ("highPass", "shelf", "turnover", "treble")}
    h = np.ones_like(s)
    if us["turnover"]:
        h *= (1 + s * us["turnover"]) / ((1 + s * us["shelf"]) if us["shelf"] else s * us["turnover"])
    h /= 1 + s * us["treble"]
    if us["highPass"]:
        h *= s * us["highPass"] / (1 + s * us["highPass"])
    return h


def sos(sections):
    return np.array([[s["b0"], s["b1"], s["b2"], 1, s["a1"], s["a2"]] for s in sections])


def row(rate):
    f = np.geomspace(20, 20000, 4000)
    low, high, ended, degrees, lead, back = 0, 0, 0, 0, 0, 0
    x = np.random.default_rng(1).uniform(-1, 1, 4 * rate)
    for c in exported(rate):
        d = c["digital"]
        _, h = sosfreqz(sos(d["apply"]), f, fs=rate)
        _, one = sosfreqz(sos(d["apply"]), [1000.0], fs=rate)
        ratio = (h / one) / (analogue(c, f) / analogue(c, np.array([1000.0])))
        error = np.abs(20 * np.log10(np.abs(ratio)))
        endless = bool(c["highPassMicroseconds"]) or (bool(c["turnoverMicroseconds"]) and not c["shelfMicroseconds"])
        ended = max(ended, error[0] if endless else 0)
        low, high = max(low, error[f <= 18000].max()), max(high, error[f > 18000].max())
        phase = np.unwrap(np.angle(h / analogue(c, f)))
        phase -= 2 * np.pi * np.round(phase[500] / 2 / np.pi)
        slope = np.sum(phase[f > 200] * f[f > 200]) / np.sum(f[f > 200] ** 2)
        left = np.degrees(np.abs(phase - slope * f))
        degrees = max(degrees, left[f > 1000].max())
        lead = max(lead, slope * rate / 2 / np.pi)
        y = sosfilt(sos(d["undo"]), sosfilt(sos(d["apply"]), x))
        back = max(back, np.abs(y - x).max())
    return "| %d | %.3f | %.3f | %.3f | %.2f | %.1f | %.0f |" % (rate, low, high, ended, lead, degrees, 20 * np.log10(back))


print("| rate, Hz | 20 Hz to 18 kHz, dB | 18 to 20 kHz, dB | at 20 Hz where ended at 1 Hz, dB | ahead, samples | phase above 1 kHz, degrees | there and back, dBFS |")
print("|---|---|---|---|---|---|---|")
for rate in (44100, 48000, 88200, 96000, 176400, 192000):
    print(row(rate), flush=True)
