"""Binding of the model's functions to the inputs: a column is computed when it is first asked for."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from pathlib import Path
from types import ModuleType
from typing import Any, Final

import numpy as np

from wbgen import model
from wbgen.model.inputs import DATE, TEXT, Column, Inputs
from wbgen.trade.families import Member, family
from wbgen.units.quantity import FLOAT

Value = Any
"""A column of figures: array, Quantity of an array, or a scalar of either for a form."""


class CircleError(RuntimeError):
    """A column that needs itself."""


class MissingFunctionError(LookupError):
    """A column that is neither an input nor computed by the model."""


TOOLS: Final = "tools"
"""The package beside the sheets' that holds what several tables use."""


@cache
def _modules() -> Mapping[str, str]:
    """The module of every table, by the table's key: model/<sheet>/<table>."""
    sheets = [found.name for found in pkgutil.iter_modules(model.__path__) if found.ispkg and found.name != TOOLS]
    return {
        table.name: f"{__package__}.{sheet}.{table.name}"
        for sheet in sheets
        for table in pkgutil.iter_modules([str(Path(model.__path__[0], sheet))])
    }


def _module_of(table: str) -> str | None:
    return f"{__package__}.standing" if table.startswith("standing_") else _modules().get(table)


class DuplicateFunctionError(RuntimeError):
    """A column that two modules of its table have a function for."""


def _parts(module: ModuleType) -> Iterator[ModuleType]:
    """The module of a table and, where it is a package, its submodules; those with an underscore are helpers."""
    yield module
    for found in pkgutil.iter_modules(getattr(module, "__path__", ())):
        if not found.name.startswith("_"):
            yield from _parts(importlib.import_module(f"{module.__name__}.{found.name}"))


@cache
def functions(table: str) -> Mapping[str, Callable[..., Value]]:
    """The functions of a table by name, collected from its module and its submodules; none without a module.

    Raises DuplicateFunctionError where two submodules define one name.
    """
    name = _module_of(table)
    found: dict[str, Callable[..., Value]] = {}
    for part in _parts(importlib.import_module(name)) if name else ():
        for key, function in inspect.getmembers(part, inspect.isfunction):
            if function.__module__ != part.__name__ or key.startswith("_"):
                continue
            if key in found:
                raise DuplicateFunctionError(f"{key} stands in {found[key].__module__} and in {part.__name__}")
            found[key] = function
    return found


@cache
def blank_unless(table: str) -> tuple[str, ...]:
    """The columns without which a record of `table` has no figures (BLANK_UNLESS of its module)."""
    name = _module_of(table)
    return getattr(importlib.import_module(name), "BLANK_UNLESS", ()) if name else ()


@cache
def never_blank(table: str) -> tuple[str, ...]:
    """The columns that have a figure in every record (NEVER_BLANK of the table's module)."""
    name = _module_of(table)
    return getattr(importlib.import_module(name), "NEVER_BLANK", ()) if name else ()


MISPLACED: Final = "misplaced_"
"""Before the key of an input of figures: where a text or the like stands in it. See `Model.misplaced`."""

FAMILIES = (
    "nutrients", "priced", "oxides", "months", "traits", "trait_rules", "risks", "checks", "loads", "levels", "weeks",
    "scored", "places",
)  # fmt: skip


@cache
def function_for(table: str, key: str) -> tuple[Callable[..., Value], Member | None] | None:
    """The function of a column and, where one function serves a family, the member it stands for."""
    known = functions(table)
    if key in known:
        return known[key], None
    for name in FAMILIES:
        for member in family(name):
            if key.endswith("_" + member.key):
                shared = known.get(key.removesuffix(member.key) + "each")
                if shared is not None and _FAMILY_OF.get(shared, name) == name:
                    return shared, member
    return None


_FAMILY_OF: dict[Callable[..., Value], str] = {}
"""The family of each function that is marked with one."""


def of_family(name: str) -> Callable[[Callable[..., Value]], Callable[..., Value]]:
    """Mark a function as serving one family, where its name alone would leave two to choose from."""

    def mark(function: Callable[..., Value]) -> Callable[..., Value]:
        _FAMILY_OF[function] = name
        return function

    return mark


@cache
def _parameters(function: Callable[..., Value]) -> tuple[str, ...]:
    return tuple(inspect.signature(function).parameters)


def _named(name: str, member: Member | None) -> str:
    if member is None:
        return name
    if name.endswith("_each"):
        return name.removesuffix("each") + member.key
    for word, said in member.says.items():
        if name.endswith(f"_each_{word}"):
            return name.removesuffix(f"each_{word}") + said
    return name


class View:
    """A table as a function sees it: its columns are attributes."""

    def __init__(self, model: Model, table: str, member: Member | None) -> None:
        self._model, self._table, self._member = model, table, member

    def __getattr__(self, name: str) -> Value:
        if name == "records":
            return self._model.inputs.records[self._table]
        if name.startswith(MISPLACED):
            return self._model.misplaced(self._table, name.removeprefix(MISPLACED))
        if name.endswith("_every"):
            return self._model.every(self._table, name)
        return self._model.column(self._table, _named(name, self._member))


