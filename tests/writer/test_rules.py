"""What is asked of every formula of a planner, over planners as they are built."""

from __future__ import annotations

import re
from collections.abc import Iterator
from graphlib import TopologicalSorter
from typing import Final

import pytest

from support.formulas import PLACE, Cell, areas, calls, literals, relative, tree_of
from support.planners import SYSTEMS, Built, Planners
from wbgen.sheets.column import Column, System
from wbgen.sheets.compile import guarded
from wbgen.sheets.layout import Placed
from wbgen.sheets.macros import written_out
from wbgen.sheets.proof.functions import RULES
from wbgen.trade.families import family

LONGEST: Final = 600
DEEPEST: Final = 4
JOINS: Final = {
    f"diary.{key}" for key in ("flag_record", "flag_amount", "flag_visit", "flag_conditions", "flags", "notes")
}
"""What is said of a line of the diary: short parts that are joined, in one cell where there were a dozen, since each
cell of a line is there for every line."""
JOINED: Final = (1_700, 6)
"""How long and how deep these may be."""
UNLIKE: Final = {
    "OFFSET", "INDIRECT", "XLOOKUP", "XMATCH", "LET", "LAMBDA", "FILTER", "SORT", "UNIQUE", "SEQUENCE", "LOOKUP",
    "HLOOKUP", "RAND", "NOW", "CELL", "INFO",
}  # fmt: skip
"""Functions on which engines differ, or which hide what a formula reads."""

MEASURED: Final = {
    "ground",
    "part_state",
    "left_over_taken",
    "air_taken",
    "wind_taken",
    "soil_words",
    "fills",
    "away",
    "amount",
    "rate",
    "full",
    "last",
    "batches",
    "loads",
    "weigh",
    "pour",
    "bucket",
    "packs",
    "packs_to_buy",
    "order_packs",
    "on_hand",
    "needed",
    "short",
    "soon_words",
    "label_words",
    "diluted_words",
    "water_in",
    "note_words",
    "low_words",
    "water_words",
    "early_words",
    "short_words",
    "words",
    "over_words",
    "words_low_ph",
    "words_high_ph",
    "lawn_words",
    "wind_words",
    "heat_words",
    "flags",
    "recipe_state",
    "growth_words",
    "iron_words",
    "notes",
    "too_often",
    "early",
    "following",
    "to_along",
    "to_offset",
    "to_mix",
    "into_tank",
    "sprayer_taken",
    "carrier_taken",
    "spray_said",
    "ends_words",
    "after",
    "planned_day",
    "turn_day",
}
"""Where a person fills, weighs or pours: rounded to what a scale, a jug or a tank can do.
Days, whole; figures in words; and corners, in the steps in which it is told whether edges meet."""
ROUNDING: Final = ("ROUND", "ROUNDUP", "ROUNDDOWN", "CEILING")
JUMPING: Final = ("INT", *ROUNDING)
"""Functions that jump: what they are given is rounded first."""
GUARD: Final = (6, 9)
"""Decimals to which a figure is rounded before it is compared or counted, so that a hair of float tips no answer."""

FAR: Final = 1 << 14
"""More columns than a sheet has."""


def each_formula(planner: Built) -> Iterator[tuple[str, Placed, Column, str]]:
    """Every formula column by name, with the formula of its last record (which has a record above it, if any has)."""
    for placed, column in planner.columns("formula"):
        yield f"{placed.table.key}.{column.key}", placed, column, formula(planner, placed, column, -1)


def formula(planner: Built, placed: Placed, column: Column, record: int) -> str:
    records = range(planner.inputs.records[placed.table.key])
    sheet = planner.file.sheet(placed.sheet)
    assert sheet
    text = sheet.cells[placed.cell(column.key, records[record])].formula
    assert text is not None
    return text


def stem(name: str) -> str:
    """The key of a column without its table and the member of its family."""
    name = name.partition(".")[2]
    families = ("nutrients", "risks", "loads", "trait_rules")
    members = sorted((member.key for kind in families for member in family(kind)), key=len, reverse=True)
    return next((name.removesuffix(f"_{key}") for key in members if name.endswith(f"_{key}")), name)


