# SPDX-License-Identifier: MIT
"""The units of systemd and README's crontab line.

service.py units PROGRAM SOURCE UNIT: systemd finds no fault, and how exposed the service is.
service.py syscalls PROGRAM SOURCE UNIT: a run makes no system call that the unit forbids.
service.py sandbox PROGRAM SOURCE UNIT: a run with no network, no rights and one place to write.
service.py crontab PROGRAM SOURCE UNIT: the line as cron would run it, in folders with spaces.
Exit code 77 where a tool for it is missing or may not be used here."""

import os
import pathlib
import re
import resource
import shutil
import subprocess
import sys
import tempfile

sys.path.append(str(pathlib.Path(__file__).parents[1]))
from needs import need, skip

# By systemd 252. What is left: no root directory of its own (0.1), and the real-time clock's
# device, which ProtectClock= itself lets be read (0.1).
MOST_EXPOSED = 0.2
HIDDEN = {"RootDirectory=/RootImage=", "DeviceAllow="}


def run(*words, **more):
    return subprocess.run([str(word) for word in words], check=False, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT, text=True, **more)


def settings(unit):
    """Key and value of each line of a unit."""
    return [tuple(line.split("=", 1)) for line in pathlib.Path(unit).read_text().splitlines()
            if "=" in line and not line.startswith("#")]


def memory_max(unit):
    (word,) = [value for key, value in settings(unit) if key == "MemoryMax"]
    assert word.endswith("G"), word
    return int(word[:-1]) << 30


def verify(service, timer):
    return run("systemd-analyze", "verify", "--man=no", service, timer)


def units(program, source, unit, folder):
    need("systemd-analyze")
    service, timer = folder / "rangecheck.service", folder / "rangecheck.timer"
    shutil.copy(source / "apps/rangecheck/systemd/rangecheck.timer", timer)
    text, replaced = re.subn("^ExecStart=\\S+", f"ExecStart={program}", unit.read_text(), flags=re.M)
    assert replaced == 1 and "@" not in text.replace("@system-service", "").replace(
        "@privileged", "").replace("@resources", ""), text
    service.write_text(text)
    found = verify(service, timer)
    assert found.returncode == 0 and found.stdout == "", found
    told = run("systemd-analyze", "security", "--offline=yes", "--no-pager", service)
    (level,) = re.findall("Overall exposure level for rangecheck.service: ([0-9.]+) ", told.stdout)
    print("exposure level", level)
    assert float(level) <= MOST_EXPOSED, told.stdout
    left = set(re.findall("^✗ (\\S+)", told.stdout, re.M))
    assert left <= HIDDEN, left
    # What these checks are worth: a slip is found, and so is a door left open.
    service.write_text(text.replace("ProtectSystem=", "ProtectSytem="))
    assert "ProtectSytem" in verify(service, timer).stdout
    service.write_text(text.replace("PrivateNetwork=yes\n", ""))
    assert run("systemd-analyze", "security", "--offline=yes", "--threshold=2", service).returncode
    if shutil.which("systemd-sysusers"):
        users = run("systemd-sysusers", "--dry-run",
                    source / "apps/rangecheck/systemd/rangecheck.sysusers")
        assert users.returncode == 0, users


def calls_of(group):
    """The system calls of a filter's group."""
    calls = set()
    for line in run("systemd-analyze", "syscall-filter", group).stdout.splitlines()[1:]:
        word = line.strip()
        if word.startswith("@"):
            calls |= calls_of(word)
        elif word and not word.startswith("#"):
            calls.add(word)
    return calls


def allowed_calls(unit):
    calls = set()
    for key, value in settings(unit):
        if key != "SystemCallFilter":
            continue
        for word in value.lstrip("~").split():
            calls = calls - calls_of(word) if value.startswith("~") else calls | calls_of(word)
    return calls


def grade(program, source, folder):
    """The command of the unit, for the sample inbox and with the output here."""
    return [program, "grade", source / "samples/inbox", "--profiles", source / "profiles",
            "--roster", source / "samples/roster.csv", "--out", folder / "out", "--quiet"]


