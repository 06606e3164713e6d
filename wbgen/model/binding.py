"""Binding of the model's functions to the inputs: a column is computed when it is first asked for."""

from __future__ import annotations

import importlib.util
import inspect
import pkgutil
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from types import ModuleType
from typing import Any, Final

import numpy as np

from wbgen import model
from wbgen.model.collecting import (
    NO_FUNCTIONS,
    ColumnFunction,
    DuplicateFunctionError,
    TableFunctions,
    every_of,
    table_functions,
)
from wbgen.model.inputs import DATE, TEXT, Figures, Inputs
from wbgen.model.tools.elementwise import blank
from wbgen.model.values import Table
from wbgen.trade.families import Member
from wbgen.units.quantity import FLOAT

Value = Any
"""A column of figures: array, Quantity of an array, or a scalar of either for a form. Which, its function says."""


class CircleError(RuntimeError):
    """A column that needs itself."""


class MissingFunctionError(LookupError):
    """A column that is neither an input nor computed by the model."""


TOOLS: Final = "tools"
"""The package beside the sheets' that holds what several tables use."""

STANDING: Final = "standing"
"""The module of the head of every sheet: of all tables whose key begins with it."""

MISPLACED: Final = "misplaced_"
"""Before the key of an input of figures: where a text or the like stands in it. See `Model.misplaced`."""


@dataclass(frozen=True)
class ColumnFunctions:
    """The functions of a package, one module a table: <package>/<sheet>/<table>, and tools/ for what they share.

    A table's module may be a package; its functions are then those of its submodules together. The head of every
    sheet (tables named standing_…) has the module <package>/standing, or the shipped one where there is none.
    """

    package: ModuleType = model

    @cached_property
    def _modules(self) -> Mapping[str, str]:
        """The name of each table's module, by the table's key."""
        found: dict[str, str] = {}
        for sheet in pkgutil.iter_modules(self.package.__path__):
            if not sheet.ispkg or sheet.name == TOOLS:
                continue
            for table in pkgutil.iter_modules([f"{path}/{sheet.name}" for path in self.package.__path__]):
                name = f"{self.package.__name__}.{sheet.name}.{table.name}"
                if table.name in found:
                    raise DuplicateFunctionError(f"{table.name} stands twice: {found[table.name]}, {name}")
                found[table.name] = name
        return found

    @cached_property
    def _standing(self) -> str:
        own = f"{self.package.__name__}.{STANDING}"
        return own if importlib.util.find_spec(own) else f"{model.__name__}.{STANDING}"

    def _of(self, table: str) -> TableFunctions:
        name = self._standing if table.startswith(f"{STANDING}_") else self._modules.get(table)
        return table_functions(name) if name else NO_FUNCTIONS

    def of(self, table: str) -> Mapping[str, ColumnFunction]:
        """The functions of a table by name; none for a table without a module.

        Raises DuplicateFunctionError or FamilyError where they do not fit together.
        """
        return self._of(table).functions

    def function_for(self, table: str, key: str) -> tuple[ColumnFunction, Member | None] | None:
        """The function of a column and, where it serves a family, the member it stands for."""
        return self._of(table).columns.get(key)

    def blank_unless(self, table: str) -> tuple[str, ...]:
        """The columns without which a record of `table` has no figures (BLANK_UNLESS of its module)."""
        return self._of(table).blank_unless

    def never_blank(self, table: str) -> tuple[str, ...]:
        """The columns that have a figure in every record (NEVER_BLANK of the table's module)."""
        return self._of(table).never_blank


PLANNER: Final = ColumnFunctions()
"""The functions of the planner that is shipped."""


@cache
def _parameters(function: ColumnFunction) -> tuple[str, ...]:
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


class View(Table):
    """A table as a function sees it: its columns are attributes."""

    def __init__(self, model: Model, table: str, function: ColumnFunction, member: Member | None) -> None:
        self._model, self._table, self._function, self._member = model, table, function, member

    def __getattr__(self, name: str) -> Value:
        if name == "records":
            return self._model.inputs.records[self._table]
        if name.startswith(MISPLACED):
            return self._model.misplaced(self._table, name.removeprefix(MISPLACED), self._function)
        if name.endswith("_every"):
            return [self._model.column(self._table, key) for key in every_of(self._function, name)]
        return self._model.column(self._table, _named(name, self._member))


class Model:
    """All figures of a planner.

    `given` are columns that are taken as they stand instead of being computed, by table and key: with an
    engine's values for the arguments, a function's own result can be judged alone. `functions` compute the
    columns; a person who brings templates of their own brings a package of such functions too.
    """

    def __init__(
        self,
        inputs: Inputs,
        given: Mapping[tuple[str, str], Value] | None = None,
        functions: ColumnFunctions = PLANNER,
    ) -> None:
        self.inputs = inputs
        self.functions = functions
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

    def misplaced(self, table: str, name: str, function: ColumnFunction) -> Any:
        """Where an input of figures holds something else, such as a text; of a family (…_every), any of its columns."""
        keys = every_of(function, name) if name.endswith("_every") else [name]
        if self._open:
            self.reads.setdefault(self._open[-1], set()).update((table, key) for key in keys)
        none = np.zeros(self.inputs.records[table], dtype=bool)
        found = np.any([self.inputs.misplaced.get((table, key), none) for key in keys], axis=0)
        return found[0] if table in self.inputs.forms else found

    def _has(self, table: str, key: str) -> bool:
        return key in self.inputs.values.get(table, {}) or self.functions.function_for(table, key) is not None

    def quantity(self, table: str, key: str, column: Figures) -> Value:
        """A column of plain numbers with its unit; a scalar for a form."""
        unit = self.inputs.units[table][key]
        value = column[0] if table in self.inputs.forms else np.broadcast_to(column, column.shape)  # not to be changed
        return value if unit in ("", TEXT, DATE) else FLOAT.Quantity(value, unit)

    def compute(self, table: str, key: str) -> Value:
        """The result of a column's own function, blank where its record is."""
        found = self.functions.function_for(table, key)
        if found is None:
            raise MissingFunctionError(f"the model has no function for {table}.{key}")
        if (table, key) in self._open:
            raise CircleError(" → ".join(".".join(at) for at in (*self._open, (table, key))))
        function, member = found
        self._open.append((table, key))
        try:
            arguments = [self._argument(table, name, function, member) for name in _parameters(function)]
            value = function(*arguments)
            needed = () if key in self.functions.never_blank(table) else self.functions.blank_unless(table)
            present = [self.column(table, name) for name in needed if name != key]
        finally:
            self._open.pop()
        return self._shaped(table, value, present)

    def _argument(self, table: str, name: str, function: ColumnFunction, member: Member | None) -> Value:
        if name == "each":
            return member
        if name.endswith("_every"):
            return [self.column(table, key) for key in every_of(function, name)]
        if name.startswith(MISPLACED):
            return self.misplaced(table, name.removeprefix(MISPLACED), function)
        own = _named(name, member)
        if self._has(table, own):
            return self.column(table, own)
        if name == "records":
            return self.inputs.records[table]
        if name == "today_serial":
            return self.inputs.today
        return View(self, name, function, member)

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
            bare = np.where(blank(column), "" if bare.dtype == object else np.nan, bare)
        bare.flags.writeable = False  # computed once, asked for often, and not to be changed
        return bare if unit is None else FLOAT.Quantity(bare, unit)
