"""A person's own package of functions: how they are found, and what is refused."""

from __future__ import annotations

import importlib
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest

from wbgen.model.binding import PLANNER, ColumnFunctions, Model
from wbgen.model.collecting import DuplicateFunctionError, FamilyError
from wbgen.model.inputs import Inputs

Made = Callable[[dict[str, str]], ColumnFunctions]

MARKS = "from wbgen.model.marks import of_family, reads_every\n"


@pytest.fixture
def made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Made]:
    """A package of functions, given as the text of each of its modules by path."""
    before = set(sys.modules)
    monkeypatch.syspath_prepend(tmp_path)
    package = tmp_path / f"own_{tmp_path.name.replace('-', '_')}"

    def make(modules: dict[str, str]) -> ColumnFunctions:
        for name, text in {"__init__": "", **modules}.items():
            path = package / f"{name}.py"
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text)
        for folder in (found for found in package.rglob("*") if found.is_dir()):
            (folder / "__init__.py").touch()
        importlib.invalidate_caches()
        return ColumnFunctions(importlib.import_module(package.name))

    yield make
    for name in set(sys.modules) - before:
        if name.startswith("own_"):
            del sys.modules[name]


def inputs() -> Inputs:
    given = {f"mass_{load}": np.array([1.0, 2.0]) for load in ("full", "last")}
    units = dict.fromkeys([*given, "total"], "")
    return Inputs({"sacks": given}, {"sacks": units}, {"sacks": 2})


def test_a_package_of_ones_own_computes_the_columns(made: Made) -> None:
    total = MARKS + '@reads_every(mass="loads")\ndef total(mass_every):\n    return sum(mass_every)\n'
    model = Model(inputs(), functions=made({"shed/sacks": total}))
    assert list(model.column("sacks", "total")) == [2.0, 4.0]


def test_a_table_is_collected_from_its_submodules_without_helpers(made: Made) -> None:
    functions = made(
        {
            "shed/sacks/weights": "def mass(): ...\ndef _helper(): ...\n",
            "shed/sacks/prices": "from math import floor\nfrom .weights import mass\ndef price(): ...\n",
            "shed/sacks/_shared": "def shared(): ...\n",
            "tools/scales": "def scale(): ...\n",
        }
    )
    assert set(functions.of("sacks")) == {"mass", "price"}
    assert functions.of("scales") == {}
    assert functions.of("no_such_table") == {}


def test_a_name_in_two_submodules_is_refused_with_both_places(made: Made) -> None:
    functions = made({"shed/sacks/weights": "def mass(): ...\n", "shed/sacks/prices": "def mass(): ...\n"})
    with pytest.raises(DuplicateFunctionError, match=r"sacks\.prices\.mass.*sacks\.weights\.mass"):
        functions.of("sacks")


def test_a_table_in_two_sheets_is_refused_with_both_places(made: Made) -> None:
    functions = made({"shed/sacks": "def mass(): ...\n", "barn/sacks": "def price(): ...\n"})
    with pytest.raises(DuplicateFunctionError, match=r"barn\.sacks.*shed\.sacks"):
        functions.of("sacks")


def test_a_column_that_a_family_serves_too_is_refused(made: Made) -> None:
    each = MARKS + '@of_family("loads")\ndef mass_each(): ...\ndef mass_full(): ...\n'
    with pytest.raises(DuplicateFunctionError, match=r"mass_full is served twice"):
        made({"shed/sacks": each}).function_for("sacks", "mass_full")


@pytest.mark.parametrize("text", ["def mass_each(): ...\n", MARKS + '@of_family("loads")\ndef mass(): ...\n'])
def test_a_name_of_a_family_and_its_mark_go_together(made: Made, text: str) -> None:
    with pytest.raises(FamilyError, match=r"sacks\.mass"):
        made({"shed/sacks": text}).of("sacks")


def test_a_function_that_reads_a_family_says_which(made: Made) -> None:
    unsaid = made({"shed/sacks": "def total(mass_every): ...\n"})
    with pytest.raises(FamilyError, match=r"sacks\.total reads mass_every"):
        Model(inputs(), functions=unsaid).column("sacks", "total")


def test_the_head_of_every_sheet_is_the_packages_own_or_the_shipped_one(made: Made) -> None:
    assert made({"shed/sacks": ""}).of("standing_mix") == PLANNER.of("standing_mix") != {}
    assert set(made({"standing": "def mood(): ...\n"}).of("standing_mix")) == {"mood"}
