# SPDX-License-Identifier: MIT
"""The Debian packages.

debian.py packages BUILD SOURCE DEBS: makes them into DEBS; made again, elsewhere and in another zone
  of time, they are the same byte for byte; their files, dependencies and texts; lintian.
debian.py clean-root BUILD SOURCE DEBS: installs the program's into a root that has nothing else, and
  grades the sample inbox there, as an ordinary user: as the build's program does, byte for byte.
Exit code 77 where a tool, rights or a mirror for it are missing."""

import os
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile

from asked import need, skip
from linking import files_under, good, grades_as_the_program_does, linked_by_pkg_config, run

PROGRAM, LIBRARY = "rangecheck", "rangecheck-dev"
# Where a package differs from `cmake --install`.
ELSEWHERE = {"share/zsh/site-functions/_rangecheck": "share/zsh/vendor-completions/_rangecheck",
             "share/doc/rangecheck/LICENSE": "share/doc/rangecheck/copyright"}
ADDED = {"share/doc/rangecheck/changelog.gz", "share/doc/rangecheck-dev/changelog.gz",
         "share/doc/rangecheck-dev/copyright",
         *(f"share/doc/rangecheck/libraries/{library}" for library in (
             "libceres-dev", "libcli11-dev", "libeigen3-dev", "libxxhash-dev",
             "nlohmann-json3-dev"))}


def field(deb, name):
    return good("dpkg-deb", "-f", deb, name).strip()


def deb_of(debs, package):
    (deb,) = debs.glob(f"{package}_*.deb")
    return deb


def make(build, debs, zone):
    """By somebody whose files are nobody else's, which must not show."""
    shutil.rmtree(debs, ignore_errors=True)
    with tempfile.TemporaryDirectory() as work:
        good("cpack", "-B", work, cwd=build, umask=0o077, env={**os.environ, "TZ": zone})
        debs.mkdir(parents=True)
        for deb in pathlib.Path(work).glob("*.deb"):
            shutil.move(deb, debs)


def is_below(name, library):
    return name.startswith(("include/", "lib/librangecheck_", "lib/cmake/", "lib/pkgconfig/",
                            "share/doc/rangecheck-dev/")) == library


def check_files(build, unpacked, folder):
    prefix = folder / "installed"
    good("cmake", "--install", build, "--prefix", prefix)
    installed = {ELSEWHERE.get(name, name): path for name, path in files_under(prefix).items()}
    for package, found in unpacked.items():
        wanted = {name for name in {*installed, *ADDED} if is_below(name, package == LIBRARY)}
        assert set(found) == wanted, set(found) ^ wanted
        for name in wanted - ADDED - set(ELSEWHERE.values()):
            if not name.endswith(("bin/rangecheck", ".service")):
                assert found[name].read_bytes() == installed[name].read_bytes(), name
    of_program = unpacked[PROGRAM]
    assert "ExecStart=/usr/bin/rangecheck grade" in of_program[
        "lib/systemd/system/rangecheck.service"].read_text()
    assert of_program["bin/rangecheck"].stat().st_size < installed["bin/rangecheck"].stat().st_size


def linked_libraries(program):
    """The packages of the libraries that the dynamic linker finds for it."""
    packages = set()
    for path in re.findall("=> (/\\S+)", good("ldd", program)):
        for candidate in (path, os.path.realpath(path), "/usr" + path, path.removeprefix("/usr")):
            owner = subprocess.run(["dpkg", "-S", candidate], check=False, text=True,
                                   stdout=subprocess.PIPE, stderr=subprocess.DEVNULL).stdout
            if owner:
                packages.add(owner.split(":")[0])
                break
        else:
            raise AssertionError(f"{path} is of no package")
    return packages


def needed(program):
    """The libraries that it names itself; of the C library's own only the main one."""
    named = set(re.findall("\\(NEEDED\\).*\\[(.*)\\]", good("readelf", "-d", program)))
    return {name for name in named if not name.startswith(("libm.", "ld-linux"))}


