#!/usr/bin/env python3
"""Inspects undamaged recordings and prints what was said of them: none may be asked to be made again.

  inspection_real.py FOLDER... [--command CMD] [--most N] [--seconds S]

FOLDER is where Debian packages with recordings were unpacked (apt-get download NAME; dpkg-deb -x NAME.deb FOLDER), one folder for each. Of each
the N longest recordings are taken, decoded by ffmpeg to WAV of 24 bits at their own rate, at most S seconds from their middle.
"""
import argparse, collections, json, os, shlex, subprocess, sys, tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
LAUNCHER = os.path.join(HERE, "..", "..", "restore-cli", "groovemend")
ENDINGS = (".ogg", ".oga", ".wav", ".flac", ".aif", ".aiff")


def seconds(path):
    said = subprocess.run(["ffprobe", "-v", "error", "-show_entries", "format=duration", "-of", "csv=p=0", path], capture_output=True, text=True)
    try:
        return float(said.stdout)
    except ValueError:
        return 0


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folders", nargs="+")
    parser.add_argument("--command", default=LAUNCHER)
    parser.add_argument("--most", type=int, default=6)
    parser.add_argument("--seconds", type=float, default=40)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as work:
        taken = {}
        for folder in options.folders:
            files = [os.path.join(at, f) for at, _, names in os.walk(folder) for f in names if f.lower().endswith(ENDINGS)]
            # the largest files are among the longest; asking all for their length takes too long
            files = sorted(files, key=os.path.getsize, reverse=True)[:4 * options.most]
            for k, (length, path) in enumerate(sorted(((seconds(p), p) for p in files), reverse=True)[:options.most]):
                wav = os.path.join(work, f"{os.path.basename(folder.rstrip('/'))}-{k}.wav")
                start = max(0, (length - options.seconds) / 2)
                subprocess.run(["ffmpeg", "-v", "error", "-ss", str(start), "-t", str(options.seconds), "-i", path, "-ac", "2", "-c:a", "pcm_s24le", wav], check=True)
                taken[os.path.basename(wav)] = path
        said = subprocess.run(shlex.split(options.command) + ["inspect", "--json"] + [os.path.join(work, w) for w in sorted(taken)], stdout=subprocess.PIPE).stdout
    sides = json.loads(said)
    verdicts, measures = collections.Counter(), collections.Counter()
    for side in sides.get("sides", [sides.get("side")]):
        if "findings" not in side:
            sys.exit(str(side["error"]))
        verdicts[side["verdict"]] += 1
        redo = [f for f in side["findings"] if f["verdict"] == "redo"]
        for f in side["findings"]:
            if f["verdict"] in ("look", "redo"):
                measures[f["id"] + " " + f["verdict"]] += 1
        for f in redo:
            print("REDO", side["file"]["name"], f["id"], f["text"], f["reason"])
    print(f"{sum(verdicts.values())} excerpts: " + ", ".join(f"{n} {v}" for v, n in verdicts.most_common()))
    print(", ".join(f"{m} {n}" for m, n in measures.most_common()))


if __name__ == "__main__":
    main()
