#!/usr/bin/env python3
"""A collection of short invented sides on a standalone Spark of this machine, one of two workers killed in the middle.

Builds a Spark out of Maven's jars (restore-cli/spark/target/spark.classpath, written by `mvn -Pspark package`), starts a master and
two workers on 127.0.0.1, and does the same sides

- by `groovemend batch`,
- by three parts (--shard),
- on Spark in local mode,
- on the cluster, undisturbed,
- on the cluster with speculative second attempts, while one worker and its executor are killed (SIGKILL).

Every file below `sides` must be the same to the byte, the catalogues must tell the same, nothing hidden may be left, and no
original may have changed. Also: a master that does not exist must be told in one sentence.

    python3 docs/explanation/spark_cluster.py --sides 12

Ends with 1 and a sentence if something differs. Everything listens on 127.0.0.1 only; what was started is ended by its number.
Needs numpy and soundfile.
"""
import argparse
import json
import os
import signal
import socket
import subprocess
import sys
import tempfile
import time

from batch_kills import digests, make, state

HERE = os.path.dirname(os.path.abspath(__file__))
CLI = os.path.join(HERE, "..", "..", "restore-cli")
OPENS = ["--add-opens=java.base/" + name + "=ALL-UNNAMED" for name in (
    "java.lang", "java.lang.invoke", "java.lang.reflect", "java.io", "java.net", "java.nio", "java.util", "java.util.concurrent",
    "java.util.concurrent.atomic", "sun.nio.ch", "sun.nio.cs", "sun.security.action", "sun.util.calendar")]
NOW = ["--now", "2026-01-02T03:04:05Z"]


def free_port():
    with socket.socket() as s:
        s.bind(("127.0.0.1", 0))
        return s.getsockname()[1]


class Spark:
    """A master and workers, each a process of ours in a group of its own."""

    def __init__(self, work, class_path):
        self.work, self.processes, self.workers = work, [], []
        self.home = os.path.join(work, "spark")
        os.makedirs(os.path.join(self.home, "jars"), exist_ok=True)
        for jar in class_path.split(":"):
            link = os.path.join(self.home, "jars", os.path.basename(jar))
            if not os.path.exists(link):
                os.symlink(jar, link)
        java_home = os.environ.get("JAVA_HOME") or os.path.dirname(os.path.dirname(os.path.realpath("/usr/bin/java")))
        self.env = dict(os.environ, SPARK_HOME=self.home, SPARK_LOCAL_IP="127.0.0.1", SPARK_SCALA_VERSION="2.13", JAVA_HOME=java_home,
                        LC_ALL="C.UTF-8")
        self.java = ["java", "-XX:+UseSerialGC", *OPENS, "-cp", os.path.join(self.home, "jars", "*")]

    def start(self, name, *command, heap="256m"):
        log = open(os.path.join(self.work, name + ".log"), "wb")
        process = subprocess.Popen([self.java[0], "-Xmx" + heap, *self.java[1:], *command], stdout=log, stderr=log, env=self.env,
                                   start_new_session=True)
        self.processes.append(process)
        return process

    def cluster(self):
        port = free_port()
        self.master = f"spark://127.0.0.1:{port}"
        self.start("master", "org.apache.spark.deploy.master.Master", "--host", "127.0.0.1", "--port", str(port), "--webui-port",
                   str(free_port()))
        wait_for(lambda: answers(port), 120, "the master does not answer")
        for i in (1, 2):
            self.workers.append(self.start(
                f"worker{i}", "org.apache.spark.deploy.worker.Worker", "--host", "127.0.0.1", "--cores", "1", "--memory", "900m",
                "--work-dir", os.path.join(self.work, f"worker{i}"), "--webui-port", str(free_port()), self.master))
        for i in (1, 2):
            wait_for(lambda i=i: "Successfully registered" in text(os.path.join(self.work, f"worker{i}.log")), 120, "a worker does not register")

    def submit(self, master, transfers, out, *conf, more=()):
        command = [self.java[0], "-Xmx700m", *self.java[1:], "org.apache.spark.deploy.SparkSubmit", "--master", master,
                   "--conf", "spark.driver.host=127.0.0.1", "--conf", "spark.driver.bindAddress=127.0.0.1",
                   "--conf", "spark.executor.memory=800m", "--conf", "spark.executor.extraJavaOptions=-XX:+UseSerialGC"]
        for one in conf:
            command += ["--conf", one]
        command += [os.path.join(CLI, "spark", "target", "groovemend-spark.jar"), transfers, "--out", out, *NOW, *more]
        return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=self.env)

    def end(self):
        for process in self.processes:
            if process.poll() is None:
                process.terminate()
        for process in self.processes:
            try:
                process.wait(20)
            except subprocess.TimeoutExpired:
                os.killpg(process.pid, signal.SIGKILL)
                process.wait()


def answers(port):
    try:
        socket.create_connection(("127.0.0.1", port), 1).close()
        return True
    except OSError:
        return False


def text(file):
    try:
        with open(file, errors="replace") as f:
            return f.read()
    except OSError:
        return ""


