# SPDX-License-Identifier: MIT
"""Two nights of a small inbox, and what must hold of an output folder after any harm."""

import dataclasses
import errno
import os
import pathlib
import shutil
import signal
import sqlite3
import stat
import subprocess
import tempfile

PRIVATE_TO_SQLITE = {"history.sqlite", "history.sqlite-wal", "history.sqlite-shm",
                     "history.sqlite-journal"}
BULK = {"pwrite", "fwrite"}  # thousands of them, much alike
GOOD_ENDS = (0, 1)           # 1: some were set aside, as they should be


@dataclasses.dataclass
class Harm:
    """What happens at the `at`-th call that changes the output folder."""

    do: str
    at: int
    error: int = 0
    go: str = ""

    def __str__(self):
        return f"{self.do} at {self.at}" + (f" ({errno.errorcode[self.error]})" if self.error else "")


@dataclasses.dataclass
class State:
    """An output folder as a run left it that nothing disturbed."""

    files: dict
    folders: set
    rows: dict
    printed: bytes


def rows_of(file):
    """All that a history says but when it was recorded."""
    database = sqlite3.connect(file)
    assert database.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    tables = [name for (name,) in database.execute(
        "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")]
    rows = {}
    for table in tables:
        columns = [row[1] for row in database.execute(f"PRAGMA table_info({table})")
                   if row[1] != "recorded"]
        rows[table] = sorted(map(repr, database.execute(
            f"SELECT {', '.join(columns)} FROM {table}")))
    database.close()
    assert rows.get("grading") is None or len(rows) == 5, "tables were added: look at them too"
    return rows


def is_unpublished(path):
    return any(part.startswith(".publish-") for part in path.parts)


def files_of(out):
    return {str(path.relative_to(out)): path.read_bytes() for path in out.rglob("*")
            if path.is_file() and path.name not in PRIVATE_TO_SQLITE | {".at-work"}
            and not is_unpublished(path.relative_to(out))}


