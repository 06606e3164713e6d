"""Every fact that is not the catalogue's is said, with the level of its meaning; what is only moved or saved is not."""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any, Final

import numpy as np
import openpyxl
import pytest

from support.command import CANNOT, run
from support.edits import Edit, edited, emptied, typed
from support.office import recalculate, resave
from support.planners import EMPTY, SYSTEMS, TODAY, Built, Planners
from support.shared import Shared
from support.tier import TIER, others_thorough
from thorough.histories.desk import Desk
from thorough.histories.edits import History, InsertAt, SortBy
from thorough.histories.iron import Iron
from tools.shipped_facts import shipped_facts
from wbgen.build import build
from wbgen.files.findings import Finding, Kind, Level
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.workbook import File, read
from wbgen.inputs.design import Design
from wbgen.inputs.from_workbook import ReadInputs, book_of, inputs_of, tables_in
from wbgen.model.inputs import TEXT
from wbgen.sheets.column import Column, System
from wbgen.sheets.layout import Placed
from wbgen.verify import catalogue_facts, provenance
from wbgen.verify.catalogue_facts import IDENTITY, KEPT, as_shipped
from wbgen.verify.changed_facts import facts_changed
from wbgen.verify.report import as_json, as_lines, write_report

ONLY_NOTICED: Final = {"price", "active_word", "registration"}
"""The columns of the products by which nothing is weighed, limited or cautioned; all others are warned of."""
Said = set[tuple[str, Kind]]


def facts(path: Path, lawns: Path | None = None) -> list[Finding]:
    """What is said of the facts in a file, without its formulas."""
    return facts_in(read(path), lawns)


def facts_in(file: File, lawns: Path | None = None) -> list[Finding]:
    book = book_of(file, Design())
    found = tables_in(file, book)
    return list(facts_changed(file, book, found, inputs_of(file, book, found).inputs, lawns))


def said(path: Path, lawns: Path | None = None) -> Said:
    return {(one.cell, one.kind) for one in facts(path, lawns)}


def cell(placed: Placed, key: str, record: int) -> str:
    return address(*placed.cell(key, record))


def changed(planner: Built, target: Path, edits: Mapping[tuple[str, int], Edit], table: str = "products") -> Path:
    placed = planner.placed[table]
    return edited(planner.path, target, {(placed.sheet, cell(placed, *at)): edit for at, edit in edits.items()})


def number(planner: Built, name: str) -> int:
    """The record of a product."""
    return list(planner.inputs.values["products"]["name"]).index(name)


def products(planner: Built) -> int:
    return sum(name != "" for name in planner.inputs.values["products"]["name"])


@pytest.fixture
def starter(planners: Planners) -> Built:
    return planners.get("starter", "metric")


# --- every column, any product, another value -------------------------------------------------------------------------


def inputs(planner: Built) -> list[Column]:
    return [column for column in planner.placed["products"].table.columns if column.role == "input"]


def another(planner: Built, column: Column, record: int, draw: random.Random) -> Edit:
    """A value that does not stand in a cell, of those that a person might type there."""
    now = planner.inputs.values["products"][column.key][record]
    blank = now == "" or now != now
    if planner.inputs.units["products"][column.key] == TEXT:
        words: Sequence[Any] = (f"{now} or other", "other", 12.0)
        if column.accepts.choices and isinstance(column.accepts.choices, tuple):
            words = column.accepts.choices
        elif column.accepts.choices == "rate_units.rate_unit":
            words = list(planner.inputs.values["rate_units"]["rate_unit"])
        options = [typed(word) for word in words if word != now]
    else:
        numbers = (0.0, 1.0, 0.5, 7.0) if blank else (2 * now, now / 2, now + 1, now * (1 + 1e-9) + 1e-9, 0.0)
        options = [typed(other) for other in numbers if other != now]
        options += [typed("no number"), typed("12" if blank else repr(float(now)))]
    return draw.choice(options + [emptied] * (not blank))


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("turn", range(20 if TIER.thorough else 1))
def test_another_value_in_any_column_is_said_with_its_level(
    planners: Planners, system: System, turn: int, tmp_path: Path
) -> None:
    """One cell of each column in one file; the product that gets another name is changed in nothing else."""
    planner, draw = planners.get("starter", system), random.Random(f"{TIER.seed} {turn}")  # noqa: S311
    placed, columns = planner.placed["products"], inputs(planner)
    renamed, *others = draw.sample(range(products(planner)), products(planner))
    at = {column.key: renamed if column.key == "name" else draw.choice(others) for column in columns}
    edits = {(column.key, at[column.key]): another(planner, column, at[column.key], draw) for column in columns}
    expected = {(cell(placed, key, record), level(key)) for key, record in at.items()}
    assert len(expected) > 60
    found = facts(changed(planner, tmp_path / "changed.xlsx", edits))
    assert {(one.cell, one.kind) for one in found} == expected | {("", Kind.PRODUCT_MISSING)}
    assert {one.sheet for one in found} == {placed.sheet}