def wait_for(true, seconds, sentence):
    end = time.time() + seconds
    while not true():
        if time.time() > end:
            raise SystemExit(sentence)
        time.sleep(0.2)


def children(pid):
    found = subprocess.run(["ps", "-o", "pid=", "--ppid", str(pid)], stdout=subprocess.PIPE, text=True).stdout.split()
    return [int(one) for one in found]


def kill_with_children(process):
    """As a machine that loses its power: the worker and its executor, found by their parent, at once."""
    for pid in [process.pid, *children(process.pid)]:
        try:
            os.kill(pid, signal.SIGKILL)
        except ProcessLookupError:
            pass
    process.wait()


def catalogue(jar, out):
    told = subprocess.run(["java", "-jar", jar, "catalogue", out, "--json"], check=True, stdout=subprocess.PIPE).stdout
    leave = ("id", "run", "started_utc", "ended_utc", "seconds", "original", "attempts", "expected_seconds", "removed_dbfs")
    return [{key: value for key, value in side.items() if key not in leave} for side in json.loads(told)["sides"]]


def hidden(out):
    return [os.path.join(base, name) for base, folders, files in os.walk(out) for name in folders + files if name.startswith(".")]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--sides", type=int, default=12)
    parser.add_argument("--bad", type=int, default=1)
    parser.add_argument("--seconds", type=float, default=8)
    parser.add_argument("--folder")
    args = parser.parse_args()
    work = args.folder or tempfile.mkdtemp(prefix="groovemend-spark-")
    os.makedirs(work, exist_ok=True)
    transfers = os.path.join(work, "transfers")
    make(transfers, args.sides, args.bad, args.seconds)
    before = state(transfers)
    jar = os.path.join(CLI, "target", "groovemend.jar")
    where = {name: os.path.join(work, name) for name in ("plain", "parts", "local", "cluster", "killed")}

    def batch(out, *more):
        return subprocess.run(["java", "-Xmx1280m", "-Djava.awt.headless=true", "-jar", jar, "batch", transfers, "--out", out, *NOW, *more],
                              stdout=subprocess.DEVNULL).returncode

    wrong, wanted = [], 3 if args.bad else 0

    def check(name, code, seconds):
        print(f"{name}: exit {code}, {seconds:.0f} s, load {os.getloadavg()[0]:.1f}", flush=True)
        if code != wanted:
            wrong.append(f"{name}: exit {code}")
        a, b = digests(os.path.join(where["plain"], "sides")), digests(os.path.join(where[name], "sides"))
        wrong.extend(f"{name} differs: {one}" for one in sorted(set(a) | set(b)) if a.get(one) != b.get(one))
        wrong.extend(f"{name}: hidden: {one}" for one in hidden(where[name]))
        if catalogue(jar, where[name]) != catalogue(jar, where["plain"]):
            wrong.append(f"{name}: the catalogue differs")
        return len(b)

    began = time.time()
    files = check("plain", batch(where["plain"]), time.time() - began)
    began = time.time()
    codes = [batch(where["parts"], "--shard", f"{i}/3") for i in (1, 2, 3)]
    batch(where["parts"])
    check("parts", max(codes), time.time() - began)

    with open(os.path.join(CLI, "spark", "target", "spark.classpath")) as f:
        spark = Spark(work, f.read().strip())

    def submit(name, master, *conf, amid=None):
        began = time.time()
        process = spark.submit(master, transfers, where[name], *conf)
        if amid:
            amid()
        said, noise = process.communicate()
        check(name, process.returncode, time.time() - began)
        print("  " + said.strip().replace("\n", "\n  "), flush=True)
        lines = noise.strip().splitlines()
        print(f"  {len(lines)} lines beside" + "".join("\n    " + line[:160] for line in lines[:6]), flush=True)

    submit("local", "local[2]")
    try:
        spark.cluster()
        submit("cluster", spark.master)

        def amid():
            log = os.path.join(where["killed"], "batch.log")
            wait_for(lambda: text(log).count("done   ") >= 2, 600, "nothing was done on the cluster")
            kill_with_children(spark.workers[0])
            print(f"killed worker 1 after {text(log).count('done   ')} sides", flush=True)

        submit("killed", spark.master, "spark.speculation=true", "spark.speculation.quantile=0.2", "spark.speculation.multiplier=1.01",
               "spark.speculation.interval=50ms", amid=amid)
        told = text(os.path.join(where["killed"], "batch.log"))
        print("  " + "\n  ".join(line for line in told.splitlines() if "engine" in line or "sweep" in line), flush=True)
        if "is gone" not in told:
            wrong.append("killed: the lost worker is not in the log")
        nobody = spark.submit("spark://127.0.0.1:1", transfers, os.path.join(work, "nobody"))
        said, noise = nobody.communicate()
        print(f"unknown master: exit {nobody.returncode}: {noise.strip()[:300]}", flush=True)
        if nobody.returncode != 1 or "no Spark master answers" not in noise:
            wrong.append("an unknown master is not told")
    finally:
        spark.end()
    if state(transfers) != before:
        wrong.append("an original was changed")
    print(f"{files} files compared each time")
    for line in wrong:
        print(line)
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
