"""The benchmark runs and finds what it measures; its figures are for people, and no test depends on them."""

from __future__ import annotations

import subprocess
import sys
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import Final

import pytest

from support.filled import filled
from support.planners import SYSTEMS
from tools import benchmark, benchmark_tasks
from wbgen.sheets.book import shipped_templates
from wbgen.sheets.column import System

LINES: Final = 3


BEGINNINGS: Final = (
    "--help / heavy imports", "build, empty diary,", "build, full diary,", "build, 1 → 2 lines",
    "verify, empty diary /", "verify, full diary /", "verify, 1 → 2 lines", "engine, all / without",
    "engine, all, 1 → 2 lines",
    "verify, empty diary / LibreOffice", "verify, full diary / LibreOffice",
)  # fmt: skip
"""How the lines of all parts begin."""


def told(lines: list[str], beginnings: Sequence[str] = BEGINNINGS) -> None:
    """Assert that each line that should be there is, and none twice."""
    for start in beginnings:
        assert any(line.startswith(start) for line in lines), start
    assert len({line[:74] for line in lines}) == len(lines)


def test_every_part_says_what_it_compares(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """With made-up runs: a part asks for the tasks there are, and each of its lines is another."""
    asked: Counter[str] = Counter()

    def made_up(command: Sequence[str]) -> benchmark.Run:
        asked[Path(command[1]).name] += 1
        if Path(command[1]).name == "benchmark_tasks.py":
            assert command[2] in benchmark_tasks.TASKS
            asked[command[2]] += 1
        return benchmark.Run(1.0, 1.0, 1.0, {"formula cells": 9.0, "diary": 2.0, "others": 3.0})

    monkeypatch.setattr(benchmark, "started", made_up)
    assert benchmark.main(["--lines", str(LINES), "--parts", *benchmark.PARTS]) == 0
    told(capsys.readouterr().out.splitlines())
    assert (asked["build"], asked["bare"], asked["build_without"], asked["recalculate"]) == (4, 2, 3, 6)


@pytest.mark.thorough
def test_every_part_prints_its_figures() -> None:
    command = [sys.executable, benchmark.__file__, "--lines", str(LINES), "--parts"]
    done = subprocess.run(
        [*command, "build", "verify", "doublings", "across"], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    told(
        done.stdout.splitlines(),
        [one for one in BEGINNINGS if not one.startswith(("--help", "verify, 1")) and "LibreOffice" not in one],
    )


@pytest.mark.thorough
def test_the_programs_stand_side_by_side() -> None:
    command = [sys.executable, benchmark.__file__, "--lines", str(LINES), "--side-by-side"]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    head, rule, *rows = [line.strip("|").split("|") for line in done.stdout.splitlines()]
    assert [len(row) for row in (head, rule, *rows)] == [4] * (len(rows) + 2)
    assert [row[0].split()[0].strip(" :") for row in rows] == [
        "wbgen", "xlsxwriter", "wbgen", "openpyxl", "formualizer", "LibreOffice", "IronCalc",
    ]  # fmt: skip
    assert all(float(figure) > 0 for row in rows for figure in row[1:])


@pytest.mark.thorough
def test_a_large_planner_is_measured_at_three_sizes() -> None:
    command = [sys.executable, benchmark.__file__, "--large", "10", "3", "5"]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    head, _, *rows = [line.strip("|").split("|") for line in done.stdout.splitlines()]
    assert [one.partition(":")[0].strip() for one in head[1:]] == ["1×", "2×", "4×"]
    assert [row[0].strip().partition(":")[0] for row in rows] == [
        "formula cells", "wbgen", "wbgen", "wbgen", "wbgen", "LibreOffice", "LibreOffice",
    ]  # fmt: skip
    cells = [float(one.replace(" ", "")) for one in rows[0][1:]]
    assert cells == sorted(cells)
    assert cells[0] > 0


def test_a_count_is_read_by_its_thousands() -> None:
    assert (benchmark.spaced(426821.0), benchmark.spaced(400)) == ("426 821", "400")


@pytest.mark.parametrize(
    ("value", "most", "asked", "code"),
    [(2.0, 1.0, True, 1), (2.0, 1.0, False, 0), (1.0, 1.0, True, 0), (2.0, None, True, 0)],
)
def test_a_figure_above_its_limit_fails_when_asked(
    value: float, most: float | None, asked: bool, code: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(benchmark.PARTS, "help", lambda _: iter([benchmark.Figure("made up", value, most)]))
    assert benchmark.main(["--parts", "help", *(["--check"] if asked else [])]) == code


def test_time_and_memory_of_a_program_are_noted() -> None:
    run = benchmark.started([sys.executable, "-c", "print('{\"cells\": 3}')"])
    assert run.told == {"cells": 3}
    assert run.processor > 0
    assert run.peak > 1


def test_a_program_that_fails_is_told() -> None:
    with pytest.raises(SystemExit, match="ended with 3"):
        benchmark.started([sys.executable, "-c", "raise SystemExit(3)"])


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_columns_that_look_across_the_diary_are_found_by_their_references(system: System) -> None:
    found = benchmark_tasks.across(shipped_templates().book(system))
    assert {key for _, key in found["diary"]} == {
        "days_since",
        "day_key",
        "product_day_key",
        "number_this_season",
        "visit_first",
        "pair_once",
        "answered",
        "tank_water",
        "own_salts",
        "visit_salts",
        "visit_salt_load",
        "visit_nitrogen",
        "visit_iron",
        "flag_record",
        "flag_amount",
        "flag_conditions",
        "flags",
        "flag_line",
        "line_key",
    }
    assert {"season_applied", "months_together"} <= {table for table, _ in found["others"]}


def test_the_full_diary_has_the_names_of_the_starter_and_is_filled_in(tmp_path: Path) -> None:
    lawns = tmp_path / "lawns.yaml"
    benchmark_tasks.scenario(str(lawns), str(LINES))
    first = lawns.read_bytes()
    benchmark_tasks.scenario(str(lawns), str(LINES))
    assert lawns.read_bytes() == first
    values = filled(lawns, diary_rows=1).values
    assert sum(name != "" for name in values["diary"]["lawn"]) == LINES
    assert set(values["diary"]["lawn"]) - {""} <= set(values["lawns"]["name"])
