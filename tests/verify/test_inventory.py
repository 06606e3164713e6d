"""Every cell has somebody it belongs to, and what is no cell is looked at too."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, Final

import openpyxl
import pytest

from support.edits import edited, emptied, replaced, stored, typed
from support.planners import SYSTEMS, Built, Planners
from support.tier import others_thorough
from wbgen.files.findings import Kind
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.refusal import UnsafeFile
from wbgen.sheets.column import System
from wbgen.sheets.labels import unit_text
from wbgen.verify.verification import Verification


@pytest.fixture(scope="module")
def planner(planners: Planners) -> Built:
    return planners.get("pocket", "metric")


def touched(planner: Built, folder: Path, change: Callable[[Any], None]) -> Verification:
    """What verify says after a change made with openpyxl to the whole workbook."""
    book = openpyxl.load_workbook(planner.path)
    change(book)
    book.save(folder / "touched.xlsx")
    return planner.verify(folder / "touched.xlsx")


def kinds(result: Verification) -> tuple[set[tuple[str, str, Kind]], set[tuple[str, str, Kind]]]:
    """Address and kind of what is wrong, and of what is only said besides the settings of the scenario."""
    wrong = {(one.sheet, one.cell, one.kind) for one in result.findings}
    return wrong, {(one.sheet, one.cell, one.kind) for one in result.notices if one.kind is not Kind.SETTING_CHANGED}


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_inventory_has_every_cell_that_is_not_empty(planners: Planners, system: System) -> None:
    """openpyxl counts them by itself. (A text that is empty is no cell to it.)"""
    planner = planners.get("full", system)
    cells = planner.verified.cells
    counted = sum(cell.value is not None for sheet in planner.sheets for row in sheet.iter_rows() for cell in row)
    assert sum(cells.values()) == counted
    assert cells["formulas"] == planner.made.formula_cells
    assert cells["spare"] == 0
    assert min(cells["inputs"], cells["constants"], cells["labels"]) > 300


def test_a_note_of_ones_own_is_spare_and_said(planner: Built, tmp_path: Path) -> None:
    result = touched(planner, tmp_path, lambda book: book["Lawns"].__setitem__("AZ3", "ask the neighbour"))
    wrong, said = kinds(result)
    assert (wrong, said) == (set(), {("Lawns", "AZ3", Kind.SPARE_CELL)})
    assert result.cells["spare"] == 1


def test_a_copy_of_a_table_is_named(planner: Built, tmp_path: Path) -> None:
    """Figures typed below the planner's own headings, beside them, would be taken for the planner's."""
    applied = planner.placed["season_applied"]

    def copy(book: Any) -> None:
        sheet = book[applied.sheet]
        for column in applied.table.columns[:5]:
            at = applied.at[column.key] + 1
            sheet.cell(applied.opening + 1, at + 60).value = column.heading
            sheet.cell(applied.opening + 2, at + 60).value = 1.0

    wrong, _ = kinds(touched(planner, tmp_path, copy))
    assert {kind for _, _, kind in wrong} == {Kind.TABLE_COPY}


@pytest.mark.parametrize("number_format", ['"120"', ";;;", '0.0"5"', "0,", "0%", "yyyy-mm-dd", "#,##0.00;-5"])
def test_a_number_format_that_shows_another_figure_is_named(planner: Built, tmp_path: Path, number_format: str) -> None:
    area = planner.placed["lawns"].cell("area", 1)

    def disguise(book: Any) -> None:
        book["Lawns"].cell(area[0] + 1, area[1] + 1).number_format = number_format

    wrong, _ = kinds(touched(planner, tmp_path, disguise))
    assert wrong == {("Lawns", address(*area), Kind.SHOWN_OTHERWISE)}


@pytest.mark.parametrize(("sign", "named"), [("$", True), ("€", False)])
def test_a_sign_of_other_money_than_the_planners_is_named(
    planner: Built, tmp_path: Path, sign: str, named: bool
) -> None:
    placed, column = next((one, of) for one, of in planner.columns("formula") if unit_text(of, "metric") is None)
    at = placed.cell(column.key)

    def disguise(book: Any) -> None:
        book[placed.sheet].cell(at[0] + 1, at[1] + 1).number_format = f"{sign}0.00"

    wrong, _ = kinds(touched(planner, tmp_path, disguise))
    assert wrong == ({(placed.sheet, address(*at), Kind.SHOWN_OTHERWISE)} if named else set())


@pytest.mark.parametrize(
    ("table", "key", "record", "number_format"),
    [("mix_products", "pour_full", 1, '"19"'), ("verdict", "verdict", 0, 'General;General;General;"Go"')],
)
def test_a_disguise_is_named_wherever_it_lies(
    planner: Built, tmp_path: Path, table: str, key: str, record: int, number_format: str
) -> None:
    """In any record of a table that lies across, and over words."""
    placed = planner.placed[table]
    at = placed.cell(key, record)

    def disguise(book: Any) -> None:
        book[placed.sheet].cell(at[0] + 1, at[1] + 1).number_format = number_format

    wrong, _ = kinds(touched(planner, tmp_path, disguise))
    assert wrong == {(placed.sheet, address(*at), Kind.SHOWN_OTHERWISE)}


@pytest.mark.parametrize(
    ("part", "old", "new", "kind", "wrong"),
    [
        ("xl/workbook.xml", "<calcPr ", '<calcPr fullPrecision="0" ', Kind.CALCULATION, True),
        ("xl/workbook.xml", "<calcPr ", '<calcPr iterate="1" ', Kind.ITERATIVE_CALCULATION, False),
        ("xl/workbook.xml", "<calcPr ", '<calcPr calcMode="manual" ', Kind.MANUAL_CALCULATION, False),
        ("xl/workbook.xml", "<workbookPr ", '<workbookPr date1904="1" ', Kind.DATE_SYSTEM, True),
        ("xl/worksheets/sheet2.xml", "<sheetProtection ", "<ignored ", Kind.PROTECTION_LOST, False),
    ],
)
def test_how_the_file_is_set_is_looked_at(
    planner: Built, tmp_path: Path, part: str, old: str, new: str, kind: Kind, wrong: bool
) -> None:
    result = planner.verify(replaced(planner.path, tmp_path / "set.xlsx", part, old, new))
    assert {said for *_, said in kinds(result)[0 if wrong else 1]} == {kind}
    assert result.clean is not wrong


def test_hidden_rows_and_columns_are_said(planner: Built, tmp_path: Path) -> None:
    def hide(book: Any) -> None:
        book["Lawns"].row_dimensions[9].hidden = True
        book["Lawns"].column_dimensions["D"].hidden = True

    wrong, said = kinds(touched(planner, tmp_path, hide))
    assert (wrong, said) == (set(), {("Lawns", "", Kind.HIDDEN_ROWS), ("Lawns", "", Kind.HIDDEN_COLUMNS)})


@pytest.mark.parametrize("backwards", [False, True])
def test_cells_under_merged_ones_are_named(planner: Built, backwards: bool, tmp_path: Path) -> None:
    """What they hold counts, and nobody sees it."""
    table = planner.placed["season_applied"]
    (row, at), (below, _) = (table.cell(table.table.columns[1].key, record) for record in (0, 1))
    part = f"xl/worksheets/sheet{planner.sheets.sheetnames.index(table.sheet) + 1}.xml"
    corners = sorted([address(row, at), address(below, at)], reverse=backwards)
    merged = f'<mergeCells count="1"><mergeCell ref="{":".join(corners)}"/></mergeCells>'
    wrong, _ = kinds(
        planner.verify(
            replaced(
                planner.path,
                tmp_path / "merged.xlsx",
                part,
                "<conditionalFormatting",
                merged + "<conditionalFormatting",
            )
        )
    )
    assert wrong == {(table.sheet, address(below, at), Kind.MERGED_CELLS)}


@pytest.mark.parametrize("twin", ["Card", "CARD", "Card "])
def test_two_sheets_of_one_name_are_refused(planner: Built, tmp_path: Path, twin: str) -> None:
    name = f'name="{planner.sheets.sheetnames[-1]}"'
    path = replaced(planner.path, tmp_path / "twins.xlsx", "xl/workbook.xml", name, f'name="{twin}"')
    with pytest.raises(UnsafeFile, match="two-faced"):
        planner.verify(path)


def test_a_label_that_shows_other_words_is_named(planner: Built, tmp_path: Path) -> None:
    weigh = planner.placed["card"]

    at = weigh.at[weigh.table.columns[0].key]

    def disguise(book: Any) -> None:
        book[weigh.sheet].cell(at + 1, weigh.left + 1).number_format = 'General;General;General;"kg"'

    wrong, _ = kinds(touched(planner, tmp_path, disguise))
    assert wrong == {(weigh.sheet, address(at, weigh.left), Kind.SHOWN_OTHERWISE)}


def test_fewer_decimals_are_only_said(planner: Built, tmp_path: Path) -> None:
    areas = planner.placed["lawns"]
    row, at = areas.cell("area")

    def round_off(book: Any) -> None:
        book[areas.sheet].cell(row + 1, at + 1).number_format = "0"

    wrong, said = kinds(touched(planner, tmp_path, round_off))
    assert (wrong, said) == (set(), {(areas.sheet, address(row, at), Kind.FEWER_DIGITS)})


def test_a_sheet_of_ones_own_is_said(planner: Built, tmp_path: Path) -> None:
    """Its formulas and words too: they are nobody else's, even where they are copied from the planner's."""
    headings = [column.heading for column in planner.placed["diary"].table.columns[:5]]

    def shop(book: Any) -> None:
        sheet = book.create_sheet("Shopping")
        sheet.append(headings)
        sheet["A2"] = "=1+1"

    wrong, said = kinds(touched(planner, tmp_path, shop))
    assert wrong == set()
    assert {kind for sheet, _, kind in said if sheet == "Shopping"} == {
        Kind.OWN_SHEET, Kind.TABLE_COPY, Kind.STRAY_FORMULA, Kind.SPARE_CELL,
    }  # fmt: skip


def test_a_setting_that_differs_is_said(planner: Built, tmp_path: Path) -> None:
    at = (planner.placed["settings"].sheet, address(*planner.placed["settings"].cell("dry_air")))
    before = planner.verified.notices
    after = planner.verify(edited(planner.path, tmp_path / "set.xlsx", {at: typed(0.33)})).notices
    assert [(one.sheet, one.cell, one.kind, one.found, one.expected) for one in after if one not in before] == [
        (*at, Kind.SETTING_CHANGED, 0.33, 0.4)
    ]


@pytest.mark.parametrize("day", [-1.0, 1.0, 60.0, 46_351.5, 80_000.0, 3e6, 1e10])
def test_a_day_of_calculation_that_cannot_be_is_named(planner: Built, tmp_path: Path, day: float) -> None:
    at = (planner.placed["start"].sheet, address(*planner.placed["start"].cell("today")))
    wrong, _ = kinds(planner.verify(edited(planner.path, tmp_path / "set.xlsx", {at: stored(day)})))
    assert (*at, Kind.CALCULATION_DATE) in wrong


CUT_SHORT: Final = [
    ("pocket", "months_together", 11, 12), ("pocket", "card_steps", 3, 11), ("pocket", "season_left", 1, None),
    ("full", "diary_lines", 1, None),
    ("full", "months", 11, 12), ("full", "card_steps", 3, 11), ("full", "flagged_lines", 1, 20),
    ("full", "fortnight", 4, 5), ("full", "response_mixes", 1, 20), ("full", "budget_running", 4, 12),
    ("full", "calendar", 1, None), ("full", "timeline", 2, None),
]  # fmt: skip


@pytest.mark.parametrize(("site", "table", "kept", "wanted"), others_thorough(CUT_SHORT, CUT_SHORT[:4]))
def test_a_table_that_was_cut_short_lacks_rows(
    planners: Planners, site: str, table: str, kept: int, wanted: int | None, tmp_path: Path
) -> None:
    """The last rows are emptied and left out of the table's name, as where they are deleted: nobody misses them."""
    planner = planners.get(site, "metric")
    placed = planner.placed[table]
    names = planner.sheets.defined_names[f"table_{table}"].attr_text
    all_but_row, _, last = names.rpartition("$")
    shorter = f"{all_but_row}${int(last) - placed.records + kept}"
    named = replaced(planner.path, tmp_path / "named.xlsx", "xl/workbook.xml", names, shorter)
    gone = {
        (placed.sheet, address(*placed.cell(column.key, record))): emptied
        for column in placed.table.columns
        for record in range(kept, placed.records)
    }
    result = planner.verify(edited(named, tmp_path / "cut.xlsx", gone))
    (found,) = [one for one in result.findings if (one.kind, one.heading) == (Kind.ROW_MISSING, placed.table.title)]
    assert found.found == kept
    assert wanted is None or found.expected == wanted


