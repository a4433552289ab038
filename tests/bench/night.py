# SPDX-License-Identifier: MIT
"""night.py [--check] [--counts N,N,…] RANGECHECK BENCH PROFILES WORK: what a night costs, in one run.

RANGECHECK is the program, BENCH the folder with make_inbox and read_inbox, PROFILES what is taught and
WORK a folder for inboxes and outputs, of which nothing is kept. Prints a table with the time on the
clock, user and system CPU, CPU and peak memory, and how much CPU that is of the floor: reading the bytes
and walking them with simdjson. Every figure of a row is of one process (or of its workers), told by the
system when it ends. With --check a few submissions go through everything, and what must hold on any
machine is asserted: results that do not hang on the number of workers, readers that agree, and values
that the script by hand finds too.
"""

import argparse
import csv
import hashlib
import os
import pathlib
import shutil
import subprocess
import sys
import time

BESIDE = 100  # submissions at most that the programs beside are run on: they are slow and steady
BY_HAND = pathlib.Path(__file__).with_name("by_hand.py")
ONE_THREAD = {"OMP_NUM_THREADS": "1", "OPENBLAS_NUM_THREADS": "1"}
DONE, SOME_SET_ASIDE = 0, 1


class Cost:
    def __init__(self, command, good=(DONE,)):
        began = time.monotonic()
        process = subprocess.Popen([str(part) for part in command], stdout=subprocess.PIPE,
                                   env=os.environ | ONE_THREAD)
        self.output = process.stdout.read().decode()
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        assert process.returncode in good, (command, process.returncode)
        self.wall_s = time.monotonic() - began
        self.user_s, self.system_s = usage.ru_utime, usage.ru_stime
        self.cpu_s = self.user_s + self.system_s
        # Of a process that is smaller than this one it is what this one had when it started it.
        self.peak_mib = usage.ru_maxrss / 1024


class Table:
    HEAD = ("", "submissions", "wall s", "user s", "system s", "ms CPU each", "of floor", "peak MiB")

    def __init__(self):
        self.floor_s = None
        print(("{:34}" + "{:>12}" * 7).format(*self.HEAD), flush=True)

    def row(self, name, count, cost, is_floor=False):
        each_s = cost.cpu_s / count
        if is_floor:
            self.floor_s = each_s
        print(f"{name:34}{count:12}{cost.wall_s:12.2f}{cost.user_s:12.2f}{cost.system_s:12.2f}"
              f"{each_s * 1e3:12.2f}{each_s / self.floor_s:12.2f}{cost.peak_mib:12.1f}", flush=True)
        return each_s


def outputs(folder):
    """What a run wrote for people, as hashes; the history holds when it was."""
    found = {}
    for path in sorted(folder.rglob("*")):
        if path.is_file() and not path.name.startswith("history.sqlite"):
            with open(path, "rb") as file:
                found[path.relative_to(folder)] = hashlib.file_digest(file, "sha256").hexdigest()
    return found


def values(table):
    """By submission and check, in degrees, metres and ratios."""
    inches = 0.0254
    return {(row["submission"], row["check"]):
            (float(row["value"]) * (inches if row.get("unit") == "in" else 1),
             float(row["u"]) * (inches if row.get("unit") == "in" else 1))
            for row in table if row["value"] and row.get("position", "address") == "address"}


class Bench:
    def __init__(self, options):
        self.program, self.tools, self.profiles = options.program, options.tools, options.profiles
        self.work = options.work
        shutil.rmtree(self.work, ignore_errors=True)
        self.work.mkdir(parents=True)

    def inbox(self, kind, count):
        folder = self.work / f"{kind}-{count}"
        subprocess.run([self.tools / "make_inbox", folder, str(count), kind], check=True)
        return folder

    def read(self, how, inbox, count):
        return Cost([self.tools / "read_inbox", how, inbox, count])

    def grade(self, inbox, out, workers, good=(DONE, SOME_SET_ASIDE)):
        return Cost([self.program, "grade", inbox, "--profiles", self.profiles, "--out", out,
                     "--workers", workers, "--quiet"], good)

    def by_hand(self, inbox, count):
        return Cost(["/usr/bin/python3", BY_HAND, inbox, count])


