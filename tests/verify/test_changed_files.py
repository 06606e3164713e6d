"""What verify says of files that people and programs have changed in other ways than by a formula."""

from __future__ import annotations

import re
import zipfile
from dataclasses import replace
from pathlib import Path
from typing import Final

import pytest
import xlsxwriter

from support.edits import Edit, edited, emptied, formula, replaced, typed, unstored
from support.planners import SYSTEMS, Built, Planners, evaluated
from support.tier import others_thorough
from thorough.mutations.planting import Held, packed
from wbgen.files.diagnostics import InputError
from wbgen.files.findings import Finding, Kind
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.refusal import UnsafeFile
from wbgen.files.xlsx.workbook import SheetCells, read
from wbgen.inputs.from_workbook import tables_in
from wbgen.overwrite import refuse_loss
from wbgen.sheets.column import System
from wbgen.verify.file_state import findings
from wbgen.verify.verification import Verification, verify


@pytest.fixture
def planner(planners: Planners) -> Built:
    return planners.get("pocket", "metric")


def spot(planner: Built, table: str, key: str, record: int = 0) -> tuple[str, str]:
    placed = planner.placed[table]
    return placed.sheet, address(*placed.cell(key, record))


def with_edits(planner: Built, folder: Path, edits: dict[tuple[str, str], Edit]) -> Verification:
    """What verify says of an edited file without stored results, as a program leaves it that does not calculate."""
    bare = {(sheet, address(row, at)): unstored for sheet, row, at in planner.cells("formula")}
    return planner.verify(edited(planner.path, folder / "changed.xlsx", {**bare, **edits}))


def causes(result: Verification) -> list[Finding]:
    return [finding for finding in result.findings if finding.cause is None]


WRONG_INPUTS: Final[dict[str, tuple[str, str, Edit, Kind]]] = {
    "a number stored as text": ("lawns", "typed_area", typed("240"), Kind.NUMBER_AS_TEXT),
    "a number with a comma stored as text": ("diary", "weighed", typed("12,5"), Kind.NUMBER_AS_TEXT),
    "words for a number": ("diary", "weighed", typed("a handful"), Kind.INPUT_NOT_VALID),
    "words for a date": ("diary", "date", typed("last week"), Kind.INPUT_NOT_VALID),
    "a date with a time of day": ("diary", "date", typed(46203.5), Kind.INPUT_NOT_VALID),
    "a formula pasted into the diary": ("diary", "weighed", formula(lambda _: "1+1"), Kind.FORMULA_IN_INPUT),
    "none of the choices": ("diary", "method", typed("thrown"), Kind.INPUT_NOT_VALID),
    "a number below the least": ("diary", "water", typed(-1.0), Kind.INPUT_NOT_VALID),
    "a changed factor": ("conversions", "factor", typed(3.0), Kind.CONSTANT_CHANGED),
}
MORE_WRONG: Final[dict[str, dict[str, tuple[str, str, Edit, Kind]]]] = {
    "pocket": {
        "a number over the most": ("mix", "overlap", typed(12.0), Kind.INPUT_NOT_VALID),
        "a name that is a pattern": ("products", "name", typed("ma*in"), Kind.INPUT_NOT_VALID),
        "a name that stands twice": ("lawns", "name", typed("bANK"), Kind.DUPLICATE_NAME),
        "a changed number of a record": ("months_together", "month", typed("Juli"), Kind.CONSTANT_CHANGED),
    },
    "full": {
        "a number over the most": ("scores", "quality", typed(12.0), Kind.INPUT_NOT_VALID),
        "a name that is a pattern": ("parts", "part", typed("ma*in"), Kind.INPUT_NOT_VALID),
        "a name that stands twice": ("sprayers", "name", typed("bOOM"), Kind.DUPLICATE_NAME),
        "a changed number of a record": ("months", "month", typed("Juli"), Kind.CONSTANT_CHANGED),
    },
}


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("site", others_thorough(MORE_WRONG, ["pocket"]))
def test_what_is_wrong_with_given_cells_is_named_and_nothing_else(
    planners: Planners, site: str, system: System, tmp_path: Path
) -> None:
    planner = planners.get(site, system)
    edits, named = {}, {}
    for record, (table, key, edit, kind) in enumerate((WRONG_INPUTS | MORE_WRONG[site]).values()):
        at = spot(planner, table, key, record if table == "diary" else 0)
        edits[at] = edit
        named[spot(planner, table, key, 1) if kind is Kind.DUPLICATE_NAME else at] = kind
    found = with_edits(planner, tmp_path, edits)
    told = {(one.sheet, one.cell): one.kind for one in causes(found)}
    renamed = {at for at, kind in told.items() if kind is Kind.UNKNOWN_NAME}  # by a name that now stands twice
    assert {at: kind for at, kind in told.items() if at not in renamed} == named
    assert {sheet for sheet, _ in renamed} <= {"Mix", "Diary"}
    assert {(one.cause.sheet, one.cause.cell) for one in found.findings if one.cause} <= set(named) | renamed


