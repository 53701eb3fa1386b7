#!/usr/bin/env python3
"""Table of interpolation.md: gaps at known places, the ladder against the published method.

  interpolation.py [--gaps 6] FILE.wav ...

Compile the project first (mvn -q -pl restore-core test-compile). Files: WAV of 16 or 24 bits, longer than 3 s. The class of a file is
its name up to the first '-'. A figure above 100 dB counts as 100. Needs no more than the standard library.
"""
import argparse, collections, csv, os, statistics, subprocess, tempfile

here = os.path.dirname(os.path.abspath(__file__))
core = os.path.join(here, "..", "..", "restore-core")


def rows(files, gaps, classpath):
    with tempfile.TemporaryDirectory() as folder:
        out = os.path.join(folder, "gaps.csv")
        subprocess.run(["java", "-cp", classpath, "org.groovemend.click.InterpolationBenchRunner", out, str(gaps)] + files, check=True)
        return list(csv.DictReader(open(out)))


def table(rows):
    mean = lambda rs, key: statistics.mean(min(100.0, float(r[key])) for r in rs)
    group = collections.defaultdict(list)
    for r in rows:
        kind = "one wall" if r["hurt"] == "1" and r["channels"] == "2" else "both" if r["hurt"] == "2" else "one channel"
        for k in (kind, "all"):
            for c in (r["file"].split("-")[0], "all files"):
                group[float(r["ms"]), k, c].append(r)
    print("| gap, ms | hurt | material | files | baseline, dB | ladder, dB | gain, dB | actual error re stated, dB (median) |\n|---|---|---|---|---|---|---|---|")
    for (ms, kind, c), rs in sorted(group.items(), key=lambda i: (i[0][2] != "all files", i[0][2], i[0][1], i[0][0])):
        b, l = mean(rs, "baseline_db"), mean(rs, "ladder_db")
        print("| %g | %s | %s | %d | %.1f | %.1f | %+.1f | %+.1f |" % (
            ms, kind, c, len({r["file"] for r in rs}), b, l, l - b, statistics.median(float(r["actual_re_stated_db"]) for r in rs)))
    for ms in sorted({float(r["ms"]) for r in rows}):
        print("%g ms: %.1f ms of time a gap (median)" % (ms, 1e3 * statistics.median(float(r["seconds_a_gap"]) for r in rows if float(r["ms"]) == ms)))


if __name__ == "__main__":
    ap = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ap.add_argument("--gaps", type=int, default=6)
    ap.add_argument("--classpath", default="", help="class path, where the one of target/ and the local repository of Maven does not do")
    ap.add_argument("files", nargs="+")
    a = ap.parse_args()
    repository = os.path.expanduser("~/.m2/repository")
    jars = [os.path.join(d, f) for d, _, fs in os.walk(repository) for f in fs if f.startswith(("JTransforms", "JLargeArrays", "commons-math3")) and f.endswith(".jar")]
    path = a.classpath or os.pathsep.join([os.path.join(core, "target", "classes"), os.path.join(core, "target", "test-classes")] + jars)
    table(rows(a.files, a.gaps, path))
