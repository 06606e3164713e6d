"""Corners drawn at random in the sheet: LibreOffice, the engine and the model agree with a library of geometry."""

from __future__ import annotations

import random
from pathlib import Path
from typing import Final

import pytest

from support import office
from support.edits import Edit, edited, typed, unstored
from support.planners import SYSTEMS, built_once
from support.polygons import CROSS, KINDS, drawn, to_mend
from support.shared import Shared
from support.tier import TIER, Recorder, others_thorough
from wbgen.files.findings import Kind
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.workbook import read
from wbgen.sheets.column import System

PARTS: Final = TIER.outlines
SITE: Final = "site: {{name: A, units: {units}, currency: EUR, season starts: 1 January}}\nlawns:\n"
LAWN: Final = "  - {{name: L{number}, grass: cool season, parts: [{{name: plot, add: corners, points: [{points}]}}]}}\n"
FAR: Final = (0, 590_000_000)


def as_typed(number: float) -> float:
    """As many digits as a program keeps of a number that is typed."""
    return float(f"{number:.15g}")


@pytest.mark.parametrize("system", others_thorough(SYSTEMS, []))
def test_edges_that_meet_are_told_by_every_witness(
    system: System, shared: Shared, tmp_path: Path, record_property: Recorder
) -> None:
    """Each lawn has one part. One whose edges meet has no area, which the sheet says and verify repeats."""
    draw = random.Random(f"{TIER.seed} corners")  # noqa: S311 - the tier's seed
    outlines = [drawn(draw, KINDS[number % len(KINDS)]) for number in range(PARTS)]
    lawns = [
        LAWN.format(number=number, points=", ".join(f"[{place} m, {place**2} m]" for place in range(len(corners))))
        for number, corners in enumerate(outlines)
    ]
    planner = built_once(shared, "corners", SITE.format(units=system) + "".join(lawns), system)
    points, parts, lawn_table = (planner.placed[table] for table in ("points", "parts", "lawns"))
    edits: dict[tuple[str, str], Edit] = {(s, address(row, at)): unstored for s, row, at in planner.cells("formula")}
    metre, record = (1.0 if system == "metric" else 0.3048), 0
    for number, corners in enumerate(outlines):
        for corner in corners:
            for key, length in zip(("along", "offset"), corner, strict=True):
                at = points.sheet, address(*points.cell(key, record))
                edits[at] = typed(as_typed((length + FAR[number % len(FAR)]) / 100 / metre))
            record += 1
    calculated = office.recalculate(edited(planner.path, tmp_path / "corners.xlsx", edits), tmp_path / "calculated")
    verified = planner.verify(calculated)
    assert [one for one in verified.findings if one.kind is not Kind.CALCULATION_DATE] == []
    file = read(calculated)
    expected = [to_mend(corners) for corners in outlines]
    sheet = file.sheet(parts.sheet)
    assert sheet
    assert [sheet.cells[parts.cell("part_state", number)].value or "" for number in range(PARTS)] == expected
    assert {"", CROSS} <= set(expected)
    told = {one.cell: one.message for one in verified.notices if one.kind is Kind.TO_MEND and one.sheet == parts.sheet}
    wrong = {address(*parts.cell("part_state", n)): words for n, words in enumerate(expected) if words}
    assert wrong.items() <= told.items()
    lawn_sheet = file.sheet(lawn_table.sheet)
    assert lawn_sheet
    areas = [lawn_sheet.cells[lawn_table.cell("area", number)].value for number in range(PARTS)]
    assert [isinstance(area, float) for area in areas] == [not words for words in expected]
    record_property("outlines drawn", PARTS)