@pytest.mark.parametrize("system", others_thorough(SYSTEMS, ["us"]))
def test_texts_where_the_mix_has_numbers_are_named_and_spread_no_error(
    planners: Planners, system: System, tmp_path: Path
) -> None:
    """Formulas and model go on as with an empty cell, and both say not to mix."""
    planner = planners.get("full", system)
    numbers = [
        ("chosen", "wanted_carrier"),
        *(("chosen_more", key) for key in ("overlap", "water_temperature", "ph", "alkalinity", "hardness")),
        *(("weather", key) for key in ("wind", "air_temperature", "humidity")),
        *(("chosen_products", key) for key in ("own_rate", "wanted_nitrogen")),
        ("chosen_targets", "wanted_iron"),
        ("chosen_lawns", "part_treated"),
    ]
    edits = {spot(planner, *at): typed("1,0") for at in numbers}
    found = with_edits(planner, tmp_path, edits).findings
    assert {(one.sheet, one.cell): one.kind for one in found} == dict.fromkeys(edits, Kind.NUMBER_AS_TEXT)
    assert len(found) == len(edits)
    verdict = planner.placed["verdict"]
    row, column = verdict.cell("verdict")
    changed = tmp_path / "changed.xlsx"
    assert evaluated(changed, read(changed))[verdict.sheet][row][column] == "Do not mix"


def test_a_name_that_stands_nowhere_is_named(planner: Built, tmp_path: Path) -> None:
    """The diary's line of a lawn that nobody has is in no total: the planner says so, and verify too."""
    at = {spot(planner, "diary", "lawn", 1), spot(planner, "diary", "product", 2), spot(planner, "mix", "lawn")}
    found = with_edits(planner, tmp_path, dict.fromkeys(at, typed("Nobody's"))).findings
    assert {((one.sheet, one.cell), one.kind) for one in found} == {(one, Kind.UNKNOWN_NAME) for one in at}


CONVERTING: Final = [("pocket", "us"), ("starter", "metric")]


@pytest.mark.parametrize(("site", "system"), others_thorough(CONVERTING, CONVERTING[:1]))
def test_every_conversion_is_watched(planners: Planners, site: str, system: System, tmp_path: Path) -> None:
    """All factors changed at once: each is named, and whatever else disagrees follows from one of them."""
    planner = planners.get(site, system)
    records = planner.inputs.records["conversions"]
    edits = {spot(planner, "conversions", "factor", record): typed(record + 0.5) for record in range(records)}
    found = causes(with_edits(planner, tmp_path, edits))
    assert {(one.sheet, one.cell) for one in found} == set(edits)
    assert {one.kind for one in found} == {Kind.CONSTANT_CHANGED}