def check_dependencies(debs, unpacked):
    depends = {word.split()[0] for word in field(deb_of(debs, PROGRAM), "Depends").split(", ")}
    assert depends <= linked_libraries(unpacked[PROGRAM]["bin/rangecheck"]), depends
    assert len(depends) >= len(needed(unpacked[PROGRAM]["bin/rangecheck"])), depends
    headers = set()
    for path in unpacked[LIBRARY].values():
        if path.suffix == ".hpp":
            headers |= set(re.findall("^#include [<\"]([^>\"]+)[>\"]", path.read_text(), re.M))
    here = {header for header in headers if f"include/rangecheck/{header}" in unpacked[LIBRARY]}
    wanted = set()
    for header in headers - here:
        for folder in ("/usr/include", "/usr/include/eigen3", "/usr/include/x86_64-linux-gnu"):
            owner = subprocess.run(["dpkg", "-S", f"{folder}/{header}"], check=False, text=True,
                                   stdout=subprocess.PIPE, stderr=subprocess.DEVNULL).stdout
            wanted |= {owner.split(":")[0]} - {""}
    # Of the C library itself.
    wanted -= {"libc6-dev"}
    depends = set(field(deb_of(debs, LIBRARY), "Depends").split(", "))
    assert wanted and wanted <= depends, wanted - depends
    print("headers need", " ".join(sorted(wanted)))


def check_texts(debs):
    for package, section in ((PROGRAM, "science"), (LIBRARY, "libdevel")):
        deb = deb_of(debs, package)
        assert field(deb, "Section") == section
        assert field(deb, "Maintainer") == "The rangecheck authors <rangecheck@example.org>"
        assert len(field(deb, "Description").splitlines()) >= 5
    if not shutil.which("lintian"):
        print("there is no lintian here")
        return
    said = run("lintian", "--allow-root", *sorted(debs.glob("*.deb"))).stdout
    print(said)
    assert not re.search("^E:", said, re.M), said


def packages(build, source, debs):
    need("dpkg-deb", "dpkg-shlibdeps", "ldd", "readelf", "pkg-config")
    make(build, debs, "UTC")
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch)
        make(build, folder / "again", "Asia/Tokyo")
        for package in (PROGRAM, LIBRARY):
            first, again = deb_of(debs, package), deb_of(folder / "again", package)
            assert first.name == again.name and first.read_bytes() == again.read_bytes(), package
        unpacked = {}
        for package in (PROGRAM, LIBRARY):
            modes = {line[:10] for line in
                     good("dpkg-deb", "-c", deb_of(debs, package)).splitlines()}
            assert modes <= {"drwxr-xr-x", "-rw-r--r--", "-rwxr-xr-x"}, modes
            good("dpkg-deb", "-x", deb_of(debs, package), folder / package)
            unpacked[package] = files_under(folder / package / "usr")
        check_files(build, unpacked, folder)
        check_dependencies(debs, unpacked)
        check_texts(debs)
        both = folder / "root/usr"
        for package in (PROGRAM, LIBRARY):
            shutil.copytree(folder / package / "usr", both, dirs_exist_ok=True)
        grades_as_the_program_does(linked_by_pkg_config(both, source, folder), both, source, folder)


class Root:
    """Debian with what every Debian has, and nothing of this machine. What is mounted goes with the
    process that mounted it."""

    def __init__(self, folder):
        self.folder = folder

    def run(self, line, user="0:0"):
        inside = f"mount -t proc proc {self.folder}/proc && exec chroot --userspec={user} " \
                 f"{self.folder} /bin/sh -c {shlex.quote(line)}"
        return subprocess.run(["unshare", "--mount", "sh", "-c", inside], check=False, text=True,
                              stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                              env={"PATH": "/usr/sbin:/usr/bin:/sbin:/bin", "HOME": "/home/coach",
                                   "DEBIAN_FRONTEND": "noninteractive", "LC_ALL": "C.UTF-8"})

    def good(self, line, user="0:0"):
        print("$", line)
        done = self.run(line, user)
        assert done.returncode == 0, done
        print(done.stdout, end="")
        return done.stdout


def mirror():
    """Where apt gets this machine's Debian from, and its name."""
    release = pathlib.Path("/etc/os-release").read_text()
    name = re.search("^VERSION_CODENAME=(.*)$", release, re.M)
    if not name:
        skip("this is no release of Debian")
    told = good("apt-get", "indextargets", "--format", "$(SITE) $(RELEASE) $(COMPONENT)",
                "Created-By: Packages")
    for line in told.splitlines():
        site, suite, component = line.split(" ")
        if (suite, component) == (name[1], "main"):
            return site, suite
    skip("apt knows no mirror of this release")