class Bench:
    def __init__(self, program, source, preload, folder):
        self.program, self.preload = os.path.abspath(program), os.path.abspath(preload)
        self.source = pathlib.Path(source).resolve()
        self.folder = pathlib.Path(folder).resolve()
        self.out = self.folder / "out"
        self.inbox = self.folder / "inbox"
        for name in ("s-0402-7-iron", "s-0402-7-iron-again", "s-0406-putter", "s-0411-7-iron",
                     "s-0416-7-iron"):
            shutil.copytree(self.source / "samples/inbox" / name, self.inbox / name)

    def add_swing(self):
        shutil.copytree(self.source / "samples/inbox/s-0426-7-iron", self.inbox / "s-0426-7-iron")

    def change_inbox(self):
        """A report to be given anew, and with it a later one of the same student; one that is now
        set aside; one that was, and now gets its report. One has not changed."""
        manifest = self.inbox / "s-0402-7-iron/submission.yaml"
        text = manifest.read_text()
        changed = text.replace("ball: [555, 1268]", "ball: [550, 1268]")
        assert changed != text
        manifest.write_text(changed)
        film = self.inbox / "s-0406-putter/face-on.json"
        film.write_bytes(film.read_bytes()[:-300])
        good = self.inbox / "s-0416-7-iron"
        shutil.rmtree(good)
        shutil.copytree(self.source / "samples/inbox/s-0401-7-iron", good)
        manifest = good / "submission.yaml"
        manifest.write_text(manifest.read_text().replace("s-0401", "s-0416"))

    def words(self, out=None, workers=1):
        return [self.program, "grade", str(self.inbox), "--profiles",
                str(self.source / "profiles"), "--roster", str(self.source / "samples/roster.csv"),
                "--out", str(out or self.out), "--settle", "0", "--workers", str(workers)]

    def environment(self, harm=None, log=None, out=None):
        """With the harm that a run is to meet; preloading comes before the sanitizers' library."""
        env = dict(os.environ)
        if harm is None and log is None:
            return env
        env |= {"LD_PRELOAD": self.preload, "FAULTS_UNDER": str(out or self.out)}
        # The zip library that the workbook's library uses leaks a few bytes where a write fails.
        env["ASAN_OPTIONS"] = (env.get("ASAN_OPTIONS", "") +
                               ":verify_asan_link_order=0:detect_leaks=0")
        if log is not None:
            env["FAULTS_LOG"] = str(log)
        if harm is not None:
            env |= {"FAULTS_DO": harm.do, "FAULTS_AT": str(harm.at),
                    "FAULTS_ERRNO": str(harm.error), "FAULTS_GO": harm.go}
        return env

    def run(self, harm=None, log=None, out=None, workers=1):
        return subprocess.run(self.words(out, workers), env=self.environment(harm, log, out),
                              check=False, stdout=subprocess.PIPE, stderr=subprocess.PIPE)

    def calls(self, start):
        """The kinds of calls of an undisturbed run that change the output folder, in order."""
        self.reset(start)
        log = self.folder / "log"
        log.unlink(missing_ok=True)
        done = self.run(log=log)
        assert done.returncode in GOOD_ENDS, done
        kinds = [line.split("\t")[0] for line in log.read_text().splitlines()]
        assert len(kinds) > 100, "the library sees what the program does"
        return kinds

    def reset(self, start):
        """The output folder as `start` is, which may be None for none."""
        if self.out.exists():
            shutil.rmtree(self.out)
        if start is not None:
            shutil.copytree(start, self.out)

    def undisturbed(self, start=None, workers=1):
        self.reset(start)
        done = self.run(workers=workers)
        assert done.returncode == 1, done
        return self.state(done.stdout)

    def state(self, printed=b""):
        out = self.out
        for path in (out, *out.rglob("*")):
            mode = stat.S_IMODE(path.lstat().st_mode)
            assert mode == (0o700 if path.is_dir() else 0o600), (oct(mode), path)
        folders = {str(path.relative_to(out)) for path in out.rglob("*") if path.is_dir()}
        rows = rows_of(out / "history.sqlite")
        return State(files_of(out), folders, rows, printed)

    def is_whole(self, before, after):
        """After harm nothing is there by half: each file is that of the night before or of this
        one, and none is gone that both have."""
        if not self.out.exists():
            return
        there = files_of(self.out)
        for name, content in there.items():
            assert content in (before.files.get(name), after.files.get(name)), name
        for name in before.files.keys() & after.files.keys():
            assert name in there, name
        # Looked at in a copy: whoever opens a history completes it.
        with tempfile.TemporaryDirectory(dir=self.folder) as copy:
            for name in PRIVATE_TO_SQLITE:
                if (self.out / name).exists():
                    shutil.copy(self.out / name, copy)
            if (pathlib.Path(copy) / "history.sqlite").exists():
                rows_of(pathlib.Path(copy) / "history.sqlite")

    def is_as(self, after, done, rows=lambda all: all):
        """A run ended as one that nothing disturbed, and left what that left, and nothing else."""
        assert done.returncode == 1, done
        assert done.stdout == after.printed, done.stdout.decode()
        now = self.state()
        assert now.files == after.files, differing(now.files, after.files)
        assert now.folders == after.folders, now.folders ^ after.folders
        for table, content in rows(now.rows).items():
            expected = rows(after.rows)[table]
            assert content == expected, (table, sorted(set(content) ^ set(expected))[:3])
        names = {path.name for path in self.out.rglob("*")}
        strays = {name for name in names if name.startswith(".")} | (
            names & (PRIVATE_TO_SQLITE - {"history.sqlite"}))
        assert not strays, strays

    def others_work(self):
        """What else one may do with a folder in which a run was killed."""
        if not (self.out / "history.sqlite").exists():
            return
        with tempfile.TemporaryDirectory(dir=self.folder) as folder:
            copy = pathlib.Path(folder) / "out"
            shutil.copytree(self.out, copy)
            for command in ("progress", "forget"):
                done = subprocess.run([self.program, command, "s-0402", "--out", str(copy)],
                                      check=False, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
                assert done.returncode in (0, 2), done
                assert done.returncode == 0 or b"s-0402" in done.stderr, done
            for path in copy.rglob("*"):
                assert "s-0402" not in path.name, path
                assert not path.is_file() or b"s-0402" not in path.read_bytes(), path


def differing(one, other):
    return sorted(name for name in one.keys() | other.keys() if one.get(name) != other.get(name))


def is_killed(done):
    return done.returncode == -signal.SIGKILL


def spread(kinds, count, lots):
    """`count` of the calls, all over the run; of the many that are alike, no more than a third."""
    rare = [i + 1 for i, kind in enumerate(kinds) if kind not in BULK]
    bulk = [i + 1 for i, kind in enumerate(kinds) if kind in BULK]
    chosen = []
    for group, share in ((rare, count - count // 3), (bulk, count // 3)):
        step = len(group) / share
        chosen += [group[min(len(group) - 1, int((i + lots.random()) * step))]
                   for i in range(share)]
    return chosen
