# SPDX-License-Identifier: MIT
"""The manual page: against help, README, what a run leaves, and the readers of manuals.

manual.py same PROGRAM PAGE SOURCE NESTED: the page holds every command and option of help, README's files
  and exit codes, and it is what the program prints.
manual.py run PROGRAM PAGE SOURCE NESTED: its examples run, and its FILES are what they leave.
manual.py readers PROGRAM PAGE SOURCE NESTED: mandoc and man find no fault; rendered, it says what
  it should. NESTED is nested.cpp, all of whose texts are hard for troff.
Exit code 77 where a tool for it is missing."""

import gzip
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

from asked import commands_by_help, need


def printed_by(*words, **more):
    return subprocess.run([str(word) for word in words], check=True, stdout=subprocess.PIPE,
                          text=True, **more).stdout


def plain(roff):
    """The text behind the escapes that the page is written with."""
    for escape, character in (("\\&", ""), ("\\fB", ""), ("\\fI", ""), ("\\fR", ""), ("\\-", "-"),
                              ("\\(aq", "'"), ("\\(dq", '"'), ("\\(ga", "`"), ("\\(ha", "^"),
                              ("\\(ti", "~"), (" \\\n", " "), ("\\e", "\\")):
        roff = roff.replace(escape, character)
    return roff


def section(page, title):
    (text,) = re.findall(f"^\\.SH {title}\n(.*?)(?=^\\.SH |\\Z)", page, re.M | re.S)
    return text


def tagged(page, title):
    """Names and what is said of them, of a list."""
    return {plain(name): " ".join(plain(what).split()) for name, what in
            re.findall("^\\.TP\n(.*)\n((?:[^.].*\n)*)", section(page, title), re.M)}


def options_in(text):
    return sorted(re.findall("(?<![\\w-])--[a-z-]+", "\n".join(
        plain(line) for line in re.findall("^\\.TP\n(.*)", text, re.M))))


def same(program, page, source, _nested):
    text = gzip.decompress(page.read_bytes()).decode()
    assert text == printed_by(program, "manual")
    program_by_help = commands_by_help(program)
    under = {(): section(text, "OPTIONS")}
    for heading, body in re.findall("^\\.SS ([^\n]*)\n(.*?)(?=^\\.SS |\\Z)", section(text, "COMMANDS"),
                                    re.M | re.S):
        under[tuple(plain(heading).split()[1:])] = body
    assert set(under) == set(program_by_help), set(under) ^ set(program_by_help)
    assert len(re.findall("^\\.SS ", text, re.M)) == len(program_by_help) - 1
    for words, command in program_by_help.items():
        assert options_in(under[words]) == command["options"], words
    counted = sum(len(command["options"]) for command in program_by_help.values())
    print(f"{len(under)} commands, {counted} options, as in help")

    readme = (source / "README.md").read_text(encoding="utf-8").replace("`", "")
    for title, what in (("FILES", readme.split("## What comes out")[1]),
                        ("EXIT STATUS", readme.split("## For scripts")[1])):
        rows = re.search("^\\| (?:file|exit code) \\|.*\n\\|.*\n((?:\\|.*\n)+)", what, re.M)[1]
        listed = dict(re.fullmatch("\\| (.*?) \\| (.*) \\|", row).groups()
                      for row in rows.splitlines())
        # Words in brackets are README's own.
        listed = {name: re.sub(" \\(.*\\)$", "", what) for name, what in listed.items()}
        found = {name: what[:-1] for name, what in tagged(text, title).items()}
        if title == "FILES":
            listed = {name: what.replace("profiles/schemas/", "") for name, what in listed.items()}
        assert found == listed, (found, listed)


def run(program, page, source, _nested):
    text = gzip.decompress(page.read_bytes()).decode()
    examples = re.findall("^\\.nf\n(.*?)\\.fi\n", section(text, "EXAMPLES"), re.M | re.S)
    assert len(examples) >= 5
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch)
        for part in ("samples/inbox", "samples/roster.csv", "profiles"):
            (folder / pathlib.Path(part).name).symlink_to(source / part)
        (folder / ".bin").mkdir()
        (folder / ".bin/rangecheck").symlink_to(program)
        environment = {**os.environ, "PATH": f"{folder / '.bin'}:{os.environ['PATH']}"}
        for example in examples:
            done = subprocess.run(plain(example), check=False, shell=True, cwd=folder,
                                  env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
            assert done.returncode in (0, 1) and done.stdout + done.stderr, (example, done)
            if "grade inbox" not in example and "pack" not in example:
                assert done.returncode == 0, (example, done)
        out = folder / "out"
        left = {re.sub("^(students|set-aside)/[^/.]+", "\\1/ID",
                       str(path.relative_to(out))) for path in out.rglob("*") if path.is_file()}
        shown = {name for name in left if not re.search("(^|/)\\.", name)}
        assert shown == set(tagged(text, "FILES")), (shown, left)


def faults(page):
    """What mandoc and, where it is there, man have to say of a page."""
    said = subprocess.run(["mandoc", "-Tlint", page], check=False, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT, text=True).stdout
    if shutil.which("man"):
        said += subprocess.run(["man", "--warnings", "-l", page], check=True,
                               stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True,
                               env={**os.environ, "LC_ALL": "C.UTF-8", "MANPAGER": "cat"}).stderr
    return said


def rendered(page):
    struck_over = printed_by("mandoc", "-Tutf8", "-Owidth=78", page)
    return re.sub(".\b", "", struck_over)


def readers(_program, page, _source, nested):
    need("mandoc")
    with tempfile.TemporaryDirectory() as folder:
        plain_page, hard_page = pathlib.Path(folder) / "rangecheck.1", pathlib.Path(folder) / "n.1"
        plain_page.write_bytes(gzip.decompress(page.read_bytes()))
        hard_page.write_text(printed_by(nested, "manual"))
        for each in (plain_page, hard_page):
            assert faults(each) == "", faults(each)
        # What these checks are worth: a slip is found.
        slip = pathlib.Path(folder) / "slip.1"
        slip.write_text(plain_page.read_text().replace(".SH NAME", ".SHNAME"))
        assert faults(slip) != ""

        lines = rendered(plain_page).splitlines()
        assert lines[0].split() == ["RANGECHECK(1)", "User", "Commands", "RANGECHECK(1)"], lines[0]
        assert [line for line in lines if re.match("\\S", line)][1:-1] == [
            "NAME", "SYNOPSIS", "DESCRIPTION", "OPTIONS", "COMMANDS", "EXIT STATUS", "FILES",
            "EXAMPLES", "SEE ALSO"], lines
        text = "\n".join(lines)
        assert "\n     rangecheck grade [OPTIONS] --profiles DIR INBOX\n" in text.replace(
            "       ", "     "), text
        assert re.search("\n +--language LANGUAGE\n +Students' pages: en or de, where the roster "
                         "doesn't say\\.  One of\n +en, de\\.\n", text), text

        # The hard texts come out as they are.
        hard = " ".join(rendered(hard_page).split())
        for wanted in ('It\'s "quoted" [in brackets]: a\\b, $HOME, `date`, 100 % {x} ^~ -- |&;',
                       ".dot at the beginning.", "'apostrophe at the beginning.",
                       "-hyphen at the beginning.", "nested profile deeper still"):
            assert wanted in hard, (wanted, hard)
        assert "no one's business" not in hard


def main(what, program, page, source, nested):
    {"same": same, "run": run, "readers": readers}[what](
        os.path.abspath(program), pathlib.Path(page), pathlib.Path(source).resolve(), nested)


main(*sys.argv[1:])
