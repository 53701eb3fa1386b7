#!/usr/bin/env python3
"""Fits the curves of evidence.csv (package click): how much each measured trait of a candidate speaks for damage.

  click_evidence.py --music DIR --cases DIR [--pulsed DIR] --dump "java -cp ... org.groovemend.click.CandidateDump" [--out evidence.csv]

--music  undamaged WAV files of many kinds; every candidate in them is music.
--pulsed undamaged WAV files of sharp and pulsed sound, for the tables pulsed-stereo and pulsed-mono, which are fitted with them as well.
--cases  folders MUSICNAME-SCENARIO with damaged.wav and truth.json (rate, events: start, end, channel), made from the same files.
--dump   the bench tool of restore-core's tests: FILE OUT CURVE writes "start length channel logOdds trait..." a line.

Logistic regression on piecewise linear curves of each trait (seven knots at quantiles, constant beyond them), ridge 1e-5; damage and
music weigh the same, each file with the root of its count. One table for two channels, one without the traits that need two.
With --folds the sources are left out in turn and the false alarms and recall of the sources left out are printed.
Needs python3-numpy, python3-scipy, python3-soundfile.
"""
import argparse, glob, json, os, subprocess, tempfile
import numpy as np
import soundfile as sf
from scipy.optimize import minimize

TRAITS = """EXPLAINED REMAINDER SHARE DURATION LEVEL LOCAL_LEVEL BEFORE AFTER RISE BEFORE_ON_AFTER AFTER_ON_BEFORE RESIDUAL_RISE
POWER_RISE CONFIRMED_AFTER REMAINDER_AFTER CONFIRMED_BEFORE REMAINDER_BEFORE FOUND_INSIDE REMAINDER_INSIDE ONE_SIDED PEAK_PLACE
FIRST_HALF SHARP_START ROUGHNESS NEIGHBOURS STRONGEST_NEIGHBOUR PREDICTABLE LATERAL COHERENCE BALANCE OTHER_CHANNEL""".split()
ALONE = TRAITS.index("LATERAL")
KNOTS, RIDGE, MOST = 7, 1e-5, 2000


def candidates(dump, wav, curve):
    with tempfile.NamedTemporaryFile() as out:
        subprocess.run(dump.split() + [wav, out.name, curve], check=True)
        return np.loadtxt(out.name, ndmin=2) if os.path.getsize(out.name) else np.zeros((0, 4 + len(TRAITS)))


def labels(rows, truth):
    """1 damage, 0 music, -1 neither surely (the tail of a click)."""
    label = np.zeros(len(rows), int)
    if not len(rows):
        return label
    start, end, channel = rows[:, 0], rows[:, 0] + rows[:, 1], rows[:, 2]
    for e in truth["events"]:
        same = channel == e["channel"]
        near = same & (start < e["end"] + 30) & (end > e["start"] - 30)
        label[near & (label == 0)] = -1
        body = e["start"] + int(0.0015 * truth["rate"])
        label[same & (start < min(e["end"], body)) & (end > e["start"] - 8)] = 1
    return label


def undamaged(dump, folder):
    sides = []
    for wav in sorted(glob.glob(os.path.join(folder, "*.wav"))):
        info = sf.info(wav)
        for curve in ("RIAA", "FLAT"):
            rows = candidates(dump, wav, curve)
            sides.append(dict(source=os.path.basename(wav)[:-4], stereo=info.channels == 2, clean=True,
                              minutes=info.duration / 60, rows=rows, label=np.zeros(len(rows), int), events=[]))
    return sides


def gather(a):
    sides = undamaged(a.dump, a.music)
    for case in sorted(glob.glob(os.path.join(a.cases, "*"))):
        truth = json.load(open(os.path.join(case, "truth.json")))
        wav = os.path.join(case, "damaged.wav")
        rows = candidates(a.dump, wav, "FLAT" if truth["scenario"] == "worn78" else "RIAA")
        sides.append(dict(source=os.path.basename(case).rsplit("-", 1)[0], stereo=truth["channels"] == 2, clean=False,
                          minutes=sf.info(wav).duration / 60, rows=rows, label=labels(rows, truth), events=truth["events"]))
    return sides


