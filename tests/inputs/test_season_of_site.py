"""The season that a site names is the season of its planner."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from support.filled import filled
from support.planners import EMPTY
from wbgen.files.dates import serial
from wbgen.model.binding import Model

NOVEMBER = EMPTY.replace("season starts: 1 January", "season starts: 1 November, as of: 2026-06-30")


@pytest.mark.parametrize(
    ("settings", "start"),
    [("", "2025-11-01"), ("settings: {season month: 3}\n", "2026-03-01")],
    ids=["the site's own day", "a setting of the user's goes first"],
)
def test_the_season_starts_on_the_day_of_the_site(tmp_path: Path, settings: str, start: str) -> None:
    site = tmp_path / "lawns.yaml"
    site.write_text(NOVEMBER + settings, encoding="utf-8")
    assert Model(filled(site)).column("settings", "season_start") == serial(date.fromisoformat(start))
