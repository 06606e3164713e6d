"""Columns that are laid into a worksheet at once: the file is the one that xlsxwriter's own methods would write."""

from __future__ import annotations

import zipfile
from collections.abc import Sequence
from itertools import product
from pathlib import Path
from typing import Any, Final

import pytest
import xlsxwriter
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from support.planners import SYSTEMS, TODAY, site_text
from support.tier import others_thorough
from wbgen.build import build
from wbgen.sheets.compile import GAP, Compiled
from wbgen.sheets.template import System
from wbgen.writer import bulk_cells, cells

ROWS: Final = 60
SHEET: Final = "xl/worksheets/sheet1.xml"


def one_by_one(
    sheet: Worksheet, row: int, at: int, formula: Compiled, style: Format, values: Sequence[str | float]
) -> None:
    for record, value in enumerate(values):
        sheet.write_formula(row + record, at, "=" + formula.text(record), style, value)


def blank_by_blank(sheet: Worksheet, cells: Sequence[tuple[int, int]], style: Format) -> None:
    for row, at in cells:
        sheet.write_blank(row, at, None, style)


@pytest.mark.parametrize(("site", "system"), others_thorough(product(("empty", "full"), SYSTEMS), [("full", "us")]))
def test_a_planner_is_byte_for_byte_what_writing_cell_by_cell_gives(
    site: str, system: System, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lawns = tmp_path / "lawns.yaml"
    lawns.write_text(site_text(site), encoding="utf-8")

    def built(name: str) -> bytes:
        made = build(lawns, tmp_path / name, system=system, diary_rows=ROWS, today=TODAY)
        assert made.inputs.records["diary"] >= ROWS
        return (tmp_path / name).read_bytes()

    at_once = built("at_once.xlsx")
    monkeypatch.setattr(cells, "lay_formulas", one_by_one)
    monkeypatch.setattr(cells, "lay_blanks", blank_by_blank)
    assert at_once == built("one_by_one.xlsx")


def written(path: Path, lay: Any, formula: str, values: Sequence[str | float]) -> str:
    """The sheet with one column of formulas, from the fourth row down."""
    with xlsxwriter.Workbook(str(path)) as workbook:
        sheet = workbook.add_worksheet("Only")
        lay(sheet, 3, 2, Compiled(formula.replace("{0}", GAP), 3, True), workbook.add_format({"bold": True}), values)
    with zipfile.ZipFile(path) as file:
        return file.read(SHEET).decode("utf-8")


VALUES: Final = (
    1.0, 0.1 + 0.2, -0.0, 1e-300, 1.5e22, 46203.0, "", "Go", "a & b < c > \"d\" 'e'", "#N/A", "#no error", "²³ ×",
    " x ", 7.0,
)  # fmt: skip


@pytest.mark.parametrize(
    "formula",
    [
        "A{0}*2",
        'IF(OR(A{0}="",$B${0}<>"<&>"),"",SUMIFS(Diary!$C$8:$C$408,Diary!$B$8:$B$408,A{0}&"*"))',
        "_xlfn.MAXIFS(B$4:B{0},A$4:A{0},A{0})",
        "TEXTJOIN(\",\",TRUE,A{0}:B{0})",
        "SORT(A{0}:B{0})",
        "{{1,2}}",
    ],
)  # fmt: skip
def test_any_formula_and_value_is_stored_as_xlsxwriter_would(formula: str, tmp_path: Path) -> None:
    laid = written(tmp_path / "laid.xlsx", bulk_cells.lay_formulas, formula, VALUES)
    assert laid == written(tmp_path / "plain.xlsx", one_by_one, formula, VALUES)
    assert laid.count("<f") == len(VALUES)


@pytest.mark.parametrize("number", [1, 2, 3])
def test_short_columns(number: int, tmp_path: Path) -> None:
    laid = written(tmp_path / "laid.xlsx", bulk_cells.lay_formulas, "A{0}+B{0}", VALUES[:number])
    assert laid.count("<f>") == number
    assert "<f>A4+B4</f>" in laid
    assert f"<f>A{number + 3}+B{number + 3}</f>" in laid


def test_only_the_ends_of_a_plain_column_are_written_cell_by_cell() -> None:
    workbook = xlsxwriter.Workbook()
    sheet = workbook.add_worksheet()
    bulk_cells.lay_formulas(sheet, 3, 2, Compiled(f"A{GAP}*2", 3, True), workbook.add_format(), VALUES)
    laid = [isinstance(sheet.table[row][2], bulk_cells.Formula) for row in range(3, 3 + len(VALUES))]
    assert laid == [False, *[True] * (len(VALUES) - 2), False]


@pytest.mark.parametrize("rows", [(), (5,), (2, 9), (2, 3, 7, 8)])
def test_blank_cells_between_others_keep_their_look(rows: Sequence[int], tmp_path: Path) -> None:
    def sheet(name: str, lay: Any) -> bytes:
        with xlsxwriter.Workbook(str(tmp_path / name)) as workbook:
            only = workbook.add_worksheet("Only")
            lay(only, [(row, 4) for row in rows], workbook.add_format({"bg_color": "#FFFFFF"}))
            only.write_number(4, 4, 1.0)
        with zipfile.ZipFile(tmp_path / name) as file:
            return file.read(SHEET)

    assert sheet("laid.xlsx", bulk_cells.lay_blanks) == sheet("plain.xlsx", blank_by_blank)
