# SPDX-License-Identifier: MIT
"""What --version says, against the package manager, git and the build's own settings.

version.py PROGRAM SOURCE VERSION BUILD-TYPE"""

import os
import pathlib
import re
import shutil
import subprocess
import sys

# Where pkg-config's name is another one, or its number is not the library's. Ceres is found by its
# headers and CLI11, libxlsxwriter and minizip have no number there.
PKG_CONFIG = {"Eigen": "eigen3", "fmt": "fmt", "nlohmann-json": "nlohmann_json",
              "simdjson": "simdjson", "SQLite": "sqlite3", "xxHash": "libxxhash",
              "yaml-cpp": "yaml-cpp", "zlib": "zlib"}
NAMES = ["Ceres", "CLI11", "Eigen", "fmt", "libxlsxwriter", "nlohmann-json", "simdjson", "SQLite",
         "xxHash", "yaml-cpp", "zlib"]


def printed_by(*words, **more):
    return subprocess.run(words, check=True, stdout=subprocess.PIPE, text=True, **more).stdout


def head_of(source):
    """The commit that is checked out; None where git can't tell, as of another user's folder."""
    if not (source / ".git").exists() or not shutil.which("git"):
        return None
    told = subprocess.run(["git", "-C", str(source), "rev-parse", "HEAD"], check=False,
                          stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    return told.stdout.strip() if told.returncode == 0 else None


def main(program, source, version, build_type):
    program, source = os.path.abspath(program), pathlib.Path(source).resolve()
    text = printed_by(program, "--version")
    first, *facts = text.splitlines()
    assert first == f"rangecheck {version}", first
    facts = {line[:10].strip(): line[10:] for line in facts}
    assert list(facts) == ["revision", "build", "compiler", "libraries"], text
    assert re.split(",", facts["build"])[0] == build_type, facts

    libraries = dict(entry.rsplit(" ", 1) for entry in facts["libraries"].split(", "))
    assert list(libraries) == NAMES, libraries
    assert all(re.fullmatch("[0-9]+(\\.[0-9]+)+", number) for number in libraries.values()), libraries
    if shutil.which("pkg-config"):
        for name, package in PKG_CONFIG.items():
            number = printed_by("pkg-config", "--modversion", package).strip()
            assert libraries[name] == number, (name, libraries[name], number)

    revision = re.sub(" with changes$", "", facts["revision"])
    head = head_of(source)
    if head:
        assert re.fullmatch("[0-9a-f]{12,}", revision) and head.startswith(revision), (head, revision)
    else:
        assert revision == "not known", revision

    # Nothing of where, when or by whom: the same from another folder, at another time.
    assert str(source) not in text and "/" not in text, text
    assert printed_by(program, "--version", cwd="/", env={"TZ": "Asia/Tokyo", "LC_ALL": "C"}) == text


main(*sys.argv[1:])
