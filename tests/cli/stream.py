# SPDX-License-Identifier: MIT
"""Records in, results out: `rangecheck pack INBOX | rangecheck grade -`.

stream.py same PROGRAM SOURCE: the same bytes as the run over the folder, however it is spread.
stream.py broken PROGRAM SOURCE: lines that are no records, and pipes that break.
stream.py alone PROGRAM SOURCE: nothing is written anywhere, and memory stays flat.
stream.py recipes PROGRAM SOURCE: README's recipes as they are printed there."""

import base64
import json
import os
import pathlib
import random
import re
import resource
import shutil
import subprocess
import sys
import tempfile
import time

SKIPPED = 77


class Program:
    def __init__(self, program, source, folder):
        self.program, self.source = os.path.abspath(program), pathlib.Path(source).resolve()
        self.folder = pathlib.Path(folder)
        self.taught = ["--profiles", str(self.source / "profiles"), "--roster",
                       str(self.source / "samples/roster.csv")]

    def run(self, *arguments, given=b"", **other):
        return subprocess.run([self.program, *arguments], input=given, check=False,
                              cwd=other.pop("cwd", self.folder), stdout=subprocess.PIPE,
                              stderr=subprocess.PIPE, **other)

    def pack(self, inbox):
        return self.run("pack", str(inbox))

    def stream(self, records, *more, **other):
        return self.run("grade", "-", *self.taught, *more, given=records, **other)

    def over_folder(self, inbox, out="out"):
        done = self.run("grade", str(inbox), *self.taught, "--out", out, "--settle", "0",
                        "--format", "jsonl")
        shutil.rmtree(self.folder / out)
        return done


def lines(done):
    return [json.loads(line) for line in done.stdout.splitlines()]


def same(run):
    inbox = run.source / "samples/inbox"
    folder = run.over_folder(inbox)
    assert folder.returncode == 1 and folder.stdout.count(b"\n") > 20, folder.stderr
    assert b'"since_last":{' in folder.stdout, "no sample has an earlier submission"
    packed = run.pack(inbox)
    assert packed.returncode == 0 and packed.stderr == b"", packed.stderr
    records = packed.stdout.splitlines(True)
    assert len(records) == folder.stdout.count(b"\n")
    for workers in ("1", "4"):
        done = run.stream(packed.stdout, "--workers", workers)
        assert done.returncode == 1 and done.stdout == folder.stdout, (workers, done.stderr)
    # Each line knows enough: in any order, and in several processes.
    random.Random(1).shuffle(records)
    done = run.stream(b"".join(records))
    assert done.stdout != folder.stdout
    assert sorted(done.stdout.splitlines()) == sorted(folder.stdout.splitlines())
    by_id = packed.stdout.splitlines(True)
    halves = [run.stream(b"".join(part)).stdout for part in (by_id[:9], by_id[9:])]
    assert b"".join(halves) == folder.stdout
    # What people get on stderr is told in order, by id.
    said = run.stream(packed.stdout, "--workers", "1").stderr.decode().splitlines()
    told = [one for one in lines(folder) if one["format"] == "rangecheck-set-aside"]
    assert len(said) == len(told) + 1 and told, said
    for one, line in zip(told, said):
        assert re.match(rf"rangecheck: [0-9]+ {one['submission']}: set aside: ", line), line
    assert said[-1] == f"rangecheck: {len(records) - len(told)} graded, {len(told)} set aside"
    quiet = run.stream(packed.stdout, "--quiet", "--fail-below", "100")
    assert quiet.returncode == 4 and b"surely below 100 %" in quiet.stderr
    strange_folders(run)