@pytest.mark.parametrize("system", others_thorough(SYSTEMS, ["metric"]))
def test_other_inputs_are_no_finding(planners: Planners, system: System, tmp_path: Path) -> None:
    """A season goes by: areas, rates, weather, settings and the diary change, some cells are emptied."""
    planner = planners.get("full", system)
    edits: dict[tuple[str, str], Edit] = {
        spot(planner, "lawns", "typed_area"): emptied,
        spot(planner, "lawns", "typed_area", 1): typed(123.4),
        spot(planner, "products", "density"): typed(1.3),
        spot(planner, "products", "stated_nitrogen", 4): emptied,
        spot(planner, "products", "spray_unit", 3): emptied,
        spot(planner, "settings", "season_month"): typed(5.0),
        spot(planner, "limits", "ask_wind"): emptied,
        spot(planner, "chosen", "watered_in"): typed("NO"),
        spot(planner, "chosen", "loads_style"): typed("equal"),
        spot(planner, "weather", "wind"): typed(40.0),
        spot(planner, "chosen", "lawns"): typed("all"),
        spot(planner, "chosen_products", "product", 2): emptied,
        spot(planner, "chosen_products", "own_rate"): typed(1.5),
        spot(planner, "diary", "date", 9): emptied,
        spot(planner, "diary", "weighed", 10): emptied,
        spot(planner, "diary", "poured", 10): emptied,
        spot(planner, "diary", "left_over", 11): typed(0.0),
        spot(planner, "season_view", "lawn"): typed("Bank"),
    }
    assert with_edits(planner, tmp_path, edits).findings == ()


def test_results_stored_before_an_input_was_changed_are_stale(planner: Built, tmp_path: Path) -> None:
    edit = {spot(planner, "lawns", "typed_area"): typed(100.0)}
    found = planner.verify(edited(planner.path, tmp_path / "changed.xlsx", edit)).findings
    assert len(found) > 10
    assert {one.kind for one in found} == {Kind.STALE_RESULT}


def test_a_sheet_under_the_name_of_a_renamed_one_is_told(planner: Built) -> None:
    """The planner's card is called otherwise, and what a helper prints as the card is not the planner's."""
    file = read(planner.path)
    found = tables_in(file, planner.book)
    card = planner.placed["card"].sheet
    renamed = tuple(replace(sheet, name="Old card" if sheet.name == card else sheet.name) for sheet in file.sheets)
    placed = {key: replace(one, sheet="Old card") if one.sheet == card else one for key, one in found.placed.items()}
    swapped = {card: "Mix", "Mix": card}
    exchanged = replace(file, sheets=tuple(replace(one, name=swapped.get(one.name, one.name)) for one in file.sheets))
    there = {key: replace(one, sheet=swapped.get(one.sheet, one.sheet)) for key, one in found.placed.items()}
    said = list(findings(exchanged, planner.book, replace(found, placed=there)))
    assert {one.sheet for one in said if one.kind is Kind.FALSE_SHEET} == {card, "Mix"}
    for false, told in ((card.upper(), True), ("Another", False)):
        with_false = replace(file, sheets=(*renamed, SheetCells(false, False)))
        told_of_file = findings(with_false, planner.book, replace(found, placed=placed))
        said = [one for one in told_of_file if one.sheet == false and one.kind is not Kind.OWN_SHEET]
        assert [one.kind for one in said] == [Kind.FALSE_SHEET] * told
        assert all("'Old card'" in one.message for one in said)


def test_a_heading_that_was_renamed_is_told_and_the_rest_is_recomputed(planner: Built, tmp_path: Path) -> None:
    diary = planner.placed["diary"]
    at = (diary.sheet, address(diary.opening, diary.at["weighed"]))
    result = with_edits(planner, tmp_path, {at: typed("Put on")})
    (found,) = result.findings
    assert (found.sheet, found.cell, found.kind, found.expected) == (*at, Kind.LABEL_CHANGED, "Weighed")
    assert result.witnesses["model"] == planner.made.formula_cells