def level(key: str) -> Kind:
    return Kind.NOT_COMPARED if key == "name" else Kind.DETAIL_CHANGED if key in ONLY_NOTICED else Kind.FACT_CHANGED


def test_what_moves_a_weight_a_limit_or_a_caution_is_a_warning() -> None:
    levels = {kind: kind.level for kind in (Kind.FACT_CHANGED, Kind.NOT_COMPARED, Kind.DETAIL_CHANGED)}
    assert list(levels.values()) == [Level.WARNING, Level.WARNING, Level.NOTICE]
    assert {Kind.BASIS_CHANGED.level, Kind.PRODUCT_MISSING.level} == {Level.NOTICE}


def read_inputs(planner: Built) -> ReadInputs:
    file = planner.file
    return inputs_of(file, planner.book, tables_in(file, planner.book))


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_short_cut_is_not_taken_where_any_one_cell_differs(planners: Planners, system: System) -> None:
    """Without reading the catalogue: one figure in each column of each table that the catalogue fills."""
    planner, draw = planners.get("starter", system), random.Random(TIER.seed)  # noqa: S311
    came = read_inputs(planner)
    assert as_shipped(system, came.found, came.inputs)
    tried = 0
    for table in IDENTITY:
        for key, figures in came.inputs.values[table].items():
            record = draw.choice(np.flatnonzero(came.inputs.values[table][IDENTITY[table][0]] != "").tolist())
            other = figures.copy()
            text = other.dtype == object
            other[record] = f"{other[record]}." if text else 1.0 if other[record] != other[record] else np.nan
            values = {**came.inputs.values, table: {**came.inputs.values[table], key: other}}
            assert not as_shipped(system, came.found, replace(came.inputs, values=values)), (table, key)
            tried += 1
    assert tried > 65
    assert not as_shipped("us" if system == "metric" else "metric", came.found, came.inputs)


def test_the_short_cut_counts_the_digits_that_a_workbook_keeps(starter: Built) -> None:
    came = read_inputs(starter)
    for factor, same in ((1 + 2e-16, True), (1 + 1e-12, False)):
        density = came.inputs.values["products"]["density"] * factor
        values = {**came.inputs.values, "products": {**came.inputs.values["products"], "density": density}}
        assert as_shipped("metric", came.found, replace(came.inputs, values=values)) is same


