# SPDX-License-Identifier: MIT
"""Whole runs that are killed, or that the disk fails, and the run after them: it must leave what an
undisturbed one leaves, byte for byte.

faults.py PART PROGRAM SOURCE PRELOAD COUNT: one of `parts`, below; COUNT is how much harm is done."""

import errno
import os
import pathlib
import random
import re
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time

import disks
from bench import GOOD_ENDS, Bench, Harm, is_killed, spread

SEED = 20260314
SKIPPED = 77


def second_night(bench):
    """The state before it, a folder to begin it from, and the state after it."""
    before = bench.undisturbed()
    start = bench.folder / "start"
    shutil.copytree(bench.out, start)
    bench.change_inbox()
    return before, start, bench.undisturbed(start)


def first_night(bench):
    after = bench.undisturbed()
    return type(after)({}, set(), {}, b""), None, after


def kills(bench, count, night):
    """SIGKILL before, in the middle of or after any call that changes the folder; every fourth time
    the run after it is killed too."""
    before, start, after = night(bench)
    kinds = bench.calls(start)
    lots = random.Random(SEED)
    killed = 0
    for turn, at in enumerate(spread(kinds, count, lots)):
        modes = ["kill-before", "kill-after"]
        if kinds[at - 1] in ("write", "pwrite", "fwrite"):
            modes = ["kill-half", "kill-half", *modes]
        harm = Harm(lots.choice(modes), at)
        try:
            bench.reset(start)
            assert is_killed(bench.run(harm))
            killed += 1
            bench.is_whole(before, after)
            if turn % 4 == 3:
                killed += is_killed(bench.run(Harm("kill-before", lots.randrange(1, at + 1))))
                bench.is_whole(before, after)
            if turn % 10 == 9:
                bench.others_work()
            bench.is_as(after, bench.run())
        except AssertionError as error:
            raise AssertionError(f"{harm} of {len(kinds)} ({kinds[at - 1]}): {error}") from error
    print(f"seed {SEED}: {killed} kills at {count} of {len(kinds)} calls")


def without_order(rows):
    """What a history says that does not hang on which worker was first."""
    return {"note": rows["note"], "worked": [row.split(", ")[0] for row in rows["worked"]]}


def timed_kills(bench, count):
    """SIGKILL from outside at any moment, with two workers and a whole swing."""
    bench.add_swing()
    before, start, after = second_night(bench)
    began = time.monotonic()
    bench.reset(start)
    bench.run(workers=2)
    takes_s = time.monotonic() - began
    lots, killed = random.Random(SEED), 0
    for _ in range(count):
        bench.reset(start)
        with subprocess.Popen(bench.words(workers=2), stdout=subprocess.DEVNULL,
                              stderr=subprocess.DEVNULL) as program:
            time.sleep(lots.uniform(0, takes_s))
            program.send_signal(signal.SIGKILL)
        killed += is_killed(program)
        bench.is_whole(before, after)
        bench.is_as(after, bench.run(workers=2), without_order)
    assert killed > count / 5, killed  # the machine may have been slower before
    print(f"seed {SEED}: {killed} of {count} runs were killed before their end")


def check_told(done, out):
    """An end with 3 says which file, and what to do."""
    lines = done.stderr.decode().splitlines()
    told = [line for line in lines if re.match(
        rf"rangecheck: ({re.escape(str(out))}[^:]*|history\.sqlite|rangecheck\.xlsx): .+ \(.+\)$", line)]
    assert len(told) == 1 and told[0] == lines[-1], lines


def errors(bench, count):
    """A full disk, an error of the disk once and a disk that turns read-only, at any call."""
    before, start, after = second_night(bench)
    kinds = bench.calls(start)
    lots = random.Random(SEED)
    stopped = 0
    for turn, at in enumerate(spread(kinds, count, lots)):
        # The library that writes the workbook takes no notice where a write into a file of its own
        # fails and the next one does not.
        once = "fail-from" if kinds[at - 1] == "fwrite" else "fail"
        harm = (Harm("full", at, errno.ENOSPC), Harm(once, at, errno.EIO),
                Harm("fail-from", at, errno.EROFS))[turn % 3]
        try:
            bench.reset(start)
            done = bench.run(harm)
            bench.is_whole(before, after)
            if done.returncode in GOOD_ENDS:  # what failed mattered to no output
                assert done.stdout == after.printed
                assert bench.state().files == after.files
            else:
                stopped += 1
                assert done.returncode == 3 and done.stdout == b"", done
                check_told(done, bench.out)
            bench.is_as(after, bench.run())
        except AssertionError as error:
            raise AssertionError(f"{harm} of {len(kinds)} ({kinds[at - 1]}): {error}") from error
    assert stopped > count / 2, stopped
    print(f"seed {SEED}: {stopped} of {count} runs could not go on")