def night(bench, table, kind, count, workers):
    """One inbox: its rows, and what the ratios are taken of."""
    inbox = bench.inbox(kind, count)
    beside = min(count, BESIDE)
    cost = {}
    cost["floor"] = table.row("simdjson walk (the floor)", beside, bench.read("walk", inbox, beside),
                              is_floor=True)
    cost["intake"] = table.row("intake alone", beside, bench.read("intake", inbox, beside))
    cost["document"] = table.row("nlohmann documents", beside, bench.read("document", inbox, beside))
    cost["script"] = table.row("numpy + scipy script, address", beside, bench.by_hand(inbox, beside))
    first = bench.grade(inbox, bench.work / "first", workers)
    cost["program"] = table.row(f"rangecheck, {workers} workers", count, first)
    cost["wall"] = first.wall_s
    again = bench.grade(inbox, bench.work / "first", workers)
    table.row("rangecheck again, nothing new", count, again)
    if count <= 1000:
        alone = bench.grade(inbox, bench.work / "alone", 1)
        table.row("rangecheck, 1 worker", count, alone)
        cost["alone wall"] = alone.wall_s
        assert outputs(bench.work / "first") == outputs(bench.work / "alone")
        shutil.rmtree(bench.work / "alone")
    shutil.rmtree(bench.work / "first")
    shutil.rmtree(inbox)
    return cost


def measured(options):
    bench = Bench(options)
    workers = os.cpu_count()
    for kind in ("address", "swing"):
        table = None
        for count in options.counts:
            if kind == "swing" and count > min(options.counts):
                continue
            print(f"\n{kind}: two films of 300 frames, 33 points in picture and space")
            table = Table()
            cost = night(bench, table, kind, count, workers)
            print(f"intake / floor {cost['intake'] / cost['floor']:.2f}, "
                  f"script / rangecheck {cost['script'] / cost['program']:.1f}, "
                  f"nlohmann documents / intake {cost['document'] / cost['intake']:.1f}" +
                  (f", 1 / {workers} workers on the clock {cost['alone wall'] / cost['wall']:.2f}"
                   if "alone wall" in cost else ""), flush=True)


def checked(options):
    """What must hold on any machine, on few submissions."""
    bench = Bench(options)
    count = 3
    inbox = bench.inbox("address", count)
    sums = {how: bench.read(how, inbox, count).output for how in ("walk", "tape", "events", "document")}
    assert len(set(sums.values())) == 1, sums
    assert sums["walk"].startswith(f"{2 * count} films"), sums
    seen = bench.read("intake", inbox, count).output
    assert seen == f"{2 * count} films, sum {2 * count * 300 * 27:.3f}\n", seen
    folders = [bench.work / f"out{workers}" for workers in (1, 3)]
    for folder, workers in zip(folders, (1, 3)):
        bench.grade(inbox, folder, workers, good=(DONE,))
    assert outputs(folders[0]) == outputs(folders[1])
    with open(folders[0] / "checks.csv", newline="") as file:
        ours = values(csv.DictReader(file))
    theirs = values(csv.DictReader(bench.by_hand(inbox, count).output.splitlines()))
    both = ours.keys() & theirs.keys()
    assert len(both) >= 15 * count, sorted(both)
    # The script knows nothing of the estimator's biases: 95 % would be asking too much of it.
    within = [abs(ours[key][0] - theirs[key][0]) < 3 * (ours[key][1] ** 2 + theirs[key][1] ** 2) ** .5
              for key in both]
    assert sum(within) >= .9 * len(within), (sum(within), len(within))
    print(f"{sum(within)} of {len(within)} values by hand within three standard uncertainties")
    shutil.rmtree(bench.work)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--check", action="store_true")
    parser.add_argument("--counts", type=lambda text: [int(n) for n in text.split(",")],
                        default=[100, 1000, 10000])
    for name in ("program", "tools", "profiles", "work"):
        parser.add_argument(name, type=pathlib.Path)
    options = parser.parse_args()
    (checked if options.check else measured)(options)


sys.exit(main())
