"""Pictures of the screen: which sheets they are of, and what is said where a program is missing."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from support.planners import Planners
from tools import pictures as program
from tools.screens import front_sheets


def test_the_front_sheets_are_those_before_the_workings(planners: Planners) -> None:
    planner = planners.get("starter", "metric")
    front = front_sheets(planner.path, planner.sheets.sheetnames)
    assert front == [sheet.name for sheet in planner.book.sheets if sheet.part != "behind"]
    assert 10 < len(front) < len(planner.book.sheets)


def test_it_is_said_what_must_be_installed(
    planners: Planners, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(shutil, "which", lambda name: None if name in ("Xvfb", "import") else f"/usr/bin/{name}")
    planner = planners.get("starter", "metric")
    assert program.main(["--screens", str(planner.path), str(tmp_path)]) == 1
    told = capsys.readouterr().err
    assert "apt-get install xvfb imagemagick" in told
    assert "xdotool" not in told