def stdout_full(bench, _):
    """Who gets no table is told, and the outputs are there."""
    after = bench.undisturbed()
    bench.reset(None)
    with open("/dev/full", "wb") as full:
        done = subprocess.run(bench.words(), check=False, stdout=full, stderr=subprocess.PIPE)
    assert done.returncode == 3 and b"standard output" in done.stderr, done
    assert bench.state().files == after.files


def begun(bench, harm):
    return subprocess.Popen(bench.words(), env=bench.environment(harm), stdout=subprocess.PIPE,
                            stderr=subprocess.PIPE)


def is_refused(done, holder):
    """Ended with 3 at once, and says who has the folder, where and since when."""
    told = (rf"rangecheck: .*: another rangecheck is at work there: process {holder} on "
            rf"{re.escape(socket.gethostname())}, since \d{{4}}-\d\d-\d\dT\d\d:\d\d:\d\dZ \(.+\)\n")
    assert done.returncode == 3 and re.fullmatch(told.encode(), done.stderr), done
    assert done.stdout == b""


def finished(program):
    out, err = program.communicate(timeout=120)
    return subprocess.CompletedProcess(program.args, program.returncode, out, err)


def at_once(bench, many, harm):
    """Starts `many`, of which one stays at work until the others have ended; who that is."""
    programs = [begun(bench, harm) for _ in range(many)]
    ends = time.monotonic() + 120
    while sum(program.poll() is None for program in programs) > 1:
        assert time.monotonic() < ends, "only one runs, and the others do not wait for it"
        time.sleep(0.01)
    holder = next(program for program in programs if program.poll() is None)
    for program in programs:
        if program is not holder:
            is_refused(finished(program), holder.pid)
    return holder


