"""The engine in its own process: the day that it is told, the limits that it dies of, and what is left of it."""

from __future__ import annotations

import random
import subprocess
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any, Final

import pytest
import xlsxwriter

from support.edits import Edit, edited, formula
from support.planners import Planners
from support.tier import TIER
from wbgen.files.findings import Kind
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.cell_types import ErrorValue
from wbgen.files.xlsx.refusal import DISTRUST, UnsafeFile
from wbgen.files.xlsx.workbook import File, read
from wbgen.verify.engine import process
from wbgen.verify.engine.process import evaluating

DAY: Final = 46_203.0


def written(folder: Path, stored: str | float) -> Path:
    """A workbook that tells its day, as stored, and the day after."""
    path = folder / "one.xlsx"
    with xlsxwriter.Workbook(str(path)) as book:
        sheet = book.add_worksheet("Mix")
        sheet.write_formula("A1", "=TODAY()", None, stored)
        sheet.write_formula("B1", "=A1+1")
    return path


def found(path: Path, *days: float) -> list[Any]:
    with evaluating(path) as engine:
        for day in days:
            engine.begin(day)
        return engine.values(read(path))["Mix"][0]


def test_the_last_day_that_it_is_told_counts(tmp_path: Path) -> None:
    path = written(tmp_path, 1)
    draw = random.Random(TIER.seed)  # noqa: S311 - the same days every time
    for _ in range(8):
        days = [float(draw.randrange(61, 2_000_000)) for _ in range(draw.randrange(1, 4))]
        assert found(path, *days) == [days[-1], days[-1] + 1]


@pytest.mark.parametrize("stored", [46_203, 61, "x", "", 1e300, -5, 46_203.5, 0, 999_999, True])
def test_a_day_that_a_sheet_tells_is_a_beginning_and_no_evidence(tmp_path: Path, stored: float | str) -> None:
    path = written(tmp_path, stored)
    with evaluating(path) as engine:
        file = read(path, engine.look)
        engine.begin(DAY)
        assert engine.values(file)["Mix"] == [[DAY, DAY + 1]]


def test_a_sheet_that_tells_the_day_is_enough_to_begin(tmp_path: Path) -> None:
    path = written(tmp_path, DAY)
    with evaluating(path) as engine:
        assert engine.values(read(path, engine.look))["Mix"] == [[DAY, DAY + 1]]


def test_errors_are_told_from_texts_that_look_like_them(tmp_path: Path) -> None:
    path = tmp_path / "one.xlsx"
    with xlsxwriter.Workbook(str(path)) as book:
        sheet = book.add_worksheet("Mix")
        sheet.write_row(0, 0, ["#N/A", '{"error": "#N/A"}'])
        for column, formula in enumerate(("=NA()", "=1/0", "=1E308*10", '="#N/A"'), 2):
            sheet.write_formula(0, column, formula)
    with evaluating(path) as engine:
        engine.begin(DAY)
        row = engine.values(read(path))["Mix"][0]
    assert [type(value).__name__ for value in row] == ["str", "str", "ErrorValue", "ErrorValue", "ErrorValue", "str"]
    assert row == ["#N/A", '{"error": "#N/A"}', "#N/A", "#DIV/0!", "#NUM!", "#N/A"]


def doubled(times: int) -> Iterator[tuple[str, str]]:
    """Texts that double from cell to cell."""
    yield "A1", '=REPT("x",32000)'
    yield from ((f"A{row}", f"=A{row - 1}&A{row - 1}") for row in range(2, times + 2))


def counted(rows: int) -> Iterator[tuple[str, str]]:
    """Each cell adds up products of all numbers with all."""
    yield from ((f"B{row}", f"=SUMPRODUCT((A$1:A$9000>{row})*(A$1:A$9000<A{row}))") for row in range(1, rows + 1))


GREEDY: Final = {"memory": doubled(40), "time": counted(9000)}


