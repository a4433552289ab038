# SPDX-License-Identifier: MIT
"""refill_readme.py PROGRAM_FOLDER: runs README's "$ command" blocks, in order in one folder as
readme_test.cpp does, and writes what they print now into README.md. For a person to run after a
change that was meant to show; the test then holds it."""

import os
import pathlib
import subprocess
import sys
import tempfile

SOURCE = pathlib.Path(__file__).resolve().parents[2]


def printed_by(command, folder, program_folder):
    path = f"{pathlib.Path(program_folder).resolve()}:{os.environ['PATH']}"
    done = subprocess.run(
        ["sh", "-c", command], cwd=folder, env={**os.environ, "PATH": path},
        stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, check=False)
    return done.stdout.decode("utf-8")


def main(program_folder):
    if not (pathlib.Path(program_folder) / "rangecheck").is_file():
        sys.exit(f"{program_folder}: holds no program rangecheck: name its folder in build/apps")
    readme = SOURCE / "README.md"
    filled, inside = [], False
    with tempfile.TemporaryDirectory() as folder:
        for part in ("samples", "profiles"):
            os.symlink(SOURCE / part, pathlib.Path(folder) / part)
        for line in readme.read_text(encoding="utf-8").splitlines(keepends=True):
            inside = inside and not line.startswith("```")
            if not inside:
                filled.append(line)
            if line.startswith("$ "):
                filled.append(printed_by(line[2:].strip(), folder, program_folder))
                inside = True
    readme.write_text("".join(filled), encoding="utf-8")


main(*sys.argv[1:])
