"""The examples that a reader sees are what the program makes today."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path

import pytest

from tools.examples import EXAMPLES, SYSTEMS, make
from wbgen.files import shipped
from wbgen.sheets.column import System


@pytest.mark.parametrize("system", SYSTEMS)
def test_example_is_rebuilt_byte_for_byte(system: System, tmp_path: Path) -> None:
    made = make(system, tmp_path)
    same = made.read_bytes() == (EXAMPLES / made.name).read_bytes()  # compared here: pytest would write out both
    assert same, "run: python tests/tools/examples.py"


def test_example_is_the_starter_with_a_typed_date_closed_months_a_shed_and_a_diary() -> None:
    ours, starters = (path.read_text("utf-8").splitlines() for path in (EXAMPLES / "lawns.yaml", shipped.starter()))
    before = starters[: next(n for n, line in enumerate(starters) if line.startswith("# The shed"))]
    other = [one for one, theirs in zip(ours, before, strict=False) if one != theirs]
    tested = "soil tests: [{date: 2026-03-02, method: Mehlich-3, P: 24 ppm, K: 61 ppm, note: pH 6.2}]"
    assert [one.split("#")[0].strip() for one in other] == ["as of: 2026-06-30", tested, "closed: [12, 1]"]


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_sheet_has_a_picture(system: System) -> None:
    from wbgen.files.xlsx.workbook import read

    sheets = [sheet.name for sheet in read(EXAMPLES / f"planner_{system}.xlsx").sheets]
    pictures = {path.stem for path in (EXAMPLES / f"pictures_{system}").glob("*.png")}
    assert pictures == {name.lower().replace(" ", "_") for name in sheets}


@pytest.mark.thorough
def test_a_second_build_in_one_process_gives_the_same_bytes(tmp_path: Path) -> None:
    first, second = (sha256(make("us", tmp_path).read_bytes()).hexdigest() for _ in range(2))
    assert first == second
