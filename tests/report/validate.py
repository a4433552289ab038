# SPDX-License-Identifier: MIT
"""validate.py SCHEMA PROGRAM ARGS...: everything PROGRAM prints, one JSON document a line, is valid; and
documents with a fault planted in them are not. Exit code 77 when the validator is not installed."""

import copy
import json
import subprocess
import sys
import tempfile

try:
    import jsonschema
except ImportError:
    print("skipped: install python3-jsonschema to hold results against their schema")
    sys.exit(77)


def main(schema_path, *command):
    with open(schema_path, encoding="utf-8") as file:
        schema = json.load(file)
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    with tempfile.TemporaryDirectory() as folder:
        done = subprocess.run(command, cwd=folder, capture_output=True, check=False)
    # 1 says that some submissions were set aside, which is what they have documents for.
    assert done.returncode in (0, 1), done.stderr.decode("utf-8")
    documents = [json.loads(line) for line in done.stdout.decode("utf-8").split("\n") if line]
    assert documents, "the program printed nothing"
    for document in documents:
        validator.validate(document)

    result = next(d for d in documents if d["format"] == "rangecheck-result" and d["checks"])
    for spoil in (
        lambda d: d.update(version=2),
        lambda d: d.update(extra=1),
        lambda d: d.pop("grade"),
        lambda d: d["checks"][0].update(extra=1),
        lambda d: d["checks"][0].pop("verdict"),
        lambda d: d["checks"][0].update(position="p4"),
        lambda d: d["checks"][0].pop("position"),
        lambda d: d.pop("not_found"),
        lambda d: d.pop("films"),
        lambda d: d["films"][0]["criteria"][0].update(verdict="bad"),
        lambda d: d["films"][0]["criteria"][0]["good"].pop("lower"),
        lambda d: d["checks"][0].update(unit="in"),
        lambda d: d["measurements"][0].update(standard_uncertainty=-1),
    ):
        spoiled = copy.deepcopy(result)
        spoil(spoiled)
        assert not validator.is_valid(spoiled), "the schema lets a planted fault pass"
    print(f"{len(documents)} documents are valid")


main(*sys.argv[1:])
