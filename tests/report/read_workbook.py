# SPDX-License-Identifier: MIT
"""The workbook read by openpyxl and held, cell by cell, against the CSV files of the same run.

read_workbook.py night PROGRAM SOURCE: grades the sample inbox in inches and in centimetres.
read_workbook.py hostile PROGRAM: runs workbook_example; what people wrote must come out inert.
read_workbook.py people PROGRAM SOURCE: the same through the whole program, from an inbox.
Exit code 77 when openpyxl is not installed."""

import csv
import datetime
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import zipfile

try:
    import openpyxl
except ImportError:
    print("skipped: install python3-openpyxl to read the workbook")
    sys.exit(77)

SHEETS = ["Submissions", "Checks", "Side by side", "Set aside", "About"]
VERDICTS = {"inside", "low", "high", "outside", "unsure", "not seen", "switched off"}
NUMBERS = {"value", "u", "low_95", "high_95", "band_low", "band_high", "p_inside", "score",
           "weight", "work_on"}
SHOWN_AS = {"deg": "0.0", "in": "0.00", "cm": "0.00", "%": "0.0", "s": "0.000", "": "0.000"}
MOST_UNITS = 32767
FORMULA = re.compile("\\s*[=+\\-@＝＋－＠]")


def rows_of(path):
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.reader(file, strict=True))


def text_in(cell):
    """The text of a cell by ISO/IEC 29500-1, 22.9.2.19: _xHHHH_ stands for a character."""
    return re.sub("_x([0-9A-Fa-f]{4})_", lambda code: chr(int(code[1], 16)), cell.value)


def units(text):
    return len(text.encode("utf-16-le", "surrogatepass")) // 2


def in_workbook(text):
    """The form of text that a cell has room for."""
    if units(text) <= MOST_UNITS:
        return text
    fits = text.encode("utf-16-le")[: 2 * (MOST_UNITS - 1)].decode("utf-16-le", "ignore")
    return fits + "…"


def without_mark(text):
    return text[1:] if text[:1] == "'" and FORMULA.match(text[1:]) else text


def same(cell, text, numeric, where):
    """`cell` holds what the CSV file has as `text`."""
    if text == "":
        assert cell.value is None, (where, cell.value)
    elif numeric:
        assert cell.data_type == "n", (where, cell.data_type)
        assert cell.value == float(text), (where, cell.value, text)
    else:
        assert cell.data_type == "s", (where, cell.data_type)
        # A ' at the beginning is the person's own, or the CSV file's mark that this is no formula.
        meant = {in_workbook(text), in_workbook(without_mark(text))}
        assert text_in(cell) in meant, (where, cell.value, text)


def is_number(text):
    return re.fullmatch(r"-?\d+(\.\d+)?(e[+-]?\d+)?", text) is not None


def compare_checks(sheet, rows):
    header = [cell.value for cell in sheet[1]]
    assert [title.split(" [")[0] for title in header] == rows[0], header
    assert [title for title in header if title.endswith(" [unit]")] == [
        f"{name} [unit]" for name in ("value", "u", "low_95", "high_95", "band_low", "band_high")]
    assert sheet.max_row == len(rows), (sheet.max_row, len(rows))
    formats = 0
    for cells, texts in zip(sheet.iter_rows(), rows):
        if cells[0].row == 1:
            continue
        for cell, text, name in zip(cells, texts, rows[0], strict=True):
            same(cell, text, name in NUMBERS, cell.coordinate)
            if name in ("value", "u", "low_95", "high_95") and text:
                assert cell.number_format == SHOWN_AS[texts[rows[0].index("unit")]], cell.coordinate
                formats += 1
    return formats


def compare_wide(sheet, rows):
    for cells, texts in zip(sheet.iter_rows(), rows, strict=True):
        for cell, text, title in zip(cells, texts, rows[0], strict=True):
            words = title in rows[0][:4] or title == "work_on" or title.endswith(" verdict")
            # The column of a check that is words has words.
            numeric = cell.row > 1 and not words and is_number(text) and cell.data_type == "n"
            same(cell, text, numeric, cell.coordinate)
            if cell.row > 1 and not words and " [" in title and text:
                assert cell.data_type == "n", cell.coordinate