def strange_folders(run):
    """What lies in inboxes and is no sample: the same bytes too."""
    inbox, good = run.folder / "strange", run.source / "samples/inbox/s-0401-7-iron"
    inbox.mkdir()
    for name in ("a", "b (2)", "gz", "frames", "link", "linked-film", "linked-manifest", "misnamed",
                 "fifo", "loose-names", "dangling"):
        shutil.copytree(good, inbox / name)
    manifest = (good / "submission.yaml").read_text()
    film = re.search("landmarks: (.*face-on.*)", manifest).group(1)
    views = re.findall("landmarks: (.*)", manifest)
    (inbox / "a" / "film.mp4").write_bytes(b"\0" * 1000)
    subprocess.run(["gzip", str(inbox / "gz" / film)], check=True)
    (inbox / "gz/submission.yaml").write_text(manifest.replace(film, film + ".gz"))
    os.mkdir(inbox / "frames/empty")
    (inbox / "frames/submission.yaml").write_text(manifest.replace(film, "./empty/"))
    shutil.copytree(inbox / "a", run.folder / "elsewhere")
    shutil.rmtree(inbox / "link")
    os.symlink(run.folder / "elsewhere", inbox / "link")
    os.unlink(inbox / "linked-film" / film)
    os.symlink(run.folder / "elsewhere" / film, inbox / "linked-film" / film)
    os.rename(inbox / "linked-manifest/submission.yaml", inbox / "linked-manifest/other.yaml")
    os.symlink("other.yaml", inbox / "linked-manifest/submission.yaml")
    (inbox / "misnamed/submission.yaml").write_text(manifest.replace(film, film.replace("f", "g")))
    os.unlink(inbox / "fifo" / film)
    os.mkfifo(inbox / "fifo" / film)
    os.unlink(inbox / "loose-names/submission.yaml")
    os.unlink(inbox / "dangling" / film)
    os.symlink("nowhere", inbox / "dangling" / film)
    for name in (b"-rf", b"\xff\xfe", b"ends.", b"new\nline", b"empty"):
        os.mkdir(os.path.join(os.fsencode(inbox), name))
    os.mkdir(inbox / "cut")
    (inbox / "cut/submission.yaml").write_bytes(b"\x1f\x8b\x08\0cut")
    shutil.copy(good / views[0], inbox / "s-0401_7-iron_full_face-on.json")
    shutil.copy(good / views[0], inbox / "nobody_7-iron_full_face-on.json")
    shutil.copy(good / views[0], inbox / "notes.json")
    folder, packed = run.over_folder(inbox), run.pack(inbox)
    assert packed.returncode == 1 and b"-rf: set aside: -rf: " in packed.stderr, packed.stderr
    assert b"film.mp4" in packed.stdout and b"\\u0000" not in packed.stdout
    graded = [one["submission"] for one in lines(folder) if one["format"] == "rangecheck-result"]
    assert {"a", "b (2)", "gz", "s-0401_7-iron_full"} <= set(graded), graded
    told = {one["submission"]: one["what"] for one in lines(folder)
            if one["format"] == "rangecheck-set-aside"}
    for name, what in (("link", "is a link"), ("linked-manifest", "is a link"),
                       ("linked-film", "leads out"), ("fifo", "isn't a file"),
                       ("dangling", "leads nowhere"), ("misnamed", "there is no file"),
                       ("frames", "no landmark files"), ("cut", "gzip"), ("-rf", "can't be")):
        assert what in told[name], (name, told[name])
    done = run.stream(packed.stdout, "--workers", "2")
    for ours, theirs in zip(done.stdout.splitlines(), folder.stdout.splitlines()):
        assert ours == theirs, (ours[:2000], theirs[:2000])
    assert done.stdout == folder.stdout and done.returncode == 1


def record(identity="x", files=None, **more):
    return {"format": "rangecheck-submission", "version": 1, "id": identity,
            "files": {} if files is None else files, **more}