class Model:
    """All figures of a planner.

    `given` are columns that are taken as they stand instead of being computed, by table and key: with an
    engine's values for the arguments, a function's own result can be judged alone.
    """

    def __init__(self, inputs: Inputs, given: Mapping[tuple[str, str], Value] | None = None) -> None:
        self.inputs = inputs
        self.given = given or {}
        self.reads: dict[tuple[str, str], set[tuple[str, str]]] = {}
        self._done: dict[tuple[str, str], Value] = {}
        self._open: list[tuple[str, str]] = []

    def column(self, table: str, key: str) -> Value:
        """The figures of a column, with their unit. Raises MissingFunctionError or CircleError."""
        at = (table, key)
        if self._open:
            self.reads.setdefault(self._open[-1], set()).add(at)
        if at in self._done:
            return self._done[at]
        if at in self.given:
            value = self.given[at]
        elif key in self.inputs.values.get(table, {}):
            value = self.quantity(table, key, self.inputs.values[table][key])
        else:
            value = self.compute(table, key)
        self._done[at] = value
        return value

    def every(self, table: str, name: str) -> list[Value]:
        """All columns of a family: `name` is the family's key with every in place of each."""
        return [self.column(table, key) for key in self._keys_of(table, name)]

    def _keys_of(self, table: str, name: str) -> list[str]:
        stem = name.removesuffix("every")
        for family_name in FAMILIES:
            keys = [stem + member.key for member in family(family_name)]
            if all(self._has(table, key) for key in keys):
                return keys
        raise MissingFunctionError(f"{table} has no family {name}")

    def misplaced(self, table: str, name: str) -> Any:
        """Where an input of figures holds something else, such as a text; of a family (…_every), any of its columns."""
        keys = self._keys_of(table, name) if name.endswith("_every") else [name]
        if self._open:
            self.reads.setdefault(self._open[-1], set()).update((table, key) for key in keys)
        none = np.zeros(self.inputs.records[table], dtype=bool)
        found = np.any([self.inputs.misplaced.get((table, key), none) for key in keys], axis=0)
        return found[0] if table in self.inputs.forms else found

    def _has(self, table: str, key: str) -> bool:
        return key in self.inputs.values.get(table, {}) or function_for(table, key) is not None

    def quantity(self, table: str, key: str, column: Column) -> Value:
        """A column of plain numbers with its unit; a scalar for a form."""
        unit = self.inputs.units[table][key]
        value = column[0] if table in self.inputs.forms else np.broadcast_to(column, column.shape)  # not to be changed
        return value if unit in ("", TEXT, DATE) else FLOAT.Quantity(value, unit)

    def compute(self, table: str, key: str) -> Value:
        """The result of a column's own function, blank where its record is."""
        found = function_for(table, key)
        if found is None:
            raise MissingFunctionError(f"the model has no function for {table}.{key}")
        if (table, key) in self._open:
            raise CircleError(" → ".join(".".join(at) for at in (*self._open, (table, key))))
        function, member = found
        self._open.append((table, key))
        try:
            arguments = [self._argument(table, name, member) for name in _parameters(function)]
            value = function(*arguments)
            needed = () if key in never_blank(table) else blank_unless(table)
            present = [self.column(table, name) for name in needed if name != key]
        finally:
            self._open.pop()
        return self._shaped(table, value, present)

    def _argument(self, table: str, name: str, member: Member | None) -> Value:
        if name == "each":
            return member
        if name.endswith("_every"):
            return self.every(table, name)
        if name.startswith(MISPLACED):
            return self.misplaced(table, name.removeprefix(MISPLACED))
        own = _named(name, member)
        if self._has(table, own):
            return self.column(table, own)
        if name == "records":
            return self.inputs.records[table]
        if name == "today_serial":
            return self.inputs.today
        return View(self, name, member)

    def _shaped(self, table: str, value: Value, present: list[Value]) -> Value:
        if table in self.inputs.forms:
            return value
        unit = getattr(value, "units", None)
        bare = np.asarray(value.magnitude if unit is not None else value)
        if bare.dtype.kind in "US":
            bare = bare.astype(object)
        elif bare.dtype.kind in "ib":
            bare = bare.astype(float)
        bare = np.broadcast_to(bare, (self.inputs.records[table],))
        for column in present:
            gone = np.asarray(column == "") if _is_text(column) else np.isnan(_magnitude(column))
            bare = np.where(gone, "" if bare.dtype == object else np.nan, bare)
        bare.flags.writeable = False  # computed once, asked for often, and not to be changed
        return bare if unit is None else FLOAT.Quantity(bare, unit)


def _magnitude(value: Value) -> Any:
    return getattr(value, "magnitude", value)


def _is_text(value: Value) -> bool:
    return isinstance(value, str) or (isinstance(value, np.ndarray) and value.dtype.kind == "O")
