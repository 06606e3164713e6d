"""The functions of a table, collected from its module and its submodules."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from types import ModuleType
from typing import Any, Final

from wbgen.model.marks import families_read, family_served
from wbgen.trade.families import Member, family

ColumnFunction = Callable[..., Any]  # each has parameters and figures of its own


class DuplicateFunctionError(RuntimeError):
    """A table that two modules are named after, or a column that two functions serve."""


class FamilyError(RuntimeError):
    """A function that does not say which family it serves or reads."""


@dataclass(frozen=True)
class TableFunctions:
    """What the module of a table has: its functions by name, and the one of each column with the member it is for."""

    functions: Mapping[str, ColumnFunction]
    columns: Mapping[str, tuple[ColumnFunction, Member | None]]
    blank_unless: tuple[str, ...] = ()
    never_blank: tuple[str, ...] = ()


def _parts(module: ModuleType) -> Iterator[ModuleType]:
    """The module of a table and, where it is a package, its submodules; those with an underscore are helpers."""
    yield module
    for found in pkgutil.iter_modules(getattr(module, "__path__", ())):
        if not found.name.startswith("_"):
            yield from _parts(importlib.import_module(f"{module.__name__}.{found.name}"))


def _place(function: ColumnFunction) -> str:
    return f"{function.__module__}.{function.__name__}"


def _collected(module: ModuleType) -> Mapping[str, ColumnFunction]:
    """The public functions that a table's module and its submodules define, by name."""
    found: dict[str, ColumnFunction] = {}
    for part in _parts(module):
        for key, function in inspect.getmembers(part, inspect.isfunction):
            if function.__module__ != part.__name__ or key.startswith("_"):
                continue
            if key in found:
                raise DuplicateFunctionError(f"{key} stands twice: {_place(found[key])}, {_place(function)}")
            found[key] = function
    return found


def _served(functions: Mapping[str, ColumnFunction]) -> Mapping[str, tuple[ColumnFunction, Member | None]]:
    """The function of each column, written out for every member of a family."""
    found: dict[str, tuple[ColumnFunction, Member | None]] = {}
    for name, function in functions.items():
        served = family_served(function)
        if (served is not None) != name.endswith("_each"):
            raise FamilyError(f"{_place(function)}: a name in _each and a mark of_family belong together")
        members = [(name.removesuffix("each") + one.key, one) for one in family(served)] if served else [(name, None)]
        for key, member in members:
            if key in found:
                raise DuplicateFunctionError(f"{key} is served twice: {_place(found[key][0])}, {_place(function)}")
            found[key] = function, member
    return found


@cache
def table_functions(name: str) -> TableFunctions:
    """What the module of that name has for its table."""
    module = importlib.import_module(name)
    functions = _collected(module)
    limits = (getattr(module, limit, ()) for limit in ("BLANK_UNLESS", "NEVER_BLANK"))
    return TableFunctions(functions, _served(functions), *limits)


NO_FUNCTIONS: Final = TableFunctions({}, {})


def every_of(function: ColumnFunction, name: str) -> list[str]:
    """The keys of a family's columns: `name` is the family's key with every in place of each."""
    stem = name.removesuffix("_every")
    read = families_read(function).get(stem)
    if read is None:
        raise FamilyError(f"{_place(function)} reads {name} and does not say of which family: readsevery_of({stem}=…)")
    return [f"{stem}_{member.key}" for member in family(read)]