def starts(bench, rounds):
    """Of two or eight that start together one runs."""
    after = bench.undisturbed()
    go = bench.folder / "go"
    late = bench.calls(None).index("fdatasync") + 1  # of the history: who is at work is written
    for turn in range(rounds):
        for many in (2, 8):
            bench.reset(None)
            go.unlink(missing_ok=True)
            holder = at_once(bench, many, Harm("wait", late, go=str(go)))
            forget = subprocess.run([bench.program, "forget", "s-0402", "--out", str(bench.out)],
                                    check=False, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
            is_refused(forget, holder.pid)
            go.touch()
            bench.is_as(after, finished(holder))
    # And the other way round.
    forget = subprocess.Popen([bench.program, "forget", "s-0402", "--out", str(bench.out)],
                              env=bench.environment(Harm("wait", 8, go=str(bench.folder / "go2"))),
                              stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    wait_for(bench.out / ".at-work")
    is_refused(bench.run(), forget.pid)
    (bench.folder / "go2").touch()
    assert finished(forget).returncode == 0


def wait_for(path):
    ends = time.monotonic() + 120
    while not path.exists():
        assert time.monotonic() < ends, path
        time.sleep(0.01)


def stale_lock(bench, _):
    """What a killed program leaves holds nobody up and is taken for nobody's."""
    after = bench.undisturbed()
    late = bench.calls(None).index("fdatasync") + 1
    never = str(bench.folder / "never")
    bench.reset(None)
    holder = at_once(bench, 2, Harm("wait", late, go=never))
    holder.kill()
    holder.wait()
    note = bench.out / ".at-work"
    left = note.read_bytes()
    assert str(holder.pid).encode() in left
    bench.is_as(after, bench.run())
    # The note is still the dead one's when the next has got the folder: nobody is told of it.
    note.write_bytes(left)
    note.chmod(0o600)
    holder = begun(bench, Harm("wait", 1, go=never))
    lock = f":{bench.out.stat().st_ino} ".encode()
    ends = time.monotonic() + 120
    while lock not in pathlib.Path("/proc/locks").read_bytes():
        assert time.monotonic() < ends, "got the folder"
        time.sleep(0.01)
    refused = bench.run()
    assert refused.returncode == 3 and b"another rangecheck is at work there (" in refused.stderr, (
        refused)
    assert note.read_bytes() == left
    holder.kill()
    holder.wait()
    # Whatever the note says.
    for text in (left, b"", b"process 1 on elsewhere, since 2026-03-14T02:00:00Z"):
        note.write_bytes(text)
        note.chmod(0o600)
        bench.is_as(after, bench.run())


def seen(bench, _):
    """The library sees all that a tracer sees of the program's changes to the folder."""
    log, trace = bench.folder / "log", bench.folder / "trace"
    same = {"unlink": ("unlink", "remove"), "rename": ("rename",), "mkdir": ("mkdir",),
            "fsync": ("fsync",), "fdatasync": ("fdatasync",), "ftruncate": ("ftruncate",),
            "pwrite64": ("pwrite",), "fchmod": ("fchmod",), "fchown": ("fchown",)}
    none = ("truncate", "fallocate", "chmod", "fchmodat", "chown", "link", "linkat",
            "symlink", "symlinkat", "writev", "pwritev", "pwritev2", "copy_file_range", "sendfile",
            "renameat", "renameat2", "unlinkat", "mkdirat", "msync")
    if shutil.which("strace") is None:
        print("skipped: there is no strace")
        return SKIPPED
    before, begin, _ = second_night(bench)
    bench.reset(begin)
    names = ",".join(["openat", "write", *same, *none])
    env = {name: value for name, value in bench.environment(log=log).items()
           if name in ("LD_PRELOAD", "FAULTS_UNDER", "FAULTS_LOG", "ASAN_OPTIONS")}
    done = subprocess.run(["strace", "-f", "-y", "-qq", "-o", trace, "-e", f"trace={names}",
                           *[word for item in env.items() for word in ("-E", "=".join(item))],
                           *bench.words()], check=False, capture_output=True)
    assert done.returncode == 1 and log.exists(), done
    counted = [line.split("\t")[0] for line in log.read_text().splitlines()]
    traced = {name: 0 for name in (*same, *none, "open", "write")}
    for line in trace.read_text(errors="replace").splitlines():
        # Descriptors come with their paths; what is written isn't looked at.
        call = re.match(r"\d+ +(\w+)\((\d+<[^>]*>|[^\"]*\"[^\"]*\")", line)
        if not call or f"{bench.out}" not in call[2]:
            continue
        if call[1] == "openat":
            traced["open"] += bool(re.search("O_CREAT|O_TRUNC", line))
        else:
            traced[call[1]] += 1
    for name, kinds in same.items():
        assert traced[name] == sum(counted.count(kind) for kind in kinds), (name, traced[name])
    assert traced["open"] == counted.count("open") + counted.count("fopen"), traced
    assert all(traced[name] == 0 for name in none), traced
    # Of the workbook's writes libc gathers many into one.
    assert counted.count("write") < traced["write"] < counted.count("write") + counted.count(
        "fwrite"), traced
    assert min(traced[name] for name in ("rename", "unlink", "fsync", "pwrite64", "write")) > 10
    print(f"{len(counted)} calls")
    return 0


parts = {
    "kills-first-night": lambda bench, count: kills(bench, count, first_night),
    "kills-second-night": lambda bench, count: kills(bench, count, second_night),
    "kills-timed": timed_kills,
    "errors": errors,
    "stdout": stdout_full,
    "full-disk": lambda bench, count: disks.full(bench, count, second_night, check_told),
    "inodes": lambda bench, count: disks.inodes(bench, count, second_night, check_told),
    "read-only": lambda bench, count: disks.read_only(bench, second_night, check_told),
    "starts": starts,
    "stale-lock": stale_lock,
    "seen": seen,
}


def main(what, program, source, preload, count):
    # In memory where that can be: the system's own copies of files survive a SIGKILL.
    memory = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None
    with tempfile.TemporaryDirectory(dir=memory) as folder:
        return parts[what](Bench(program, source, preload, folder), int(count)) or 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
