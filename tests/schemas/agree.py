# SPDX-License-Identifier: MIT
"""agree.py WHAT PROGRAM SOURCE: a validator that is not ours takes and refuses the same documents as the
program. WHAT: shipped (every file names its schema and is valid), profiles, folder (the other files of a profiles
folder) or manifests. Exit code 77 when the validator is not installed."""

import copy
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

try:
    import jsonschema
    import yaml
except ImportError:
    print("skipped: install python3-jsonschema and python3-yaml to hold documents against their schemas")
    sys.exit(77)

sys.dont_write_bytecode = True  # the source tree may be read-only
from documents import FOLDER, MANIFESTS, PROFILES


class Loader(yaml.SafeLoader):
    """YAML 1.2's core, as editors read it: dates and times are text, yes and no are words."""


Loader.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in resolvers
            if tag.rsplit(":", 1)[1] not in ("timestamp", "bool", "int", "float")]
    for first, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()}
Loader.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile("^(true|false|True|False|TRUE|FALSE)$"), "tfTF")
Loader.add_implicit_resolver("tag:yaml.org,2002:int", re.compile(r"^[-+]?[0-9]+$"), "-+0123456789")
Loader.add_implicit_resolver("tag:yaml.org,2002:float", re.compile(
    r"^[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?$"), "-+.0123456789")


class Schemas:
    def __init__(self, source):
        self.folder = source / "profiles" / "schemas"
        self.validators = {}
        for path in sorted(self.folder.glob("*.schema.json")):
            schema = json.loads(path.read_text(encoding="utf-8"))
            jsonschema.Draft202012Validator.check_schema(schema)
            self.validators[path.name] = jsonschema.Draft202012Validator(schema)

    def takes(self, kind, text):
        return self.validators[f"{kind}.schema.json"].is_valid(yaml.load(text, Loader))

    def why(self, kind, text):
        found = jsonschema.exceptions.best_match(
            self.validators[f"{kind}.schema.json"].iter_errors(yaml.load(text, Loader)))
        return f"{list(found.absolute_path)}: {found.message}" if found else "valid"


def named_schema(file):
    """The schema that a file names for editors, which it does once and in its head."""
    lines = file.read_text(encoding="utf-8").splitlines()
    named = [line.split("$schema=", 1)[1] for line in lines[:2] if line.startswith("# yaml-language-server: $schema=")]
    assert len(named) == 1, f"{file} names no schema"
    return (file.parent / named[0]).resolve()


def check_shipped(program, source, schemas):
    profiles = source / "profiles"
    files = [p for p in sorted(profiles.rglob("*.yaml"))
             if p.relative_to(profiles).parts[0] != "words" and p.name != "names.yaml"]
    manifests = sorted((source / "samples/inbox").glob("*/submission.yaml"))
    assert len(files) > 60 and len(manifests) > 20
    own = {"clubs.yaml", "limits.yaml", "measures.yaml", "filming.yaml"}
    for file in files + manifests:
        schema = named_schema(file)
        kind = schema.name.removesuffix(".schema.json")
        wanted = ("manifest" if file.name == "submission.yaml" else
                  file.stem if file.parent == profiles and file.name in own else
                  "layout" if file.parent.name == "layouts" else "profile")
        assert kind == wanted and schema.parent == schemas.folder.resolve(), file
        refused = file.parent.name == "s-0417-7-iron"  # the sample whose manifest has a typing error
        assert schemas.takes(kind, file.read_text(encoding="utf-8")) != refused, \
            f"{file}: {schemas.why(kind, file.read_text(encoding='utf-8'))}"
    # What `profile new` prints says what its schema is, and is valid.
    done = subprocess.run([program, "profile", "new", "mine", "--club", "7i", "--swing", "full", "--profiles", profiles],
                          capture_output=True, check=True, text=True)
    assert done.stdout.startswith("# yaml-language-server: $schema=../schemas/profile.schema.json\n")
    assert schemas.takes("profile", done.stdout), schemas.why("profile", done.stdout)
    for name in ("middle-iron-full-neutral", "putter-putt-preset"):
        done = subprocess.run([program, "profile", "show", name, "--profiles", profiles],
                              capture_output=True, check=True, text=True)
        assert schemas.takes("profile", done.stdout), schemas.why("profile", done.stdout)
    print(f"{len(files) + len(manifests)} files are valid")


ALONE = "version: 1\nid: alone\nchecks:\n  hip-tilt: { target: 1..2 deg, fade: 1 deg }\n"


def hold(told, taken, right, schemas, kind, text):
    """The reader decides as expected, and the schema as the reader."""
    assert taken == right, f"the program {'takes' if taken else 'refuses'}\n{text}\n{told}"
    assert schemas.takes(kind, text) == taken, \
        f"the schema {'refuses' if taken else 'takes'}\n{text}\n{told or schemas.why(kind, text)}"


def lint(program, folder):
    done = subprocess.run([program, "profile", "lint", folder], capture_output=True, check=False, text=True)
    assert done.returncode in (0, 2), done.stderr
    return done.stderr, done.returncode == 0


def check_profiles(program, source, schemas):
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch) / "profiles"
        shutil.copytree(source / "profiles", folder)
        for text, right in PROFILES:
            (folder / "mine.yaml").write_text(text, encoding="utf-8")
            hold(*lint(program, folder), right, schemas, "profile", text)
    print(f"{len(PROFILES)} profiles")


def check_folder(program, source, schemas):
    for name, text, right in FOLDER:
        with tempfile.TemporaryDirectory() as scratch:
            folder = pathlib.Path(scratch)
            (folder / "students").mkdir()
            (folder / "clubs.yaml").write_text("version: 1\nfamilies: { iron: [] }\n", encoding="utf-8")
            (folder / "alone.yaml").write_text(ALONE, encoding="utf-8")
            (folder / name).write_text(text, encoding="utf-8")
            kind = "student" if name.startswith("students/") else pathlib.Path(name).stem
            hold(*lint(program, folder), right, schemas, kind, text)
    print(f"{len(FOLDER)} files of profiles folders")


def check_manifests(program, source, schemas):
    right_one = yaml.load((source / "samples/inbox/s-0401-7-iron/submission.yaml").read_text(encoding="utf-8"), Loader)
    for change, right in MANIFESTS:
        document = copy.deepcopy(right_one)
        change(document)
        text = yaml.safe_dump(document, allow_unicode=True)
        with tempfile.TemporaryDirectory() as scratch:
            folder = pathlib.Path(scratch) / "one"
            folder.mkdir()
            (folder / "submission.yaml").write_text(text, encoding="utf-8")
            packed = subprocess.run([program, "pack", scratch], capture_output=True, check=False)
        # A right manifest is read to its end; then its student or its films are looked for, which are not there.
        done = subprocess.run([program, "grade", "-", "--profiles", source / "profiles"], input=packed.stdout,
                              capture_output=True, check=False)
        told = (packed.stderr + done.stderr).decode("utf-8")
        assert done.returncode == 1, told
        is_read = "isn't in the roster" in told or "there is no file" in told
        hold(told, is_read, right, schemas, "manifest", text)
    print(f"{len(MANIFESTS)} manifests")


def main(what, program, source):
    source = pathlib.Path(source)
    schemas = Schemas(source)
    {"shipped": check_shipped, "profiles": check_profiles, "folder": check_folder, "manifests": check_manifests}[what](
        program, source, schemas)


main(*sys.argv[1:])