MONTHS: Final = [
    ("pocket", "months_together"), ("full", "months_together"), ("full", "season_months"), ("full", "growth_months"),
    ("full", "budget_months"), ("full", "budget_running"), ("full", "response_months"),
]  # fmt: skip


@pytest.mark.parametrize(("site", "table"), others_thorough(MONTHS, MONTHS[:1]))
def test_the_name_of_a_month_is_nobodys_to_change(planners: Planners, site: str, table: str, tmp_path: Path) -> None:
    planner = planners.get(site, "metric")
    at = (planner.placed[table].sheet, address(*planner.placed[table].cell("month", 4)))
    wrong, _ = kinds(planner.verify(edited(planner.path, tmp_path / "set.xlsx", {at: typed("June")})))
    assert at in {(sheet, cell) for sheet, cell, _ in wrong}


def test_a_word_that_heads_a_form_of_one_column_may_stand_anywhere(planner: Built, tmp_path: Path) -> None:
    result = touched(planner, tmp_path, lambda book: book["Lawns"].__setitem__("AZ3", "Checks"))
    assert kinds(result) == (set(), {("Lawns", "AZ3", Kind.SPARE_CELL)})


def test_a_name_that_leads_to_a_copy_elsewhere_is_named(planner: Built, tmp_path: Path) -> None:
    """A table redirected to a doctored copy: the copy is no longer where the planner has the table."""
    grams = planner.placed["season_applied"]

    def redirect(book: Any) -> None:
        sheet = book[grams.sheet]
        down = 400
        for row in range(grams.opening - 2, grams.closing + 1):
            for column in range(1, 12):
                sheet.cell(row + 1 + down, column + 1).value = sheet.cell(row + 1, column + 1).value
        name = book.defined_names["table_season_applied"]
        first, last = grams.opening + 1, grams.closing + 1
        name.attr_text = name.attr_text.replace(f"${first}:", f"${first + down}:").replace(
            f"${last}", f"${last + down}"
        )

    wrong, _ = kinds(touched(planner, tmp_path, redirect))
    assert {Kind.TABLE_MOVED, Kind.STRAY_FORMULA, Kind.TABLE_COPY} <= {kind for *_, kind in wrong}
