"""No false alarms: whatever a person may rightly do to a planner, in real programs, verify finds nothing in it.

LibreOffice does each kind of edit once, and some histories drawn at random; IronCalc, which is quick, does many.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence, Set
from datetime import date, timedelta
from pathlib import Path
from typing import Final

import openpyxl
import pytest

from support.planners import ALL, SYSTEMS, Built, Planners
from support.shared import Shared
from support.tier import TIER, Recorder, others_thorough
from thorough.histories.desk import Desk
from thorough.histories.drawn import for_each_history
from thorough.histories.editor import Editor
from thorough.histories.edits import ANYWHERE, HALF_DAYS, IN_OFFICE, DeleteAt, History, InsertRowOnTop, RenameOnly
from thorough.histories.iron import Iron
from thorough.histories.office_editor import Office, OfficeProgram, office_program
from thorough.histories.site import small_planner
from thorough.histories.steps import Step
from wbgen.files.dates import serial
from wbgen.files.findings import Finding
from wbgen.sheets.column import System
from wbgen.verify.verification import Verification, verify

EDITS: Final = (
    "a row within diary", "a column of the diary moved", "protection lost",
)  # fmt: skip
"""The edits in LibreOffice that every run does; the thorough tier does all."""
SAID: Final = frozenset(
    {
        "spare cell",
        "setting changed",
        "detail changed",
        "basis changed",
        "product missing",
        "protection lost",
        "validation lost",
        "filter lost",
        "hidden rows",
        "hidden columns",
    }
)
"""The notices that the edits here may lead to."""

NOTICED: Final = {
    "protection lost": {"protection lost"},
    "validation lost": {"validation lost"},
    "filters lost": {"filter lost"},
    "rows and columns hidden": {"hidden rows", "hidden columns"},
    "notes beside the tables": {"spare cell"},
    "a row within points": {"to mend"},
    "prices and notes changed": {"detail changed"},
    "a named row of products deleted, and no longer chosen": {"product missing"},
    "sheets renamed": {"link lost"},
    "sheets that are only read renamed": {"link lost"},
    "a sheet with an accent": {"link lost"},
    "a sheet named like a cell": {"link lost"},
}
WARNED: Final = {"a product renamed, in the diary too": {"not compared"}}
"""The warnings that some of the edits lead to; all others, wherever they move what stands there, lead to none."""
"""What is said of some of the edits: so they were done."""


@pytest.fixture(scope="session")
def small(shared: Shared) -> Built:
    """The planner that histories begin with, built today."""
    return small_planner(shared)


@pytest.fixture(scope="session")
def program() -> Iterator[OfficeProgram]:
    with office_program() as running:
        yield running


def told(finding: Finding) -> str:
    at = f"{finding.sheet}!{finding.cell} ({finding.heading})"
    return f"{at}: {finding.kind}: {finding.found!r} for {finding.expected!r}: {finding.message}"


def causes(result: Verification) -> list[str]:
    """What is found, and from where; what only follows from it is left out."""
    return [told(finding) for finding in result.findings if finding.cause is None]


def silent(path: Path, history: History = (), noticed: Set[str] = frozenset()) -> Verification:
    """Assert that verify finds nothing, and says nothing beside what it should; `noticed` is of this history alone."""
    result = verify(path)
    assert not result.findings, "\n".join([*map(str, history), *causes(result)[:12]])
    assert {notice.kind for notice in result.notices} <= SAID | noticed
    assert history or not result.warnings, result.warnings
    assert sum(result.cells.values()) > result.cells["formulas"] > 0
    return result


def done(editor: Editor, planner: Built, history: History, target: Path) -> Path:
    """The planner after a history, calculated and saved by the program."""
    desk = Desk(editor, dict(planner.placed))
    for step in history:
        step.do(desk)
    named = editor.areas()
    assert {key: named[f"table_{key}"] for key in desk.areas()} == desk.areas()
    return editor.save(target)


def saved_by_openpyxl(path: Path, target: Path) -> Path:
    """A copy that has lost all values that were stored for formulas."""
    openpyxl.load_workbook(path).save(target)
    return target


# --- planners saved again as they are ---------------------------------------------------------------------------------


@pytest.mark.parametrize(("site", "system"), others_thorough(ALL, []), ids=map("-".join, ALL))
def test_a_planner_saved_again_is_clean(
    planners: Planners, program: OfficeProgram, site: str, system: System, tmp_path: Path
) -> None:
    path = planners.get(site, system).path
    assert silent(path).witnesses["cached"] == 0
    for resaved in (Iron(path).save(tmp_path / "iron.xlsx"), Office(program, path).save(tmp_path / "office.xlsx")):
        assert set(silent(resaved).witnesses.values()) == {planners.get(site, system).made.formula_cells}
    bare = silent(saved_by_openpyxl(tmp_path / "office.xlsx", tmp_path / "bare.xlsx"))
    assert bare.witnesses["cached"] == 0
    assert bare.witnesses["engine"] == planners.get(site, system).made.formula_cells


@pytest.mark.thorough
def test_a_planner_that_every_program_has_saved_in_turn_is_clean(
    small: Built, program: OfficeProgram, tmp_path: Path
) -> None:
    path = small.path
    for turn in range(2):
        path = Office(program, path).save(tmp_path / f"office{turn}.xlsx")
        path = Iron(path).save(tmp_path / f"iron{turn}.xlsx")
        path = saved_by_openpyxl(path, tmp_path / f"bare{turn}.xlsx")
        silent(path)
    silent(Office(program, path).save(tmp_path / "last.xlsx"))


# --- another place, another day ---------------------------------------------------------------------------------------


def texts(path: Path) -> list[str]:
    """The texts that are stored for formulas."""
    sheets = openpyxl.load_workbook(path, data_only=True).worksheets
    return [cell.value for sheet in sheets for row in sheet.iter_rows() for cell in row if isinstance(cell.value, str)]


@pytest.mark.thorough
@pytest.mark.parametrize("system", SYSTEMS)
def test_a_planner_calculated_with_decimal_commas_is_clean(
    shared: Shared, program: OfficeProgram, system: System, tmp_path: Path
) -> None:
    planner = small_planner(shared, system)
    done(Office(program, planner.path), planner, HALF_DAYS, tmp_path / "points.xlsx")
    assert any("7.5" in text for text in texts(tmp_path / "points.xlsx"))
    with office_program(locale="de-DE") as german:
        silent(Office(german, tmp_path / "points.xlsx").save(tmp_path / "again.xlsx"), HALF_DAYS)
        for history in (HALF_DAYS, [*HALF_DAYS, *IN_OFFICE["moved, then rows and columns inserted"]]):
            silent(done(Office(german, planner.path), planner, history, tmp_path / "commas.xlsx"), history)
            assert any("7,5" in text for text in texts(tmp_path / "commas.xlsx"))


@pytest.mark.parametrize("days", others_thorough([0, 1, 45], []))
def test_a_planner_calculated_on_another_day_is_clean(shared: Shared, days: int, tmp_path: Path) -> None:
    planner = small_planner(shared, built_on=date.today() - timedelta(days=60))  # noqa: DTZ011
    day = date.today() - timedelta(days=60 - days)  # noqa: DTZ011
    with office_program(day=day.isoformat()) as then:
        result = silent(Office(then, planner.path).save(tmp_path / "then.xlsx"))
    assert result.today == serial(day)


def test_a_planner_with_an_as_of_date_long_gone_is_clean_before_any_program_saved_it(small: Built) -> None:
    silent(small.path)


# --- each kind of edit ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", others_thorough(ANYWHERE | IN_OFFICE, EDITS))
def test_an_edit_in_libreoffice_leaves_a_planner_clean(
    small: Built, program: OfficeProgram, name: str, tmp_path: Path, record_property: Recorder
) -> None:
    record_property("edits in LibreOffice", 1)
    history = (ANYWHERE | IN_OFFICE)[name]
    noticed = NOTICED.get(name, set())
    result = silent(done(Office(program, small.path), small, history, tmp_path / "edited.xlsx"), history, noticed)
    assert noticed <= {notice.kind for notice in result.notices}
    assert {warning.kind for warning in result.warnings} == WARNED.get(name, set())


STILL_CHOSEN: Final[list[History]] = [
    [RenameOnly("lawns", 0, "Front")],
    [RenameOnly("products", 0, "Urea, prilled")],
    [RenameOnly("sprayers", 0, "Old knapsack")],
    [DeleteAt("lawns", 0)],
    [DeleteAt("products", 0)],
    [DeleteAt("sprayers", 0)],
]


@pytest.mark.parametrize("history", others_thorough(STILL_CHOSEN, STILL_CHOSEN[:1]), ids=str)
def test_a_name_that_is_still_chosen_somewhere_is_all_that_is_found(
    small: Built, program: OfficeProgram, history: Sequence[Step], tmp_path: Path
) -> None:
    """Lines of the diary under a name that is no more are in no total: that is said, and nothing else."""
    result = verify(done(Office(program, small.path), small, history, tmp_path / "edited.xlsx"))
    assert {finding.kind for finding in result.findings} == {"unknown name"}, causes(result)


@pytest.mark.parametrize("table", others_thorough(["diary", "mix"], []))
def test_a_row_above_everything_is_no_alarm(small: Built, program: OfficeProgram, table: str, tmp_path: Path) -> None:
    history = [InsertRowOnTop(table)]
    silent(done(Office(program, small.path), small, history, tmp_path / "edited.xlsx"), history)


# --- histories drawn at random ----------------------------------------------------------------------------------------


def checked(editor: Callable[[], Editor], planner: Built, folder: Path) -> Callable[[History], None]:
    def check(history: History) -> None:
        path = done(editor(), planner, history, folder / "edited.xlsx")
        if verify(path).findings:
            silent(path, first_part(editor, planner, history, folder))

    return check


def first_part(editor: Callable[[], Editor], planner: Built, history: History, folder: Path) -> History:
    """The history up to the step after which something is found."""
    for end in range(len(history)):
        if verify(done(editor(), planner, history[:end], folder / "part.xlsx")).findings:
            return history[:end]
    return history


@pytest.mark.parametrize("batch", range(TIER.iron_batches))
def test_histories_in_ironcalc_leave_a_planner_clean(
    small: Built, batch: int, tmp_path: Path, record_property: Recorder
) -> None:
    record_property("histories in IronCalc", TIER.iron_histories)
    for_each_history(TIER.iron_histories, batch, checked(lambda: Iron(small.path), small, tmp_path))


@pytest.mark.parametrize("batch", range(TIER.office_batches))
def test_histories_in_libreoffice_leave_a_planner_clean(
    small: Built, program: OfficeProgram, batch: int, tmp_path: Path, record_property: Recorder
) -> None:
    record_property("histories in LibreOffice", TIER.office_histories)
    check = checked(lambda: Office(program, small.path), small, tmp_path)
    for_each_history(TIER.office_histories, 1000 + batch, check)