@pytest.mark.parametrize("what", GREEDY)
def test_formulas_that_take_all_there_is_are_refused_in_words(
    tmp_path: Path, what: str, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(process, "SECONDS", 2)
    path = tmp_path / "greedy.xlsx"
    with xlsxwriter.Workbook(str(path)) as book:
        sheet = book.add_worksheet("Mix")
        if what == "time":
            sheet.write_column(0, 0, range(9000))
        for cell, formula in GREEDY[what]:
            sheet.write_formula(cell, formula)
    with evaluating(path) as engine:
        engine.begin(DAY)
        with pytest.raises(UnsafeFile) as caught:
            engine.values(read(path))
    assert caught.value.code == "too-much"
    assert ("memory" in caught.value.expected) == (what == "memory")
    assert caught.value.remedy == DISTRUST
    assert capfd.readouterr() == ("", "")


def test_a_planner_is_far_within_the_limits(planners: Planners, monkeypatch: pytest.MonkeyPatch) -> None:
    """A third of the memory, and of the seconds, is enough."""
    monkeypatch.setattr(process, "MEMORY", process.MEMORY // 3)
    monkeypatch.setattr(process, "MEMORY_FOR_A_BYTE", process.MEMORY_FOR_A_BYTE // 3)
    monkeypatch.setattr(process, "SECONDS", process.SECONDS // 3)
    monkeypatch.setattr(process, "SECONDS_FOR_A_MIB", 1)
    planner = planners.get("full", "metric")
    assert planner.verify(planner.path).findings == ()


def test_nothing_is_left_of_it_whatever_happens(tmp_path: Path) -> None:
    path = written(tmp_path, 1)
    left: list[subprocess.Popen[bytes]] = []
    with suppress(ZeroDivisionError), evaluating(path) as engine:
        left.append(engine._process)
        raise ZeroDivisionError
    with evaluating(path) as engine:
        left.append(engine._process)
        left[-1].kill()
        left[-1].wait()
        engine.begin(DAY)
        with pytest.raises(UnsafeFile, match="too-much"):
            engine.values(File(path, (), {}, ()))
    with evaluating(tmp_path / "no such file.xlsx") as engine:
        left.append(engine._process)
        with pytest.raises(UnsafeFile):
            engine.values(File(path, (), {}, ()))
    assert all(one.poll() is not None for one in left)


def test_a_folder_that_a_planner_came_in_lends_it_no_module(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What lies beside a stranger's file is not run."""
    path = written(tmp_path, 1)
    for name in ("formualizer", "json", "wbgen"):
        (tmp_path / f"{name}.py").write_text("raise SystemExit(9)", "utf-8")
    monkeypatch.chdir(tmp_path)
    assert found(path, DAY) == [DAY, DAY + 1]


TO_OTHER_FILES: Final = (
    "[1]Settings!$D$7", "'[1]My sheet'!A1", "SUM([1]Settings!A1:A3)", '[2]!Price&"["', "1+[3]Mix!B2*2",
)  # fmt: skip


def another(text: str) -> Edit:
    return formula(lambda _: text)


@pytest.mark.parametrize("text", TO_OTHER_FILES)
def test_a_formula_that_the_engine_refuses_is_an_error_and_all_others_are_evaluated(tmp_path: Path, text: str) -> None:
    path = tmp_path / "one.xlsx"
    with xlsxwriter.Workbook(str(path)) as book:
        sheet = book.add_worksheet("Mix")
        for column, formula in enumerate((text, "A1+1", "1+1", '"[1]"&C1', 'IFERROR(B1,"no figure")')):
            sheet.write_formula(0, column, f"={formula}")
    row = found(path, DAY)
    assert [isinstance(value, ErrorValue) for value in row] == [True, True, False, False, False]
    assert row[2:] == [2, "[1]2", "no figure"]


def test_a_planner_with_a_formula_to_another_file_is_judged_but_for_what_reads_it(
    planners: Planners, tmp_path: Path
) -> None:
    planner = planners.get("pocket", "metric")
    diary = planner.placed["diary"]
    row, column = diary.cell("share_used", 3)
    for text in TO_OTHER_FILES:
        edits = {(diary.sheet, address(row, column)): another(text)}
        result = planner.verify(edited(planner.path, tmp_path / "edited.xlsx", edits))
        own = [finding for finding in result.findings if finding.cause is None and finding.cell]
        assert [(finding.cell, finding.kind) for finding in own] == [(address(row, column), Kind.FORMULA_CHANGED)]
        assert result.witnesses["engine"] == planner.made.formula_cells