def test_a_column_has_one_formula_in_every_record(planner: Built) -> None:
    for placed, column in planner.columns("formula"):
        records = range(planner.inputs.records[placed.table.key])
        found = {relative(formula(planner, placed, column, n), *placed.cell(column.key, n)) for n in records}
        assert len(found) == 1, f"{placed.table.key}.{column.key}: {found}"


def test_no_formula_stands_outside_the_columns(planner: Built) -> None:
    assert {(sheet, row, at) for sheet, row, at, _ in planner.formulas()} == set(planner.cells("formula"))


LINK: Final = re.compile(r'HYPERLINK\("#[^"!]+!"&ADDRESS\(ROW\(')
"""A link within the workbook, as LEADS is written: a sheet of it, and a cell counted from a heading."""


def test_numbers_in_formulas_are_the_equations_own(planner: Built) -> None:
    for name, _, column, text in each_formula(planner):
        for number, inside, place in literals(tree_of(text)):
            digits = inside in ("ROUND", "ROUNDUP", "ROUNDDOWN") and place == 1
            own = (0, 1, 2, *column.meaning.literals)
            assert digits or number in own, f"{name}: {number:g} in {text}"


def test_formulas_keep_to_the_functions_that_engines_agree_on(planner: Built) -> None:
    assert not UNLIKE & RULES.keys()
    for name, _, _, text in each_formula(planner):
        strange = {str(call.value) for call in calls(tree_of(text))} - RULES.keys()
        assert not strange, f"{name}: {strange} in {text}"


def test_newer_functions_are_stored_with_their_prefix(planner: Built) -> None:
    for name, _, _, text in each_formula(planner):
        for new in ("MAXIFS(", "MINIFS("):
            assert text.count(new) == text.count("_xlfn." + new), f"{name}: {text}"


def test_formulas_hold_no_construct_that_engines_read_differently(planner: Built) -> None:
    for name, _, _, text in each_formula(planner):
        for node in tree_of(text).walk():
            if node.kind == "reference":
                assert PLACE.fullmatch(str(node.value)), f"{name}: {node.value} is no plain place of this workbook"
            assert node.kind not in ("truth", "percent"), f"{name}: {node.kind} in {text}"
        assert text.count("HYPERLINK(") == len(LINK.findall(text)), f"{name}: a link that leads out, in {text}"
        assert not set("{}[]@#") & set(text.replace("_xlfn.", "").replace('"#', '"')), f"{name}: {text}"


def test_no_criterion_asks_for_all_but_one(planner: Built) -> None:
    """Excel and LibreOffice count a blank cell as "<>x", IronCalc does not."""
    for name, _, _, text in each_formula(planner):
        for call in calls(tree_of(text)):
            if call.value in ("COUNTIF", "COUNTIFS", "SUMIFS", "MAXIFS", "MINIFS"):
                asked = {str(node.value) for node in call.walk() if node.kind == "text"}
                assert not [one for one in asked if one.startswith("<>")], f"{name}: {text}"


def test_functions_that_jump_are_given_what_was_rounded(planner: Built) -> None:
    for name, _, _, text in each_formula(planner):
        for call in calls(tree_of(text)):
            inner = call.children[0] if call.children else None
            if call.value in JUMPING and call.value != "ROUND":
                assert inner is not None
                assert inner.value == "ROUND", f"{name}: {call.value} in {text}"
            if call.value == "MATCH":
                assert call.children[2].value == 0, f"{name}: a MATCH that is not exact in {text}"
            if call.value in ("COUNTIF", "COUNTIFS", "SUMIFS", "MAXIFS", "MINIFS"):
                assert ":" in str(call.children[0].value), (
                    f"{name}: IronCalc gives {call.value} of a single cell as #VALUE!"
                )
            if call.value == "SUMPRODUCT":
                assert not list(calls(call))[1:], f"{name}: a function inside SUMPRODUCT in {text}"
            if call.value == "TEXT":
                assert call.children[1].value in ("yyyy-mm", "d mmm yyyy", "0.00", "0%", "0"), f"{name}: {text}"


