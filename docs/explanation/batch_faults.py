#!/usr/bin/env python3
"""Lets the n-th write, force, rename, creation or removal below the output folder fail, for every n, and a disk fill up.

A small collection (two short invented sides) is done once undisturbed. Then, for every kind of call and every n, a run
into a new folder has its n-th such call below the folder fail with "No space left on device" or "Input/output error";
calls of the program and of SQLite alike, by a shim that is loaded before the C library (Linux, gcc). Afterwards

- every file that is visible below `sides` must be the one of the undisturbed run to the byte: whole or absent;
- the same command again must end with 0 and give all files to the byte, and leave nothing hidden;
- originals must not have changed.

With --full-disk (needs the right to mount) it also runs into small memory disks of growing size.

    python3 docs/explanation/batch_faults.py restore-cli/target/groovemend.jar

Needs numpy and soundfile.
"""
import argparse
import errno
import os
import subprocess
import sys
import tempfile

from batch_kills import FORMS, digests, make_side, state

SHIM = r"""
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <unistd.h>

static int count;

static int below(const char *path) {
  const char *dir = getenv("FAULT_DIR");
  return dir && path && strncmp(path, dir, strlen(dir)) == 0;
}

static int below_fd(int fd) {
  char link[64], path[PATH_MAX];
  snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
  ssize_t n = readlink(link, path, sizeof path - 1);
  if (n < 0) return 0;
  path[n] = 0;
  return below(path);
}

static int fails(const char *kind, int here) {
  const char *wanted = getenv("FAULT_KIND");
  if (!here || !wanted || strcmp(wanted, kind) != 0) return 0;
  int n = __sync_add_and_fetch(&count, 1);
  if (n == atoi(getenv("FAULT_N"))) {
    errno = atoi(getenv("FAULT_ERRNO"));
    return 1;
  }
  const char *told = getenv("FAULT_COUNT");
  if (told) {
    static int (*real_open)(const char *, int, ...);
    static ssize_t (*real_write)(int, const void *, size_t);
    if (!real_open) real_open = dlsym(RTLD_NEXT, "open");
    if (!real_write) real_write = dlsym(RTLD_NEXT, "write");
    int fd = real_open(told, O_WRONLY | O_CREAT | O_APPEND, 0600);
    if (fd >= 0) { real_write(fd, "x", 1); close(fd); }
  }
  return 0;
}

#define REAL(type, name) static type; if (!real) real = dlsym(RTLD_NEXT, name)

ssize_t write(int fd, const void *b, size_t n) {
  REAL(ssize_t (*real)(int, const void *, size_t), "write");
  return fails("write", below_fd(fd)) ? -1 : real(fd, b, n);
}
ssize_t pwrite(int fd, const void *b, size_t n, off_t at) {
  REAL(ssize_t (*real)(int, const void *, size_t, off_t), "pwrite");
  return fails("write", below_fd(fd)) ? -1 : real(fd, b, n, at);
}
ssize_t pwrite64(int fd, const void *b, size_t n, off64_t at) {
  REAL(ssize_t (*real)(int, const void *, size_t, off64_t), "pwrite64");
  return fails("write", below_fd(fd)) ? -1 : real(fd, b, n, at);
}
int fsync(int fd) {
  REAL(int (*real)(int), "fsync");
  return fails("force", below_fd(fd)) ? -1 : real(fd);
}
int fdatasync(int fd) {
  REAL(int (*real)(int), "fdatasync");
  return fails("force", below_fd(fd)) ? -1 : real(fd);
}
int rename(const char *a, const char *b) {
  REAL(int (*real)(const char *, const char *), "rename");
  return fails("rename", below(b)) ? -1 : real(a, b);
}
int mkdir(const char *p, mode_t m) {
  REAL(int (*real)(const char *, mode_t), "mkdir");
  return fails("create", below(p)) ? -1 : real(p, m);
}
int open(const char *p, int f, ...) {
  va_list l; va_start(l, f); mode_t m = va_arg(l, mode_t); va_end(l);
  REAL(int (*real)(const char *, int, ...), "open");
  return fails("create", (f & O_CREAT) && below(p)) ? -1 : real(p, f, m);
}
int open64(const char *p, int f, ...) {
  va_list l; va_start(l, f); mode_t m = va_arg(l, mode_t); va_end(l);
  REAL(int (*real)(const char *, int, ...), "open64");
  return fails("create", (f & O_CREAT) && below(p)) ? -1 : real(p, f, m);
}
int unlink(const char *p) {
  REAL(int (*real)(const char *), "unlink");
  return fails("remove", below(p)) ? -1 : real(p);
}
int rmdir(const char *p) {
  REAL(int (*real)(const char *), "rmdir");
  return fails("remove", below(p)) ? -1 : real(p);
}
"""

