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
        self.folder = source / "schemas"
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


HEAD = "version: 1\nid: mine\n"
CHECK = "checks:\n  stance-width: {{ {} }}\n"


def top(text):
    return HEAD + "positions:\n  top:\n    " + text + "\n"


# (document, whether it is right)
PROFILES = [
    (HEAD, True),
    ("id: mine\n", False),
    ("version: 1\n", False),
    ("version: 2\nid: mine\n", False),
    (HEAD + "titel: Mine\n", False),
    (HEAD + "title: Mine\nextends: [address, tempo]\nstyle: 7\nlanguage: pt-BR\n", True),
    (HEAD + "extends: address\n", True),
    (HEAD + "extends: { a: b }\n", False),
    (HEAD + "language: german\n", False),
    (HEAD + "swing: full\n", True),
    (HEAD + "swing: fool\n", False),
    (HEAD + "club: middle-iron\nextends: address\nstyle: mine\n", False),
    (HEAD + "club: middle-iron\ntitle: Mine\nextends: address\nstyle: mine\n", True),
    (HEAD + "confidence: 0.9\nleast-seen: 1\n", True),
    (HEAD + "confidence: 0.5\n", False),
    (HEAD + "confidence: much\n", False),
    (HEAD + "least-seen: 1.1\n", False),
    (HEAD + "least-seen: -0.1\n", False),
    (HEAD + "checks:\n", False),
    (HEAD + "checks: [stance-width]\n", False),
    (HEAD + "checks: { stance-width: }\n", False),
    (HEAD + CHECK.format("target: 14..15 in, fade: 2 in, weight: 2, low: L., high: H., inside: I."), True),
    (HEAD + CHECK.format("target: 14 in..15 in, drill: D., caution: C., title: T"), True),
    (HEAD + CHECK.format("target: 35 .. 40 cm"), True),
    (HEAD + CHECK.format("target: 1 ft 2 in..1 ft 3 in"), True),
    (HEAD + CHECK.format("target: .3..0.4 m"), True),
    (HEAD + CHECK.format("target: at-least 350 mm"), True),
    (HEAD + CHECK.format("target: at-most 1.2e0 ft"), True),
    (HEAD + CHECK.format("target: around 14 in ± 1 in"), True),
    (HEAD + CHECK.format("target: around 14 +- 1 in"), True),
    (HEAD + CHECK.format("target: around 14 in ± -1 in"), False),
    (HEAD + CHECK.format("target: around 14 in"), False),
    (HEAD + CHECK.format("target: 14..15"), False),
    (HEAD + CHECK.format("target: 14 in"), False),
    (HEAD + CHECK.format("target: 14..15 deg"), False),
    (HEAD + CHECK.format("target: 14..15 inches"), False),
    (HEAD + CHECK.format("target: 14,5..15 in"), False),
    (HEAD + CHECK.format("target: at least 14 in"), False),
    (HEAD + CHECK.format("target: [14 in, 15 in]"), False),
    (HEAD + CHECK.format("fade: 0 in"), False),
    (HEAD + CHECK.format("fade: -1 in"), False),
    (HEAD + CHECK.format("fade: 2"), False),
    (HEAD + CHECK.format("fade: 5 deg"), False),
    (HEAD + CHECK.format("weight: 0"), True),
    (HEAD + CHECK.format("weight: -1"), False),
    (HEAD + CHECK.format("weight: heavy"), False),
    (HEAD + CHECK.format("wieght: 1"), False),
    (HEAD + CHECK.format("accept: [wide]"), False),
    (HEAD + CHECK.format("drives: [hip-hinge, top/hip-turn, tempo-ratio]"), True),
    (HEAD + CHECK.format("drives: { hip-hinge: 1 }"), False),
    (HEAD + CHECK.format("off: true"), True),
    (HEAD + CHECK.format("off: 'no'"), True),
    (HEAD + CHECK.format("off: perhaps"), False),
    (HEAD + CHECK.format("low: { en: Low. }"), False),
    (HEAD + "checks: { ball-position: { target: 0.4..0.6, fade: 0.1 } }\n", True),
    (HEAD + "checks: { ball-position: { target: 40..60 %, fade: 10 % } }\n", True),
    (HEAD + "checks: { ball-position: { target: 0.4..0.6 in } }\n", False),
    (HEAD + "checks: { ball-position: { fade: 0 } }\n", False),
    (HEAD + "checks: { hip-hinge: { target: 0.8..1.1 rad, fade: 10 deg } }\n", True),
    (HEAD + "checks: { hip-turn: { target: 30..60 deg } }\n", False),
    (HEAD + "checks: { tempo-ratio: { target: 2..4 } }\n", False),
    (top("hip-turn: { target: 30..60 deg }"), True),
    (top("hip-turn: { target: 30..60 in }"), False),
    (top("stance-width: { target: 14..15 in }"), False),
    (top("club-path: { target: 1..2 deg }"), False),
    (top("knee-gap: { target: 0.6..1.3 }"), True),
    (top("hands-from-trail-hip: { target: 1..3 in, fade: 1 in }"), True),
    (top("knee-gap: { target: 0.6..1.3, accept: yes }"), False),
    (HEAD + "positions: { p4: { hip-turn: { weight: 2 } } }\n", True),
    (HEAD + "positions: { p11: { hip-turn: { weight: 2 } } }\n", False),
    (HEAD + "positions: { topp: { hip-turn: { weight: 2 } } }\n", False),
    (HEAD + "positions: { p1: { stance-width: { weight: 2 } } }\n", True),
    (HEAD + "tempo: { tempo-ratio: { target: 2..4, fade: 0.6 } }\n", True),
    (HEAD + "tempo: { backswing-time: { target: 700..900 ms, fade: 0.1 s } }\n", True),
    (HEAD + "tempo: { backswing-time: { target: 0.7..0.9 } }\n", False),
    (HEAD + "tempo: { stance-width: { target: 14..15 in } }\n", False),
    (HEAD + "readings: { club-path: { target: 1..2 deg } }\n", True),
    (HEAD + "readings: { club-speed: { target: 1..2 deg } }\n", False),
    (HEAD + "observed: { lead-thumb: { accept: [trail-side], outside: No., weight: 0.5 } }\n", True),
    (HEAD + "observed: { ball-colour: { accept: white } }\n", True),
    (HEAD + "observed: { lead-thumb: { accept: [] } }\n", False),
    (HEAD + "observed: { lead-thumb: { accept: [a], target: 1..2 in } }\n", False),
    (HEAD + "observed: { stance-width: { accept: [wide] } }\n", False),
    (HEAD + "observed: { club-path: { accept: [in] } }\n", False),
]

