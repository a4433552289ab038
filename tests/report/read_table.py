# SPDX-License-Identifier: MIT
"""read_table.py PROGRAM FILE[=WIDTHxHEIGHT]...: `PROGRAM convert FILE` as lines and as a table, read by Python's own
json and csv: both hold the same films, number by number; and what FILE itself says, when it is in the
plain form."""

import csv
import io
import json
import os
import subprocess
import sys


def output_of(program, file, size, form):
    image = ["--image", size] if size else []
    done = subprocess.run(
        [program, "convert", file, "--to", form, *image], capture_output=True, check=True
    )
    return done.stdout.decode("utf-8")


def number(text):
    return float(text) if text else None


def of_lines(text):
    """(frame, person, point) -> x, y, confidence, space x, y, z, confidence; frames with their times."""
    _, *lines = [json.loads(line) for line in text.splitlines()]
    points, frames = {}, {}
    for line in lines:
        frames[line["frame"]] = line.get("time")
        for index, person in enumerate(line["people"], start=1):
            for key, first, size in (("points", 0, 3), ("space", 3, 4)):
                for name, numbers in person.get(key, {}).items():
                    row = points.setdefault((line["frame"], index, name), [None] * 7)
                    row[first : first + size] = numbers + [None] * (size - len(numbers))
    return points, frames


def of_table(text):
    points, frames = {}, {}
    rows = list(csv.DictReader(io.StringIO(text, newline=""), strict=True))
    for row in rows:
        assert None not in row and None not in row.values(), "a row of another length"
        if row["fact"]:
            continue
        frames[int(row["frame"])] = number(row["time"])
        if not row["point"]:
            continue
        cells = ["x", "y", "confidence", "space_x", "space_y", "space_z", "space_confidence"]
        key = (int(row["frame"]), int(row["person"]), row["point"])
        assert key not in points, "a point twice"
        points[key] = [number(row[cell]) for cell in cells]
    return points, frames


def of_file(file):
    """The points of a file in the plain form; None for another one."""
    if not os.path.isfile(file) or not file.endswith(".json"):
        return None
    with open(file, encoding="utf-8") as opened:
        document = json.load(opened)
    if not isinstance(document, dict) or document.get("format") != "rangecheck-landmarks":
        return None
    lines = [json.dumps({})] + [json.dumps(frame) for frame in document["frames"]]
    return of_lines("\n".join(lines))[0]


def main(program, *files):
    for named in files:
        file, _, size = named.partition("=")
        lines = of_lines(output_of(program, file, size, "jsonl"))
        table = of_table(output_of(program, file, size, "csv"))
        assert lines == table, file
        assert lines[0], "no points"
        written = of_file(file)
        assert written is None or written == lines[0], file
        print(f"{file}: {len(lines[0])} points in {len(lines[1])} frames")


main(*sys.argv[1:])