KINDS = ("write", "force", "rename", "create", "remove")


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("jar")
    parser.add_argument("--kinds", default=",".join(KINDS))
    parser.add_argument("--step", type=int, default=1, help="only every so many writes; all others all")
    parser.add_argument("--first", type=int, default=1, help="the first call that is to fail, to do many in pieces")
    parser.add_argument("--last", type=int, help="the last one")
    parser.add_argument("--full-disk", action="store_true")
    args = parser.parse_args()
    work = tempfile.mkdtemp(prefix="groovemend-faults-")
    shim = os.path.join(work, "shim.so")
    subprocess.run(["gcc", "-shared", "-fPIC", "-O1", "-o", shim, "-xc", "-", "-ldl"], input=SHIM.encode(), check=True)
    transfers = os.path.join(work, "transfers")
    os.makedirs(transfers)
    for number, form in ((1, FORMS[0]), (2, FORMS[5])):
        make_side(os.path.join(transfers, f"side {number}.{form[0]}"), number, form, 1.0)
    before = state(transfers)

    def batch(out, **fault):
        command = ["java", "-Xmx700m", "-XX:TieredStopAtLevel=1", "-Djava.awt.headless=true", "-jar", args.jar, "batch", transfers,
                   "--out", out, "--no-page", "--stages", "clicks,noise", "--threads", "1", "--now", "2026-01-02T03:04:05Z"]
        env = dict(os.environ)
        if fault:
            env.update(LD_PRELOAD=shim, FAULT_DIR=out, **{key: str(value) for key, value in fault.items()})
        return subprocess.run(command, env=env, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)

    good = os.path.join(work, "good")
    assert batch(good).returncode == 0
    reference = {name: digest for name, digest in digests(os.path.join(good, "sides")).items() if digest}
    wrong = []

    def check(out, told, first):
        seen = {n: d for n, d in digests(os.path.join(out, "sides")).items() if d} if os.path.isdir(os.path.join(out, "sides")) else {}
        for name, digest in seen.items():
            if not any(part.startswith(".") for part in name.split(os.sep)) and reference.get(name) != digest:
                wrong.append(f"{told}: {name} is there and is not whole")
        if first.returncode not in (0, 1, 3):
            wrong.append(f"{told}: exit code {first.returncode}\n{first.stdout}")
        if "fault of groovemend" in first.stdout:
            wrong.append(f"{told}: told as a fault of the program\n{first.stdout}")

    def resumed(out, told):
        again = batch(out)
        if again.returncode != 0:
            wrong.append(f"{told}: the run after it ended with {again.returncode}\n{again.stdout}")
        after = {name: digest for name, digest in digests(os.path.join(out, "sides")).items() if digest}
        if after != reference:
            wrong.append(f"{told}: the run after it gave {sorted(set(after) ^ set(reference))}")

    for kind in args.kinds.split(","):
        counted = os.path.join(work, "count-" + kind)
        batch(os.path.join(work, "counting-" + kind), FAULT_KIND=kind, FAULT_N=0, FAULT_ERRNO=0, FAULT_COUNT=counted)
        calls = os.path.getsize(counted) if os.path.exists(counted) else 0
        codes = {}
        tried = range(args.first, min(calls, args.last or calls) + 1, args.step if kind == "write" else 1)
        for n in tried:
            out, known = os.path.join(work, f"{kind}-{n}"), len(wrong)
            code = errno.ENOSPC if n % 2 else errno.EIO
            first = batch(out, FAULT_KIND=kind, FAULT_N=n, FAULT_ERRNO=code)
            codes[first.returncode] = codes.get(first.returncode, 0) + 1
            check(out, f"{kind} {n}", first)
            resumed(out, f"{kind} {n}")
            subprocess.run(["rm", "-rf", out], check=True)
            if wrong[known:]:
                print("\n".join(wrong[known:]), flush=True)
        print(f"{kind}: {calls} calls, {len(tried)} let fail ({tried.start} to {tried.stop - 1}), exit codes {codes}", flush=True)
    if args.full_disk:
        disk = os.path.join(work, "disk")
        os.makedirs(disk)
        for kib in range(40, 600, 40):
            subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={kib}k", "tmpfs", disk], check=True)
            try:
                first = batch(os.path.join(disk, "out"))
                check(os.path.join(disk, "out"), f"disk of {kib} KiB", first)
                print(f"disk of {kib} KiB: exit {first.returncode}: {first.stdout.strip().splitlines()[-1][:160]}", flush=True)
                subprocess.run(["mount", "-o", "remount,size=200m", disk], check=True)
                resumed(os.path.join(disk, "out"), f"disk of {kib} KiB")
            finally:
                subprocess.run(["umount", disk], check=True)
    if state(transfers) != before:
        wrong.append("an original was changed")
    print("\n".join(wrong) or "all as it should be")
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