OWN = "version: 1\nmeasures:\n  {}: {{ title: T, region: {}, at: {}, sign: S, {} }}\n"
DISTANCE = "distance: { from: lead knee, to: trail_knee }"
FILM = "version: 1\ncriteria:\n  feet-in-picture: {{ title: T, {} }}\n"
GOOD = "good: at-least 5 %, fair: at-least 1 %, advice: A."

# (file, document, whether it is right); what hangs on the file is taken out of the folder.
FOLDER = [
    ("clubs.yaml", "version: 1\nfamilies: { iron: [7-iron, 7i], putter: [], wood: driver }\n", True),
    ("clubs.yaml", "version: 1\ndefault-style: neutral\nfamilies: { iron: 7 }\n", True),
    ("clubs.yaml", "version: 1\n", False),
    ("clubs.yaml", "version: 1\nfamilies: [iron]\n", False),
    ("clubs.yaml", "version: 1\nfamilies: { iron: { a: b } }\n", False),
    ("clubs.yaml", "families: { iron: [7-iron] }\n", False),
    ("clubs.yaml", "version: 1\nfamilies: { iron: [7-iron] }\nstyle: neutral\n", False),
    ("limits.yaml", "version: 1\nlimits: { stiff: { because: B, switch-off: [hip-tilt] } }\n", True),
    ("limits.yaml", "version: 1\nlanguage: de\nlimits: { stiff: { because: B, shift: { top/hip-turn: { lower: -5 deg } } } }\n",
     True),
    ("limits.yaml", "version: 1\nlimits: { stiff: { because: B, target: { hip-tilt: at-most 5 deg } } }\n", True),
    ("limits.yaml", "version: 1\nlimits: { stiff: { switch-off: [hip-tilt] } }\n", False),
    ("limits.yaml", "version: 1\nlimits: { stiff: { because: B, shift: { hip-tilt: {} } } }\n", False),
    ("limits.yaml", "version: 1\nlimits: { stiff: { because: B, shift: { hip-tilt: { left: 5 deg } } } }\n", False),
    ("limits.yaml", "version: 1\nlimits: { stiff: { because: B, target: { hip-tilt: 5 deg } } }\n", False),
    ("limits.yaml", "version: 1\nlimits: { stiff: { because: B, switchoff: hip-tilt } }\n", False),
    ("limits.yaml", "version: 1\n", False),
    ("students/s-1.yaml", "version: 1\nbecause: B\nshift: { hip-tilt: { lower: 1 deg, upper: 2 deg } }\n", True),
    ("students/s-1.yaml", "version: 1\nshift: { hip-tilt: { lower: 1 deg } }\n", False),
    ("students/s-1.yaml", "version: 1\nbecause: B\nlimits: stiff\n", False),
    ("measures.yaml", OWN.format("gap", "knees", "top", DISTANCE), True),
    ("measures.yaml", OWN.format("gap", "knees", "[p1, impact]", DISTANCE + ", seen-within: 1 in"), True),
    ("measures.yaml", OWN.format("gap", "knees", "top", "distance: { from: lead knee, to: lead hip, along: up }"), True),
    ("measures.yaml", OWN.format("gap", "knees", "top", "distance: { from: lead knee, to: lead hip, along: left }"), False),
    ("measures.yaml", OWN.format("gap", "knees", "top", "distance: { from: lead knee }"), False),
    ("measures.yaml", OWN.format("gap", "knees", "top", "distance: { from: left knee, to: lead hip }"), False),
    ("measures.yaml", OWN.format("gap", "legs", "top", DISTANCE), False),
    ("measures.yaml", OWN.format("gap", "timing", "top", DISTANCE), False),
    ("measures.yaml", OWN.format("gap", "knees", "topp", DISTANCE), False),
    ("measures.yaml", OWN.format("gap", "knees", "[]", DISTANCE), False),
    ("measures.yaml", OWN.format("gap", "knees", "top", "seen-within: 1 in"), False),
    ("measures.yaml", OWN.format("club-path", "knees", "top", DISTANCE), False),
    ("measures.yaml", OWN.format("stance-width", "knees", "top", DISTANCE), False),
    ("measures.yaml", OWN.format("top/gap", "knees", "top", DISTANCE), False),
    ("measures.yaml", OWN.format("gap", "knees", "top", "change: { of: { " + DISTANCE + " } }"), True),
    ("measures.yaml", OWN.format("gap", "knees", "top", "change: { of: {} }"), False),
    ("measures.yaml", OWN.format("gap", "knees", "top", "ratio: { over: { " + DISTANCE + " }, under: { " + DISTANCE + " } }"),
     True),
    ("measures.yaml", OWN.format("gap", "knees", "top", "ratio: { over: { " + DISTANCE + " } }"), False),
    ("measures.yaml", OWN.format("gap", "knees", "top", DISTANCE + ", ratio: { over: { " + DISTANCE + " }, under: { " + DISTANCE
                                 + " } }"), False),
    ("measures.yaml", OWN.format("gap", "knees", "top",
                                 "angle-at-joint: { first: lead hip, joint: lead knee, second: lead ankle, as: included }"), True),
    ("measures.yaml", OWN.format("gap", "knees", "top",
                                 "angle-at-joint: { first: lead hip, joint: lead knee, second: lead ankle, as: bent }"), False),
    ("measures.yaml", OWN.format("gap", "knees", "top",
                                 "line-against: { line: [[lead hip, trail hip], lead knee], against: up, in: front }"), True),
    ("measures.yaml", OWN.format("gap", "knees", "top", "line-against: { line: lead hip, against: up, in: front }"), False),
    ("measures.yaml", OWN.format("gap", "knees", "top", "line-against: { line: [lead hip, lead knee], against: up }"), False),
    ("filming.yaml", FILM.format(GOOD), True),
    ("filming.yaml", "confidence: 0.8\nslow-hands: 3 %\n" + FILM.format("face-on: { " + GOOD + " }, down-the-line: { " + GOOD
                                                                          + " }"), True),
    ("filming.yaml", FILM.format(GOOD + ", from-above: {}"), False),
    ("filming.yaml", FILM.format("good: at-least 5 in, fair: at-least 1 in, advice: A."), False),
    ("filming.yaml", FILM.format(GOOD).replace("feet-in", "shoes-in"), False),
    ("filming.yaml", FILM.format(GOOD).replace("title: T, ", ""), False),
    ("filming.yaml", "confidence: 1\n" + FILM.format(GOOD), False),
    ("filming.yaml", "version: 1\n", False),
]

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


