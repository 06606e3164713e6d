"""What is asked of the sheets of a planner: units, frames, locks, validation, contrast, nothing hidden."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterator
from itertools import groupby, product
from typing import Any, Final

from openpyxl.utils import get_column_letter

from support.formulas import areas
from support.planners import Built
from wbgen.model.inputs import DATE, TEXT
from wbgen.sheets.book import references
from wbgen.sheets.column import Column
from wbgen.sheets.layout import Placed
from wbgen.units.quantity import label
from wbgen.writer.styles import DESK, FRAME, INNER_FRAME, PAPER, TABS

COUNTS: Final = {
    "jar_dilution", "passes", "quality", "colour", "least_observations",
    "season_month", "season_day", "watered_in_factor", "diluted_span", "practice_span", "slow_growth",
    "unknown_salt_index",
    "salt_index_reference", "salt_index", "most_a_year", "dry_most_a_year", "mixing_place", "kind_number", "times",
    "walking_order", "tank", "key_step", "dry_step", "live_digit", "packs", "ph", "wanted_ph", "humate_ph",
    "lowest_ph", "highest_ph", "acid_span",
}  # fmt: skip
"""Given numbers that are counts, places in an order, ratios or an index of their own."""
IN_A_UNIT_BESIDE: Final = {"spray_low", "spray_usual", "spray_high", "dry_low", "dry_usual", "dry_high", "factor"}
"""Given numbers whose unit stands in a column of its own."""
OWN_UNIT: Final = re.compile(r"element_in_|level_|ask_|stop_|pk_|digit_")
"""Families with members that have no unit: levels of rules, limits of counts and shares, and constants of acids."""
PAPERS: Final = {"Card", "Round", "Lawn report", "Spray record", "Jug labels"}
"""What is printed for a helper or for a lawn's owner: white, whatever is worked out."""
HEAD: Final = 4
"""The lines at the top of a sheet."""
AA, LINE_AA = 4.5, 3.0
"""The least contrast of WCAG 2.1, level AA, for print of any size and for the frame of a box."""


def cells(planner: Built, role: str) -> Iterator[tuple[str, Any]]:
    for sheet, row, at in planner.cells(role):
        yield f"{sheet}!{get_column_letter(at + 1)}{row + 1}", planner.sheets[sheet].cell(row + 1, at + 1)


def every_cell(planner: Built) -> Iterator[tuple[str, Any]]:
    for sheet in planner.sheets:
        for row in sheet.iter_rows():
            for cell in row:
                yield f"{sheet.title}!{cell.coordinate}", cell


def texts_near(planner: Built, placed: Placed, key: str) -> set[str]:
    """The texts above the heading of a column, or in the line of a form and at the head of its slots."""
    row, at = placed.cell(key)
    if placed.table.direction == "down":
        places = [(placed.opening - 1, at), (placed.opening - 2, at)]
    else:
        places = [(row, column) for column in range(placed.last + 4)]
        places += [(above, at) for above in range(min(placed.at.values()) - 3, row)]
    found = planner.file.sheet(placed.sheet)
    assert found
    return {str(found.cells[place].value) for place in places if place in found.cells}


def test_every_quantity_has_its_unit_beside_it(planner: Built) -> None:
    for placed in planner.placed.values():
        for column in placed.table.columns:
            unit = planner.book.units[placed.table.key][column.key]
            if unit in ("", TEXT, DATE):
                continue
            shown = label(unit, "EUR")
            bare = re.sub(r" \w+(?=/|$)", "", shown, count=1)  # the line of a nutrient names it already
            near = texts_near(planner, placed, column.key)
            said = shown in near or any(bare in text for text in near) or column.look.show == "share"
            said = said or any(shown in text for text in near)  # in a word beside it
            assert said, f"{placed.table.key}.{column.key}: no {shown} in {near}"


def test_a_given_number_without_a_unit_is_a_count_a_share_or_an_index(planner: Built) -> None:
    for role in ("input", "constant"):
        for placed, column in planner.columns(role):
            if (
                planner.book.units[placed.table.key][column.key] == ""
                and column.look.show != "share"
                and not column.meaning.running
            ):
                known = column.key in COUNTS | IN_A_UNIT_BESIDE or OWN_UNIT.match(column.key)
                assert known, f"{placed.table.key}.{column.key} has no unit"


def test_inputs_are_open_and_everything_else_is_locked(planner: Built) -> None:
    inputs = {place for place, _ in cells(planner, "input")}
    for place, cell in every_cell(planner):
        if type(cell).__name__ != "MergedCell":
            assert cell.protection.locked == (place not in inputs), place
    for sheet in planner.sheets:
        assert sheet.protection.sheet, f"{sheet.title} is not protected"
        assert sheet.protection.password is None
        assert sheet.protection.hashValue is None


