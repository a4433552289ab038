# SPDX-License-Identifier: MIT
"""Whole runs over the sample inbox, and what they leave of people, byte by byte.

data_care.py modes PROGRAM SOURCE: every file is 0600 and every folder 0700, whatever the umask.
data_care.py pseudonyms PROGRAM SOURCE: no output tells who is who.
data_care.py forget PROGRAM SOURCE: nothing is left of a student, and all of the others."""

import csv
import os
import pathlib
import random
import shutil
import signal
import stat
import subprocess
import sys
import tempfile
import time
import zipfile


class Night:
    """A folder with an inbox and a roster, and the program."""

    def __init__(self, program, source, folder):
        self.program, self.source = os.path.abspath(program), pathlib.Path(source).resolve()
        self.folder = pathlib.Path(folder)
        shutil.copytree(self.source / "samples/inbox", self.folder / "inbox")
        shutil.copy(self.source / "samples/roster.csv", self.folder / "roster.csv")
        self.out = self.folder / "out"

    def run(self, *words, umask=0o022):
        return subprocess.run([self.program, *words], cwd=self.folder, umask=umask, check=False,
                              stdout=subprocess.PIPE, stderr=subprocess.PIPE)

    def grade(self, *more, out="out", umask=0o022):
        return self.run("grade", "inbox", "--profiles", str(self.source / "profiles"), "--roster",
                        "roster.csv", "--out", out, "--settle", "0", *more, umask=umask)


def files_of(folder):
    return sorted(path for path in folder.rglob("*") if path.is_file())


def bytes_of(path):
    """All bytes that a file holds; of a workbook also those of its documents."""
    yield path.read_bytes()
    if path.suffix == ".xlsx":
        with zipfile.ZipFile(path) as book:
            for name in book.namelist():
                yield book.read(name)


def find(words, folder):
    """Which of `words` occur in names or bytes below `folder`."""
    found = set()
    for path in folder.rglob("*"):
        name = str(path.relative_to(folder)).encode()
        for content in [name, *(bytes_of(path) if path.is_file() else [])]:
            found |= {(word, str(path)) for word in words if word in content}
    return found


def modes(night):
    for umask in (0o000, 0o022):
        out = f"deep/{umask}/out"
        assert night.grade("--pseudonyms", f"keys/{umask}/key.csv", out=out,
                           umask=umask).returncode == 1
        film = "inbox/s-0411-7-iron/face-on.json"
        converted = night.run("convert", film, "--image", "1080x1920", "--out",
                              f"deep/{umask}/films/one.jsonl", umask=umask)
        assert converted.returncode == 0, converted.stderr
        for made in ("deep", "keys"):
            paths = [night.folder / made, *(night.folder / made).rglob("*")]
            assert len(paths) > (20 if made == "deep" else 2)
            for path in paths:
                mode = stat.S_IMODE(path.lstat().st_mode)
                assert mode == (0o700 if path.is_dir() else 0o600), (oct(mode), path)


