"""Whatever kind of thing verify finds or says, it says what to do about it."""

from __future__ import annotations

import ast
import importlib
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import pytest

import wbgen
from wbgen.files.findings import REMEDIES, Finding
from wbgen.files.xlsx import hazards
from wbgen.verify.report import as_lines
from wbgen.verify.verification import Verification

FOLDER: Final = Path(wbgen.__file__).parent
MODULES: Final = ("wbgen.verify", "wbgen.verify.display", "wbgen.inputs", "wbgen.files.xlsx")
PLACES: Final = {"Finding": 2, "_whole": 0, "_say": 0, "Note": 0}
"""Which argument of a call is a kind, or the code that becomes one."""
FINDING: Final = {"judge": 0, "checks": 1}
"""The same of the helpers that are named finding, by module."""
PASSED_ON: Final = frozenset({"kind", "code"})
"""Parameters and variables that only hand on what is given elsewhere."""


def kinds_of(path: Path, package: str) -> Iterator[str]:
    """Every text that a module uses as a kind."""
    module = importlib.import_module(f"{package}.{path.stem}")
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        for expression in _kinds(node, path.stem):
            yield from _texts(expression, vars(module), f"{path.name}:{expression.lineno}")


def _kinds(node: ast.AST, module: str) -> Iterator[ast.expr]:
    """The expressions of a node that are kinds."""
    if isinstance(node, ast.Call):
        name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
        place = FINDING.get(module) if name == "finding" else PLACES.get(name)
        if place is not None:
            yield node.args[place]
    elif isinstance(node, ast.Assign) and module != "hazards":
        for target, value in _paired(node.targets[0], node.value):
            if isinstance(target, ast.Name) and target.id == "kind":
                yield value
    elif isinstance(node, ast.Yield) and module == "checks" and isinstance(node.value, ast.Tuple):
        yield node.value.elts[1]


def _paired(target: ast.expr, value: ast.expr) -> Iterator[tuple[ast.expr, ast.expr]]:
    if isinstance(value, ast.IfExp):
        yield from _paired(target, value.body)
        yield from _paired(target, value.orelse)
    elif isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple):
        yield from zip(target.elts, value.elts, strict=True)
    else:
        yield target, value


def _texts(expression: ast.expr, known: dict[str, Any], place: str) -> Iterator[str]:
    """The texts that an expression may be; it must be a text, a constant of the module, or handed on."""
    if isinstance(expression, ast.Constant) and isinstance(expression.value, str):
        yield expression.value
    elif isinstance(expression, ast.IfExp):
        yield from _texts(expression.body, known, place)
        yield from _texts(expression.orelse, known, place)
    elif isinstance(expression, ast.Name) and isinstance(known.get(expression.id), str):
        yield known[expression.id]
    elif isinstance(expression, ast.Call):
        assert ast.unparse(expression) == "note.code.replace('-', ' ')", f"{place}: a kind that cannot be followed"
    else:
        assert isinstance(expression, ast.Name), f"{place}: a kind that cannot be followed"
        assert expression.id in PASSED_ON, f"{place}: a kind that cannot be followed"


def all_kinds() -> frozenset[str]:
    """Every kind that the code has; a note's code is its kind with hyphens."""
    found = {code for _, code, _ in hazards._BY_NAME}
    for package in MODULES:
        for path in sorted((FOLDER / Path(*package.split(".")[1:])).glob("*.py")):
            if re.search("import.*Finding|class Note", path.read_text("utf-8")):
                found |= set(kinds_of(path, package))
    return frozenset(kind.replace("-", " ") for kind in found)


def test_every_kind_is_collected() -> None:
    known = {"formula changed", "typed over", "stale result", "follows", "outside the table", "unit changed", "macros"}
    assert known <= all_kinds()


def test_every_kind_says_what_to_do_and_no_other_does() -> None:
    assert all_kinds() - REMEDIES.keys() == set()
    assert REMEDIES.keys() - all_kinds() == set()
    assert all(remedy.strip() for remedy in REMEDIES.values())


@pytest.mark.parametrize("kind", sorted(all_kinds()))
def test_what_verify_prints_of_a_finding_says_what_to_do(kind: str) -> None:
    finding = Finding("Mix", "B7", kind, None, None, "it is not as it should be")
    result = Verification(Path("planner.xlsx"), (finding,), (), {}, {"engine": 1}, 46_000.0)
    assert f"  do: {REMEDIES[kind]}" in list(as_lines(result))