def test_every_input_has_a_validation_that_says_what_it_takes(planner: Built) -> None:
    covered: dict[str, Any] = {}
    for sheet in planner.sheets:
        for rule in sheet.data_validations.dataValidation:
            assert rule.type, rule.sqref
            assert rule.showInputMessage, f"{sheet.title}!{rule.sqref}"
            assert rule.showErrorMessage, f"{sheet.title}!{rule.sqref}"
            assert rule.promptTitle
            assert rule.error.startswith("This cell takes: ")
            assert rule.prompt in rule.error or len(rule.error) == 255
            for area in rule.sqref.ranges:
                for row, column in area.cells:
                    covered[f"{sheet.title}!{get_column_letter(column)}{row}"] = rule
    assert set(covered) == {place for place, _ in cells(planner, "input")}
    for placed, column in planner.columns("input"):
        row, at = placed.cell(column.key)
        rule = covered[f"{placed.sheet}!{get_column_letter(at + 1)}{row + 1}"]
        if column.accepts.choices:
            assert rule.type == "list", f"{placed.table.key}.{column.key}"
        elif column.meaning.type == "number":
            assert rule.type == "decimal"
            assert column.accepts.minimum is None or float(rule.formula1) == column.accepts.minimum
        elif column.meaning.type == "date":
            assert rule.type == "date"


def heading_cell(planner: Built, placed: Placed, column: Column) -> Any:
    row, at = placed.cell(column.key)
    row, at = (placed.opening, at) if placed.table.direction == "down" else (row, placed.left)
    return planner.sheets[placed.sheet].cell(row + 1, at + 1)


def test_every_heading_of_an_input_says_what_is_typed_there(planner: Built) -> None:
    """With its unit, and an example where a template has one; where several stand in one line, the first of them."""
    examples = 0
    for placed, column in planner.columns("input"):
        if placed.beside.get(column.key, placed.first) != placed.first:
            continue
        cell = heading_cell(planner, placed, column)
        assert cell.comment is not None, f"{placed.table.key}.{column.key}"
        said = cell.comment.text
        unit = planner.book.units[placed.table.key][column.key]
        if column.meaning.type == "number" and unit and not column.accepts.choices:
            assert label(unit, "EUR") in said or "USD" in said, f"{placed.table.key}.{column.key}: {said}"
        if column.accepts.example:
            examples += 1
            assert f"such as {getattr(column.accepts.example, planner.book.system)}." in said
        if column.page.note:
            assert said.endswith(column.page.note)
    assert examples > 80


def test_every_heading_of_an_answer_in_front_says_what_it_is_worked_out_from(planner: Built) -> None:
    front = {sheet.name: sheet for sheet in planner.book.sheets if sheet.part != "behind"}
    refers_to = references(planner.book)
    seen = 0
    for placed, column in planner.columns("formula"):
        folded = {key for _, keys in placed.table.outlines for key in keys}
        if placed.sheet not in front or placed.table.standing or column.key in folded:
            continue
        printed = front[placed.sheet].printed
        if (printed and placed.cell(column.key)[1] >= printed) or placed.beside.get(column.key, 0) > placed.first:
            continue
        names = refers_to[placed.table.key, column.key]
        if not names:
            continue
        seen += 1
        said = heading_cell(planner, placed, column).comment.text
        headings = {one.heading for key, table in planner.book.tables.items() for one in table.columns
                    if (key, one.key) in names}  # fmt: skip
        named = said.partition("Worked out from: ")[2]
        assert any(heading in named for heading in headings), f"{placed.table.key}.{column.key}: {said}"
    assert seen > 300


def test_notes_take_little_of_the_file(planner: Built) -> None:
    with zipfile.ZipFile(planner.path) as package:
        notes = [one for one in package.infolist() if re.search("comments|vmlDrawing", one.filename)]
        whole = sum(one.compress_size for one in package.infolist())
    assert notes
    assert sum(one.compress_size for one in notes) < whole / 8


