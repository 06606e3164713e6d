"""All that is known of a kind of finding stands at its member; every member is used, printed and told what to do."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Final

import openpyxl
import pytest

import wbgen
from wbgen.files.findings import CellAddress, Finding, Kind, Level
from wbgen.verify.report import MOST_GROUPS, as_json, as_lines, write_report
from wbgen.verify.verification import Verification, by_level

FOLDER: Final = Path(wbgen.__file__).parent
USES: Final = re.compile(r"\bKind\.([A-Z_]+)")
SHEETS: Final = frozenset({"Mix"})
"""The sheets of a planner, as far as these tests go."""


def finding(kind: Kind, cell: str = "B7", sheet: str = "Mix") -> Finding:
    return Finding(sheet, cell, kind, None, None, "it is not as it should be")


def result(*found: Finding) -> Verification:
    findings, warnings, notices = by_level(found, SHEETS)
    return Verification(Path("planner.xlsx"), findings, notices, {}, {"engine": 1}, 46_000.0, warnings=warnings)


def test_every_kind_is_used() -> None:
    elsewhere = [path for path in FOLDER.rglob("*.py") if path.name != "findings.py"]
    used = {name for path in elsewhere for name in USES.findall(path.read_text("utf-8"))}
    assert set(Kind.__members__) - used == set()


def test_every_kind_has_words_and_says_what_to_do() -> None:
    assert len({kind.value for kind in Kind}) == len(Kind)
    for kind in Kind:
        assert re.fullmatch("[a-z]+( [a-z]+)*", kind.value)
        assert re.fullmatch(r"\S.*[^\s.]", kind.remedy)


@pytest.mark.parametrize("kind", Kind)
def test_a_kind_is_told_by_its_words_with_its_remedy(kind: Kind, tmp_path: Path) -> None:
    found = result(finding(kind))
    whole = json.loads(as_json(found))
    (told,) = whole["findings"] + whole["warnings"] + whole["notices"]
    assert (told["kind"], told["do"]) == (kind.value, kind.remedy)
    lines = list(as_lines(found))
    assert lines[0] == f"Mix!B7: {kind.value}: it is not as it should be"
    assert (f"  do: {kind.remedy}" in lines) == (kind.level is not Level.NOTICE)
    write_report(found, tmp_path / "findings.xlsx")
    book = openpyxl.load_workbook(tmp_path / "findings.xlsx")
    cells = {cell.value for sheet in book for row in sheet.iter_rows() for cell in row}
    assert kind.value in cells
    assert (kind.remedy in cells) == (kind.level is not Level.NOTICE)


@pytest.mark.parametrize("kind", Kind)
def test_what_is_a_warning_or_a_notice_leaves_a_planner_clean(kind: Kind) -> None:
    quiet = dict.fromkeys((Level.WARNING, Level.NOTICE), (True, True))
    clean = ({Level.FINDING: (False, False), Level.BY_SHEET: (False, True)} | quiet)[kind.level]
    assert tuple(result(finding(kind, sheet=sheet)).clean for sheet in ("Mix", "Shopping")) == clean


@pytest.mark.parametrize("kind", Kind)
def test_alike_ones_are_printed_together_where_the_kind_is_grouped(kind: Kind) -> None:
    lines = list(as_lines(result(finding(kind, "B8"), finding(kind, "B7"))))
    first = [line.partition(": ")[0] for line in lines if f": {kind.value}: " in line]
    assert first == (["Mix!B7, Mix!B8"] if kind.grouped else ["Mix!B8", "Mix!B7"])


@pytest.mark.parametrize(
    ("number", "more"), [(MOST_GROUPS, 0), (MOST_GROUPS + 1, 1), (3 * MOST_GROUPS, 2 * MOST_GROUPS)]
)
def test_of_very_many_the_first_are_told_and_the_others_counted(number: int, more: int) -> None:
    """The JSON has every one."""
    many = result(*(finding(Kind.STRAY_FORMULA, f"B{row}") for row in range(1, number + 1)))
    lines = list(as_lines(many))
    assert len([line for line in lines if line.startswith("Mix!")]) == number - more
    assert [line for line in lines if "not told here" in line] == [
        f"{more} more findings are not told here: --report and --json have all of them"
    ] * (more > 0)
    assert len(json.loads(as_json(many))["findings"]) == number
    assert any(line.endswith(f"{number} findings, 0 cells that follow from them") for line in lines)


def test_an_address_is_a_sheet_and_a_cell() -> None:
    assert finding(Kind.FOLLOWS).address == CellAddress("Mix", "B7")
