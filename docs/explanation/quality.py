#!/usr/bin/env python3
"""Measures groovemend on simulated damage and prints the table of quality.md.

  quality.py --bench DIR [--cases DIR] [--seconds 10] [--rates 48000,96000] [--pieces ...] [--seeds 1,2,3]
             [--scenarios clicks,clean,noise,...] [--captured riaa] [--oracle] [--extra "--noise-db 20"]

DIR holds a damage simulator with the commands `tune.py` and `groovebench.py` (make, textbook, oracle, score). Figures of
`textbook` (plain published methods) and `oracle` (the same told the truth) are kept in the case folders, which can be used again.
Needs python3-numpy, python3-scipy, python3-soundfile.
"""
import argparse, json, os, statistics, subprocess, sys

HERE = os.path.dirname(os.path.abspath(__file__))
LAUNCHER = os.path.join(HERE, "..", "..", "restore-cli", "groovemend")
PIECES = "dance,brass,piano,strings,quiet,voice,drums"
FLAT = ("worn78",)
WITH_NOISE = ("noise", "worn78", "wornlp")


def run(*args):
    done = subprocess.run(args, capture_output=True, text=True)
    if done.returncode:
        sys.exit("%s\nfailed: %s%s" % (" ".join(args), done.stdout, done.stderr))
    return done.stdout


def kept(path, make):
    if not os.path.exists(path):
        text = make()
        with open(path + ".part", "w") as f:
            f.write(text)
        os.rename(path + ".part", path)
    return json.loads(open(path).read().strip().splitlines()[-1])


def case(a, piece, rate, seed, scenario):
    py, bench = sys.executable, os.path.join(a.bench, "groovebench.py")
    clean = os.path.join(a.cases, "%s-%d-%d-%g.wav" % (piece, rate, seed, a.seconds))
    if not os.path.exists(clean):
        run(py, os.path.join(a.bench, "tune.py"), clean, "--piece", piece, "--seconds", str(a.seconds),
            "--rate", str(rate), "--seed", str(seed))
    folder = clean[:-4] + "-" + scenario + (("-snr%g" % a.snr) if scenario in WITH_NOISE else "")
    if not os.path.exists(os.path.join(folder, "truth.json")):
        run(py, bench, "make", clean, folder, "--scenario", scenario, "--seed", str(seed), "--snr", str(a.snr))
    rows = {}
    if not a.no_textbook:
        rows["textbook"] = kept(os.path.join(folder, "textbook.json"), lambda: run(py, bench, "textbook", folder))
    if a.oracle and scenario != "clean":
        rows["oracle"] = kept(os.path.join(folder, "oracle.json"), lambda: run(py, bench, "oracle", folder))
    out = os.path.join(folder, "out")
    captured = a.captured or ("flat" if scenario in FLAT else "riaa")
    stages = a.stages or ("clicks,noise" if scenario in ("worn78", "wornlp") else
                          "noise" if scenario == "noise" else "clicks")
    run(LAUNCHER, "restore", os.path.join(folder, "damaged.wav"), "--out", out, "--replace", "--stages", stages,
        "--captured", captured, *a.extra.split())
    edits = os.path.join(out, "edits.csv")
    with open(edits, "w") as f:
        f.write(run(LAUNCHER, "edits", os.path.join(out, "damaged.ledger.jsonl"), "--csv"))
    score = [py, bench, "score", folder, os.path.join(out, "damaged.restored.wav")]
    rows["groovemend"] = json.loads(run(*score, *([edits] if "clicks" in stages else [])))
    return rows


def main():
    p = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    p.add_argument("--bench", required=True)
    p.add_argument("--cases", default="quality-cases")
    p.add_argument("--seconds", type=float, default=10)
    p.add_argument("--rates", default="44100,48000,96000")
    p.add_argument("--pieces", default=PIECES)
    p.add_argument("--seeds", default="1,2,3")
    p.add_argument("--scenarios", default="clicks,clean,noise")
    p.add_argument("--snr", type=float, default=25)
    p.add_argument("--captured", default="")
    p.add_argument("--stages", default="")
    p.add_argument("--extra", default="", help="further options for restore")
    p.add_argument("--oracle", action="store_true")
    p.add_argument("--no-textbook", action="store_true")
    p.add_argument("--each", action="store_true", help="print every case as it is done")
    a = p.parse_args()
    os.makedirs(a.cases, exist_ok=True)
    figures = {
        "clicks": ["sdr_bad_out", "snr_out", "snr_good_out", "recall_prominent", "false_per_min"],
        "crackle": ["sdr_bad_out", "lsd_out", "recall_prominent", "false_per_min"],
        "thumps": ["sdr_bad_out", "snr_gain", "false_per_min"],
        "clean": ["false_per_min", "edited_share"],
        "noise": ["snr_in", "snr_out", "lsd_out", "musical_noise", "lead_drop_db"],
        "worn78": ["snr_out", "snr_gain", "lsd_out", "false_per_min"],
        "wornlp": ["snr_out", "snr_gain", "lsd_out", "false_per_min"],
    }
    print("| scenario | rate | figure | method | mean | worst | best |\n|---|---|---|---|---|---|---|")
    for scenario in a.scenarios.split(","):
        for rate in map(int, a.rates.split(",")):
            collected = {}
            for piece in a.pieces.split(","):
                for seed in map(int, a.seeds.split(",")):
                    for method, row in case(a, piece, rate, seed, scenario).items():
                        collected.setdefault(method, []).append(row)
                        if a.each:
                            print("#", scenario, rate, piece, seed, method,
                                  {k: row.get(k) for k in figures[scenario]}, flush=True)
            for figure in figures[scenario]:
                low_is_good = figure in ("false_per_min", "edited_share", "lsd_out", "musical_noise")
                for method, rows in sorted(collected.items()):
                    v = [r[figure] for r in rows if figure in r]
                    if v:
                        worst, best = (max(v), min(v)) if low_is_good else (min(v), max(v))
                        print("| %s | %d | %s | %s | %.4g | %.4g | %.4g |"
                              % (scenario, rate, figure, method, statistics.mean(v), worst, best), flush=True)


main()