def test_who_is_chosen_from_the_people_of_the_file(planner: Built) -> None:
    """The list has free lines, and the message names the sheet on which it stands."""
    people = planner.placed["people"]
    names = [name for name in planner.inputs.values["people"]["name"] if name]
    known = {"starter": ["Head gardener", "First helper", "Second helper"], "full": ["Head gardener"]}
    assert names == known.get(planner.path.stem.partition("-")[0], [])
    assert people.records >= len(names) + 3
    column = get_column_letter(people.at["name"] + 1)
    source = f"{people.sheet}!${column}${people.first + 1}:${column}${people.closing + 1}"
    for key in ("chosen_more", "diary"):
        placed = planner.placed[key]
        row, at = placed.cell("who")
        cell = f"{get_column_letter(at + 1)}{row + 1}"
        rules = planner.sheets[placed.sheet].data_validations.dataValidation
        (rule,) = [one for one in rules if cell in one.sqref]
        assert rule.formula1 == source
        assert "a name from the sheet Settings" in rule.prompt


def sides(cell: Any) -> int:
    border = cell.border
    return sum(bool(side and side.style) for side in (border.left, border.right, border.top, border.bottom))


def fill(cell: Any) -> str:
    return f"#{cell.fill.fgColor.rgb[-6:]}" if cell.fill.fill_type == "solid" else "#FFFFFF"


def test_inputs_are_told_apart_by_their_frame_not_by_shade_alone(planner: Built) -> None:
    typed = dict(cells(planner, "input"))
    worked = dict(cells(planner, "formula"))
    with_inputs = {cell.parent.title for cell in typed.values()}
    assert not [place for place, cell in typed.items() if sides(cell) < 4]
    assert not [place for place, cell in worked.items() if sides(cell) == 4]
    shades = {fill(cell) for cell in worked.values() if cell.parent.title in with_inputs - PAPERS}
    assert not {fill(cell) for cell in typed.values()} & shades


