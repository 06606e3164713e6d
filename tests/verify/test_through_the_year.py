"""The planners of a southern and of a continental site, recalculated by LibreOffice on a day of each month.

The southern one has a catalogue file of its own, with months of known products.
"""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path
from typing import Final

import pytest

from support.office import recalculate
from support.through_the_year import OWN_MONTHS, SITES, Site
from support.tier import others_thorough
from wbgen.build import build
from wbgen.files.dates import serial
from wbgen.files.xlsx.workbook import read
from wbgen.inputs.from_workbook import stored_value, tables_in
from wbgen.verify.verification import WITNESSES, verify

MONTHS: Final = [
    (site, date(2026 + (month > 12), (month - 1) % 12 + 1, day))
    for site, first, day in (("southern", 7, 1), ("continental", 3, 28))
    for month in range(first, first + 12)
]
"""The first of each month from July on, and the 28th of each from March on: both ends of each season are among them."""
QUICK: Final = [("southern", date(2027, 1, 1))]


@pytest.mark.parametrize(("site", "day"), others_thorough(MONTHS, QUICK), ids=str)
def test_all_witnesses_agree_on_every_month(site: str, day: date, tmp_path: Path) -> None:
    own = "\ncatalogue: [own.yaml]" if site == "southern" else ""
    text, changed = re.subn(r"as of: [\d-]+}", f"as of: {day}}}{own}", SITES[site].read_text("utf-8"))
    assert changed == 1
    (tmp_path / "lawns.yaml").write_text(text, encoding="utf-8")
    (tmp_path / "own.yaml").write_text(OWN_MONTHS, encoding="utf-8")
    made = build(tmp_path / "lawns.yaml", tmp_path / "planner.xlsx", diary_rows=60)
    path = recalculate(tmp_path / "planner.xlsx", tmp_path / "anew")
    found = verify(path, lawns=tmp_path / "lawns.yaml")
    assert (found.findings, found.warnings) == ((), ())
    assert found.active_witnesses == WITNESSES
    file = read(path)
    tables = tables_in(file, made.book)
    assert stored_value(file, tables, "settings", "season_start") == serial(Site(site).starts(day))
