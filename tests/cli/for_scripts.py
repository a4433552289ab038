# SPDX-License-Identifier: MIT
"""What scripts, CI systems and terminals get of a run.

for_scripts.py codes PROGRAM SOURCE: --fail-below and the exit codes.
for_scripts.py junit PROGRAM SOURCE: the XML, by Python's parser and by two published schemas.
for_scripts.py errors PROGRAM SOURCE: --errors json, --quiet and --verbose.
for_scripts.py terminal PROGRAM SOURCE: the bar and the colours, on a terminal and nowhere else."""

import datetime
import json
import os
import pathlib
import pty
import re
import shutil
import signal
import stat
import subprocess
import sys
import tempfile
import time
import xml.etree.ElementTree

GOOD, LOW, UNSEEN, BROKEN = "s-0401-7-iron", "s-0403-7-iron", "s-0408-7-iron", "s-0416-7-iron"
COVERAGE_95 = 1.959964  # of a normal distribution


class Night:
    """An inbox of some of the sample submissions, and the program."""

    def __init__(self, program, source, folder, *submissions):
        self.program, self.source = os.path.abspath(program), pathlib.Path(source).resolve()
        self.folder = pathlib.Path(folder)
        (self.folder / "inbox").mkdir()
        for submission in submissions:
            self.add(submission)

    def add(self, submission, name=None):
        shutil.copytree(self.source / "samples/inbox" / submission,
                        self.folder / "inbox" / (name or submission))

    def command(self, *more, inbox="inbox", profiles=None, out="out"):
        return [self.program, "grade", inbox, "--profiles",
                str(profiles or self.source / "profiles"), "--roster",
                str(self.source / "samples/roster.csv"), "--out", out, "--settle", "0",
                "--redo", "all", *more]

    def grade(self, *more, **other):
        return subprocess.run(self.command(*more, **other), cwd=self.folder, check=False,
                              stdout=subprocess.PIPE, stderr=subprocess.PIPE)

    def result(self, submission):
        path = self.folder / "out/students" / submission / "result.json"
        return json.loads(path.read_text(encoding="utf-8"))


def highest(night, submission):
    """The upper end of a grade's 95 % interval, from the document and not from the program's mind."""
    grade = night.result(submission)["grade"]
    return grade["percent"] + COVERAGE_95 * grade["standard_uncertainty"]


def codes(program, source, folder):
    night = Night(program, source, folder, LOW, UNSEEN)
    assert night.grade().returncode == 0
    high = highest(night, LOW)
    percent = night.result(LOW)["grade"]["percent"]
    assert night.result(UNSEEN)["grade"]["percent"] is None
    assert percent < high - 1, "the sample's grade has no uncertainty to speak of"

    # Below on paper is not below for sure.
    assert night.grade("--fail-below", f"{percent + 0.01}").returncode == 0
    assert night.grade("--fail-below", f"{high - 0.01}").returncode == 0
    low = night.grade("--fail-below", f"{high + 0.01}")
    assert low.returncode == 4, low
    said = low.stderr.decode("utf-8")
    assert said.splitlines()[-2].startswith(f"rangecheck: {LOW}: grade {percent:.1f} ± "), said
    assert said.splitlines()[-2].endswith(f" %: surely below {high + 0.01} %"), said
    assert said.endswith("rangecheck: 2 graded, 0 set aside\n"), said
    assert UNSEEN not in said

    # 4 outweighs 1, which is then told by the lines and the count.
    night.add(BROKEN)
    assert night.grade().returncode == 1
    assert night.grade("--fail-below", f"{high - 0.01}").returncode == 1
    both = night.grade("--fail-below", f"{high + 0.01}")
    assert both.returncode == 4 and both.stderr.endswith(b": 2 graded, 1 set aside\n"), both

    # Where there is no grade, nothing is known to be below.
    shutil.rmtree(night.folder / "inbox" / LOW)
    shutil.rmtree(night.folder / "inbox" / BROKEN)
    assert night.grade("--fail-below", "100").returncode == 0

    for word in ("nan", "inf", "-1", "100.1", "70%", "", "0x10"):
        wrong = night.grade("--fail-below", word)
        assert wrong.returncode == 2 and b"--fail-below" in wrong.stderr, (word, wrong)