# Changes to a right manifest of two views, and whether it still is one.
MANIFESTS = [
    (lambda d: None, True),
    (lambda d: d.pop("student"), False),
    (lambda d: d.pop("club"), False),
    (lambda d: d.pop("views"), False),
    (lambda d: d.pop("swing"), True),
    (lambda d: d.update(student="../s"), False),
    (lambda d: d.update(student=""), False),
    (lambda d: d.update(student=".s"), False),
    (lambda d: d.update(student="s."), False),
    (lambda d: d.update(student="Zoë O'Neil (2)"), True),
    (lambda d: d.update(student="a/b"), False),
    (lambda d: d.update(student="a" * 101), False),
    (lambda d: d.update(student=["s"]), False),
    (lambda d: d.update(received="2026-03-14"), True),
    (lambda d: d.update(received="2026-03-14T18:22Z"), True),
    (lambda d: d.update(received="2026-03-14 18:22:00.25-0330"), True),
    (lambda d: d.update(received="14.3.2026"), False),
    (lambda d: d.update(received="2026-13-01"), False),
    (lambda d: d.update(received="2026-03-14T25:00"), False),
    (lambda d: d.update(received="2026-03-14T18:22+15:00"), False),
    (lambda d: d.update(club=""), False),
    (lambda d: d.update(club="i" * 61), False),
    (lambda d: d.update(swing="fool"), False),
    (lambda d: d.update({"same-swing": True}), True),
    (lambda d: d.update({"same-swing": "perhaps"}), False),
    (lambda d: d.update(extra=1), False),
    (lambda d: d.update(golfer={"name": "A", "style": "neutral", "limits": ["stiff neck"], "handedness": "Left"}), True),
    (lambda d: d.update(golfer={"handedness": "both"}), False),
    (lambda d: d.update(golfer={"stature": "5 ft 10 in"}), True),
    (lambda d: d.update(golfer={"stature": 178}), False),
    (lambda d: d.update(golfer={"stature": "178"}), False),
    (lambda d: d.update(golfer={"shoe": {"eu": 42}}), True),
    (lambda d: d.update(golfer={"shoe": "EU 42"}), True),
    (lambda d: d.update(golfer={"shoe": "42"}), False),
    (lambda d: d.update(golfer={"shoe": {"eu": 42, "uk": 8}}), False),
    (lambda d: d.update(golfer={"shoe": {"cm": 27}}), False),
    (lambda d: d.update(golfer={"age": 30}), False),
    (lambda d: d.update(golfer="Ann"), False),
    (lambda d: d.update(readings={"club-path": "3.2 deg", "face-to-target": "-1 deg"}), True),
    (lambda d: d.update(readings={"club-path": 3.2}), False),
    (lambda d: d.update(readings={"club-speed": "3 deg"}), False),
    (lambda d: d.update(observed={"lead-thumb": "trail-side", "stance-width": "14 in"}), True),
    (lambda d: d.update(observed={"lead-thumb": ["a"]}), False),
    (lambda d: d.update(observed=["lead-thumb"]), False),
    (lambda d: d.update(views=[]), False),
    (lambda d: d.update(views=d["views"] * 2), False),
    (lambda d: d["views"].pop(), True),
    (lambda d: d["views"][0].pop("view"), False),
    (lambda d: d["views"][0].update(view="side-on"), False),
    (lambda d: d["views"][0].pop("landmarks"), False),
    (lambda d: d["views"][0].update(landmarks=[]), False),
    (lambda d: d["views"][0].update(landmarks=["a.json", "b.json"]), True),
    (lambda d: d["views"][0].update({"frame-rate": 0.5}), False),
    (lambda d: d["views"][0].update({"frame-rate": "fast"}), False),
    (lambda d: d["views"][0].update({"frame-rte": 30}), False),
    (lambda d: d["views"][0].update(image={"width": 1080}), False),
    (lambda d: d["views"][0].update(image={"width": 8, "height": 1920}), False),
    (lambda d: d["views"][0].update(image={"width": 1080, "height": 1920, "depth": 3}), False),
    (lambda d: d["views"][0].update(ball="ball"), True),
    (lambda d: d["views"][0].update(ball="there"), False),
    (lambda d: d["views"][0].update(ball=[1, 2, 3]), False),
    (lambda d: d["views"][0].update(ball=["a", "b"]), False),
    (lambda d: d["views"][0].update({"target-line": [[1, 2]]}), False),
    (lambda d: d["views"][0].update({"target-line": [1, 2]}), False),
    (lambda d: d["views"][0].update(camera={"focal-px": 1500, "height": "95 cm", "distance": "11 ft"}), True),
    (lambda d: d["views"][0].update(camera={"height": 0.95}), False),
    (lambda d: d["views"][0].update(camera={"height": "0 m"}), False),
    (lambda d: d["views"][0].update(camera={"focal-px": 10}), False),
    (lambda d: d["views"][0].update(camera={"tilt": "3 deg"}), False),
    (lambda d: d["views"][0].update({"club-points": "club.json", "layout": "coco-17"}), True),
    (lambda d: d["views"][0].update({"club-points": {"a": "b"}}), False),
    (lambda d: d["views"][0].update(clicks=[{"frame": 0, "ball": [1, 2]}, {"time": "1.2 s", "club_toe": [3, 4]}]), True),
    (lambda d: d["views"][0].update(clicks=[{"frame": 0}]), False),
    (lambda d: d["views"][0].update(clicks=[{"ball": [1, 2]}]), False),
    (lambda d: d["views"][0].update(clicks=[{"frame": 0, "time": "1 s", "ball": [1, 2]}]), False),
    (lambda d: d["views"][0].update(clicks=[{"frame": -1, "ball": [1, 2]}]), False),
    (lambda d: d["views"][0].update(clicks=[{"frame": 0.5, "ball": [1, 2]}]), False),
    (lambda d: d["views"][0].update(clicks=[{"frame": 0, "nose": [1, 2]}]), False),
    (lambda d: d["views"][0].update(clicks={"frame": 0, "ball": [1, 2]}), False),
    (lambda d: d["views"][0].update(clicks=[{"time": 1.2, "ball": [1, 2]}]), False),
]


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