def broken(run):
    good = run.pack(run.source / "samples/inbox").stdout.splitlines()[0]
    held = json.loads(good)
    film = next(name for name in held["files"] if name.endswith(".json"))
    files = held["files"]
    nested = record("e10")
    for depth in range(9, -1, -1):
        nested = record(f"e{depth}", earlier=[nested])
    fault = {"fault": "unreadable", "what": "is gone", "remedy": ""}
    aside = {"format": "rangecheck-set-aside", "version": 1, "submission": "y", **fault,
             "file": "", "line": None, "frame": None, "key": ""}
    cases = [
        (b"no json", "isn't valid JSON", ""),
        (good[:-9], "is cut short: the JSON in it doesn't end", ""),
        (good + good, "isn't valid JSON", ""),
        (b"[]", "is no submission as a record", ""),
        (b"[" * 5000, "is nested too deeply", ""),
        (b'{"format": "rangecheck-result"}', "is no submission as a record", ""),
        (good.replace(b"s-0401", b"\xff\xfe"), "isn't valid JSON", ""),
        (b'{"format":"rangecheck-submission","version":1,"id":"x","id":"y","files":{}}',
         "stands here twice", "/id"),
        (b'{"format":"rangecheck-submission","version":1,"id":"x","files":{"a":"1","a":"2"}}',
         "stands here twice", "/files/a"),
        (b'{"format":"rangecheck-submission","version":1,"id":"x"}', 'has no "files"', ""),
        ({**held, "version": 2}, "of a version", "/version"),
        ({**held, "file": {}}, "there is no such key", "/file"),
        ({**held, "id": "../x"}, "can't be the name of a submission", "/id"),
        ({**held, "id": "a\0b"}, "can't be the name of a submission", "/id"),
        ({**held, "id": 7}, "should be a text", "/id"),
        ({**held, "files": []}, "should be an object", "/files"),
        ({**held, "loose": 1}, "should be true or false", "/loose"),
        ({**held, "loose": True, "files": {}}, "names no file", "/files"),
        ({**held, "loose": True, "files": {"a/b.json": ""}}, "in no folder", "/files/a~1b.json"),
        ({**held, "files": {"../../etc/passwd": "x"}}, "leads out", "/files/..~1..~1etc~1passwd"),
        ({**held, "files": {"/etc/passwd": "x"}}, "inside the submission", "/files/~1etc~1passwd"),
        ({**held, "files": {"a\0b": "x"}}, "is no path", "/files/a\\x00b"),
        ({**held, "files": {"": "x"}}, "is no path", "/files/"),
        ({**held, "files": {"./a": "x"}}, "shortest way", "/files/.~1a"),
        ({**held, "files": {"a//b": "x"}}, "shortest way", "/files/a~1~1b"),
        ({**held, "files": {"a/": "x"}}, "is a folder by its name", "/files/a~1"),
        ({**held, "files": {"a": 1}}, "should be an object", "/files/a"),
        ({**held, "files": {"a": {"base64": "!"}}}, "isn't base64", "/files/a/base64"),
        ({**held, "files": {"a": {"base64": "QQ="}}}, "isn't base64", "/files/a/base64"),
        ({**held, "files": {"a": {"base64": "QR=="}}}, "isn't base64", "/files/a/base64"),
        ({**held, "files": {"a": {"base64": "QQ==", "text": ""}}}, "no such key", "/files/a/text"),
        ({**held, "files": {"a": {"error": {**fault, "fault": "bad luck"}}}}, "no kind of fault",
         "/files/a/error/fault"),
        ({**held, "files": {"a": {"error": {**fault, "what": ""}}}}, "is empty",
         "/files/a/error/what"),
        ({**aside, "submission": ""}, "is empty", "/submission"),
        ({**aside, "line": 0}, "should be a whole number", "/line"),
        ({**aside, "frame": 1e12}, "should be a whole number", "/frame"),
        ({**aside, "more": 1}, "there is no such key", "/more"),
        ({**held, "earlier": {}}, "should be a list", "/earlier"),
        ({**held, "earlier": [held]}, "in the record twice", "/earlier/0/id"),
        (nested, "there is no such key", "/earlier/0/earlier"),
    ]
    text = b"".join((case if isinstance(case, bytes) else json.dumps(case).encode()) + b"\n"
                    for case, _, _ in cases)
    # One that can be graded on either side of each, and lines with nothing on them.
    done = run.stream(good + b"\n\n  \r\n" + text + good)  # the last without an end
    told = lines(done)
    assert len(told) == len(cases) + 2 and done.returncode == 1, done.stderr
    assert told[0] == told[-1] and told[0]["format"] == "rangecheck-result"
    for number, ((case, what, key), line) in enumerate(zip(cases, told[1:]), start=4):
        assert line["format"] == "rangecheck-set-aside", (case, line)
        assert (line["submission"], line["file"], line["line"]) == \
            (f"stdin:{number}", "stdin", number), (case, line)
        assert what in line["what"] and line["key"] == key, (case, line)
    errors = run.stream(text, "--errors", "json")
    assert [json.loads(line)["line"] for line in errors.stderr.splitlines()] == \
        list(range(1, len(cases) + 1))

    inside(run, held, film, files)
    usage(run, good)
    pipes(run, good)