def test_slots_that_change_places_are_told(planner: Built, tmp_path: Path) -> None:
    """A limit that stands under the other limit's heading would be read the wrong way round."""
    limits = planner.placed["limits"]
    row = min(limits.at.values()) - 1
    ask, stop = ((limits.sheet, address(row, limits.first + step)) for step in (0, 1))
    found = with_edits(planner, tmp_path, {ask: typed("Do not mix above"), stop: typed("Ask first above")}).findings
    assert {((one.sheet, one.cell), one.kind) for one in found} == {
        (ask, Kind.LABEL_CHANGED),
        (stop, Kind.LABEL_CHANGED),
    }


def test_two_headings_gone_side_by_side_are_columns_missing(planner: Built, tmp_path: Path) -> None:
    diary = planner.placed["diary"]
    keys = ("weighed", "poured")
    edits: dict[tuple[str, str], Edit] = {(diary.sheet, address(diary.opening, diary.at[key])): emptied for key in keys}
    result = with_edits(planner, tmp_path, edits)
    missing = {one.expected for one in result.findings if one.kind is Kind.COLUMN_MISSING}
    assert missing == {"Weighed", "Poured"}
    assert set(result.witnesses.values()) == {0}


@pytest.mark.parametrize("table", ["diary", "start"])
def test_a_table_whose_name_was_deleted_is_told(planner: Built, tmp_path: Path, table: str) -> None:
    """Where it is the form that says for which day the planner stands, too."""
    name = f'name="table_{table}"'
    path = replaced(planner.path, tmp_path / "changed.xlsx", "xl/workbook.xml", name, 'name="other"')
    found = [one for one in planner.verify(path).findings if one.kind.endswith("missing")]
    assert [one.kind for one in found] == [Kind.TABLE_MISSING]
    assert f"'{table}'" in found[0].message


@pytest.mark.parametrize(
    "range_text", ["Diary!$B:$CN", "Diary!$8:$60", "Diary!$B$8:$C$9,Diary!$E$8:$F$9", "Diary", "Diary:Mix!$B$8:$C$9"]
)
def test_a_name_that_is_no_one_range_of_cells_finds_no_table(planner: Built, tmp_path: Path, range_text: str) -> None:
    whole = re.search('(name="table_diary"[^>]*>)[^<]*', zipfile.ZipFile(planner.path).read("xl/workbook.xml").decode())
    assert whole
    path = replaced(planner.path, tmp_path / "changed.xlsx", "xl/workbook.xml", whole[0], whole[1] + range_text)
    assert "table_diary" not in read(path).names or "diary" not in tables_in(read(path), planner.book).placed
    assert Kind.TABLE_MISSING in {one.kind for one in planner.verify(path).findings}


@pytest.mark.parametrize("table", ["diary", "products", "months_together"])
@pytest.mark.parametrize("end", ["$1048576", "$900"])
def test_a_name_stretched_far_below_its_table_is_read_to_the_last_cell(
    planner: Built, tmp_path: Path, table: str, end: str
) -> None:
    """A million records that are not there cost a reader minutes and gigabytes."""
    area = planner.file.names[f"table_{table}"]
    whole = re.search(rf'name="table_{table}"[^<]*', zipfile.ZipFile(planner.path).read("xl/workbook.xml").decode())
    assert whole
    far = re.sub(r"\$[0-9]+$", lambda _: end, whole[0])
    path = replaced(planner.path, tmp_path / "changed.xlsx", "xl/workbook.xml", whole[0], far)
    read_of = tables_in(read(path), planner.book).placed[table]
    rows = planner.file.sheet(area.sheet)
    assert rows is not None
    assert read_of.closing == rows.content.ends[0] - 1
    told = [one for one in planner.verify(path).findings if one.kind is Kind.NAME_STRETCHED]
    assert [(one.sheet, one.cell) for one in told] == [(area.sheet, address(area.top, area.left))]
    assert str(told[0].found).endswith(end[1:])