def brightness(colour: str) -> float:
    """Relative luminance of #RRGGBB, after WCAG 2.1."""
    parts = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast of two colours, after WCAG 2.1.

    >>> round(contrast("#FFFFFF", "#000000"), 1), round(contrast("#777777", "#FFFFFF"), 2)
    (21.0, 4.48)
    """
    light, dark = sorted((brightness(one), brightness(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def ink(font: Any) -> str:
    return f"#{font.color.rgb[-6:]}" if font and font.color and isinstance(font.color.rgb, str) else "#000000"


def test_print_stands_out_from_its_ground(planner: Built) -> None:
    pairs = {(ink(cell.font), fill(cell)) for _, cell in every_cell(planner)}
    inks = {colour for colour, _ in pairs}
    for sheet in planner.sheets:
        for rules in sheet.conditional_formatting:
            for rule in rules.rules:
                style = rule.dxf
                if style is None:  # a bar, which has no words
                    continue
                if rule.type == "expression" and rule.formula[0].endswith('=""') and not style.fill:
                    continue  # the number of a line that the card does not use fades away
                grounds = {f"#{style.fill.bgColor.rgb[-6:]}"} if style.fill else {DESK, "#FFFFFF"}
                own = {ink(style.font)} if style.font and style.font.color else inks
                pairs |= set(product(own, grounds))
    assert len(pairs) > 4
    for one, ground in pairs:
        assert contrast(one, ground) >= AA, f"{one} on {ground}: {contrast(one, ground):.2f}"


def test_a_box_stands_out_from_what_is_round_it() -> None:
    """WCAG 2.1 asks for 3 where a line tells what a part of a page is."""
    for frame, ground in ((FRAME, PAPER), (FRAME, DESK), (INNER_FRAME, PAPER)):
        assert contrast(frame, ground) >= LINE_AA, f"{frame} on {ground}: {contrast(frame, ground):.2f}"


def test_what_is_only_read_stands_on_the_desk_and_a_page_to_print_on_white(planner: Built) -> None:
    """Each cell that is in use, and the columns beside the tables."""
    for place, cell in every_cell(planner):
        name = cell.parent.title
        wanted = PAPER if name in PAPERS or not cell.protection.locked else DESK
        if cell.value is not None:
            assert fill(cell) == wanted, place
    for sheet in planner.sheets:
        last = max(sheet.column_dimensions.values(), key=lambda one: one.max)
        assert last.max == 1 << 14
        assert fill(last) == DESK


def test_a_tab_has_the_colour_of_its_part_and_the_workings_stand_last(planner: Built) -> None:
    colours = [f"#{sheet.sheet_properties.tabColor.rgb[-6:]}" for sheet in planner.sheets]
    assert colours == [TABS[sheet.part] for sheet in planner.book.sheets]
    assert [colour for colour, _ in groupby(colours)] == list(TABS.values())
    for colour in TABS.values():
        assert contrast(colour, PAPER) >= LINE_AA


def folded_away(planner: Built, sheet: str) -> set[int]:
    """The columns (from 1) that the templates fold away."""
    spans = [(first, last) for one in planner.placed.values() if one.sheet == sheet for _, first, last in one.folded]
    return {at + 1 for first, last in spans for at in range(first, last + 1)}


def test_columns_that_are_folded_away_have_a_stub_that_names_them_and_a_plus_beside_it(planner: Built) -> None:
    seen = []
    for placed in planner.placed.values():
        sheet = planner.sheets[placed.sheet]
        lines = [one for one in sheet.column_dimensions.values() if one.min]
        for words, first, last in placed.folded:
            seen.append(words)
            assert sheet.cell(placed.opening + 1, last + 2).value == words
            within = {(one.outlineLevel, one.hidden) for one in lines if one.min <= last + 1 and one.max > first}
            assert within == {(1, True)}
            (stub,) = [one for one in lines if one.min <= last + 2 <= one.max]
            assert stub.collapsed
            assert not stub.hidden
    assert {"+ Analysis", "+ Dry spreading", "+ Workings"} <= set(seen)


def test_nothing_is_hidden_and_nothing_reaches_outside(planner: Built) -> None:
    assert planner.file.notes == ()
    for sheet in planner.sheets:
        assert sheet.sheet_state == "visible"
        assert not [at for at, line in sheet.row_dimensions.items() if line.hidden], sheet.title
        hidden = {
            at for line in sheet.column_dimensions.values() if line.hidden for at in range(line.min, line.max + 1)
        }
        assert hidden == folded_away(planner, sheet.title), sheet.title
        for at, line in sheet.column_dimensions.items():
            assert line.width, f"{sheet.title}: column {at} has no width"
    with zipfile.ZipFile(planner.path) as package:
        parts = package.namelist()
        outside = [name for name in parts if name.endswith(".rels") and b'TargetMode="External"' in package.read(name)]
    assert not outside
    assert not [name for name in parts if re.search(r"vba|external|connection|activex|embed", name, re.IGNORECASE)]


def test_the_state_of_the_checks_stands_at_the_head_of_every_sheet(planner: Built) -> None:
    start = planner.placed["start"]
    state = start.cell("master_check")
    for sheet in planner.file.sheets:
        found = [
            at
            for at, cell in sheet.cells.items()
            if at[0] < HEAD and cell.formula and list(areas(cell.formula, sheet.name)) == [(start.sheet, state, state)]
        ]
        if sheet.name == start.sheet:
            assert state in sheet.cells
        else:
            row, column = min(found)
            assert column < 6, sheet.name
            values = planner.values
            assert values[sheet.name][row][column] == values[start.sheet][state[0]][state[1]] != ""


def test_the_front_sheet_has_contents_purposes_and_limits(planner: Built) -> None:
    start = planner.file.sheet("Start")
    assert start
    said = {str(cell.value) for cell in start.cells.values()}
    for sheet in planner.file.sheets:
        assert sheet.name in said
    for template in planner.book.sheets:
        found = planner.file.sheet(template.name)
        assert found
        assert template.purpose in {cell.value for at, cell in found.cells.items() if at[0] < 3}, template.name
    assert {"What it is for", "Limits and cautions"} <= said


def test_a_bar_is_drawn_where_no_formula_shades_its_cell(planner: Built) -> None:
    """LibreOffice draws no bar in a cell that a rule with a formula, of another range, holds in."""
    seen = 0
    for sheet in planner.sheets:
        ruled = [(cells.sqref, {rule.type for rule in cells.rules}) for cells in sheet.conditional_formatting]
        bars = [area for areas, kinds in ruled if "dataBar" in kinds for area in areas.ranges]
        shaded = [area for areas, kinds in ruled if "expression" in kinds for area in areas.ranges]
        assert [(bar.coord, one.coord) for bar in bars for one in shaded if not bar.isdisjoint(one)] == [], sheet.title
        seen += len(bars)
    assert seen > 1


def decimals(look: str) -> int:
    return len(look.partition(".")[2].rstrip("%"))


def test_a_rule_of_a_cell_shows_no_more_decimals_than_the_cell(planner: Built) -> None:
    """Half a millilitre is not poured where the column is of whole ones."""
    seen = 0
    for sheet in planner.sheets:
        for cells in sheet.conditional_formatting:
            for rule in cells.rules:
                if rule.dxf is None or rule.dxf.numFmt is None:
                    continue
                usual = sheet[str(cells.sqref).partition(":")[0]].number_format
                assert decimals(rule.dxf.numFmt.formatCode) < decimals(usual), f"{sheet.title}!{cells.sqref}"
                seen += 1
    assert seen > 20
