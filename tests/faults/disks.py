# SPDX-License-Identifier: MIT
"""Real disks that are full, have no room for one more file, or can only be read: small file systems
in memory, in a mount namespace of the test's own."""

import contextlib
import ctypes
import os
import shutil
import subprocess

from bench import GOOD_ENDS, files_of

SKIPPED = 77
CLONE_NEWNS, MS_REC, MS_PRIVATE = 0x20000, 0x4000, 1 << 18  # from linux/sched.h and linux/mount.h


def own_mounts():
    """Whether this process may mount, and does so unseen by others; what it mounts goes with it."""
    libc = ctypes.CDLL(None, use_errno=True)
    done = os.geteuid() == 0 and libc.unshare(CLONE_NEWNS) == 0 and libc.mount(
        b"none", b"/", None, MS_REC | MS_PRIVATE, None) == 0
    if not done:
        print("skipped: only root can mount small disks; without it, errors tests the same by "
              "calls that fail")
    return done


def mount(*words):
    subprocess.run(["mount", *map(str, words)], check=True)


@contextlib.contextmanager
def small_disk(bench, start, options):
    """The bench with its output folder on a disk of its own, of which `start` takes what it
    takes."""
    disk = bench.folder / "disk"
    disk.mkdir()
    mount("-t", "tmpfs", "-o", options, "tmpfs", disk)
    kept, bench.out = bench.out, disk / "out"
    try:
        shutil.copytree(start, bench.out)
        yield disk
    finally:
        bench.out = kept
        subprocess.run(["umount", "--lazy", disk], check=True)
        disk.rmdir()


def tried(bench, night, check_told, more):
    """One run with too little, which says so or has left everything; then one with enough."""
    before, after = night
    done = bench.run()
    bench.is_whole(before, after)
    if done.returncode == 3:
        check_told(done, bench.out)
        assert b"make room" in done.stderr or b"remove some" in done.stderr, done
    else:
        assert done.returncode in GOOD_ENDS and bench.state().files == after.files, done
    more()
    bench.is_as(after, bench.run())
    return done


def sweep(bench, count, nights, check_told, limits):
    """`limits(place)` gives for 0 < place < 1 what a disk holds, and what to say to mount."""
    before, start, after = nights(bench)
    if not own_mounts():
        return SKIPPED
    told = []
    for turn in range(count):
        small, large = limits(start, (turn + 0.5) / count)
        try:
            with small_disk(bench, start, small) as disk:
                done = tried(bench, (before, after), check_told,
                             lambda: mount("-o", f"remount,{large}", disk))
        except AssertionError as error:
            raise AssertionError(f"{small}: {error}") from error
        told.append(done.stderr.decode().splitlines()[-1] if done.returncode == 3 else "")
    assert sum(map(bool, told)) > count / 2, told
    print(*sorted(set(told)), sep="\n")
    return 0


def pages_of(folder):
    """How many pages a tmpfs needs for it, besides its own."""
    return sum(-(-path.stat().st_size // 4096) for path in folder.rglob("*") if path.is_file())


def full(bench, count, nights, check_told):
    def limits(start, place):
        taken = pages_of(start)
        return f"size={4 * int(taken + 1 + place * 300)}k", "size=64m"
    return sweep(bench, count, nights, check_told, limits)


def inodes(bench, count, nights, check_told):
    def limits(start, place):
        taken = 2 + sum(1 for _ in start.rglob("*"))
        return f"size=64m,nr_inodes={int(taken + 1 + place * 8)}", "size=64m,nr_inodes=1000"
    return sweep(bench, count, nights, check_told, limits)


def read_only(bench, nights, check_told):
    """Nothing changes; by a mount, and for others than root by the folder's mode."""
    before, start, after = nights(bench)

    def refused():
        done = bench.run()
        assert done.returncode == 3 and done.stdout == b"", done
        check_told(done, bench.out)
        return done.stderr

    if os.geteuid() != 0:
        bench.reset(start)
        bench.out.chmod(0o500)
        assert b"check who may write there" in refused()
        bench.out.chmod(0o700)
        assert files_of(bench.out) == before.files
        bench.is_as(after, bench.run())
        return 0
    if not own_mounts():
        return SKIPPED
    with small_disk(bench, start, "size=64m") as disk:
        mount("-o", "remount,ro", disk)
        assert b"make it writable" in refused()
        assert files_of(bench.out) == before.files
        mount("-o", "remount,rw", disk)
        bench.is_as(after, bench.run())
    return 0
