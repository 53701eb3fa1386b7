#!/usr/bin/env python3
"""What a minute of sound costs a collection, and what that makes of 100,000 sides: the tables of scaling.md.

`groovemend batch --threads 1`, defaults, on a badly worn side (the demonstration transfer repeated: 96 kHz, 24 bit, two channels; and
the same at 44.1 kHz, by sox) of two lengths. The difference between the two is what a minute costs, without the start of the
program. Processor time (user and system), so that others at work on the machine matter little; bytes are those that the process
asked the system to read and write (/proc/PID/io), however often the same ones. Linux only.

    python3 docs/explanation/scaling.py --minutes 1,3
"""
import argparse
import os
import resource
import subprocess
import tempfile

from performance import make

HERE = os.path.dirname(os.path.abspath(__file__))
JAR = os.path.join(HERE, "..", "..", "restore-cli", "target", "groovemend.jar")
SIDES = 100_000


def measured(*args):
    """Processor seconds, bytes read and bytes written of one run."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    process = subprocess.Popen(["java", "-Xmx1280m", "-XX:+UseSerialGC", "-Djava.awt.headless=true", "-jar", JAR, *args],
                               stdout=subprocess.DEVNULL)
    os.waitid(os.P_PID, process.pid, os.WEXITED | os.WNOWAIT)
    with open(f"/proc/{process.pid}/io") as f:
        io = dict(line.split(": ") for line in f.read().splitlines())
    if process.wait() != 0:
        raise SystemExit(f"exit {process.returncode}: {args}")
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return (after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime, int(io["rchar"]), int(io["wchar"]))


def size(folder):
    return sum(os.path.getsize(os.path.join(base, name)) for base, _, names in os.walk(folder) for name in names)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--minutes", default="1,3")
    args = parser.parse_args()
    short, long = map(int, args.minutes.split(","))
    cost = {}
    with tempfile.TemporaryDirectory(prefix="groovemend-scaling-") as work:
        subprocess.run(["java", "-jar", JAR, "demo", "--out", os.path.join(work, "demo"), "--quiet"], check=True, stdout=subprocess.DEVNULL)
        demo = os.path.join(work, "demo", "otter-umbrella.wav")
        print("| rate, Hz | processor s a minute | for a side besides | read, MB a minute | times the transfer | written, MB a minute | "
              "kept, MB a minute | transfer, MB a minute |\n|---|---|---|---|---|---|---|---|")
        for rate in (44100, 96000):
            found = []
            for minutes in (short, long):
                side = os.path.join(work, f"{rate}-{minutes}.wav")
                make(demo, minutes, side)
                if rate != 96000:
                    subprocess.run(["sox", "-D", side, "-b", "24", os.path.join(work, "x.wav"), "rate", str(rate)], check=True)
                    os.replace(os.path.join(work, "x.wav"), side)
                out = os.path.join(work, f"out-{rate}-{minutes}")
                found.append((*measured("batch", side, "--out", out, "--threads", "1"), size(os.path.join(out, "sides")), os.path.getsize(side)))
                os.remove(side)
            minute = [(b - a) / (long - short) for a, b in zip(*found)]
            besides = found[0][0] - minute[0] * short
            cost[rate] = minute
            seconds, read, written, kept, transfer = minute
            print(f"| {rate} | {seconds:.1f} | {besides:.1f} | {read / 1e6:.0f} | {read / transfer:.1f} | {written / 1e6:.0f} | "
                  f"{kept / 1e6:.0f} | {transfer / 1e6:.0f} |", flush=True)
    print(f"\nload {os.getloadavg()[0]:.1f}\n\n| {SIDES:,} sides of | transfers, TB | results, TB | processor hours | "
          "days on 8 processors | on 64 | on 512 | network at 512, MB/s |\n|---|---|---|---|---|---|---|---|")
    for what, rate, minutes in (("3.5 min, 96 kHz, 24 bit, stereo (shellac)", 96000, 3.5), ("20 min, 96 kHz, 24 bit, stereo (LP)", 96000, 20),
                                ("20 min, 44.1 kHz, 24 bit, stereo (LP)", 44100, 20)):
        seconds, read, written, kept, transfer = cost[rate]
        total = seconds * minutes * SIDES
        days = [total / n / 86400 for n in (8, 64, 512)]
        flow = 512 * (transfer + kept) / seconds / 1e6
        print(f"| {what} | {transfer * minutes * SIDES / 1e12:.0f} | {kept * minutes * SIDES / 1e12:.0f} | {total / 3600:,.0f} | "
              f"{days[0]:.0f} | {days[1]:.1f} | {days[2]:.1f} | {flow:.0f} |")
    for rate, (seconds, read, written, kept, transfer) in cost.items():
        once = (transfer + kept) / seconds / 1e6
        every = (read + written) / seconds / 1e6
        print(f"\n{rate} Hz: a busy processor moves {once:.1f} MB/s over the network if each machine keeps a side in its memory while it is at "
              f"work, {every:.1f} MB/s if nothing is kept; 1 Gbit/s (say 110 MB/s) feeds {110 / once:.0f} or {110 / every:.0f}, 10 Gbit/s ten times "
              "as many.")


if __name__ == "__main__":
    main()