def disguise(night):
    """Names that no other text holds; and a student whose submissions tell it in many ways."""
    path = night.folder / "roster.csv"
    rows = list(csv.reader(path.read_text().splitlines()))
    for row in rows[1:]:
        row[1] = "Zq" + row[1]
    rows.append(["zq-ada", "Zqada Zqlovell", "right", "170 cm", "", "", ""])
    with open(path, "w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows(rows)
    inbox = night.folder / "inbox"
    broken = inbox / "zq-ada Zqada driver"
    shutil.copytree(inbox / "s-0416-7-iron", broken)
    (broken / "face-on.json").rename(broken / "Zqada.json")
    manifest = broken / "submission.yaml"
    manifest.write_text(manifest.read_text().replace("s-0416", "zq-ada")
                        .replace("face-on.json", "Zqada.json"))
    missing = inbox / "zq-ada-missing"
    shutil.copytree(broken, missing)
    (missing / "submission.yaml").write_text(manifest.read_text().replace("Zqada.j", "Zqadas.j"))
    stranger = inbox / "zq-stranger"
    shutil.copytree(inbox / "s-0417-7-iron", stranger)
    (stranger / "submission.yaml").write_text(
        (inbox / "s-0401-7-iron/submission.yaml").read_text().replace("s-0401", "zq-adaa"))
    keyed = inbox / "zq-keyed"
    shutil.copytree(inbox / "s-0401-7-iron", keyed)
    (keyed / "submission.yaml").write_text(
        (keyed / "submission.yaml").read_text() + "Zqmother: \"Zqada's first\"\n")
    (inbox / "zq=bad\x01name").mkdir()
    own = night.folder / "profiles"
    shutil.copytree(night.source / "profiles", own)
    (own / "students").mkdir()
    (own / "students/s-0401.yaml").write_text(
        "version: 1\nbecause: a new hip\ntarget: { stance-width: 12..18 in }\n")
    secrets = {"Zqada", "s-040", "Zqmother"} | {cell for row in rows[1:] for cell in row[:2]}
    return {secret.encode() for secret in secrets | {path.name for path in inbox.iterdir()}}


def key_of(night):
    with open(night.folder / "key.csv", encoding="utf-8", newline="") as file:
        return {(row["kind"], row["id"]): row["pseudonym"] for row in csv.DictReader(file)}


def pseudonyms(night):
    secrets = disguise(night)
    profiles = ["--profiles", "profiles"]
    words = ["grade", "inbox", "--settle", "0", *profiles, "--roster", "roster.csv", "--pseudonyms", "key.csv"]
    plain = night.run(*words[:-2], "--out", "plain")
    assert plain.returncode == 1, plain.stderr
    assert find(secrets, night.folder / "plain"), "the search finds names where there are some"
    first = night.run(*words, "--out", "out")
    assert first.returncode == 1, first.stderr
    assert find(secrets, night.out) == set()
    # Nor does what is printed, in any form, or told on the way.
    for form in ("table", "jsonl"):
        told = night.run(*words, "--out", "out", "--format", form)
        assert told.returncode == 1, told.stderr
        for secret in secrets:
            assert secret not in told.stdout and secret not in told.stderr, secret
    # What the messages still say: which file and line, and what to do.
    texts = " ".join(path.read_text() for path in (night.out / "set-aside").iterdir())
    for part in ("/submission.yaml:10: views[0].…: there is no such key (did you mean frame-rate?)",
                 "/face-on.json:1: is cut short", "/….json:1: is cut short"):
        assert part in texts, (part, texts)
    assert "for this student: a new hip" in "".join(
        path.read_text() for path in night.out.glob("students/*/result.json"))

    # The same for each student from night to night, another for each, a new one for a new student.
    before = key_of(night)
    assert len(set(before.values())) == len(before) > 50
    assert before[("student", "s-0402")].startswith("student-")
    with open(night.folder / "roster.csv", "a", encoding="utf-8") as file:
        file.write("zq-new,Zqnew,right,170 cm,,,\n")
    assert night.run(*words, "--out", "out").returncode == 1
    after = key_of(night)
    assert before.items() <= after.items()
    assert set(after) - set(before) == {("student", "zq-new")}
    assert find(secrets | {b"Zqnew"}, night.out) == set()
    # Drawn by lot: another key has others.
    other = night.run(*words[:-1], "other.csv", "--out", "other")
    assert other.returncode == 1
    with open(night.folder / "other.csv", encoding="utf-8", newline="") as file:
        drawn = {row["pseudonym"] for row in csv.DictReader(file)}
    assert not drawn & set(after.values())

    # Progress goes by the pseudonym, and so does forgetting.
    jonas = after[("student", "s-0402")]
    progress = night.run("progress", jonas, "--out", "out")
    assert b"2 submissions" in progress.stdout, progress
    theirs = {after[("submission", "s-0402-7-iron")].encode(), jonas.encode()}
    assert len({word for word, _ in find(theirs, night.out)}) == 2
    key = (night.folder / "key.csv").read_bytes()
    assert night.run("forget", jonas, "--out", "out", "--dry-run").returncode == 0
    assert night.run("forget", jonas, "--out", "out", "--pseudonyms", "key.csv",
                     "--dry-run").returncode == 0
    assert (night.folder / "key.csv").read_bytes() == key
    half_a_key = night.folder / ".publish-abc123"  # as a killed run leaves it
    half_a_key.write_text("student,s-0402,")
    assert night.run("forget", jonas, "--out", "out", "--pseudonyms", "key.csv").returncode == 0
    assert find(theirs, night.out) == set()
    assert not half_a_key.exists()
    gone = {("student", "s-0402"), ("submission", "s-0402-7-iron"),
            ("submission", "s-0402-7-iron-again")}
    assert set(after) - set(key_of(night)) == gone

    # One output folder has names or pseudonyms of one key; the key lies outside, for one person.
    refused = [(words[:-2], "out"), ([*words], "plain"), ([*words[:-1], "other.csv"], "out"),
               ([*words[:-1], "slip.csv"], "out"),
               ([*words[:-1], "out/key.csv"], "out"), ([*words[:-1], "inbox/key.csv"], "out2")]
    for line, out in refused:
        assert night.run(*line, "--out", out).returncode == 2, (line, out)
    assert not (night.folder / "slip.csv").exists()
    os.chmod(night.folder / "key.csv", 0o644)
    open_key = night.run(*words, "--out", "out")
    assert open_key.returncode == 2 and b"0600" in open_key.stderr, open_key


def forget(night):
    assert night.grade().returncode == 1
    theirs = {b"s-0402", b"Jonas"}
    others = {path: path.read_bytes() for path in files_of(night.out)
              if "s-0402" not in str(path) and path.suffix in (".txt", ".html", ".json", ".csv")
              and path.name != "coach.html"}
    assert len({word for word, _ in find(theirs, night.out)}) == 2
    note = night.out / "students/s-0402-7-iron/note.txt"
    note.write_text("the coach's own")
    for place in (night.out, note.parent, night.out / "set-aside"):
        (place / ".publish-abc123").write_text("s-0402")

    def same(path):
        rows = others[path].split(b"\r\n")
        return path.read_bytes() == b"\r\n".join(row for row in rows if b"s-0402" not in row)

    before = {path: path.read_bytes() for path in files_of(night.out)}
    looked = night.run("forget", "s-0402", "--out", "out", "--dry-run")
    assert looked.returncode == 0 and b"would be removed" in looked.stdout
    assert {path: path.read_bytes() for path in files_of(night.out)} == before
    typo = night.run("forget", "s-0403x", "--out", "out")
    assert typo.returncode == 2 and b"did you mean s-0403?" in typo.stderr, typo
    for path, content in before.items():
        assert path.suffix == ".sqlite" or path.read_bytes() == content
    whole = night.folder / "whole"
    shutil.copytree(night.out, whole)

    done = night.run("forget", "s-0402", "--out", "out")
    assert done.returncode == 0, done.stderr
    for line in (b"students/s-0402-7-iron/result.json", b"submissions.csv: 2 rows",
                 b"history.sqlite: 2 grades", b"note.txt: was not written", b"coach.html: whole"):
        assert line in done.stdout, (line, done.stdout)
    assert b"Jonas" not in done.stdout + done.stderr
    assert note.read_text() == "the coach's own"
    assert {str(path) for _, path in find(theirs, night.out)} == {str(note), str(note.parent)}
    assert all(same(path) for path in others)
    assert night.run("progress", "s-0402", "--out", "out").returncode == 2
    assert night.run("progress", "s-0401", "--out", "out").returncode == 0

    # Without its history an output folder still knows whose reports are in it.
    alone = night.folder / "alone"
    shutil.copytree(whole, alone)
    (alone / "history.sqlite").rename(alone / "history.sqlite-wal")
    (alone / "students/s-0402-7-iron/note.txt").unlink()
    assert night.run("forget", "s-0402", "--out", "alone").returncode == 0
    assert find(theirs, alone) == set()
    # One that was only ever set aside is known too.
    assert night.run("forget", "s-0416", "--out", "alone").returncode == 0
    assert find({b"s-0416"}, alone) == set()

    killed_anywhere(night, whole, theirs)
    links(night, whole)


def killed_anywhere(night, whole, theirs):
    """Killed at any moment, the same command again leaves nothing."""
    timed = night.folder / "timed"
    shutil.copytree(whole, timed)
    began = time.monotonic()
    assert night.run("forget", "s-0402", "--out", "timed").returncode == 0
    takes_s = time.monotonic() - began
    lots, interrupted = random.Random(5), 0
    for turn in range(25):
        out = night.folder / f"killed-{turn}"
        shutil.copytree(whole, out)
        (out / "students/s-0402-7-iron/note.txt").unlink()
        command = [night.program, "forget", "s-0402", "--out", out.name]
        with subprocess.Popen(command, cwd=night.folder, stdout=subprocess.DEVNULL,
                              stderr=subprocess.DEVNULL) as program:
            time.sleep(lots.uniform(0, 1.2 * takes_s))
            program.send_signal(signal.SIGKILL)
        interrupted += program.returncode == -signal.SIGKILL
        again = night.run(*command[1:])
        assert again.returncode in (0, 2), again
        assert find(theirs, out) == set(), (turn, find(theirs, out))
        shutil.rmtree(out)
    print(f"{interrupted} of 25 were killed before their end")


def links(night, whole):
    """Nothing is removed or read through a link."""
    elsewhere = night.folder / "elsewhere"
    shutil.copytree(whole / "students/s-0402-7-iron", elsewhere / "s-0402-7-iron")
    for place in ("students", "students/s-0402-7-iron", "set-aside", "checks.csv"):
        out = night.folder / "linked"
        shutil.copytree(whole, out)
        path = out / place
        shutil.rmtree(path) if path.is_dir() else path.unlink()
        path.symlink_to(elsewhere if place == "students" else elsewhere / "s-0402-7-iron")
        before = files_of(out)
        refused = night.run("forget", "s-0402", "--out", "linked")
        assert refused.returncode == 3 and b"is a link" in refused.stderr, (place, refused)
        assert files_of(out) == before
        assert len(files_of(elsewhere)) == 5
        shutil.rmtree(out)


def main(what, program, source):
    with tempfile.TemporaryDirectory() as folder:
        {"modes": modes, "pseudonyms": pseudonyms, "forget": forget}[what](
            Night(program, source, folder))


main(*sys.argv[1:])
