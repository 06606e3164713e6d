"""The commands run as a person runs them, in the test's own process."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from typer.testing import CliRunner, Result

from wbgen.cli import app

ROOT: Final = Path(__file__).resolve().parents[2]
CLEAN, FINDINGS, CANNOT = 0, 1, 2
"""The exit codes: all is well; findings; it could not be done."""


def run(*arguments: object, code: int = CLEAN) -> Result:
    """Run a command in this process. Whatever happens, it ends with an exit code, not with an exception."""
    result = CliRunner().invoke(app, [str(argument) for argument in arguments])
    assert result.exception is None or isinstance(result.exception, SystemExit), repr(result.exception)
    assert result.exit_code == code, result.output
    assert "Traceback" not in result.output
    return result