def syscalls(program, source, unit, folder):
    need("systemd-analyze", "strace")
    if run("strace", "-o", "/dev/null", "true").returncode != 0:
        skip("processes may not be traced here")
    allowed = allowed_calls(unit)
    assert {"read", "openat", "fsync", "clone3"} <= allowed and "mount" not in allowed
    log = folder / "calls"
    done = run("strace", "-f", "-qq", "-o", log, *grade(program, source, folder))
    assert done.returncode == 1, done
    made = set(re.findall("^[0-9]+ +([a-z0-9_]+)\\(", log.read_text(errors="replace"), re.M))
    assert {"openat", "rename", "fsync"} <= made, made
    # SQLite gives its files the database's owner where root runs it, which the service does not.
    of_root = {"fchown"} if os.geteuid() == 0 else set()
    assert made - allowed - of_root == set(), made - allowed
    assert not made & {"socket", "connect", "ptrace"}


IN_SANDBOX = """
set -e
mount --make-rprivate /
mount --bind "$1" "$1"
mount -o remount,ro,bind /
cd "$1"
shift
exec setpriv --no-new-privs --bounding-set=-all --inh-caps=-all "$@"
"""


def in_sandbox(writable, *words):
    return run("unshare", "--net", "--mount", "--ipc", "--uts", "sh", "-c", IN_SANDBOX, "sh",
               writable, *words)


def sandbox(program, source, unit, folder):
    need("unshare", "setpriv")
    out = folder / "out"
    out.mkdir()
    if in_sandbox(out, "true").returncode != 0:
        skip("namespaces may not be made here")
    # It is one: elsewhere nothing can be written, and no link leads out.
    assert "Read-only" in in_sandbox(out, "touch", folder / "elsewhere").stdout
    rights = in_sandbox(out, "cat", "/proc/self/status").stdout
    assert len(re.findall("^Cap(?:Inh|Prm|Eff|Bnd|Amb):\t0+$", rights, re.M)) == 5, rights
    links = in_sandbox(out, "cat", "/proc/self/net/dev").stdout
    assert re.findall("^ *(\\S+):", links, re.M) == ["lo"], links
    done = in_sandbox(out, *grade(program, source, folder))
    assert done.returncode == 1 and "s-0416-7-iron: set aside: " in done.stdout, done
    assert (out / "rangecheck.xlsx").exists() and (out / "students/s-0401-7-iron").is_dir()
    most = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss * 1024
    print(f"most memory: {most >> 20} MiB")
    assert most < memory_max(unit) / 10  # as the unit's comment has it


def crontab(program, source, unit, folder):
    need("flock")
    readme = (source / "README.md").read_text(encoding="utf-8")
    (line,) = re.findall("^```crontab\n(.*)\n```$", readme, re.M)
    when, command = re.fullmatch("((?:\\S+ ){5})(.*)", line).groups()
    assert when == "30 2 * * * "
    assert "%" not in command  # which cron takes for a line's end
    assert command.count("/usr/local/bin/rangecheck") == 1
    films = folder / "golf films"
    shutil.copytree(source / "samples/inbox/s-0416-7-iron", films / "inbox/s-0416-7-iron")
    shutil.copytree(source / "samples/inbox/s-0401-7-iron", films / "inbox/s-0401-7-iron")
    shutil.copytree(source / "profiles", films / "profiles")
    shutil.copy(source / "samples/roster.csv", films)
    command = command.replace("/usr/local/bin/rangecheck", f"'{program}'")
    # cron's own environment: crontab(5).
    cron = {"HOME": str(folder), "SHELL": "/bin/sh", "PATH": "/usr/bin:/bin", "LOGNAME": "coach"}

    def night():
        return run("/bin/sh", "-c", command, env=cron, cwd=folder)

    done = night()
    assert done.returncode == 1, done
    assert re.fullmatch("rangecheck: [12]/2 s-0416-7-iron: set aside: .*\n", done.stdout), done
    assert (films / "out/coach.html").exists()
    # While a night is at work the next one leaves it alone, and says nothing.
    shutil.rmtree(films / "out")
    with subprocess.Popen(["flock", films / "lock", "sh", "-c", "echo at work; read wait"],
                          stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as other:
        assert other.stdout.readline() == "at work\n"
        held = night()
        assert held.returncode == 1 and held.stdout == "", held
        assert not (films / "out").exists()
    shutil.rmtree(films / "inbox/s-0416-7-iron")
    good = night()
    assert good.returncode == 0 and good.stdout == "", good  # nothing for cron to mail


def main(what, program, source, unit):
    with tempfile.TemporaryDirectory() as folder:
        {"units": units, "syscalls": syscalls, "sandbox": sandbox, "crontab": crontab}[what](
            pathlib.Path(program).resolve(), pathlib.Path(source).resolve(), pathlib.Path(unit),
            pathlib.Path(folder))


main(*sys.argv[1:])
