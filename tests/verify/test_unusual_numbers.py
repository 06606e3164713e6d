"""Attributes that should hold a whole number and do not: the file is refused, or opened where nobody reads them."""

from __future__ import annotations

import zipfile
from pathlib import Path
from typing import Final

import pytest

from support.hostile import MAIN, PLAIN, SHEET, looked_at, refusal, zipped
from support.planners import Built, Planners, evaluated
from thorough.mutations.planting import packed
from wbgen.files.xlsx.refusal import UnsafeFile
from wbgen.files.xlsx.workbook import read

STYLES: Final = "xl/styles.xml"
ODD: Final = ("x", "-1", "1e9", "1.5", "", "²", "0x1", "99999999999", "1_0", "١")


def around(cells: str, before: str = "", after: str = "") -> bytes:
    return b"<worksheet" + MAIN + f">{before}<sheetData>{cells}</sheetData>{after}</worksheet>".encode()


def styles(inside: str) -> bytes:
    return f"<styleSheet>{inside}</styleSheet>".encode()


ONE: Final = '<row r="1"><c r="A1"><v>1</v></c></row>'
PLACES: Final = {
    "a row": (SHEET, around('<row r="{}"><c><v>1</v></c></row>')),
    "a cell of style": (SHEET, around('<row r="1"><c r="A1" s="{}"><v>1</v></c></row>')),
    "a shared text": (SHEET, around('<row r="1"><c r="A1" t="s"><v> {} </v></c></row>')),
    "a shared formula": (SHEET, around('<row r="1"><c r="A1"><f t="shared" ref="A1" si="{}">1+1</f></c></row>')),
    "a column": (SHEET, around(ONE, '<cols><col hidden="1" min="{}" max="3"/></cols>')),
    "a column at its end": (SHEET, around(ONE, '<cols><col hidden="1" min="1" max="{}"/></cols>')),
    "the look of a rule": (
        SHEET,
        around(ONE, after='<conditionalFormatting sqref="A1"><cfRule dxfId="{}"/></conditionalFormatting>'),
    ),
    "a cell": (SHEET, around(ONE, after='<mergeCells><mergeCell ref="A{}"/></mergeCells>')),
    "a number format": (STYLES, styles('<numFmts><numFmt numFmtId="{}" formatCode="0"/></numFmts>')),
    "a style of number format": (STYLES, styles('<cellXfs><xf numFmtId="{}"/></cellXfs>')),
}


@pytest.mark.parametrize("odd", ODD)
@pytest.mark.parametrize("place", PLACES)
def test_what_is_no_whole_number_is_refused(tmp_path: Path, place: str, odd: str) -> None:
    part, content = PLACES[place]
    if place == "a shared text" and not odd:
        return  # a cell without a value
    refused = refusal(tmp_path, zipped({**PLAIN, part: content.replace(b"{}", odd.encode())}))
    assert refused.code == "damaged-file"
    assert part in refused.found
    assert refused.remedy


@pytest.mark.parametrize("missing", ['min="1"', 'max="3"'])
def test_a_hidden_column_without_its_ends_is_refused(tmp_path: Path, missing: str) -> None:
    whole = '<cols><col hidden="1" min="1" max="3"/></cols>'
    looked_at(tmp_path, zipped({**PLAIN, SHEET: around(ONE, whole)}))
    cut = around(ONE, whole.replace(missing, ""))
    assert "without a number" in refusal(tmp_path, zipped({**PLAIN, SHEET: cut})).found


@pytest.mark.parametrize("reference", ["A0", "A1048577", "XFE1", "AAAA1"])
def test_a_cell_that_no_sheet_has_is_refused(tmp_path: Path, reference: str) -> None:
    merged = around(ONE, after=f'<mergeCells><mergeCell ref="{reference}"/></mergeCells>')
    assert refusal(tmp_path, zipped({**PLAIN, SHEET: merged})).code == "damaged-file"


def test_a_style_that_the_file_does_not_hold_is_refused(tmp_path: Path) -> None:
    parts = {
        **PLAIN,
        SHEET: around('<row r="1"><c r="A1" s="2"/></row>'),
        STYLES: styles("<cellXfs><xf/><xf/></cellXfs>"),
    }
    assert "style 2" in refusal(tmp_path, zipped(parts)).found


@pytest.mark.parametrize("number", ["1", " 1 ", "+1", "001"])
def test_what_is_a_whole_number_is_read(tmp_path: Path, number: str) -> None:
    sheet = around(f'<row r="{number}"><c r="A1" s="{number}"><v>1</v></c></row>')
    parts = {**PLAIN, SHEET: sheet, STYLES: styles("<cellXfs><xf/><xf/></cellXfs>")}
    assert looked_at(tmp_path, zipped(parts)).sheets[SHEET].values == {0: {0: 1.0}}


FORMULA: Final = '<f>Start!$C$10&amp;""</f>'
UNREAD: Final = [
    (SHEET, 'spans="', 'spans="junk" was="'),
    (SHEET, '<dimension ref="', '<dimension ref="A0:x" was="'),
    (SHEET, '<row r="1"', '<row outlineLevel="x" r="1"'),
    (SHEET, "</sheetData>", '</sheetData><mergeCells count="1e9"><mergeCell ref="BA1:BB2"/></mergeCells>'),
    (SHEET, FORMULA, FORMULA.replace("<f", '<f t="shared" si="4000000000" ref="x"')),
    (STYLES, '<cellXfs count="', '<cellXfs count="1e9" was="'),
    (STYLES, 'fontId="1"', 'fontId="x"'),
    (STYLES, 'xfId="0"', 'xfId="x"'),
    ("xl/workbook.xml", 'sheetId="3"', 'sheetId="x"'),
    ("xl/workbook.xml", 'localSheetId="', 'localSheetId="1e9" was="'),
    ("xl/sharedStrings.xml", 'uniqueCount="', 'uniqueCount="1e9" was="'),
    ("xl/comments1.xml", 'authorId="0"', 'authorId="x"'),
]
"""What this program does not read, and its engine may."""


@pytest.mark.parametrize(("part", "old", "new"), UNREAD)
def test_what_is_not_read_does_no_harm(planners: Planners, tmp_path: Path, part: str, old: str, new: str) -> None:
    planner = planners.get("pocket", "metric")
    assert planner.verify(changed(planner, tmp_path, part, old, new)).findings == ()


def changed(planner: Built, folder: Path, part: str, old: str, new: str) -> Path:
    name = part.replace("sheet1", "sheet3")
    with zipfile.ZipFile(planner.path) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    assert old.encode() in parts[name]
    return packed(folder / "changed.xlsx", {**parts, name: parts[name].replace(old.encode(), new.encode(), 1)})


def test_a_reader_that_gives_up_is_told_in_words_for_a_person(planners: Planners, tmp_path: Path) -> None:
    path = changed(
        planners.get("pocket", "metric"), tmp_path, SHEET, FORMULA, FORMULA.replace("<f", '<f t="shared" si="x"')
    )
    with pytest.raises(UnsafeFile) as caught:
        evaluated(path, read(path))
    assert "panic" not in str(caught.value)
    assert "unwrap" not in str(caught.value)
    assert "save it again" in caught.value.remedy
