#!/usr/bin/env python3
"""Measures how well the turntable's speed and scratches are told from repairs, and prints the table of rotation.md.

  rotation.py --bench DIR [--cases DIR] [--seconds 60] [--rate 48000] [--pieces ...] [--seeds 1,2,3] [--scenarios clicks,worn78,...]

DIR holds a damage simulator with the commands `tune.py` and `groovebench.py make`. Sides that were restored already (with the stage
clicks alone) are taken as they are. Needs python3-numpy, python3-scipy, python3-soundfile.
"""
import argparse, json, os, subprocess, sys

HERE = os.path.dirname(os.path.abspath(__file__))
LAUNCHER = os.path.join(HERE, "..", "..", "restore-cli", "groovemend")
FLAT = ("worn78",)


def run(*args, codes=(0,)):
    done = subprocess.run(args, capture_output=True, text=True)
    if done.returncode not in codes:
        sys.exit("%s\nfailed: %s%s" % (" ".join(args), done.stdout, done.stderr))
    return done.stdout


def ledger(a, piece, seed, scenario):
    folder = os.path.join(a.cases, "%s-%d-%s" % (piece, seed, scenario))
    file = os.path.join(folder, "out", "damaged.ledger.jsonl")
    if not os.path.exists(file):
        clean = os.path.join(a.cases, "%s-%d.wav" % (piece, seed))
        if not os.path.exists(clean):
            run(sys.executable, os.path.join(a.bench, "tune.py"), clean, "--piece", piece, "--seconds", str(a.seconds),
                "--rate", str(a.rate), "--seed", str(seed))
        run(sys.executable, os.path.join(a.bench, "groovebench.py"), "make", clean, folder, "--scenario", scenario,
            "--seed", str(seed))
        run(LAUNCHER, "restore", os.path.join(folder, "damaged.wav"), "--out", os.path.join(folder, "out"), "--stages",
            "clicks", "--captured", "flat" if scenario in FLAT else "riaa")
    return folder, file


def distinct(frames, apart):
    kept = []
    for f in sorted(frames):
        if not kept or f - kept[-1] > apart:
            kept.append(f)
    return kept


def main():
    p = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    p.add_argument("--bench", required=True)
    p.add_argument("--cases", default="rotation-cases")
    p.add_argument("--seconds", type=float, default=60)
    p.add_argument("--rate", type=int, default=48000)
    p.add_argument("--pieces", default="dance,brass,piano,strings,voice")
    p.add_argument("--seeds", default="1,2,3")
    p.add_argument("--scenarios", default="clicks,wornlp,worn78,thumps,crackle,clean")
    a = p.parse_args()
    os.makedirs(a.cases, exist_ok=True)
    print("| damage | sides | speed told | right within 0.5 % | largest error of these | further off | ticks of scratches that lie in a row told |"
          " ticks in rows that are of no scratch |")
    print("|---|---|---|---|---|---|---|---|")
    for scenario in a.scenarios.split(","):
        sides = told = right = wrong = 0
        worst = 0.0
        ticks = hit = named = stray = 0
        for piece in a.pieces.split(","):
            for seed in a.seeds.split(","):
                folder, file = ledger(a, piece, int(seed), scenario)
                truth = json.load(open(os.path.join(folder, "truth.json")))
                found = json.loads(run(LAUNCHER, "disc", file, "--png", os.path.join(folder, "disc.png"), "--replace",
                                       "--json", codes=(0, 2)))
                sides += 1
                near = 0.002 * truth["rate"]
                scratch = distinct([e["start"] for e in truth["events"] if e["kind"] == "scratch"], near)
                members = []
                if "turntable" in found:
                    told += 1
                    error = abs(found["turntable"]["rpm"] / truth["rpm"] - 1)
                    if error < 0.005:
                        right += 1
                        worst = max(worst, error)
                    else:
                        wrong += 1
                    members = [f for s in found["scratches"] for f in s["frames"]]
                ticks += len(scratch)
                hit += sum(any(abs(f - m) <= near for m in members) for f in scratch)
                named += len(members)
                stray += sum(not any(abs(f - m) <= near for f in scratch) for m in members)
        share = lambda n, of: "-" if of == 0 else "%.0f %% of %d" % (100.0 * n / of, of)
        print("| %s | %d | %d | %d | %s | %d | %s | %s |" % (
            scenario, sides, told, right, "%.2f %%" % (100 * worst) if right else "-", wrong, share(hit, ticks),
            share(stray, named)), flush=True)


main()
