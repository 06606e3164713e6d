"""Where a figure comes from: the tree, its witnesses, the lines of the files, and places that hold no figure."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import pytest
from typer.testing import CliRunner, Result

from support.edits import edited, formula, stored, typed
from support.planners import DIARY_LINES, SYSTEMS, Built, Planners
from support.tier import others_thorough
from wbgen.cli import app
from wbgen.files.diagnostics import InputError
from wbgen.files.xlsx.addresses import address
from wbgen.sheets.column import System
from wbgen.sheets.compile import quoted
from wbgen.verify.explain.explain import Step, explain
from wbgen.verify.explain.position import position_meant
from wbgen.verify.explain.precedents import precedents
from wbgen.verify.provenance import provenance

GIVEN: Final = {"pocket": ("card_steps", "what"), "full": ("into_tank", "what")}
"""A figure that goes down to what is given."""
KEYS: Final = {
    "place", "heading", "record", "role", "value", "unit", "shown", "formula", "words", "note", "witnesses",
    "came_from", "parts", "below", "repeated",
}  # fmt: skip
WITNESSES: Final = {"text", "engine", "model", "cached", "recalculated", "disagreement"}
ROLES: Final = {"formula", "typed", "given", "column"}
AREA: Final[dict[System, str]] = {"metric": "240 m²", "us": "2583.3385 ft²"}


def run(*arguments: object, code: int = 0) -> Result:
    result = CliRunner().invoke(app, ["explain", *map(str, arguments)])
    assert result.exception is None or isinstance(result.exception, SystemExit), repr(result.exception)
    assert result.exit_code == code, result.output
    return result


def position_of(where: str) -> tuple[str, str]:
    """Sheet and cell of an address."""
    sheet, _, cell = where.partition("!")
    return sheet, cell


def at(built: Built, table: str, key: str, record: int = 0) -> str:
    """The address of a figure as a person writes it."""
    placed = built.placed[table]
    return f"{quoted(placed.sheet)}!{address(*placed.cell(key, record))}"


def row_of(built: Built, table: str, name: str) -> int:
    return list(built.inputs.values[table]["name"]).index(name)


def line_of(path: Path, text: str) -> int:
    """The first line of a file, from 1, that has a text."""
    return next(n for n, line in enumerate(path.read_text("utf-8").splitlines(), 1) if text in line)


def every(step: Step) -> Iterator[Step]:
    yield step
    for part in step.parts:
        yield from every(part)


def objects(step: dict[str, Any]) -> Iterator[dict[str, Any]]:
    yield step
    for part in step["parts"]:
        yield from objects(part)


@pytest.mark.parametrize("system", SYSTEMS)
def test_a_figure_goes_down_to_the_line_it_was_typed_on(planners: Planners, system: System) -> None:
    built, lawns = planners.get("starter", system), planners.get("starter", "metric").lawns
    step = explain(built.path, at(built, "mix", "treated_area"), 6, lawns)
    assert (step.heading, step.shown, step.words) == (
        "This mix: Treated area", AREA[system], "SUM(mix_lawns.treated_area)",
    )  # fmt: skip
    assert re.fullmatch(r"=SUM\(\$[A-Z]+\$\d+:\$[A-Z]+\$\d+\)", step.formula)
    assert step.witnesses is not None
    assert (step.witnesses.text, step.witnesses.cached, step.witnesses.disagreement) == ("same", None, "")
    assert step.witnesses.engine == pytest.approx(step.witnesses.model, rel=1e-12)
    (whole,) = step.parts
    assert (whole.role, whole.shown) == ("column", f"1 of 9 filled, sum {AREA[system]}")
    leaf = next(one for one in every(step) if one.address == at(built, "lawns", "typed_area"))
    assert (leaf.role, leaf.shown, leaf.record) == ("typed", AREA[system], "Terrace lawn")
    assert leaf.came_from is not None
    assert (leaf.came_from.where, leaf.came_from.text, leaf.came_from.same) == (
        f"{lawns}:{line_of(lawns, 'area: 240 m²')}", "240 m²", True,
    )  # fmt: skip


def test_what_index_picks_is_the_one_cell(planners: Planners) -> None:
    built = planners.get("starter", "metric")
    step = explain(built.path, at(built, "mix_products", "measured_by"), 2)
    record = row_of(built, "products", "Ammonium sulphate")
    assert [one.address for one in step.parts] == [
        at(built, "mix_products", "product_line"), at(built, "products", "measured_by", record),
    ]  # fmt: skip


def test_precedents_tell_only_what_can_be_told() -> None:
    figures = {("A", row, 0): float(row * 10) for row in range(5)} | {("A", 0, 2): 2.0, ("A", 1, 2): 30.0}

    def named(text: str) -> list[tuple[int, int, int, int]]:
        return [(one.top, one.left, one.bottom, one.right) for one in precedents(text, "A", figures.get)]

    column = (0, 0, 4, 0)
    assert named("INDEX(A1:A5,C1+1)") == [(2, 0, 2, 0), (0, 2, 0, 2)]
    assert named("INDEX(A1:A5,MATCH(C2,A1:A5,0))") == [column, (1, 2, 1, 2)]
    assert named("INDEX(A1:A5,9)") == [column]
    assert named("INDEX(A1:A5,1)-INDEX(A1:A5,2)") == [(0, 0, 0, 0), (1, 0, 1, 0)]
    assert named("INDEX(A1:A5,1)+SUM(A1:A5)") == [column]
    assert named("INDEX(A1:A5,C1*2)") == [column, (0, 2, 0, 2)]
    assert named("INDEX(") == []


def test_a_long_column_is_one_line(planners: Planners) -> None:
    built = planners.get("full", "metric")
    step = explain(built.path, at(built, "season_applied", "applied_nitrogen"), 3)
    columns = [one for one in step.parts if one.role == "column"]
    assert columns
    assert all(re.match(r"\d+ of 220 filled", one.shown) and not one.parts for one in columns)
    sums = next(one for one in columns if one.unit == "g N")
    assert re.fullmatch(r"200 of 220 filled, sum [0-9.]+ g N", sums.shown)


def test_what_stands_twice_is_explained_once(planners: Planners) -> None:
    built = planners.get("starter", "metric")
    step = explain(built.path, at(built, "mix", "treated_area"), 8)
    seen = [one for one in every(step) if one.repeated]
    assert seen
    for one in seen:
        assert not one.parts
        assert any(other.address == one.address and other.parts for other in every(step))
    ends = {one.address for one in every(step) if one.role == "formula" and one.below and not one.parts}
    assert not ends & {one.address for one in every(step) if one.parts}


def test_products_are_followed_to_the_shipped_catalogue_without_being_told(planners: Planners) -> None:
    built = planners.get("starter", "us")
    record = row_of(built, "products", "Ammonium sulphate")
    said = run(built.path, at(built, "products", "usual_carrier", record)).stdout
    shipped = re.search(r"same as product_catalogue/salts\.yaml:(\d+) \((.*)\)", said)
    assert shipped is not None
    lines = (Path(__file__).parents[2] / "product_catalogue" / "salts.yaml").read_text("utf-8").splitlines()
    assert f"usual: {shipped[2]}" in lines[int(shipped[1]) - 1]
    assert "lawns.yaml" not in said


INPUTS: Final = (
    ("lawns", "target_iron", 0, "targets: {N: 12"),
    ("lawns", "grass", 1, "grass: warm season"),
    ("parts", "second_length", 0, "name: main"),
    ("sprayers", "tested_area", 0, "known area"),
    ("catches", "caught", 2, "catch: {seconds"),
    ("scales", "coarse_scale_step", 0, "kitchen scale"),
    ("water", "ph", 0, "water: {pH"),
    ("water", "wanted_ph", 0, "water: {pH"),
    ("water", "citric_acid", 0, "water: {pH"),
    ("chosen_more", "ph", 0, "water: {temperature"),
    ("chosen_more", "alkalinity", 0, "water: {temperature"),
    ("chosen_more", "hardness", 0, "water: {temperature"),
    ("chosen_more", "acidify", 0, "acidify: with iron"),
    ("chosen_products", "own_rate", 1, "rate: 8 L/ha"),
    ("weather", "planner_date", 0, "as of:"),
    ("programme", "every", 0, "last: 2026-12-16"),
    ("months", "mean_temperature", 0, "mean temperatures"),
    ("place", "most_nitrogen", 0, "place: {rule"),
    ("place", "rule", 0, "place: {rule"),
    ("shelf", "mass", 0, "deed: counted"),
    ("recipes", "brewing_time", 0, "brewing: 24 h"),
    ("ingredients", "volume", 1, "seaweed extract"),
    ("scores", "moss", 0, "lawn: Terrace, quality"),
)


@pytest.mark.parametrize("system", SYSTEMS)
def test_inputs_of_every_kind_are_followed(planners: Planners, system: System) -> None:
    built, lawns = planners.get("full", system), planners.get("full", "metric").lawns
    origins = provenance(built.book, built.inputs, lawns)
    for table, key, record, on in INPUTS:
        origin = origins.of(table, key, record)
        assert origin is not None, key
        assert (origin.place.line, origin.same) == (line_of(lawns, on), True), key
    first = line_of(lawns, "diary:") + 1
    for record in range(DIARY_LINES):
        area = origins.of("diary", "treated_area", record)
        assert area is not None
        assert (area.place.line, area.same) == (first + record, True)
    points = [origins.of("points", "offset", record) for record in range(13)]
    assert [point is not None and point.same for point in points] == [True] * 13
    assert origins.of("lawns", "name", 3) is None


@pytest.mark.usefixtures("pocket_by_default")
def test_what_differs_from_the_file_is_said(planners: Planners, tmp_path: Path) -> None:
    built, lawns = planners.get("pocket", "metric"), planners.get("pocket", "metric").lawns
    where = at(built, "lawns", "typed_area")
    changed = edited(built.path, tmp_path / "planner.xlsx", {position_of(where): typed(250.0)})
    said = run(changed, where, "--lawns", lawns).stdout
    assert "= 250 m² (Terrace)" in said
    assert ": the file there says 240 m²" in " ".join(said.split())
    assert "same as" not in said


@pytest.mark.usefixtures("pocket_by_default")
def test_own_settings_are_followed(planners: Planners, tmp_path: Path) -> None:
    built = planners.get("pocket", "metric")
    lawns = tmp_path / "lawns.yaml"
    lawns.write_text(
        "settings: {rolling time: 12 day}\n" + planners.get("pocket", "metric").lawns.read_text("utf-8"), "utf-8"
    )
    origin = explain(built.path, at(built, "settings", "rolling_time"), 1, lawns).came_from
    assert origin is not None
    assert (origin.where, origin.text, origin.same) == (f"{lawns}:1", "12 day", False)


@pytest.mark.usefixtures("pocket_by_default")
def test_a_mistake_in_the_file_is_told(planners: Planners, tmp_path: Path) -> None:
    lawns = tmp_path / "lawns.yaml"
    lawns.write_text("site: {nme: x}\n", encoding="utf-8")
    built = planners.get("pocket", "metric")
    where = at(built, "mix", "treated_area")
    assert f"{lawns}:1:" in run(built.path, where, "--lawns", lawns, code=2).stderr
    assert "gone.yaml" in run(built.path, where, "--lawns", tmp_path / "gone.yaml", code=2).stderr


@pytest.mark.parametrize("written", ["{s}!{c}", "'{s}'!{c}", "{l}!{k}", " {s}!${c}", "'{l}'!${k}"])
def test_a_place_may_be_written_in_many_ways(planners: Planners, written: str) -> None:
    built = planners.get("starter", "metric")
    placed = built.placed["diary_lines"]
    sheet, cell = placed.sheet, address(*placed.cell("product"))
    text = written.format(s=sheet, c=cell, l=sheet.lower(), k=cell.lower())
    assert position_meant(text, built.file) == (sheet, *placed.cell("product"))


@pytest.mark.usefixtures("pocket_by_default")
@pytest.mark.parametrize(
    ("where", "said"),
    [
        ("", "a sheet and a cell"),
        ("Mix", "the sheets are: Start"),
        ("D53", "name its sheet too, such as Mix!D53"),
        ("Mix!D53:E54", "not a range"),
        ("Mix!D:D", "not a range"),
        ("Mix!D53+1", "nothing beside it"),
        ("Mix!D53+Mix!D54", "nothing beside it"),
        ("Mix!D0", "nothing beside it"),
        ("Mxi!D53", "did you mean Mix?"),
        ("Nowhere!D53", "use one of: Start"),
        ("Mix!ZZZ9", "a sheet ends at XFD1048576"),
        ("Mix!D9999999", "a sheet ends at XFD1048576"),
    ],
)
def test_what_is_no_place_is_told(planners: Planners, where: str, said: str) -> None:
    with pytest.raises(InputError) as raised:
        position_meant(where, planners.get("pocket", "metric").file)
    assert said in str(raised.value)
    assert "  do: " in str(raised.value)


@pytest.mark.usefixtures("pocket_by_default")
@pytest.mark.parametrize(
    ("where", "said"),
    [
        ("Mix!D53+1", "nothing beside it"),
        ("Lawns!AZ500", "Lawns!AZ500 is an empty cell"),
        ("Lawns!B1", "is the title, 'Lawns'"),
        ("lawns!b2", "is a link, "),
    ],
)
def test_a_place_without_a_figure_is_told(planners: Planners, where: str, said: str) -> None:
    error = run(planners.get("pocket", "metric").path, where, code=2).stderr
    assert "there is nothing to explain" in error
    assert said in error


@pytest.mark.usefixtures("pocket_by_default")
def test_a_heading_is_named_with_its_first_figure(planners: Planners) -> None:
    built = planners.get("pocket", "metric")
    placed = built.placed["lawns"]
    heading = f"Lawns!{address(placed.opening, placed.at['area'])}"
    error = run(built.path, heading, code=2).stderr
    assert f"{heading} is a heading, 'Area'" in error
    assert f"its first figure is {at(built, 'lawns', 'area')}" in error
    unit = run(built.path, f"Lawns!{address(placed.opening - 1, placed.at['area'])}", code=2).stderr
    assert "is a printed unit, 'm²'" in unit


@pytest.mark.usefixtures("pocket_by_default")
def test_a_witness_that_disagrees_is_shown(planners: Planners, tmp_path: Path) -> None:
    built = planners.get("pocket", "metric")
    where = at(built, "lawns", "area")
    path = edited(built.path, tmp_path / "a.xlsx", {("Lawns", where[6:]): formula(lambda text: f"({text})*2")})
    said = " ".join(run(path, where).stdout.split())
    assert "witnesses: text changed; engine 480 m²; model 240 m²; cached none: not recalculated" in said
    assert "THEY DISAGREE: the formula is not the planner's, which is =IF(" in said
    assert "the engine says 480 m², the model 240 m²" in said
    follows = explain(path, at(built, "mix", "treated_area"), 1)
    assert follows.witnesses is not None
    assert follows.witnesses.text == "same"
    assert "so the cause is below" in follows.witnesses.disagreement


@pytest.mark.usefixtures("pocket_by_default")
def test_a_value_typed_over_a_formula_is_shown(planners: Planners, tmp_path: Path) -> None:
    built = planners.get("pocket", "metric")
    where = at(built, "lawns", "area")
    step = explain(edited(built.path, tmp_path / "a.xlsx", {("Lawns", where[6:]): typed(7.0)}), where)
    assert step.witnesses is not None
    assert (step.witnesses.text, step.witnesses.engine, step.witnesses.model) == ("missing", 7.0, 240.0)
    assert step.witnesses.disagreement.startswith("a value is typed over the formula; =IF(")
    assert (step.formula, step.parts) == ("", ())


@pytest.mark.usefixtures("pocket_by_default")
def test_a_stale_value_is_shown_once_the_file_was_recalculated(planners: Planners, tmp_path: Path) -> None:
    built = planners.get("pocket", "metric")
    where = at(built, "lawns", "area")
    changes = {position_of(where): stored(99.0), position_of(at(built, "start", "recalculated")): stored("yes")}
    step = explain(edited(built.path, tmp_path / "a.xlsx", changes), where, 1)
    assert step.witnesses is not None
    assert (step.witnesses.cached, step.witnesses.recalculated) == (99.0, True)
    assert step.witnesses.disagreement == "the file has stored 99 m², the engine says 240 m²"


@pytest.mark.parametrize("site", others_thorough(GIVEN, ["pocket"]))
def test_the_json_is_as_documented(planners: Planners, request: pytest.FixtureRequest, site: str) -> None:
    if site == "pocket":
        request.getfixturevalue("pocket_by_default")
    built, lawns = planners.get(site, "us"), planners.get(site, "us").lawns
    whole = json.loads(
        run(built.path, at(built, "mix", "treated_area"), "--json", "--depth", 6, "--lawns", lawns).stdout
    )
    assert set(whole) == KEYS | {"format", "version", "workbook"}
    assert (whole["format"], whole["version"], whole["workbook"]) == ("wbgen-explain", 1, built.path.name)
    picked = json.loads(run(built.path, at(built, *GIVEN[site]), "--json").stdout)
    steps = [*objects(whole), *objects(picked)]
    assert {one["role"] for one in steps} == ROLES
    for one in steps:
        assert set(one) - {"format", "version", "workbook"} == KEYS
        assert (one["witnesses"] is None) == (one["role"] != "formula")
        assert one["witnesses"] is None or set(one["witnesses"]) == WITNESSES
        assert one["came_from"] is None or set(one["came_from"]) == {"file", "line", "text", "same"}
        assert one["role"] != "formula" or (one["formula"].startswith("=") and one["words"])
    assert any(one["came_from"] for one in steps)
    date = json.loads(run(built.path, at(built, "diary", "date"), "--json").stdout)
    assert re.fullmatch(r"20\d\d-\d\d-\d\d", date["value"])


@pytest.mark.parametrize(
    ("site", "depth"), others_thorough([("pocket", 1), ("starter", 1), ("starter", 6)], [("pocket", 1), ("starter", 6)])
)
def test_what_is_piped_is_plain_and_narrow(
    planners: Planners, request: pytest.FixtureRequest, site: str, depth: int
) -> None:
    if site == "pocket":
        request.getfixturevalue("pocket_by_default")
    built = planners.get(site, "metric")
    said = run(built.path, at(built, "mix_products", "level"), "--depth", depth).stdout
    assert "\x1b" not in said
    assert max(map(len, said.splitlines())) <= 100
    assert all(line == line.rstrip() for line in said.splitlines())
    assert ("└── " in said) == (depth > 1)


def test_a_deep_tree_keeps_its_room(planners: Planners) -> None:
    built = planners.get("starter", "metric")
    said = run(built.path, at(built, "verdict", "level"), "--depth", 20).stdout
    assert max(map(len, said.splitlines())) <= 60 + 4 * 20
    assert "…" not in re.sub(r'"[^"]*"', "", said)


def test_money_is_in_the_currency_of_the_file(planners: Planners) -> None:
    built = planners.get("starter", "metric")
    record = row_of(built, "products", "Ammonium sulphate")
    assert explain(built.path, at(built, "products", "price", record), 1).unit == "EUR/pack"