# Both schemas at once: windyroad/JUnit-Schema, JUnit.xsd (Apache Ant's reports) at 2378e66, and
# jenkinsci/xunit-plugin, junit-10.xsd at 031e285. For each element its attributes (those that must
# be there first) and its children in order.
ATTRIBUTES = {
    "testsuites": ([], ["name", "time", "tests", "failures", "errors"]),
    "testsuite": (["name", "timestamp", "hostname", "tests", "failures", "errors", "time",
                   "package", "id"], ["skipped"]),
    "properties": ([], []),
    "testcase": (["name", "classname", "time"], []),
    "skipped": ([], ["type", "message"]),
    "error": (["type"], ["message"]),
    "failure": (["type"], ["message"]),
    "system-out": ([], []),
    "system-err": ([], []),
}
CHILDREN = {
    "testsuites": "(testsuite )*",
    "testsuite": "properties (testcase )*system-out system-err ",
    "testcase": "((skipped|error|failure) )?",
}
DECIMAL = re.compile("[0-9]+[.][0-9]*")  # xs:decimal, and what SUREFIRE_TIME lets through
MOMENT = re.compile("[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}")


def check_element(element):
    needed, allowed = ATTRIBUTES[element.tag]
    assert set(needed) <= set(element.attrib), (element.tag, element.attrib)
    assert set(element.attrib) <= set(needed + allowed), (element.tag, element.attrib)
    children = "".join(child.tag + " " for child in element)
    assert re.fullmatch(CHILDREN.get(element.tag, ""), children), (element.tag, children)
    for key, form in (("time", DECIMAL), ("timestamp", MOMENT)):
        if key in element.attrib:
            assert form.fullmatch(element.attrib[key]), element.attrib
    for child in element:
        check_element(child)


def suite_in(path):
    """The one suite of a file, with its cases by name."""
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    root = xml.etree.ElementTree.parse(path).getroot()
    assert root.tag == "testsuites" and len(root) == 1
    check_element(root)
    suite = root[0]
    cases = suite.findall("testcase")
    assert int(suite.attrib["tests"]) == len(cases)
    for count, tag in (("failures", "failure"), ("errors", "error"), ("skipped", "skipped")):
        assert int(suite.attrib[count]) == len(suite.findall("testcase/" + tag)), suite.attrib
    names = [case.attrib["name"] for case in cases]
    assert len(set(names)) == len(names), names
    return suite.attrib, {case.attrib["name"]: case for case in cases}


def junit(program, source, folder):
    night = Night(program, source, folder, GOOD, LOW, UNSEEN, BROKEN)
    report = night.folder / "reports/junit.xml"  # a folder that is yet to be made
    began = datetime.datetime.now(datetime.timezone.utc).replace(microsecond=0, tzinfo=None)
    done = night.grade("--junit", str(report), "--format", "jsonl", "--workers", "1")
    assert done.returncode == 1, done
    facts, cases = suite_in(report)
    told = [json.loads(line) for line in done.stdout.splitlines()]
    assert list(cases) == [one["submission"] for one in told] == [GOOD, LOW, UNSEEN, BROKEN]
    assert [len(case) for case in cases.values()] == [0, 0, 1, 1]
    seen = told[2]["grade"]["seen_share"]
    assert cases[UNSEEN][0].attrib["message"] == \
        f"no grade: {100 * seen:.0f} % of what counts was seen; film again"
    assert cases[BROKEN][0].attrib["type"] == told[3]["fault"] == "unreadable"
    for part in ("what", "file", "remedy"):
        assert told[3][part] and told[3][part] in cases[BROKEN][0].attrib["message"]
    ended = datetime.datetime.fromisoformat(facts["timestamp"])
    assert began <= ended <= began + datetime.timedelta(minutes=10), facts
    times = [float(case.attrib["time"]) for case in cases.values()]
    assert all(each > 0 for each in times[:3]) and sum(times) <= float(facts["time"]), times

    # A grade surely below, and one that is not.
    limit = highest(night, LOW) + 0.01
    assert highest(night, GOOD) > limit
    assert night.grade("--junit", str(report), "--fail-below", str(limit)).returncode == 4
    facts, cases = suite_in(report)
    assert [len(case) for case in cases.values()] == [0, 1, 1, 1]
    assert cases[LOW][0].tag == "failure" and cases[LOW][0].attrib["type"] == "fail-below"
    assert cases[LOW][0].attrib["message"].endswith(f": surely below {limit} %")

    hostile(night, report, limit)
    no_run(night, report)