def test_rounding_stands_only_where_a_person_measures_or_figures_are_compared(planner: Built) -> None:
    measured = set()
    for name, _, _, text in each_formula(planner):
        tree = tree_of(text)
        inner = [(one, child) for one in tree.walk() for child in one.children]
        for parent, node in [(tree, tree), *inner]:
            compares = parent.kind == "operator" and parent.value in ("=", "<>", "<", ">", "<=", ">=")
            guards = node.value == "ROUND" and node.children[1].value in GUARD
            inside = compares or (parent is not node and parent.value in JUMPING)
            if node.value in ROUNDING and not (guards and inside):
                measured.add(stem(name))
    assert measured == MEASURED


def test_formulas_are_short_and_shallow(planner: Built) -> None:
    """IF within IF, the guard of an empty record not counted."""
    for name, placed, column, text in each_formula(planner):
        longest, deepest = JOINED if name in JOINS else (LONGEST, DEEPEST)
        assert len(text) <= longest, f"{name} has {len(text)} characters"
        guard = guarded(placed.table, column) != written_out(column.meaning.formula or "")
        assert tree_of(text).depth - guard <= deepest, f"{name}: {text}"


def hits(placed: Placed, column: Column, records: int, first: Cell, last: Cell) -> bool:
    """Whether a reference from `first` to `last` takes in a figure of the column."""
    top, left = placed.cell(column.key)
    bottom, right = placed.cell(column.key, records - 1)
    return first[0] <= bottom and last[0] >= top and first[1] <= right and last[1] >= left


def printed(planner: Built, name: str) -> int | None:
    """How many of a sheet's columns are printed, where the rest is the working behind them."""
    return next(sheet.printed for sheet in planner.book.sheets if sheet.name == name)


def test_references_within_a_table_point_left_or_up(planner: Built) -> None:
    found = set()
    for _, placed, column, text in each_formula(planner):
        records = planner.inputs.records[placed.table.key]
        row, at = placed.cell(column.key, records - 1)
        down = placed.table.direction == "down"
        for sheet, first, last in areas(text, placed.sheet):
            for other in placed.table.columns if sheet == placed.sheet else ():
                if not hits(placed, other, records, first, last):
                    continue
                there = placed.cell(other.key, records - 1)
                working = there[1] >= (printed(planner, sheet) or FAR) > at
                before = working or there[1] < at if down else there[0] < row or (placed.single and there[1] < at)
                own = other is column and last < (row, at)
                if not before and not own:
                    found.add((placed.table.key, column.key, other.key))
    assert not found


def test_no_column_needs_itself(planner: Built) -> None:
    sheets: dict[str, list[tuple[Placed, Column]]] = {}
    for role in ("formula", "input", "constant"):
        for placed, column in planner.columns(role):
            sheets.setdefault(placed.sheet, []).append((placed, column))
    needs: dict[str, set[str]] = {}
    for name, placed, column, text in each_formula(planner):
        needs[name] = {
            f"{target.table.key}.{other.key}"
            for sheet, first, last in areas(text, placed.sheet)
            for target, other in sheets[sheet]
            if hits(target, other, planner.inputs.records[target.table.key], first, last)
            and not (other is column and target is placed)
        }
    assert len(list(TopologicalSorter(needs).static_order())) >= len(needs) > 500


@pytest.mark.parametrize("system", SYSTEMS)
def test_sites_differ_in_records_only(planners: Planners, system: System) -> None:
    """The formulas of a column are the same whatever the lawns are, but for the numbers of records."""
    books = [planners.get(site, system).book for site in ("starter", "empty", "full")]
    for table, formulas in books[0].formulas.items():
        for key, proven in formulas.items():
            assert {book.formulas[table][key].source for book in books} == {proven.source}