def compare_submissions(sheet, rows):
    wide = [dict(zip(rows[0], row)) for row in rows[1:]]
    header = [cell.value for cell in sheet[1]]
    assert sheet.max_row == len(rows)
    for cells, row in zip(sheet.iter_rows(min_row=2), wide, strict=True):
        cell = dict(zip(header, cells, strict=True))
        for name in ("submission", "student", "club", "swing"):
            same(cell[name], row[name], False, cell[name].coordinate)
        same(cell["grade [%]"], row["grade_percent"], True, "grade")
        has_grade = row["grade_percent"] != ""
        assert cell["status"].value == ("graded" if has_grade else "film again")
        half_width = cell["± (95 %) [%]"].value
        if has_grade:
            assert abs(half_width - 1.959964 * float(row["grade_u_percent"])) < 1e-3
        else:
            assert half_width is None
        assert abs(cell["seen [% of the weight]"].value - 100 * float(row["seen_share"])) < 1e-3
        work = [text_in(cell[name]) for name in ("work on first", "then", "after that")
                if cell[name].value is not None]
        listed = row["work_on"]
        assert " ".join(work) in {in_workbook(listed), in_workbook(without_mark(listed))}, listed
        assert cell["positions found"].value <= cell["positions judged"].value
        assert cell["films"].value in ("good", "fair", "poor", "not known")


