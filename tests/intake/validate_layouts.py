# SPDX-License-Identifier: MIT
"""validate_layouts.py SCHEMA FOLDER: every layout in FOLDER is valid and names the schema for editors; layouts
with a fault planted in them are not. Exit code 77 when the validator is not installed."""

import copy
import json
import pathlib
import sys

try:
    import jsonschema
    import yaml
except ImportError:
    print("skipped: install python3-jsonschema and python3-yaml to hold layouts against their schema")
    sys.exit(77)


def main(schema_path, folder):
    schema = json.loads(pathlib.Path(schema_path).read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    files = [p for p in sorted(pathlib.Path(folder).glob("*.yaml")) if p.name != "names.yaml"]
    assert files, "there are no layouts"
    for file in files:
        text = file.read_text(encoding="utf-8")
        layout = yaml.safe_load(text)
        validator.validate(layout)
        assert layout["layout"] == file.stem, file
        named = [line.split("=", 1)[1] for line in text.splitlines() if "yaml-language-server" in line]
        assert [(file.parent / path).resolve() for path in named] == [pathlib.Path(schema_path).resolve()], file

    layout = yaml.safe_load((pathlib.Path(folder) / "halpe-136.yaml").read_text(encoding="utf-8"))
    for spoil in (
        lambda d: d.update(extra=1),
        lambda d: d.update(layout="Halpe 136"),
        lambda d: d.pop("source"),
        lambda d: d["points"].append("left_nose"),
        lambda d: d["points"].append("unused x 0"),
        lambda d: d["hands"].update(middle=3),
        lambda d: d.update({"least-score": 1}),
        lambda d: d.update(estimator="another"),
    ):
        spoiled = copy.deepcopy(layout)
        spoil(spoiled)
        assert not validator.is_valid(spoiled), "the schema lets a planted fault pass"
    print(f"{len(files)} layouts are valid")


main(*sys.argv[1:])
