"""How the program ends when it is told to, and when something happens that nobody foresaw."""

from __future__ import annotations

import gc
import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import NoReturn

import pytest

from support.command import ROOT
from support.planners import EMPTY
from wbgen.__main__ import FAULT, main


@pytest.mark.skipif(os.name != "posix", reason="another system tells a program to end in another way")
def test_a_build_that_is_told_to_end_leaves_nothing_half_written(tmp_path: Path) -> None:
    (tmp_path / "lawns.yaml").write_text(EMPTY, encoding="utf-8")
    command = [sys.executable, "-m", "wbgen", "build", "lawns.yaml", "-o", "planner.xlsx", "--diary-rows", "3000"]
    with subprocess.Popen(
        command, cwd=tmp_path, env=os.environ | {"PYTHONPATH": str(ROOT)}, stderr=subprocess.PIPE
    ) as process:
        while process.poll() is None and not list(tmp_path.glob(".wbgen-*")):
            time.sleep(0.01)
        process.send_signal(signal.SIGTERM)
        _, said = process.communicate()
    assert (process.returncode, said) == (128 + signal.SIGTERM, b"")
    assert [path.name for path in tmp_path.iterdir()] == ["lawns.yaml"]


@pytest.mark.parametrize("error", [ZeroDivisionError("by nothing"), MemoryError(), RecursionError("deep"), KeyError(3)])
def test_what_nobody_foresaw_is_told_as_a_fault_of_the_program(
    error: Exception, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def app(**_: str) -> NoReturn:
        raise error

    before, often = signal.getsignal(signal.SIGTERM), gc.get_threshold()
    monkeypatch.setattr("wbgen.cli.app", app)
    try:
        with pytest.raises(SystemExit) as ended:
            main()
    finally:
        signal.signal(signal.SIGTERM, before)
        gc.set_threshold(*often)
    said = capsys.readouterr().err
    assert ended.value.code == FAULT not in (0, 1, 2)
    assert type(error).__name__ in said
    assert "a fault of wbgen" in said
    assert "  do: send" in said
