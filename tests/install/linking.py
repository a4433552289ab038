# SPDX-License-Identifier: MIT
"""Another program that links an installed library: what the tests here share."""

import json
import os
import re
import shutil
import subprocess

GOOD, BROKEN = "s-0401-7-iron", "s-0417-7-iron"
FILM = f"{GOOD}/face-on.json"
COMPILER = os.environ.get("CXX", "c++")


def run(*words, **more):
    done = subprocess.run([str(word) for word in words], check=False, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT, text=True, **more)
    assert done.returncode in (0, 1), done.stdout
    return done


def good(*words, **more):
    done = run(*words, **more)
    assert done.returncode == 0, done.stdout
    return done.stdout


def files_under(folder):
    return {str(path.relative_to(folder)): path for path in folder.rglob("*")
            if not path.is_dir()}


def library_folder(prefix):
    """lib, or that of an architecture where the build was set up for /usr."""
    (pc,) = prefix.rglob("rangecheck.pc")
    return pc.parent.parent


def pkg_config(prefix, *words):
    """Its words about the library below `prefix`."""
    environment = {**os.environ, "PKG_CONFIG_PATH": str(library_folder(prefix) / "pkgconfig")}
    return good("pkg-config", *words, "rangecheck", env=environment).split()


def linked_by_pkg_config(prefix, source, folder):
    good(COMPILER, "-std=c++20", "-O1", source / "tests/install/linked/main.cpp",
         *pkg_config(prefix, "--cflags"), "-o", folder / "linked",
         *pkg_config(prefix, "--libs", "--static"))
    return folder / "linked"


def grades_as_the_program_does(linked, prefix, source, folder):
    """The other program's output, against that of the installed one."""
    inbox = folder / "inbox"
    inbox.mkdir()
    for name in (GOOD, BROKEN):
        shutil.copytree(source / "samples/inbox" / name, inbox / name)
    profiles = prefix / "share/rangecheck/profiles"
    program = prefix / "bin/rangecheck"
    roster = source / "samples/roster.csv"
    told = good(linked, inbox / FILM, inbox, profiles, roster, folder / "by-linked")
    graded = run(program, "grade", inbox, "--profiles", profiles, "--roster", roster,
                 "--settle", "0", "--out", folder / "by-program")
    assert graded.returncode == 1, graded.stdout
    result = json.loads((folder / "by-program/students" / GOOD / "result.json").read_text())
    (why,) = re.findall(f"^  {BROKEN}: (.*)$", graded.stdout, re.M)
    wanted = good(program, "inspect", inbox / FILM)
    wanted += f"{GOOD}: {result['grade']['percent']:.3f}\n{BROKEN}: {why}\n"
    assert told == wanted, (told, wanted)
    by_linked, by_program = (files_under(folder / by) for by in ("by-linked", "by-program"))
    assert set(by_linked) == set(by_program)
    for name, path in by_linked.items():
        if name != "history.sqlite":
            assert path.read_bytes() == by_program[name].read_bytes(), name
    print(f"{len(by_linked)} files as the program writes them")