def inside(run, held, film, files):
    """Records that are such, of submissions that are none."""
    fault = {"fault": "disagreement", "what": "is gone", "remedy": "look for it"}
    packed = {**files, film: {"base64": base64.b64encode(files[film].encode()).decode()}}
    other = json.loads(json.dumps(held).replace("student: s-0401", "student: s-0402"))
    cases = [
        ({**held, "files": packed}, None),
        (record(files={}), ("x", "holds neither submission.yaml")),
        (record(files={"submission.yaml": None}), ("x/submission.yaml", "without what is in it")),
        (record(files={"submission.yaml/": None}), ("x/submission.yaml", "isn't a file")),
        ({**held, "files": {**files, film: {"error": fault}}},
         (f"{held['id']}/{film}", "is gone")),
        ({**held, "files": {**files, film: "\0"}}, (f"{held['id']}/{film}", "isn't valid JSON")),
        ({**held, "files": {k: v for k, v in files.items() if k != film}},
         (f"{held['id']}/submission.yaml", "there is no file")),
        ({**held, "earlier": [{**other, "id": "before"}]}, ("before", "of another student")),
        ({**held, "earlier": [record("before")]}, None),
        ({"format": "rangecheck-set-aside", "version": 1, "submission": "y", **fault, "file": "y/z",
          "line": 3, "frame": None, "key": "a"}, ("y/z", "is gone")),
    ]
    done = run.stream("\n".join(json.dumps(case) for case, _ in cases).encode())
    for (case, wanted), line in zip(cases, lines(done)):
        if wanted is None:
            assert line["format"] == "rangecheck-result", line
        else:
            assert (line["file"], wanted[1] in line["what"]) == (wanted[0], True), (case, line)
    assert len(lines(done)) == len(cases)
    assert lines(done)[-1] == cases[-1][0]


def usage(run, good):
    for more, what in ((("--out", "o"), b"--out"), (("--junit", "j"), b"--junit"),
                       (("--pseudonyms", "p"), b"--pseudonyms"), (("--units", "cm"), b"--units"),
                       (("--language", "de"), b"--language"), (("--format", "csv"), b"--format"),
                       (("--format", "table"), b"--format"),
                       (("--errors", "json", "--verbose"), b"--verbose")):
        done = run.stream(good, *more)
        assert done.returncode == 2 and what in done.stderr and done.stdout == b"", done
    assert run.stream(good, "--format", "jsonl", "--quiet").stderr == b""
    assert run.run("grade", "-", "--profiles", "nowhere", given=good).returncode == 2
    assert run.stream(b"").returncode == 0
    closed = run.run("grade", "-", *run.taught, preexec_fn=lambda: os.close(0))
    assert closed.returncode == 3 and b"standard input" in closed.stderr, closed
    assert run.pack("nowhere").returncode == 3


def pipes(run, good):
    """Each line comes when it is done, and a reader who goes away ends it with 3."""
    command = [run.program, "grade", "-", *run.taught, "--workers", "2"]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                          stderr=subprocess.PIPE) as one:
        for _ in range(3):
            one.stdin.write(good + b"\n")
            one.stdin.flush()
            assert json.loads(one.stdout.readline())["format"] == "rangecheck-result"
        one.stdout.close()
        try:
            for _ in range(100):
                one.stdin.write(good + b"\n")
                one.stdin.flush()
                time.sleep(0.05)
        except BrokenPipeError:
            pass
        said = one.stderr.read()
        assert one.wait(timeout=60) == 3 and b"nobody reads standard output" in said, said
    with open("/dev/full", "wb") as full:
        done = subprocess.run(command, input=good, stdout=full, stderr=subprocess.PIPE, check=False)
    assert done.returncode == 3 and b"can't write to standard output" in done.stderr, done