def basis(x, knots):
    columns = [np.ones(len(x))]
    for j, q in enumerate(knots):
        v, span = np.clip(x[:, j], q[0], q[-1]), max(q[-1] - q[0], 1e-9)
        columns.append((v - q[0]) / span)
        columns += [np.maximum(0, v - k) / span for k in q[1:-1]]
    return np.stack(columns, 1)


def fit(sides, traits):
    chance, xs, ys, ws = np.random.default_rng(1), [], [], []
    for side in sides:
        for kind in (0, 1):
            i = np.nonzero(side["label"] == kind)[0]
            if len(i):
                some = chance.choice(i, MOST, replace=False) if len(i) > MOST else i
                xs.append(side["rows"][some][:, 4:4 + traits])
                ys.append(np.full(len(some), float(kind)))
                ws.append(np.full(len(some), np.sqrt(len(i)) / len(some)))
    x, y, w = np.concatenate(xs), np.concatenate(ys), np.concatenate(ws)
    for kind in (0, 1):
        w[y == kind] /= 2 * w[y == kind].sum()
    at = np.r_[0.005, np.linspace(0.08, 0.92, KNOTS - 2), 0.995]
    knots = [np.unique(np.quantile(x[:, j], at)) for j in range(traits)]
    b = basis(x, knots)

    def loss(t):
        z, reg = b @ t, np.r_[0, t[1:]]
        return (np.sum(w * (np.logaddexp(0, z) - y * z)) + 0.5 * RIDGE * np.sum(reg ** 2),
                b.T @ (w * (1 / (1 + np.exp(-z)) - y)) + RIDGE * reg)

    return knots, minimize(loss, np.zeros(b.shape[1]), jac=True, method="L-BFGS-B", options=dict(maxiter=200)).x


def curves(knots, t):
    at = 1
    for q in knots:
        c, span = t[at:at + len(q) - 1], max(q[-1] - q[0], 1e-9)
        at += len(q) - 1
        yield q, [c[0] * (v - q[0]) / span + sum(c[m] * max(0, v - q[m]) / span for m in range(1, len(q) - 1)) for v in q]


def held_out(sides, folds):
    names = sorted({s["source"] for s in sides})
    order = np.random.default_rng(0).permutation(len(names))
    fold = {n: order[i] % folds for i, n in enumerate(names)}
    for k in range(folds):
        for stereo, traits in ((True, len(TRAITS)), (False, ALONE)):
            knots, t = fit([s for s in sides if fold[s["source"]] != k and (s["stereo"] or not stereo)], traits)
            for s in sides:
                if fold[s["source"]] == k and s["stereo"] == stereo:
                    s["odds"] = basis(s["rows"][:, 4:4 + traits], knots) @ t if len(s["rows"]) else np.zeros(0)
    for threshold in np.arange(0, 5, 0.5):
        alarms = sum((s["odds"] > threshold).sum() for s in sides if s["clean"]) / sum(s["minutes"] for s in sides if s["clean"])
        found = [(s["odds"][s["label"] == 1] > threshold).mean() for s in sides if (s["label"] == 1).any()]
        print("threshold %.1f: %.2f candidates a minute of music, %.3f of the damage's candidates" % (threshold, alarms, np.mean(found)))


def main():
    p = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    p.add_argument("--music", required=True)
    p.add_argument("--cases", required=True)
    p.add_argument("--pulsed")
    p.add_argument("--dump", required=True)
    p.add_argument("--out", default="evidence.csv")
    p.add_argument("--folds", type=int, default=0)
    a = p.parse_args()
    sides = gather(a)
    if a.folds:
        held_out(sides, a.folds)
    with open(a.out, "w") as out:
        out.write("model,trait,at,weight\n")
        wider = sides + (undamaged(a.dump, a.pulsed) if a.pulsed else [])
        tables = [("", sides)] + ([("pulsed-", wider)] if a.pulsed else [])
        for prefix, kind, some in [(p, k, [s for s in t if k == "mono" or s["stereo"]]) for p, t in tables for k in ("stereo", "mono")]:
            model, traits = prefix + kind, len(TRAITS) if kind == "stereo" else ALONE
            knots, t = fit(some, traits)
            out.write("%s,bias,0,%.4f\n" % (model, t[0]))
            for name, (q, v) in zip(TRAITS, curves(knots, t)):
                for x, y in zip(q, v):
                    out.write("%s,%s,%.6g,%.4f\n" % (model, name, x, y))


main()