def test_a_hidden_sheet_is_told(planner: Built, tmp_path: Path) -> None:
    path = replaced(
        planner.path, tmp_path / "changed.xlsx", "xl/workbook.xml", 'name="Units"', 'name="Units" state="hidden"'
    )
    (found,) = planner.verify(path).findings
    assert found.kind is Kind.HIDDEN_SHEET
    assert found.sheet == "Units"


@pytest.mark.parametrize(
    ("part", "kind"), [("xl/vbaProject.bin", Kind.MACROS), ("xl/externalLinks/externalLink1.xml", Kind.EXTERNAL_LINK)]
)
def test_macros_and_links_to_other_files_are_told(planner: Built, part: str, kind: Kind, tmp_path: Path) -> None:
    with zipfile.ZipFile(planner.path) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    (found,) = planner.verify(packed(tmp_path / "changed.xlsx", {**parts, part: b"<externalLink/>"})).findings
    assert (found.kind, found.sheet) == (kind, part)


def test_a_formula_of_somebodys_own_is_told(planner: Built, tmp_path: Path) -> None:
    import openpyxl

    book = openpyxl.load_workbook(planner.path)
    book["Lawns"]["AZ50"] = "=SUM(D9:D12)"
    book["Lawns"]["AZ51"] = "my own note"
    book.save(tmp_path / "changed.xlsx")
    result = planner.verify(tmp_path / "changed.xlsx")
    (found,) = result.findings
    assert (found.kind, found.sheet, found.cell) == (Kind.STRAY_FORMULA, "Lawns", "AZ50")
    assert ("Lawns", "AZ51", Kind.SPARE_CELL) in {(one.sheet, one.cell, one.kind) for one in result.notices}
    assert result.cells["spare"] == 2


def test_a_workbook_of_another_kind_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "other.xlsx"
    with xlsxwriter.Workbook(path) as book:
        book.add_worksheet("Start").write(0, 0, "metric")
    with pytest.raises(UnsafeFile) as caught:
        verify(path)
    assert caught.value.code == "not-a-planner"


@pytest.mark.parametrize("own", [False, True])
def test_a_sheet_whose_part_is_missing_is_refused(planner: Built, tmp_path: Path, own: bool) -> None:
    """One of the planner's sheets, or one that a person added."""
    with zipfile.ZipFile(planner.path) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    if own:
        sheet = b'<sheet name="Shopping" sheetId="99" r:id="rId99"/></sheets>'
        parts["xl/workbook.xml"] = parts["xl/workbook.xml"].replace(b"</sheets>", sheet)
    else:
        del parts["xl/worksheets/sheet3.xml"]
    name = "Shopping" if own else planner.sheets.sheetnames[2]
    with pytest.raises(UnsafeFile) as caught:
        planner.verify(packed(tmp_path / "changed.xlsx", parts))
    assert caught.value.code == "damaged-file"
    assert repr(name) in caught.value.found
    assert ("xl/worksheets/sheet3.xml" in caught.value.found) is not own
    assert "copy" in caught.value.remedy


def test_two_sheets_of_one_part_are_refused(planner: Built, tmp_path: Path) -> None:
    """What is written to one of them would stand on the other: programs differ in what they show."""
    path = replaced(planner.path, tmp_path / "changed.xlsx", "xl/workbook.xml", 'r:id="rId3"', 'r:id="rId4"')
    with pytest.raises(UnsafeFile, match="two-faced"):
        planner.verify(path)


def test_a_planner_is_never_written_to(planner: Built) -> None:
    before = planner.path.read_bytes(), planner.path.stat().st_mtime_ns
    assert planner.verify(planner.path).clean
    assert (planner.path.read_bytes(), planner.path.stat().st_mtime_ns) == before


