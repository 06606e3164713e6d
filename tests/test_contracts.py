"""The floors hold, and each contract is seen to break on an import that it forbids."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Final

import pytest
from importlinter import api

ROOT: Final = Path(__file__).resolve().parent.parent
CONTRACTS: Final = ROOT / "pyproject.toml"
LINT: Final = "from importlinter.cli import lint_imports_command; lint_imports_command()"

FORBIDDEN: Final = (
    ("floors", "trade/nutrients.py", "import wbgen.records.catalogue"),
    ("floors", "records/catalogue.py", "import wbgen.sheets.book"),
    ("floors", "model/stray.py", "import wbgen.sheets.book"),
    ("floors", "sheets/stray.py", "import wbgen.model.binding"),
    ("floors", "files/xlsx/stray.py", "import wbgen.sheets.layout"),
    ("floors", "writer/stray.py", "import wbgen.inputs.rows"),
    ("floors", "files/xlsx/stray.py", "import wbgen.__main__"),
    ("floors", "homeless.py", ""),
    ("files", "files/xlsx/stray.py", "import wbgen.files.yaml.tree"),
    ("verifying", "verify/judge.py", "import wbgen.inputs.from_site"),
    ("writing", "sheets/stray.py", "import xlsxwriter"),
    ("reading", "writer/canvas.py", "import openpyxl"),
    ("commands", "trade/nutrients.py", "import typer"),
    ("second-witness", "model/stray.py", "import formualizer"),
    ("unaided", "files/xlsx/stray.py", "import pydantic"),
)


def lint(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    """Check the package in `folder`, whichever wbgen is installed."""
    return subprocess.run(
        [sys.executable, "-c", LINT, "--no-logo", "--no-cache", *arguments],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(folder), "PYTHONDONTWRITEBYTECODE": "1", "COLUMNS": "300"},
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )


def test_imports_go_down_only() -> None:
    checked = lint(ROOT)
    assert checked.returncode == 0, checked.stdout + checked.stderr
    assert f"{len(names())} kept, 0 broken" in checked.stdout


def names() -> list[str]:
    return [contract["id"] for contract in api.read_configuration(str(CONTRACTS))["contracts_options"]]


def test_every_contract_is_tried_below() -> None:
    assert {contract for contract, _, _ in FORBIDDEN} == set(names())


@pytest.mark.parametrize(("contract", "module", "line"), FORBIDDEN)
def test_a_forbidden_import_breaks_its_contract(tmp_path: Path, contract: str, module: str, line: str) -> None:
    shutil.copytree(ROOT / "wbgen", tmp_path / "wbgen", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(CONTRACTS, tmp_path)
    with (tmp_path / "wbgen" / module).open("a", encoding="utf-8") as changed:
        changed.write(f"\n{line}\n")
    checked = lint(tmp_path, "--contract", contract)
    assert checked.returncode == 1, checked.stdout + checked.stderr
    assert "0 kept, 1 broken" in checked.stdout