def peak_kib(run, records):
    """The most memory that a stream of these had."""
    source = run.folder / "records.jsonl"
    source.write_bytes(records)
    with open(source, "rb") as given, open(os.devnull, "wb") as nowhere:
        child = subprocess.Popen([run.program, "grade", "-", *run.taught, "--workers", "2"],
                                 stdin=given, stdout=nowhere, stderr=nowhere)
        _, status, used = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    assert child.returncode in (0, 1), child.returncode
    return used.ru_maxrss


def alone(run):
    packed = run.pack(run.source / "samples/inbox").stdout
    empty = run.folder / "empty"
    empty.mkdir()
    os.chmod(empty, 0o500)
    trace = shutil.which("strace")
    first = packed.splitlines(True)[0]
    environment = {"HOME": str(empty), "TMPDIR": str(empty), "PATH": os.environ["PATH"]}
    done = run.stream(first, cwd=empty, env=environment)
    assert done.returncode == 0 and list(empty.iterdir()) == [], done.stderr
    if trace:
        log = run.folder / "trace"
        command = [trace, "-f", "-e", "trace=openat,open,creat,mkdir,mkdirat,rename,unlink", "-o",
                   str(log), run.program, "grade", "-", *run.taught]
        assert subprocess.run(command, input=first, check=False,
                              stdout=subprocess.DEVNULL).returncode == 0
        opened = log.read_text(encoding="utf-8")
        assert "openat(" in opened
        assert not re.search("O_WRONLY|O_RDWR|O_CREAT|mkdir|rename|unlink|creat\\(", opened), opened
    else:
        print("no strace here: what is opened was not looked at")

    few, many = (peak_kib(run, packed * times) for times in (1, 8))
    print(f"peak: {few} KiB for one inbox of records, {many} KiB for eight")
    assert many < 1.3 * few, (few, many)


def recipes(run):
    """README's blocks between marks are run as they are, in a folder of a coach's."""
    text = (run.source / "README.md").read_text(encoding="utf-8")
    section = text.split("\n## Spread over many processes\n")[1].split("\n## ")[0]
    parallel, array = re.findall("```sh\n(.*?)```", section, re.S)
    for part in ("inbox", "roster.csv"):
        os.symlink(run.source / "samples" / part, run.folder / part)
    os.symlink(run.source / "profiles", run.folder / "profiles")
    programs = run.folder / "bin"
    programs.mkdir()
    os.symlink(run.program, programs / "rangecheck")
    environment = {**os.environ, "PATH": f"{programs}:{os.environ['PATH']}"}
    shell = {"cwd": run.folder, "env": environment, "check": False}
    expected = run.over_folder(run.folder / "inbox").stdout

    # The array's script without Slurm: a task is a process with these variables.
    (run.folder / "records.jsonl").write_bytes(run.pack("inbox").stdout)
    for task in range(1, 5):
        done = subprocess.run(["sh", "-c", array], **{**shell, "env": {
            **environment, "SLURM_ARRAY_TASK_ID": str(task), "SLURM_ARRAY_TASK_COUNT": "4",
            "SLURM_CPUS_PER_TASK": "1"}})
        assert done.returncode == 0, done
    parts = sorted(run.folder.glob("results-*.jsonl"))
    assert len(parts) == 4 and b"".join(part.read_bytes() for part in parts) == expected

    if not shutil.which("parallel"):
        print("GNU parallel is not installed: its recipe was not run")
        sys.exit(SKIPPED)
    done = subprocess.run(["sh", "-c", parallel], stderr=subprocess.PIPE, **shell)
    assert (run.folder / "results.jsonl").read_bytes() == expected, done.stderr


def main(what, program, source):
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    with tempfile.TemporaryDirectory() as folder:
        {"same": same, "broken": broken, "alone": alone, "recipes": recipes}[what](
            Program(program, source, folder))


main(*sys.argv[1:])