def hostile(night, report, limit):
    """What people may call folders stays text, whatever becomes of the submission."""
    shutil.rmtree(night.folder / "inbox")
    (night.folder / "inbox").mkdir()
    allowed = ["a&amp b's x (2)", "g &60", "ü & é"]
    for submission, name in zip((LOW, UNSEEN, GOOD), allowed):
        night.add(submission, name)
    names = ["]]><x a='\"'>", "\"'><!--", "<![CDATA[", "\x01\x1b[31m\t\n\x7f", "&lt;&#0;",
             "\u202e\ufffe\u2028", b"\xff\xfe\xc0\x80", "\U0001f3cc" + "y" * 200]
    for name in names:
        path = os.path.join(os.fsencode(night.folder / "inbox"), os.fsencode(name))
        os.mkdir(path)
        with open(os.path.join(path, b"submission.yaml"), "w", encoding="utf-8") as manifest:
            manifest.write("student: \"]]>\\u0001<&\\\"'\\u202e\"\n\"]]>&<\": 1\n")
    done = night.grade("--junit", str(report), "--fail-below", str(limit), "--format", "jsonl")
    assert done.returncode == 4, done
    raw = report.read_bytes()
    raw.decode("utf-8")
    assert not re.search(rb"[\x00-\x09\x0b-\x1f\x7f]", raw) and b"]]>" not in raw
    lines = error_lines(night.grade("--errors", "json"))
    assert len(lines) == len(names), lines
    facts, cases = suite_in(report)
    told = {one["submission"]: one for one in map(json.loads, done.stdout.splitlines())}
    assert len(cases) == len(told) == 3 + len(names), cases.keys()
    assert (facts["failures"], facts["skipped"], facts["errors"]) == ("1", "1", str(len(names)))
    assert {*allowed, *names[:3], names[4]} <= set(cases) & set(told)
    assert "\\x01\\x1b[31m\\t\\n\\x7f" in cases and "\\xff\\xfe\\xc0\\x80" in cases


