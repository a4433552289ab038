# SPDX-License-Identifier: MIT
"""Completion by a real shell, held against help and against the parser.

completion.py SHELL PROGRAM SCRIPT NESTED: SCRIPT is the program's, as it is installed; NESTED is
nested.cpp. Exit code 77 where there is no such shell."""

import os
import pathlib
import re
import subprocess
import sys
import tempfile

from asked import Shell, commands_by_help, need

FOLDERS, FILES = ["films", "golf films"], ["a.json", "b.csv"]


def shell_of(kind, name, program, script, folder):
    """A shell that knows the program by its name and has some files before it."""
    for part in FOLDERS:
        (folder / part).mkdir()
    for part in FILES:
        (folder / part).write_text("")
    (folder / ".bin").mkdir()
    (folder / ".bin" / name).symlink_to(program)
    installed = folder / ".fpath" / f"_{name}"
    installed.parent.mkdir()
    installed.write_text(script)
    shell = Shell(kind, installed, folder)
    shell.environment["PATH"] = f"{folder / '.bin'}:{os.environ['PATH']}"
    return shell


def as_asked(kind, names):
    """How the shell writes paths that it found."""
    if kind != "fish":
        names = [name.replace(" ", "\\ ") for name in names]
    if kind == "fish":
        names = [name + "/" if name in FOLDERS else name for name in names]
    return sorted(names)


def holds_what_help_holds(shell, name, program):
    commands = commands_by_help(program)
    lines, expected = [], []
    for words, command in commands.items():
        begun = " ".join((name, *words))
        lines.append(begun + " --")
        expected.append(command["options"])
        if command["commands"]:
            lines.append(begun + " ")
            expected.append(command["commands"])
    for line, answer, wanted in zip(lines, shell.asked(*lines), expected, strict=True):
        assert answer == wanted, (line, answer, wanted)
    print(f"{len(commands)} commands, {sum(len(all) for all in expected)} words, as in help")
    return commands


def closed_sets(name, program, commands):
    """Each option that the parser lets only some values through for, by its own message."""
    found = {}
    for words, command in commands.items():
        for option in command["options"]:
            said = subprocess.run([program, *words, option, "no-such-value"], check=False,
                                  stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True).stderr
            members = re.search(f"{option}: no-such-value not in {{(.*)}}", said)
            if members:
                found[" ".join((name, *words, option)) + " "] = sorted(members[1].split(","))
    return found


def completes_what_is_parsed(shell, name, program, commands):
    sets = closed_sets(name, program, commands)
    assert sets
    for (line, wanted), answer in zip(sets.items(), shell.asked(*sets), strict=True):
        assert answer == wanted, (line, answer, wanted)
    print(f"{len(sets)} options with closed sets, as parsed")


def answers(shell, questions):
    for (line, wanted), answer in zip(questions.items(), shell.asked(*questions), strict=True):
        assert answer == sorted(wanted), (line, answer, wanted)


def of_rangecheck(kind, program, script):
    with tempfile.TemporaryDirectory() as folder:
        shell = shell_of(kind, "rangecheck", program, pathlib.Path(script).read_text(),
                         pathlib.Path(folder))
        commands = holds_what_help_holds(shell, "rangecheck", program)
        completes_what_is_parsed(shell, "rangecheck", program, commands)
        folders = as_asked(kind, FOLDERS)
        everything = as_asked(kind, FOLDERS + FILES)
        answers(shell, {
            "rangecheck gra": ["grade"],
            "rangecheck grade --f": ["--fail-below", "--format"],
            "rangecheck grade --format j": ["jsonl"],
            "rangecheck grade --units ": ["cm", "in"],
            # A value that is a command's name, and an option that ends options, change nothing.
            "rangecheck grade --out grade --l": ["--language"],
            "rangecheck grade inbox --workers 4 --language ": ["de", "en"],
            "rangecheck grade ": folders,
            "rangecheck grade --profiles ": folders,
            "rangecheck grade --roster ": everything,
            # No more words: then zsh offers options, the others wait for a hyphen.
            "rangecheck grade films ": [*commands[("grade",)]["options"], "-h"] * (kind == "zsh"),
            "rangecheck grade --workers ": [],
            "rangecheck layouts a.json ": everything,
            "rangecheck completion ": ["bash", "fish", "zsh"],
            "rangecheck polish ": [],
        })
        # Each shell has its own idea of what part of --option=value it is asked for.
        answers(shell, {"rangecheck grade --format=c": {
            "bash": ["--format=csv"], "zsh": ["csv"], "fish": ["--format=csv"]}[kind]})


def of_nested(kind, nested):
    script = subprocess.run([nested, "completion", kind], check=True, stdout=subprocess.PIPE,
                            text=True).stdout
    with tempfile.TemporaryDirectory() as folder:
        shell = shell_of(kind, "nested", nested, script, pathlib.Path(folder))
        commands = holds_what_help_holds(shell, "nested", nested)
        assert ("profile", "deeper", "still") in commands
        assert commands[("profile",)]["commands"] == ["deeper", "fit", "lint"]
        completes_what_is_parsed(shell, "nested", nested, commands)
        answers(shell, {
            "nested profile lint ": as_asked(kind, FOLDERS),
            "nested profile fit ": ["putter", "wedge"],
            "nested profile fit --name lint ": ["putter", "wedge"],
            "nested profile fit wedge ": as_asked(kind, FOLDERS + FILES),
            "nested profile fit wedge a.json ": as_asked(kind, FOLDERS + FILES),
            "nested profile deeper still --c": ["--calm"],
            "nested profile lint --st": ["--strict"],
        })


def main(kind, program, script, nested):
    need(kind)
    of_rangecheck(kind, os.path.abspath(program), script)
    of_nested(kind, os.path.abspath(nested))


main(*sys.argv[1:])