def test_the_short_cut_follows_the_catalogue_and_the_code() -> None:
    assert shipped_facts() == KEPT.read_text("utf-8"), "run: python tests/tools/examples.py"


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_catalogue_is_not_read_where_nothing_differs(
    planners: Planners, system: System, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delattr(provenance, "catalogue_records")
    assert facts_in(planners.get("starter", system).file) == []


@pytest.mark.parametrize(
    "kept", others_thorough([None, "{}", '{"catalogue": "another", "metric": "1", "us": "2"}'], ["{}"])
)
def test_without_the_short_cut_the_same_is_said(
    starter: Built, kept: str | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = changed(starter, tmp_path / "changed.xlsx", {("spray_usual", number(starter, "Urea")): typed(99.0)})
    before = facts(path)
    monkeypatch.setattr(catalogue_facts, "KEPT", tmp_path / "kept.json")
    if kept is not None:
        (tmp_path / "kept.json").write_text(kept, encoding="utf-8")
    assert len(before) == 1
    assert (facts(starter.path), facts(path)) == ([], before)


# --- no false alarm ---------------------------------------------------------------------------------------------------


def test_of_a_new_planner_nothing_is_said(planner: Built) -> None:
    assert facts_in(planner.file) == []
    assert facts_in(planner.file, planner.lawns) == []
    assert planner.verified.warnings == ()


SAVED_BY: Final[dict[str, Callable[[Path, Path], Path]]] = {
    "LibreOffice": resave,
    "LibreOffice, recalculated": recalculate,
    "IronCalc": lambda path, folder: Iron(path).save(folder / path.name),
}


def by_openpyxl(path: Path, folder: Path) -> Path:
    openpyxl.load_workbook(path).save(folder / path.name)
    return folder / path.name


@pytest.mark.parametrize(
    ("system", "program"),
    others_thorough([(system, program) for system in SYSTEMS for program in SAVED_BY], [("us", "IronCalc")]),
)
def test_of_a_planner_that_a_program_saved_nothing_is_said(
    planners: Planners, system: System, program: str, tmp_path: Path
) -> None:
    saved = SAVED_BY[program](planners.get("empty", system).path, tmp_path)
    assert facts(saved) == facts(by_openpyxl(saved, tmp_path)) == []


MOVED: Final[dict[str, History]] = {
    "a row inserted on top": [InsertAt("products", 0)], "a row inserted within": [InsertAt("products", 3)],
    "a spare row more": [InsertAt("products", -1)], "sorted by another column": [SortBy("products", "family")],
}  # fmt: skip


@pytest.mark.parametrize("name", others_thorough(MOVED, ["a row inserted within"]))
def test_of_products_that_are_only_moved_nothing_is_said(planners: Planners, name: str, tmp_path: Path) -> None:
    empty = planners.get("empty", "metric")
    iron = Iron(empty.path)
    desk = Desk(iron, dict(empty.placed))
    for step in MOVED[name]:
        step.do(desk)
    moved = iron.save(tmp_path / "moved.xlsx")
    assert read(moved).text_at("Products", *empty.placed["products"].cell("name", 5)) != (
        empty.inputs.values["products"]["name"][5] if "spare" not in name else ""
    )
    assert facts(moved) == []


def test_of_two_products_that_changed_places_nothing_is_said(starter: Built, tmp_path: Path) -> None:
    def held(key: str, record: int) -> Edit:
        value = starter.inputs.values["products"][key][record]
        return emptied if value == "" or value != value else typed(value if isinstance(value, str) else float(value))

    keys = [column.key for column in inputs(starter)]
    swapped = {(key, one): held(key, other) for key in keys for one, other in ((2, 9), (9, 2))}
    assert facts(changed(starter, tmp_path / "swapped.xlsx", swapped)) == []
    names = {("name", 2): held("name", 9), ("name", 9): held("name", 2)}
    kinds = {one.kind for one in facts(changed(starter, tmp_path / "names.xlsx", names))}
    assert Kind.FACT_CHANGED in kinds  # the names alone: each has the other's facts


# --- what is said -----------------------------------------------------------------------------------------------------


def test_a_fact_is_told_with_product_both_values_and_place(starter: Built, tmp_path: Path) -> None:
    at, placed = number(starter, "Ammonium sulphate"), starter.placed["products"]
    edits: dict[tuple[str, int], Edit] = {
        ("spray_usual", at): typed(50.0), ("cautions", at): typed("Harmless."), ("density", at): typed(1.2),
        ("stated_nitrogen", at): emptied, ("least_interval", at): typed("7"), ("price", at): typed(3.0),
        ("dry_most_a_year", at): typed(99.0),
    }  # fmt: skip
    told = {one.heading: one for one in facts(changed(starter, tmp_path / "changed.xlsx", edits))}
    salts, of = "product_catalogue/salts.yaml", "Ammonium sulphate"
    line = next(
        number for number, text in enumerate((KEPT.parents[2] / salts).read_text("utf-8").splitlines(), 1)
        if "low: 15 kg/ha" in text
    )  # fmt: skip
    rate = told["Spray usual"]
    assert rate.message == (f"{of}, Spray usual: 25 kg/ha in the shipped catalogue ({salts}:{line}), 50 kg/ha here")
    assert (rate.sheet, rate.cell) == ("Products", cell(placed, "spray_usual", at))
    assert (rate.found, rate.expected) == (50.0, 25.0)
    assert f"{of}, Density at 20 °C: nothing in the shipped catalogue" in told["Density at 20 °C"].message
    assert told["Density at 20 °C"].message.endswith("1.2 kg/L here")
    assert told["Most a year, dry"].message.endswith(", 99 here")  # a number of times, in no unit of a rate
    assert told["N"].message.startswith(f"{of}, N: 21 % in ")
    assert (told["N"].message[-12:], told["N"].found, told["N"].expected) == ("nothing here", "", 0.21)
    assert told["Least interval, sprayed"].message.endswith("the text '7' here")
    assert told["Cautions"].message.endswith('"Harmless." here')
    assert told["Price of a pack"].message.endswith("3 EUR/pack here")


def test_a_difference_is_seen_in_what_is_shown_of_it(planners: Planners, tmp_path: Path) -> None:
    """Late digits, and the end of a long text."""
    planner = planners.get("starter", "us")
    held = planner.inputs.values["products"]
    liquid = int(np.flatnonzero(~np.isnan(held["density"]))[0])
    longest = max(range(products(planner)), key=lambda record: len(held["cautions"][record]))
    edits = {
        ("density", liquid): typed(float(held["density"][liquid]) * (1 + 2e-12)),
        ("cautions", longest): typed(held["cautions"][longest][:-4] + "not."),
    }
    for one in facts(changed(planner, tmp_path / "changed.xlsx", edits)):
        was, _, stands = one.message.partition(" in the shipped catalogue")
        assert was.partition(": ")[2] != stands.rpartition("), ")[2].removesuffix(" here")
        assert len(one.message) < 400


@pytest.mark.parametrize(("table", "key"), [("facts", "basis"), ("sources", "citation"), ("sources", "seen")])
def test_how_a_fact_is_known_is_compared_too(starter: Built, table: str, key: str, tmp_path: Path) -> None:
    path = changed(starter, tmp_path / "changed.xlsx", {(key, 4): typed("hearsay")}, table)
    assert said(path) == {(cell(starter.placed[table], key, 4), Kind.BASIS_CHANGED)}


def test_a_product_by_another_name_is_not_compared_and_told_what_it_was(starter: Built, tmp_path: Path) -> None:
    at = number(starter, "Urea")
    edits = {("name", at): typed("Prills"), ("spray_usual", at): typed(99.0)}
    found = {one.kind: one for one in facts(changed(starter, tmp_path / "changed.xlsx", edits))}
    assert set(found) == {Kind.NOT_COMPARED, Kind.PRODUCT_MISSING}
    assert found[Kind.NOT_COMPARED].message == (
        "Prills: not in the shipped catalogue; it has the facts of Urea, which is missing, but for Spray usual: "
        "compare with your label, or give --lawns"
    )
    assert found[Kind.PRODUCT_MISSING].message == "Urea: in the shipped catalogue, and not here"


def test_a_product_without_a_name_is_said(starter: Built, tmp_path: Path) -> None:
    spare = products(starter) + 1
    path = changed(starter, tmp_path / "changed.xlsx", {("spray_usual", spare): typed(9.0)})
    assert said(path) == {(cell(starter.placed["products"], "name", spare), Kind.NOT_COMPARED)}


# --- files of the user's own ------------------------------------------------------------------------------------------

OWN: Final = """\
products:
  - name: Own feed
    form: liquid
    family: own feeds
    density: {value: 1.1 kg/L, basis: invented}
    analysis: {per: w/w, contents: {N: 8 %, K2O: 6 %}, basis: invented}
    spray: {usual: 12 L/ha, basis: invented}
  - name: urea
    spray: {low: 5 kg/ha, usual: 9 kg/ha, high: 11 kg/ha, basis: {published: own-label}}
sources:
  own-label: {title: The label of the bag, seen: seen}
"""


@pytest.fixture(params=others_thorough(SYSTEMS, ["us"]))
def own(request: pytest.FixtureRequest, shared: Shared, tmp_path: Path) -> Built:
    """A planner with a product of one's own and one that a file of one's own overrides."""
    (tmp_path / "own.yaml").write_text(OWN, encoding="utf-8")
    (tmp_path / "planner.yaml").write_text(EMPTY + "catalogue: [own.yaml]\n", encoding="utf-8")
    made = build(tmp_path / "planner.yaml", tmp_path / "planner.xlsx", system=request.param, today=TODAY, diary_rows=5)
    return Built(tmp_path / "planner.xlsx", made, shared, Design())


def test_what_is_not_of_the_shipped_catalogue_is_silent_with_its_files_alone(own: Built, tmp_path: Path) -> None:
    placed = own.placed["products"]
    urea, feed = number(own, "Urea"), number(own, "Own feed")
    alone = {(one.cell, one.kind) for one in facts(own.path) if one.sheet == placed.sheet}
    rates = {
        (cell(placed, key, urea), Kind.FACT_CHANGED) for key in ("spray_low", "spray_usual", "spray_high", "spray_unit")
    }
    assert alone - rates == {(cell(placed, "name", feed), Kind.NOT_COMPARED)}
    assert (cell(placed, "spray_usual", urea), Kind.FACT_CHANGED) in alone
    assert {one.kind for one in facts(own.path) if one.sheet == "Sources"} == {Kind.BASIS_CHANGED}
    assert facts(own.path, own.lawns) == []
    edits = {("spray_usual", urea): typed(20.0), ("stated_nitrogen", feed): typed(0.16), ("name", 2): typed("New")}
    told = facts(changed(own, tmp_path / "changed.xlsx", edits), own.lawns)
    assert f"9 kg/ha in your files ({tmp_path / 'own.yaml'}:9), 20 kg/ha here" in " ".join(o.message for o in told)
    assert {(one.cell, one.kind) for one in told} == {
        (cell(placed, "spray_usual", urea), Kind.FACT_CHANGED),
        (cell(placed, "stated_nitrogen", feed), Kind.FACT_CHANGED),
        (cell(placed, "name", 2), Kind.NOT_COMPARED), ("", Kind.PRODUCT_MISSING),
    }  # fmt: skip
    assert "--lawns" not in " ".join(one.message for one in told)
    (own.lawns.parent / "own.yaml").write_text("products: [{name: Half}]\n", encoding="utf-8")
    assert "own.yaml:1" in run("verify", own.path, "--lawns", own.lawns, code=CANNOT).stderr


# --- the road to the reader -------------------------------------------------------------------------------------------


@pytest.fixture
def doubled(planners: Planners, tmp_path: Path) -> Path:
    """A small planner with a fact, a price and a name that are not the catalogue's."""
    pocket = planners.get("pocket", "metric")
    edits: dict[tuple[str, int], Edit] = {
        ("stated_nitrogen", number(pocket, "Urea")): typed(0.92), ("price", 1): typed(77.0), ("name", 0): typed("Mine"),
    }  # fmt: skip
    return changed(pocket, tmp_path / "planner.xlsx", edits)


@pytest.mark.usefixtures("pocket_by_default")
def test_warnings_are_told_in_lines_json_and_report_and_leave_the_exit_code(doubled: Path, tmp_path: Path) -> None:
    doubled = recalculate(doubled, tmp_path / "saved")
    lines = run("verify", doubled).stdout.splitlines()
    fact = next(line for line in lines if ": fact changed: Urea, N: 46 % in the shipped catalogue (" in line)
    assert fact.startswith("Products!")
    assert fact.endswith("92 % here")
    assert f"  do: {Kind.FACT_CHANGED.remedy}" in lines
    assert any(": detail changed: " in line for line in lines)
    assert any(line.endswith("no finding, 2 facts changed, 1 product not compared") for line in lines)
    whole = json.loads(run("verify", doubled, "--json", "--report", tmp_path / "findings.xlsx").stdout)
    assert whole["clean"]
    assert [one["kind"] for one in whole["warnings"]] == ["not compared", "fact changed"]
    assert {"detail changed", "product missing"} <= {one["kind"] for one in whole["notices"]}
    assert {"found", "expected", "message", "do", "cell", "sheet"} <= set(whole["warnings"][1])
    book = openpyxl.load_workbook(tmp_path / "findings.xlsx")
    warned = [[cell.value for cell in row] for row in book["Warnings"].iter_rows(min_row=5)]
    assert [row[5] for row in warned] == ["not compared", "fact changed"]
    assert warned[1][7:] == [0.92, 0.46, Kind.FACT_CHANGED.remedy]
    assert "2 warnings stand on the sheet Warnings" in book["Findings"]["B2"].value
    assert "detail changed" in {cell.value for row in book["Said"].iter_rows() for cell in row}


def test_facts_are_compared_where_nothing_can_be_recomputed(planners: Planners, doubled: Path, tmp_path: Path) -> None:
    pocket = planners.get("pocket", "metric")
    diary = pocket.placed["diary"]
    gone = {("Diary", address(diary.opening, diary.at[key])): emptied for key in ("weighed", "poured")}
    result = pocket.verify(edited(doubled, tmp_path / "gone.xlsx", gone))
    assert not any(result.witnesses.values())
    assert {one.kind for one in result.warnings} == {Kind.FACT_CHANGED, Kind.NOT_COMPARED}
    assert json.loads(as_json(result))["warnings"]
    write_report(result, tmp_path / "findings.xlsx")
    assert any(line.endswith("2 facts changed, 1 product not compared") for line in as_lines(result))