def new_root(folder):
    need("debootstrap", "unshare", "chroot", "apt-get")
    if os.geteuid() != 0:
        skip("this needs root")
    if subprocess.run(["unshare", "--mount", "true"], check=False).returncode != 0:
        skip("namespaces may not be made here")
    site, suite = mirror()
    made = subprocess.run(["unshare", "--mount", "debootstrap", "--variant=minbase", suite, folder,
                           site], check=False, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                          text=True)
    if made.returncode != 0:
        (why,) = made.stdout.splitlines()[-1:] or ["it does not say why"]
        skip(f"debootstrap can't make a root from {site}: {why}")
    shutil.copy("/etc/resolv.conf", folder / "etc/resolv.conf")
    return Root(folder)


def grade_in(root, program, source, folder):
    """The sample inbox in the root, as a user of no rights; and by the build's program."""
    job = "grade inbox --profiles {} --roster roster.csv --out out --workers 2"
    homes = {"installed": root.folder / "home/coach", "built": folder / "coach"}
    told = {}
    for home in homes.values():
        home.mkdir(exist_ok=True)
        shutil.copytree(source / "samples/inbox", home / "inbox")
        shutil.copy(source / "samples/roster.csv", home)
    root.good("useradd --uid 1000 coach && chown -R coach /home/coach")
    line = "rangecheck " + job.format("/usr/share/rangecheck/profiles")
    print("$", line)
    told["installed"] = root.run(f"cd && {line}", user="1000:1000")
    told["built"] = subprocess.run(
        shlex.split(f"{program} {job.format(source / 'profiles')}"), check=False, text=True,
        cwd=homes["built"], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    print(told["installed"].stdout)
    for done in told.values():
        assert done.returncode == 1, done  # some samples have to be set aside
    assert told["installed"].stdout == told["built"].stdout
    outs = {by: files_under(home / "out") for by, home in homes.items()}
    assert set(outs["installed"]) == set(outs["built"])
    same = 0
    for name, path in outs["installed"].items():
        assert path.stat().st_uid == 1000 and path.stat().st_mode & 0o777 == 0o600, name
        if name != "history.sqlite":
            assert path.read_bytes() == outs["built"][name].read_bytes(), name
            same += 1
    print(f"{same} files as the build's program writes them")
    assert same > 50


def clean_root(build, source, debs):
    deb = deb_of(debs, PROGRAM)
    with tempfile.TemporaryDirectory(dir=build) as scratch:
        folder = pathlib.Path(scratch)
        (folder / "root").mkdir()
        (folder / "root").chmod(0o755)
        root = new_root(folder / "root")
        shutil.copy(deb, root.folder / "tmp")
        # What makes the service's user, for roots without systemd.
        root.good("apt-get install --no-install-recommends -y -qq systemd-standalone-sysusers 2>&1")
        # dpkg alone names what is missing; apt brings it.
        print("$ dpkg -i", deb.name)
        alone = root.run(f"dpkg -i /tmp/{deb.name}")
        assert alone.returncode != 0 and "depends on libfmt" in alone.stderr, alone
        print(alone.stderr)
        root.good("apt-get install --fix-broken --no-install-recommends -y -qq 2>&1")
        root.good(f"dpkg -i /tmp/{deb.name}")
        assert root.good("dpkg-query -W -f '${Status}' rangecheck") == "install ok installed"
        assert root.good("dpkg --verify rangecheck") == ""
        assert root.good("getent passwd rangecheck").endswith(":/nonexistent:/usr/sbin/nologin\n")
        assert not list((root.folder / "etc/systemd").rglob("rangecheck*")), "the timer is on"
        assert root.good("rangecheck --version") == good(
            build / "apps/rangecheck/rangecheck", "--version")
        assert root.good("bash -c 'source /usr/share/bash-completion/completions/rangecheck; "
                         "COMP_WORDS=(rangecheck grade --format j) COMP_CWORD=3; _rangecheck; "
                         "echo ${COMPREPLY[*]}'") == "jsonl\n"
        grade_in(root, build / "apps/rangecheck/rangecheck", source, folder)
        # Gone again, but for what was graded.
        listed = set(root.run("dpkg -L rangecheck").stdout.split())
        assert "/usr/bin/rangecheck" in listed
        root.good("dpkg --remove rangecheck")
        assert not any((root.folder / name[1:]).is_file() for name in listed)
        assert (root.folder / "home/coach/out/coach.html").exists()


def main(what, build, source, debs):
    {"packages": packages, "clean-root": clean_root}[what](
        pathlib.Path(build).resolve(), pathlib.Path(source).resolve(), pathlib.Path(debs).resolve())


main(*sys.argv[1:])
