#!/usr/bin/env python3
"""Times whole runs of groovemend on a long side and prints the table of performance.md.

  performance.py [--minutes 20,60] [--folder DIR] [--stages clicks,noise] [--threads N] [--container wav|flac]

The side is made by repeating a demonstration transfer (96 kHz, 24 bit, two channels), so that clicks, music and groove noise are
in it all along. Linux only: peak memory is the largest resident set that the kernel reports for the process.
"""
import argparse, json, os, resource, shutil, struct, subprocess, sys, time

HERE = os.path.dirname(os.path.abspath(__file__))
LAUNCHER = os.path.join(HERE, "..", "..", "restore-cli", "groovemend")


def chunk(data, name):
    at = 12
    while data[at:at + 4] != name:
        at += 8 + struct.unpack("<I", data[at + 4:at + 8])[0] + (struct.unpack("<I", data[at + 4:at + 8])[0] & 1)
    return at + 8, struct.unpack("<I", data[at + 4:at + 8])[0]


def make(demo, minutes, path):
    data = open(demo, "rb").read()
    fmt, fmt_size = chunk(data, b"fmt ")
    body, size = chunk(data, b"data")
    # groove only once at the start, then the 20 s from second 4 on again and again
    second = 96000 * 6
    head, piece = data[body:body + 4 * second], data[body + 4 * second:body + 24 * second]
    total = minutes * 60 * second
    if total + 100 > 0xFFFFFFFF:
        sys.exit("longer than a plain WAV file can be")
    with open(path, "wb") as f:
        f.write(b"RIFF" + struct.pack("<I", 20 + fmt_size + total) + b"WAVEfmt " + struct.pack("<I", fmt_size)
                + data[fmt:fmt + fmt_size] + b"data" + struct.pack("<I", total))
        f.write(head)
        left = total - len(head)
        while left > 0:
            f.write(piece[:left])
            left -= min(left, len(piece))


def main():
    p = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    p.add_argument("--minutes", default="20,60")
    p.add_argument("--folder", default="performance-run")
    p.add_argument("--stages", default="clicks,noise")
    p.add_argument("--threads", default="")
    p.add_argument("--container", default="wav")
    a = p.parse_args()
    os.makedirs(a.folder, exist_ok=True)
    demo = os.path.join(a.folder, "demo", "otter-umbrella.wav")
    if not os.path.exists(demo):
        subprocess.run([LAUNCHER, "demo", "--out", os.path.dirname(demo), "--quiet"], check=True, stdout=subprocess.DEVNULL)
    print("| stages | container | minutes | wall s | times real time | processor s | peak memory MiB |\n|---|---|---|---|---|---|---|")
    for minutes in map(int, a.minutes.split(",")):
        side = os.path.join(a.folder, "side%d.wav" % minutes)
        make(demo, minutes, side)
        if a.container == "flac":
            subprocess.run(["flac", "-s", "-f", "--delete-input-file", side], check=True)
            side = side[:-4] + ".flac"
        out = os.path.join(a.folder, "out")
        shutil.rmtree(out, ignore_errors=True)
        args = [LAUNCHER, "restore", side, "--out", out, "--stages", a.stages, "--captured", "flat", "--quiet"]
        if a.threads:
            args += ["--threads", a.threads]
        began = time.time()
        pid = subprocess.Popen(args, stdout=subprocess.DEVNULL).pid
        _, status, usage = os.wait4(pid, 0)
        wall = time.time() - began
        if status:
            sys.exit("failed")
        print("| %s | %s | %d | %.1f | %.1f | %.1f | %.0f |" % (
            a.stages, a.container, minutes, wall, minutes * 60 / wall, usage.ru_utime + usage.ru_stime,
            usage.ru_maxrss / 1024), flush=True)
        shutil.rmtree(out, ignore_errors=True)
        os.remove(side)


if __name__ == "__main__":
    main()