def luminance(colour):
    """WCAG 2.2, relative luminance of "FFRRGGBB"."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (2, 4, 6)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def rules_of(sheet):
    """The rules of conditional formats by the column that they are for, whole columns only."""
    found = {}
    for area in sheet.conditional_formatting:
        column, first, _, last = openpyxl.utils.range_boundaries(str(area.sqref))
        assert (first, last) == (2, sheet.max_row), (sheet.title, area.sqref)
        found.setdefault(column, []).extend(area.rules)
        for rule in area.rules:
            fill = luminance(rule.dxf.fill.bgColor.rgb)
            font = luminance(rule.dxf.font.color.rgb)
            assert (fill + 0.05) / (font + 0.05) >= 7, (sheet.title, column, rule.formula)
    return found


def check_look(book):
    assert book.sheetnames == SHEETS
    for sheet in book:
        assert sheet.freeze_panes == "B2", sheet.title
        assert sheet.auto_filter.ref == sheet.dimensions, (sheet.title, sheet.auto_filter.ref)
        assert all(cell.font.b and cell.data_type == "s" for cell in sheet[1]), sheet.title
        assert all(dimension.width > 5 for dimension in sheet.column_dimensions.values())
    checks, wide = book["Checks"], book["Side by side"]
    names = [cell.value.split(" [")[0] for cell in checks[1]]
    verdict = rules_of(checks)[names.index("verdict") + 1]
    assert {rule.formula[0].strip('"') for rule in verdict} == VERDICTS
    value, low, high = (
        "$" + openpyxl.utils.get_column_letter(names.index(name) + 1) + "2"
        for name in ("value", "band_low", "band_high"))
    below = f"AND(ISNUMBER({low}),{value}<{low})"
    above = f"AND(ISNUMBER({high}),{value}>{high})"
    band = rules_of(checks)[names.index("value") + 1]
    assert [rule.formula[0] for rule in band] == [
        f"AND(ISNUMBER({value}),{below})", f"AND(ISNUMBER({value}),{above})",
        f"AND(ISNUMBER({value}),COUNT({low},{high})>0,NOT({below}),NOT({above}))"]
    assert len({rule.dxf.fill.bgColor.rgb for rule in band}) == 3
    assert [bool(rule.dxf.font.b) for rule in band] == [True, True, False]
    for column, rules in rules_of(wide).items():
        assert wide.cell(1, column).value.endswith((" verdict", "…")), column
        assert len(rules) == len(VERDICTS), column
    assert len(rules_of(wide)) == (wide.max_column - 8) / 3


def check_inert(path):
    """Nothing in the file is a formula of a cell, a link or a part from elsewhere."""
    with zipfile.ZipFile(path) as package:
        assert package.testzip() is None
        for part in package.infolist():
            assert part.date_time == (1980, 1, 1, 0, 0, 0), part.filename
            assert re.fullmatch(
                r"\[Content_Types\]\.xml|_rels/\.rels|docProps/(app|core)\.xml"
                r"|xl/_rels/workbook\.xml\.rels"
                r"|xl/(workbook|styles|theme/theme1|worksheets/sheet[1-5])\.xml", part.filename), part
            text = package.read(part).decode("utf-8")
            for tag in ("<f>", "<f ", "<hyperlink", "TargetMode", "<!DOCTYPE", "<externalReference"):
                assert tag not in text, (part.filename, tag)


def compare(folder):
    book = openpyxl.load_workbook(folder / "rangecheck.xlsx")
    check_inert(folder / "rangecheck.xlsx")
    check_look(book)
    wide = rows_of(folder / "submissions.csv")
    formats = compare_checks(book["Checks"], rows_of(folder / "checks.csv"))
    compare_wide(book["Side by side"], wide)
    compare_submissions(book["Submissions"], wide)
    return book, formats


def grade(program, source, folder, *options, zone="UTC"):
    done = subprocess.run(
        [program, "grade", source / "samples/inbox", "--profiles", source / "profiles", "--roster",
         source / "samples/roster.csv", "--out", folder, "--settle", "0", *options],
        capture_output=True, check=False, env={**os.environ, "TZ": zone})
    assert done.returncode == 1, done.stderr.decode("utf-8")  # the inbox has broken submissions
    return folder


def check_about(book, unit):
    rows = [tuple(cell.value for cell in row) for row in book["About"].iter_rows(min_row=2)]
    told = {what for _, what, _ in rows}
    assert VERDICTS <= told and {"u", "± (95 %)", "no medical advice"} <= told
    assert [text for _, what, text in rows if what == "lengths"][0].startswith(unit + ";")
    for name in SHEETS[:2] + SHEETS[3:4]:
        explained = {what for sheet, what, _ in rows if sheet == f"sheet {name}"}
        assert explained == {cell.value for cell in book[name][1]}, name


def night(program, source):
    source = pathlib.Path(source)
    with tempfile.TemporaryDirectory() as scratch:
        scratch = pathlib.Path(scratch)
        for unit in ("in", "cm"):
            folder = grade(program, source, scratch / unit, "--units", unit)
            book, formats = compare(folder)
            assert formats > 1000, formats
            assert f"stance-width [{unit}]" in [cell.value for cell in book["Side by side"][1]]
            check_about(book, unit)
            received = {cell.value for cell in book["Submissions"]["C"][1:]}
            assert datetime.datetime(2026, 3, 14) in received, received
            assert all(cell.is_date for cell in book["Submissions"]["C"][1:] if cell.value)
            told = {row[0].value: f"{row[1].value} ({row[2].value})\n"
                    for row in book["Set aside"].iter_rows(min_row=2)}
            assert told == {path.stem: path.read_text(encoding="utf-8").splitlines()[0] + "\n"
                            for path in (folder / "set-aside").iterdir()}
            with zipfile.ZipFile(folder / "rangecheck.xlsx") as package:
                content = b"".join(map(package.read, package.namelist())).decode("utf-8")
            for row in rows_of(source / "samples/roster.csv")[1:]:
                assert not re.search(rf"\b{re.escape(row[1])}\b", content), row[1]
        again = grade(program, source, scratch / "again", "--workers", "1", zone="Pacific/Apia")
        name = "rangecheck.xlsx"
        assert (scratch / "in" / name).read_bytes() == (again / name).read_bytes()
    print("the workbook says what the CSV files say, in inches and in centimetres")


HIDDEN = re.compile("[\x00-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff"
                    "\ufffe\uffff]")


def made_visible(raw):
    """README: control characters and bytes that are no UTF-8 are written like \\x0a, \\n or \\t."""
    def written(char):
        code = ord(char)
        if 0xDC80 <= code <= 0xDCFF:
            return f"\\x{code - 0xDC00:02x}"
        if HIDDEN.match(char):
            short = {"\n": "\\n", "\t": "\\t"}
            return short.get(char) or "".join(f"\\x{byte:02x}" for byte in char.encode("utf-8"))
        return char
    return "".join(written(char) for char in raw.decode("utf-8", "surrogateescape"))


def hostile(program):
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch)
        subprocess.run([program, folder], check=True)
        attempts = [bytes.fromhex(line) for line in (folder / "attempts.txt").read_text().split()]
        safe = [made_visible(raw) for raw in attempts]
        assert len(safe) >= 40
        book, _ = compare(folder)
        checks, submissions = book["Checks"], book["Submissions"]
        names = [cell.value.split(" [")[0] for cell in checks[1]]
        for i, text in enumerate(safe):
            first = checks[2 + 3 * i]
            unseen, seen = checks[3 + 3 * i], checks[4 + 3 * i]
            places = [first[names.index(name)] for name in
                      ("submission", "student", "club", "swing", "profile", "title")]
            places += [unseen[names.index(name)] for name in ("check", "title", "reason", "remedy")]
            places += [seen[names.index("word")], seen[names.index("accept")]]
            places += [submissions[2 + i][column] for column in (0, 1, 2, 3, 4, 5, 13)]
            places += list(book["Set aside"][2 + i])
            for cell in places:
                assert cell.data_type == "s", (cell.coordinate, i)
                assert cell.number_format == "@", (cell.coordinate, i)
                assert text_in(cell) == in_workbook(text), (cell.coordinate, i, cell.value[:80])
                assert not HIDDEN.search(cell.value), (cell.coordinate, i)
        for name in ("checks.csv", "submissions.csv"):
            rows = rows_of(folder / name)
            assert all(len(row) == len(rows[0]) for row in rows), name
            for row in rows:
                for text in row:
                    assert is_number(text) or not FORMULA.match(text), text[:80]
                    assert not HIDDEN.search(text), text[:80]
        long_rows = rows_of(folder / "checks.csv")[1::3]
        assert [without_mark(row[1]) for row in long_rows] == [without_mark(text) for text in safe]
    print(f"{len(attempts)} attempts came out inert")


def people(program, source):
    """Folders, words that were noted and a student's name that try the same, through the program."""
    source = pathlib.Path(source)
    tries = ["=1+1", "=cmd|' C calc'!A0", "+1+1", "-2+3", "@SUM(1)", "\t=1", "a\n=1", "a,=1", 'a","=1',
             "'=1+1", "<f>1<f>", "&#61;1", "]]>", "_x003D_1", "a\u202eb", " =1+1", "＝1+1",
             "http:a.example", "mailto:a@b.example", "a;=1+1", "x" * 200]
    with tempfile.TemporaryDirectory() as scratch:
        inbox, out = pathlib.Path(scratch, "inbox"), pathlib.Path(scratch, "out")
        roster = pathlib.Path(scratch, "roster.csv")
        roster.write_text("id,name,handedness\ns-0402,=1+1,right\n", encoding="utf-8")
        for i, text in enumerate(tries):
            shutil.copytree(source / "samples/inbox/s-0408-7-iron", inbox / text)
            folder = inbox / f"p-{i:02}"
            shutil.copytree(source / "samples/inbox/s-0402-7-iron", folder)
            manifest = (folder / "submission.yaml").read_text(encoding="utf-8")
            noted = manifest.replace("interlock", json.dumps(text))
            assert noted != manifest
            (folder / "submission.yaml").write_text(noted, encoding="utf-8")
        done = subprocess.run([program, "grade", inbox, "--profiles", source / "profiles", "--roster",
                               roster, "--out", out, "--settle", "0"], capture_output=True, check=False)
        assert done.returncode == 1, done.stderr.decode("utf-8")
        book, _ = compare(out)
        header, *rows = book["Checks"].iter_rows()
        column = {cell.value: cell.column - 1 for cell in header}
        noted = [row[column["word"]] for row in rows if row[column["check"]].value == "hand-overlap"]
        assert [text_in(cell) for cell in noted] == [made_visible(text.encode()) for text in tries]
        assert all(cell.data_type == "s" for cell in noted)
        set_aside = {text_in(row[0]) for row in book["Set aside"].iter_rows(min_row=2)}
        assert set_aside == {made_visible(text.encode()) for text in tries}
    print(f"{2 * len(tries)} submissions came out inert, {len(set_aside)} of them set aside")


{"night": night, "hostile": hostile, "people": people}[sys.argv[1]](*sys.argv[2:])