def no_run(night, report):
    """A run that could not be leaves no earlier success behind."""
    assert night.grade("--junit", str(report), profiles="nowhere").returncode == 2
    facts, cases = suite_in(report)
    error = cases["the whole run"][0]
    assert facts["errors"] == "1" and error.attrib["type"] == "bad-profile", error.attrib
    assert "nowhere" in error.attrib["message"]
    assert night.grade("--junit", str(report), inbox="nowhere").returncode == 3
    assert suite_in(report)[1]["the whole run"][0].attrib["type"] == "io"

    # Killed at once: the file says that the run has not ended.
    shutil.copytree(night.source / "samples/inbox", night.folder / "all")
    report.unlink()
    with subprocess.Popen(night.command("--junit", str(report), inbox="all"), cwd=night.folder,
                          stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as run:
        while not report.exists():
            assert run.poll() is None
            time.sleep(0.001)
        run.send_signal(signal.SIGKILL)
    assert run.returncode == -signal.SIGKILL
    assert "not ended" in suite_in(report)[1]["the whole run"][0].attrib["message"]

    # Where no file can be, nothing is graded.
    shutil.rmtree(night.folder / "out")
    assert night.grade("--junit", str(report / "in-a-file.xml")).returncode == 3
    os.mkfifo(night.folder / "pipe")
    refused = night.grade("--junit", "pipe")
    assert refused.returncode == 2 and b"pipe: isn't a file" in refused.stderr, refused
    assert stat.S_ISFIFO((night.folder / "pipe").stat().st_mode)
    assert night.grade("--junit", "inbox").returncode == 2
    assert not (night.folder / "out").exists()


KEYS = ["format", "version", "submission", "fault", "what", "file", "line", "frame", "key",
        "remedy"]


def error_lines(done):
    assert done.stderr.isascii()  # nothing in it turns a terminal about
    lines = [json.loads(line) for line in done.stderr.splitlines()]
    for line in lines:
        assert list(line) == KEYS and line["format"] == "rangecheck-error", line
        assert line["version"] == 1 and line["what"], line
    return lines


def errors(program, source, folder):
    night = Night(program, source, folder, GOOD, BROKEN, "s-0417-7-iron")
    done = night.grade("--errors", "json", "--format", "jsonl")
    assert done.returncode == 1, done
    told = [one for one in map(json.loads, done.stdout.splitlines())
            if one["format"] == "rangecheck-set-aside"]
    lines = error_lines(done)
    assert len(told) == len(lines) == 2
    for one, line in zip(told, sorted(lines, key=lambda each: each["submission"])):
        assert one == {**line, "format": "rangecheck-set-aside"}
    # The same words and places as people get, and no more.
    plain = night.grade("--workers", "1").stderr.decode().splitlines()
    assert plain == [
        f"rangecheck: 2/3 {BROKEN}: set aside: {BROKEN}/face-on.json:1: is cut short: the JSON in "
        "it doesn't end (send the file again)",
        "rangecheck: 3/3 s-0417-7-iron: set aside: s-0417-7-iron/submission.yaml:10: "
        "views[0].frame-rte: there is no such key (did you mean frame-rate?)",
        "rangecheck: 1 graded, 2 set aside"], plain
    assert (lines[1]["file"], lines[1]["line"], lines[1]["key"], lines[1]["fault"]) == \
        ("s-0417-7-iron/submission.yaml", 10, "views[0].frame-rte", "bad-value") or \
        (lines[0]["file"], lines[0]["line"]) == ("s-0417-7-iron/submission.yaml", 10), lines
    # Grades are no errors, however low.
    low = night.grade("--errors=json", "--fail-below", "100")
    assert low.returncode == 4 and len(error_lines(low)) == 2

    hidden = night.grade("--errors", "json", "--pseudonyms", "../key-of-test", out="hidden")
    os.unlink(night.folder / "../key-of-test")
    assert len(error_lines(hidden)) == 2 and b"s-04" not in hidden.stderr, hidden.stderr

    whole_run(night)
    loudness(night)
    # README's table of faults has those of the schema, and no other.
    schema = json.loads((night.source / "profiles/schemas/result.schema.json").read_text())
    listed = re.findall("^\\| `([a-z-]+)` \\| .* \\|$",
                        (night.source / "README.md").read_text().split("| fault |")[1]
                        .split("\n\n")[0], re.M)
    assert listed == schema["$defs"]["set_aside"]["properties"]["fault"]["enum"], listed


def whole_run(night):
    bad = night.folder / "bad"
    bad.mkdir()
    (bad / "clubs.yaml").write_text("version: 1\nfamilies: { middle-iron: [7-iron] }\n")
    (bad / "mine.yaml").write_text("version: 1\nid: mine\ntitel: Mine\n")
    json_errors = ("--errors", "json")
    for done, code, fault, file, line in (
            (night.grade(*json_errors, profiles=bad), 2, "bad-profile", "mine.yaml", 3),
            (night.grade(*json_errors, inbox="nowhere"), 3, "io", "nowhere", None),
            (night.grade(*json_errors, out="inbox/out"), 2, "bad-value", "inbox/out", None),
            (night.grade(*json_errors, "--verbose"), 2, "bad-value", "", None),
            (night.grade(*json_errors, "--units", "furlong"), 2, "bad-value", "", None),
            (night.grade("--errors=json", "--fast"), 2, "bad-value", "", None),
            (night.grade("--units", *json_errors), 2, "bad-value", "", None)):
        assert done.returncode == code and done.stdout == b"", done
        (error,) = error_lines(done)
        assert error["submission"] is None and error["fault"] == fault, error
        assert (error["file"], error["line"]) == (file, line), error
    assert night.grade("--errors", "xml").returncode == 2


def loudness(night):
    one = ["--workers", "1"]
    quiet = night.grade("--quiet", *one)
    assert quiet.returncode == 1 and quiet.stdout == night.grade(*one).stdout
    assert quiet.stderr == b"".join(night.grade(*one).stderr.splitlines(True)[:-1])
    loud = night.grade("--verbose", *one).stderr.decode().splitlines()
    assert re.fullmatch(f"rangecheck: 1/3 {GOOD}: graded in [0-9]+[.][0-9] s", loud[0]), loud
    assert [*quiet.stderr.decode().splitlines(), "rangecheck: 1 graded, 2 set aside"] == loud[1:]
    assert night.grade("--quiet", "--verbose").returncode == 2
    for submission in (BROKEN, "s-0417-7-iron"):
        shutil.rmtree(night.folder / "inbox" / submission)
    assert night.grade("--quiet").stderr == b""


def on_terminal(night, *more, kind="xterm", no_color=None):
    """What a terminal is sent as stderr."""
    environment = {key: value for key, value in os.environ.items() if key != "NO_COLOR"}
    environment["TERM"] = kind
    if no_color is not None:
        environment["NO_COLOR"] = no_color
    here, there = pty.openpty()
    with subprocess.Popen(night.command("--workers", "1", *more), cwd=night.folder,
                          env=environment, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                          stderr=there) as run:
        os.close(there)
        sent = b""
        while True:
            try:
                chunk = os.read(here, 65536)
            except OSError:  # how Linux says that nobody has the other end any more
                break
            if not chunk:
                break
            sent += chunk
    os.close(here)
    assert run.returncode in (1, 4), run.returncode
    return sent.replace(b"\r\n", b"\n").decode("utf-8")


def terminal(program, source, folder):
    night = Night(program, source, folder, LOW, BROKEN)
    plain = night.grade("--workers", "1").stderr.decode("utf-8")
    aside, count = plain.splitlines(True)
    assert "\x1b" not in plain and "\r" not in plain and "[#" not in plain
    clear = "\r\x1b[K"
    bars = [clear + "[############------------] 1/2, 0 set aside",
            clear + "[########################] 2/2, 1 set aside"]
    without = bars[0] + clear + aside + bars[1] + clear + count
    yellow = without.replace(": set aside:", ": \x1b[33mset aside\x1b[0m:")
    assert yellow != without
    assert on_terminal(night) == yellow
    assert on_terminal(night, no_color="") == yellow  # no-color.org: "not an empty string"
    assert on_terminal(night, no_color="1") == without
    assert on_terminal(night, no_color="0") == without
    assert on_terminal(night, kind="dumb") == plain
    assert on_terminal(night, kind="") == plain
    assert on_terminal(night, "--quiet", no_color="1") == aside
    low = on_terminal(night, "--fail-below", "100")
    assert f"{LOW}: \x1b[31mgrade " in low and "surely below 100 %\x1b[0m\n" in low, low
    assert "\x1b" not in on_terminal(night, "--fail-below", "100", kind="dumb")
    assert "\x1b" not in on_terminal(night, "--errors", "json")


def main(what, program, source):
    with tempfile.TemporaryDirectory() as folder:
        nested = pathlib.Path(folder) / "night"
        nested.mkdir()
        {"codes": codes, "junit": junit, "errors": errors, "terminal": terminal}[what](
            program, source, nested)


main(*sys.argv[1:])
