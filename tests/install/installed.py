# SPDX-License-Identifier: MIT
"""What `cmake --install` installs, and another program that links it.

installed.py files BUILD SOURCE: every file in its place, also with DESTDIR; none holds a path of the
  source or the build; what the unit starts is what was installed; the installed program runs.
installed.py cmake BUILD SOURCE: linked/ by find_package(rangecheck), after the prefix was moved.
installed.py pkg-config BUILD SOURCE: the same by pkg-config, and every header by itself.
Exit code 77 where a tool for it is missing."""

import os
import pathlib
import re
import subprocess
import sys
import tempfile

from asked import need
from linking import (COMPILER, files_under, good, grades_as_the_program_does, library_folder,
                     linked_by_pkg_config, pkg_config)

# Below the prefix; libraries and headers are counted apart.
FILES = {
    "bin/rangecheck", "share/doc/rangecheck/README.md", "share/doc/rangecheck/LICENSE",
    "share/man/man1/rangecheck.1.gz", "share/bash-completion/completions/rangecheck",
    "share/zsh/site-functions/_rangecheck", "share/fish/vendor_completions.d/rangecheck.fish",
    "lib/systemd/system/rangecheck.service", "lib/systemd/system/rangecheck.timer",
    "lib/sysusers.d/rangecheck.conf",
}
PACKAGE = {"pkgconfig/rangecheck.pc", "cmake/rangecheck/rangecheckConfig.cmake",
           "cmake/rangecheck/rangecheckConfigVersion.cmake",
           "cmake/rangecheck/rangecheckTargets.cmake"}


def install(build, prefix, destdir=None):
    good("cmake", "--install", build, "--prefix", prefix,
         env={**os.environ, **({"DESTDIR": str(destdir)} if destdir else {})})


def check_places(found, prefix, source):
    libraries = library_folder(prefix).relative_to(prefix)
    rooms = sorted(path.name for path in (source / "lib").iterdir() if path.is_dir())
    wanted = set(FILES) | {str(libraries / part) for part in PACKAGE}
    wanted |= {str(libraries / f"librangecheck_{room}.a") for room in rooms}
    wanted |= {f"include/rangecheck/{path.relative_to(source / 'lib')}" for room in rooms
               for path in (source / "lib" / room).rglob("*.hpp")}
    wanted |= {f"share/rangecheck/{path.relative_to(source)}"
               for path in (source / "profiles").rglob("*") if path.is_file()}
    # One more file a kind of build: rangecheckTargets-release.cmake.
    of_build = {name for name in found if re.search("/rangecheckTargets-[a-z]+\\.cmake$", name)}
    assert len(of_build) == 1, of_build
    assert set(found) - of_build == wanted, set(found) - of_build ^ wanted


def files(build, source, folder):
    prefix, destdir = folder / "prefix", folder / "destdir"
    install(build, prefix)
    found = files_under(prefix)
    check_places(found, prefix, source)
    kind = re.search("^CMAKE_BUILD_TYPE:\\w+=(.*)$", (build / "CMakeCache.txt").read_text(), re.M)[1]
    for name, path in found.items():
        if kind not in ("", "Release") and (name == "bin/rangecheck" or path.suffix == ".a"):
            continue  # what debuggers read has places of the source on purpose
        content = path.read_bytes()
        for place in (source, build):
            assert str(place).encode() not in content, f"{place} is in {name}"
        if not name.startswith("lib/systemd/"):
            assert str(prefix).encode() not in content, f"the prefix is in {name}"

    install(build, "/usr", destdir)
    staged = files_under(destdir / "usr")
    assert set(staged) == set(found)
    for name, path in staged.items():
        if name != "lib/systemd/system/rangecheck.service":
            assert path.read_bytes() == found[name].read_bytes(), name
    for files_of, bin_of in ((found, prefix / "bin"), (staged, "/usr/bin")):
        unit = files_of["lib/systemd/system/rangecheck.service"].read_text()
        assert re.findall("^ExecStart=(\\S+)", unit, re.M) == [f"{bin_of}/rangecheck"], unit

    assert good(prefix / "bin/rangecheck", "--version", cwd=folder) == good(
        build / "apps/rangecheck/rangecheck", "--version", cwd=folder)


def by_cmake(build, source, folder):
    install(build, folder / "first")
    (folder / "first").rename(folder / "moved")
    prefix = folder / "moved"
    good("cmake", "-S", source / "tests/install/linked", "-B", folder / "build",
         "-DCMAKE_BUILD_TYPE=Release", f"-DCMAKE_PREFIX_PATH={prefix}")
    good("cmake", "--build", folder / "build")
    grades_as_the_program_does(folder / "build/linked", prefix, source, folder)
    # Another minor version may offer something else.
    project = folder / "newer"
    project.mkdir()
    text = (source / "tests/install/linked/CMakeLists.txt").read_text()
    (project / "CMakeLists.txt").write_text(text.replace("rangecheck 0.1 ", "rangecheck 0.2 "))
    refused = subprocess.run(["cmake", "-S", project, "-B", folder / "none",
                              f"-DCMAKE_PREFIX_PATH={prefix}"], check=False,
                             stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    assert refused.returncode != 0 and "version" in refused.stdout, refused.stdout


def by_pkg_config(build, source, folder):
    need("pkg-config")
    prefix = folder / "prefix"
    install(build, prefix)
    assert pkg_config(prefix, "--modversion") == [re.search("VERSION ([0-9.]+)", (
        source / "CMakeLists.txt").read_text().split("project(")[1])[1]]
    grades_as_the_program_does(linked_by_pkg_config(prefix, source, folder), prefix, source, folder)
    headers = prefix / "include/rangecheck"
    every = folder / "every.cpp"
    every.write_text("".join(f'#include "{path.relative_to(headers)}"\n'
                             for path in sorted(headers.rglob("*.hpp"))))
    good(COMPILER, "-std=c++20", "-fsyntax-only", every, *pkg_config(prefix, "--cflags"))


def main(what, build, source):
    with tempfile.TemporaryDirectory() as folder:
        {"files": files, "cmake": by_cmake, "pkg-config": by_pkg_config}[what](
            pathlib.Path(build).resolve(), pathlib.Path(source).resolve(),
            pathlib.Path(folder).resolve())


main(*sys.argv[1:])