@pytest.mark.parametrize("system", SYSTEMS)
def test_a_fresh_planner_has_three_witnesses_and_no_finding(planners: Planners, system: System) -> None:
    result = planners.get("full", system).verified
    assert result.findings == ()
    assert result.active_witnesses == ("text", "engine", "model")
    assert result.witnesses["cached"] == 0


def test_a_printed_unit_that_is_not_the_columns_is_named(planner: Built, tmp_path: Path) -> None:
    """A kilogram printed over grams would mislead by a thousand, and no figure would say so."""
    over, beside = planner.placed["diary"], planner.placed["settings"]
    above = (over.sheet, address(over.opening - 1, over.at["weighed"]))
    at_side = (beside.sheet, address(beside.at["hot_air"], beside.first - 1))
    found = planner.verify(
        edited(planner.path, tmp_path / "changed.xlsx", {above: typed("kg"), at_side: typed("°F")})
    ).findings
    assert {(f.sheet, f.cell, f.kind, f.found, f.expected) for f in found} == {
        (*above, Kind.UNIT_CHANGED, "kg", "g"),
        (*at_side, Kind.UNIT_CHANGED, "°F", "°C"),
    }


def test_a_value_typed_over_a_formula_is_not_taken_for_stored_results(planner: Built, tmp_path: Path) -> None:
    """In a file that no program has calculated, the one value would make every other cell look stale."""
    at = spot(planner, "mix", "loads")
    assert Kind.STALE_RESULT not in {f.kind for f in with_edits(planner, tmp_path, {at: typed(7.0)}).findings}


def test_a_formula_that_reaches_into_another_file_is_named_and_all_else_is_judged(
    planner: Built, tmp_path: Path
) -> None:
    at = spot(planner, "mix", "loads")
    reaching = edited(planner.path, tmp_path / "changed.xlsx", {at: formula(lambda _: "SUM('[1]Other'!$G$83)")})
    result = planner.verify(reaching)
    assert [(one.sheet, one.cell, one.kind) for one in result.findings if one.cause is None] == [
        (*at, Kind.FORMULA_CHANGED)
    ]
    assert result.witnesses["engine"] == planner.made.formula_cells


@pytest.mark.parametrize("error", ["#SPILL!", "#CALC!", "Err:502"])
def test_a_stored_error_that_the_engine_does_not_know_is_named_at_its_cell(
    planner: Built, tmp_path: Path, error: str
) -> None:
    at = spot(planner, "mix", "loads")
    wrong = edited(planner.path, tmp_path / "changed.xlsx", {at: lambda cell: replace(cell, value=error, type="e")})
    assert [(one.sheet, one.cell, one.kind) for one in planner.verify(wrong).findings] == [(*at, Kind.STALE_RESULT)]


def test_an_infinite_result_is_an_error_value(planner: Built, tmp_path: Path) -> None:
    at = spot(planner, "mix", "loads")
    wrong = causes(with_edits(planner, tmp_path, {at: lambda cell: Held(cell.style, "1E308*10")}))
    assert [(one.sheet, one.cell, one.kind) for one in wrong] == [(*at, Kind.FORMULA_CHANGED)]


@pytest.mark.parametrize("below", [0, 1, 5])
def test_a_line_typed_below_the_diary_is_named_and_not_overwritten(planner: Built, tmp_path: Path, below: int) -> None:
    import openpyxl

    diary = planner.placed["diary"]
    book = openpyxl.load_workbook(planner.path)
    book[diary.sheet].cell(diary.closing + below + 1, diary.at["lawn"] + 1).value = "Terrace lawn"
    changed = tmp_path / "changed.xlsx"
    book.save(changed)
    at = address(diary.closing + below, diary.at["lawn"])
    found = {(f.sheet, f.cell, f.kind) for f in planner.verify(changed).findings if f.cause is None}
    assert (diary.sheet, at, Kind.OUTSIDE_TABLE) in found
    with pytest.raises(InputError, match="below the last record"):
        refuse_loss(changed, planner.made.inputs, force=True, design=planner.design)
