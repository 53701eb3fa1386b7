"""Figures of the page on bands, from invented sides.

Run from the root of the project after `mvn -B -ntp -DskipTests test-compile`:

    python3 docs/explanation/bands.py CLASSPATH [FIRST_SEED] [SIDES] [LIVE_SHARE]

CLASSPATH holds restore-core/target/classes, restore-core/target/test-classes and the jars that
restore-core needs (`mvn dependency:build-classpath` prints them). Needs no library.
"""

import csv
import io
import subprocess
import sys


def errors(text):
    return [float(word) for word in text.strip("[]").split()]


def main():
    classpath = sys.argv[1]
    seed, sides, live = (sys.argv[2:] + ["61000", "100", "0"][len(sys.argv) - 2 :])[:3]
    command = ["java", "-Xmx1g", "-cp", classpath]
    command += ["org.groovemend.bands.BandBenchRunner", seed, sides, live]
    out = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    rows = list(csv.DictReader(io.StringIO(out)))
    for name, right in (("alone", "rightAlone"), ("listed", "rightListed")):
        all_errors = [e for row in rows for e in errors(row[name])]
        whole = sum(row[right] == "true" for row in rows)
        print(f"{name}: {whole} of {len(rows)} sides with every cut within 0.1 s")
        for limit in (0.1, 0.25, 0.5):
            within = sum(abs(e) <= limit for e in all_errors)
            print(f"  {within} of {len(all_errors)} cuts within {limit} s")
    print("cuts where there is no join:", sum(int(row["extra"]) for row in rows))


if __name__ == "__main__":
    main()
