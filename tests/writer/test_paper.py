"""What is asked of a planner on paper and while it is scrolled: working is not printed, nothing at the head is cut."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path
from typing import Any, Final

import pytest
from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import range_boundaries

from support.office import run, to_pdf
from support.planners import SYSTEMS, Built, Planners
from wbgen.sheets.column import System
from wbgen.sheets.template import GUTTER, Sheet
from wbgen.writer.font import lines_in
from wbgen.writer.print_setup import page_starts
from wbgen.writer.styles import SMALL_SIZE
from wbgen.writer.widths import DEFAULT_WIDTH

KEPT: Final = {"Lawns", "Products", "Visit", "Diary", "Programme", "Scores"}
"""Sheets of one long table: its headings stay in view."""
WORKING: Final = ("line of", " line", "key", "up to")
"""Words of headings of what is worked out behind what a person reads."""


def area(sheet: Any) -> tuple[int, int]:
    """The last column and the last row that are printed."""
    _, _, last_column, last_row = range_boundaries(sheet.print_area.split("!")[-1])
    return last_column, last_row


def limited(planner: Built) -> list[Sheet]:
    return [sheet for sheet in planner.book.sheets if sheet.printed]


def test_a_page_begins_only_with_what_is_printed(planner: Built) -> None:
    """Beyond that the mark would do nothing."""
    marked = 0
    for sheet in planner.book.sheets:
        begun = [
            planner.placed[table.key].at[column.key]
            for table in sheet.tables
            for column in table.columns
            if column.page.begins
        ]
        marked += len(begun)
        assert all(at < (sheet.printed or at + 1) for at in begun), f"{sheet.name}: {begun}, printed {sheet.printed}"
    assert marked > 1


def test_headings_of_the_long_tables_stay_in_view(planner: Built) -> None:
    kept = {sheet.title: sheet.freeze_panes for sheet in planner.sheets if sheet.freeze_panes}
    assert set(kept) == KEPT
    placed = planner.placed["programme"]
    assert kept["Programme"] == f"{get_column_letter(GUTTER + 3)}{placed.first + 1}"
    assert planner.sheets["Visit"].print_title_cols == "$A:$C"
    above = {sheet.title for sheet in planner.sheets if sheet.print_title_rows}
    assert above == KEPT | {"Dates", "Spray record"}
    for table in ("programme", "timeline"):
        heading = planner.placed[table].opening + 1
        assert planner.sheets[planner.placed[table].sheet].print_title_rows.endswith(f":${heading}")


def test_what_is_printed_of_a_sheet_ends_where_the_template_says(planner: Built) -> None:
    assert {"Programme", "Diary", "Products", "Scores", "Dates", "Response"} <= {one.name for one in limited(planner)}
    seen = set()
    for sheet in limited(planner):
        last_column, last_row = area(planner.sheets[sheet.name])
        assert last_column == sheet.printed
        ends = {}
        for table in sheet.tables:
            placed = planner.placed[table.key]
            down = table.direction == "down"
            ends[table.key] = 1 + (placed.first + placed.records - 1 if down else max(placed.at.values()))
        said = re.search(
            r"lines 1 to (\d+): for others, print a selection", planner.sheets[sheet.name].oddFooter.left.text
        )
        if said:  # of a long table that grows, those in use and some more
            key = max(ends, key=ends.__getitem__)
            lines = int(said[1])
            assert 24 <= lines < planner.placed[key].records
            assert last_row == planner.placed[key].first + lines
            seen.add(sheet.name)
            used = [column for column in planner.placed[key].table.columns if column.role == "input"]
            figures = [planner.inputs.values[key][one.key][lines:] for one in used]
            assert not [one for column in figures for one in column.tolist() if one == one and one != ""]
            continue
        keys = list(ends)
        printed = keys[: keys.index(sheet.last_printed) + 1] if sheet.last_printed else keys
        assert last_row == max(ends[key] for key in printed), sheet.name
    assert "Diary" in seen


def test_a_page_begins_with_a_table_and_never_inside_one_that_fits(planner: Built) -> None:
    marked = 0
    for sheet in planner.book.sheets:
        titles = {planner.made.layout.rows[table.key].title for table in sheet.tables if not table.standing}
        begun = {one.id for one in planner.sheets[sheet.name].row_breaks.brk}
        marked += len(begun)
        assert begun <= titles, sheet.name
    assert marked > 5


@pytest.mark.parametrize(
    ("table", "first"), [("programme", "product_line"), ("products", "spray_practice"), ("lawns", "parts_to_mend")]
)
def test_columns_that_are_folded_away_are_not_printed(planner: Built, table: str, first: str) -> None:
    placed = planner.placed[table]
    last_column, _ = area(planner.sheets[placed.sheet])
    assert placed.at[first] == last_column
    headings = [column.heading.lower() for column in placed.table.columns if placed.at[column.key] < last_column]
    assert not [one for one in headings if any(word in one for word in WORKING)]


def test_no_text_at_the_head_of_a_wide_sheet_is_cut_on_its_later_pages(planner: Built) -> None:
    seen = 0
    for sheet in planner.book.sheets:
        shown = planner.sheets[sheet.name]
        if not shown.col_breaks.brk:
            continue
        assert shown.page_setup.pageOrder == "overThenDown"
        letters = [get_column_letter(GUTTER + 1 + step) for step in range(sheet.repeat)]
        room = sum(shown.column_dimensions[one].width or DEFAULT_WIDTH for one in letters)
        notes = {table.note for table in sheet.tables if table.direction == "down" and table.note}
        for row in shown.iter_rows(min_col=GUTTER + 1, max_col=GUTTER + 1):
            (cell,) = row
            if cell.value not in notes | {sheet.purpose}:
                continue
            lines = lines_in(cell.value, 7 * room, SMALL_SIZE)
            if lines == 1:
                continue
            seen += 1
            assert cell.alignment.wrap_text, f"{sheet.name}!{cell.coordinate}"
            assert shown.row_dimensions[cell.row].height >= 11 * lines
            if sheet.repeat > 1:
                merged = f"{letters[0]}{cell.row}:{letters[-1]}{cell.row}"
                assert merged in {str(one) for one in shown.merged_cells.ranges}
    assert seen > 1


def test_what_is_too_long_for_the_card_is_cut_below_where_it_has_said_so(planner: Built) -> None:
    """Text that stands in the middle of its box would lose its first line too. Short lists are made smaller instead."""
    sheet = planner.sheets["Card"]
    for table, key in (("card_head", "because"), ("card_products", "cautions")):
        row, column = planner.placed[table].cell(key)
        assert sheet.cell(row + 1, column + 1).alignment.vertical == "top"
    row, column = planner.placed["card_head"].cell("not_checked")
    assert sheet.cell(row + 1, column + 1).alignment.shrink_to_fit


@pytest.mark.thorough
@pytest.mark.parametrize("system", SYSTEMS)
def test_no_page_spills_a_column_onto_another(planners: Planners, system: System, tmp_path: Path) -> None:
    """A sheet of one short table has one page for each that its template begins, on A4 as on Letter.

    LibreOffice draws columns wider than they are said to be.
    """
    planner = planners.get("starter", system)
    text = run(["pdftotext", "-layout", str(to_pdf(planner.path, tmp_path)), "-"])
    printed = Counter(re.findall(r"^ *(\S.*?) {2,}page \d+ of \d+", text, re.MULTILINE))
    begun = {
        sheet.name: 1 + len(page_starts(sheet, planner.made.layout))
        for sheet in planner.book.sheets
        if sheet.name in ("Lawns", "Products", "Visit", "Programme")
    }
    assert len(begun) == 4
    assert {name: printed[name] for name in begun} == begun


MOST_PAGES: Final = 56
"""Of the sheets in front, in a planner as it is built for the starter."""


@pytest.mark.thorough
@pytest.mark.parametrize("system", SYSTEMS)
def test_the_front_of_the_starter_is_few_pages_and_each_has_something_on_it(
    planners: Planners, system: System, tmp_path: Path
) -> None:
    planner = planners.get("starter", system)
    front = {sheet.name for sheet in planner.book.sheets if sheet.part != "behind"}
    pages = run(["pdftotext", "-layout", str(to_pdf(planner.path, tmp_path)), "-"]).split("\f")[:-1]
    footers = [re.search(r"^ *(\S.*?)(?:, lines 1 to .*?)? {2,}page \d+ of \d+", page, re.MULTILINE) for page in pages]
    assert all(footers)
    assert sum(one is not None and one[1] in front for one in footers) <= MOST_PAGES
    bare = [re.sub(r".*page \d+ of \d+.*", "", page).strip(" \n▲") for page in pages]
    assert not [one[0] for one, words in zip(footers, bare, strict=True) if one and one[1] != "Mix" and not words]
