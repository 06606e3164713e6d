"""Every function of the model says in its annotations what its column is, and what the columns are that it reads."""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterator, Mapping
from importlib import import_module
from types import FunctionType, ModuleType
from typing import Annotated, Any, get_args, get_origin, get_type_hints

import pytest

from support.planners import SYSTEMS
from support.pocket_planner import POCKET
from wbgen.inputs.design import Design
from wbgen.model.binding import MISPLACED, PLANNER
from wbgen.model.inputs import DATE, TEXT
from wbgen.model.marks import families_read, family_served
from wbgen.model.types import (
    VARIES,
    Date,
    Each,
    Figure,
    Length,
    Mask,
    Mass,
    MassPerArea,
    NitrogenMass,
    Number,
    Quantity,
    SerialDate,
    Table,
    Text,
    Unit,
    Volume,
    VolumePerArea,
)
from wbgen.sheets.book import Book, shipped_templates
from wbgen.sheets.column import System
from wbgen.trade.families import Member, family
from wbgen.units.quantity import dimension, kind

Told = tuple[bool, object]
"""Whether there is one figure a record, and what a figure is: a unit's kind and dimension, "", TEXT, DATE or VARIES."""

PLAIN = ("", TEXT, DATE)
CLASSES = {"": float, TEXT: str, DATE: SerialDate}


def figure(unit: str) -> object:
    return unit if unit in PLAIN else (kind(unit), dimension(unit))


def told(annotation: Any, member: Member | None) -> Told | str:
    """What an annotation says; a word on it where it is no figure's."""
    each = get_origin(annotation) is Each
    if each:
        (annotation,) = get_args(annotation)
    if get_origin(annotation) is not Annotated:
        return f"{annotation} is no figure"
    of, unit = get_args(annotation)
    assert isinstance(unit, Unit)
    if unit.text == VARIES:
        return each, VARIES
    if of is not CLASSES.get(unit.text, Quantity):
        return f"{of} does not go with the unit {unit.text}"
    return each, figure(unit.text.format(**(member.says if member else {})))


def is_form(book: Book, table: str) -> bool:
    laid = book.tables[table]
    return laid.direction == "across" and laid.records == 1


def wanted(book: Book, table: str, key: str) -> Told:
    return not is_form(book, table), figure(book.units[table][key])


def key_for(name: str, member: Member | None) -> str:
    """The key that a name stands for: the member's in place of each, or what the member says of the word behind it."""
    if member is None:
        return name
    for word, said in {"": member.key, **member.says}.items():
        end = f"_each_{word}" if word else "_each"
        if name.endswith(end):
            return name.removesuffix(end) + f"_{said}"
    return name


def column_problems(book: Book, table: str, annotation: Any, keys: Mapping[str, Member | None]) -> Iterator[str]:
    """What an annotation says otherwise than the columns that it is for."""
    columns = {key: wanted(book, table, key) for key in keys}
    varies = len(set(columns.values())) > 1
    for key, member in keys.items():
        said = told(annotation, member)
        if said == (columns[key][0], VARIES) and varies:
            continue
        if said != columns[key]:
            yield f"{table}.{key}: {said}, where the template has {columns[key]}"


def argument_problems(book: Book, table: str, name: str, annotation: Any, function: Callable[..., Any],
                      members: list[Member | None]) -> Iterator[str]:  # fmt: skip
    if name.endswith("_every"):
        stem = name.removesuffix("_every")
        of_all = {f"{stem}_{one.key}": one for one in family(families_read(function)[stem])}
        if get_origin(annotation) is not list:
            yield f"{name}: {annotation} is no list"
            return
        yield from column_problems(book, table, get_args(annotation)[0], of_all)
        return
    keys = {key_for(name, member): member for member in members}
    if next(iter(keys)) in book.units[table]:
        yield from column_problems(book, table, annotation, keys)
        return
    if name.startswith(MISPLACED):
        right: Any = bool if is_form(book, table) else Mask
    else:
        right = {"each": Member, "records": int, "today_serial": Date}.get(name, Table)
        if right is Table and name not in book.tables:
            yield f"{name} is neither a column of the table nor a table"
    if annotation != right:
        yield f"{name}: {annotation} for {right}"


def problems(book: Book, table: str, function: Callable[..., Any]) -> list[str]:
    hints = get_type_hints(function, include_extras=True)
    served = family_served(function)
    members: list[Member | None] = [*family(served)] if served else [None]
    results = {key_for(function.__name__, member): member for member in members}
    return [
        *column_problems(book, table, hints.pop("return"), results),
        *(
            problem
            for name in inspect.signature(function).parameters
            for problem in argument_problems(book, table, name, hints[name], function, members)
        ),
    ]


@pytest.mark.parametrize("design", [Design(), POCKET], ids=["planner", "pocket"])
@pytest.mark.parametrize("system", SYSTEMS)
def test_the_annotations_are_what_the_templates_say(system: System, design: Design) -> None:
    book = design.templates.book(system)
    functions = [(table, function) for table in book.tables for function in design.functions.of(table).values()]
    assert functions
    assert [problem for table, function in functions for problem in problems(book, table, function)] == []


def module_of(table: str) -> ModuleType:
    """wbgen.model.<sheet>.<table>, in which or under which its functions stand."""
    function = next(iter(PLANNER.of(table).values()))
    return import_module(".".join(function.__module__.split(".")[:4]))


def test_the_module_of_a_table_says_its_shape() -> None:
    book = shipped_templates().book("metric")
    tables = [table for table in book.tables if PLANNER.of(table) and not table.startswith("standing_")]
    said = {table: "each figure is a scalar" if is_form(book, table) else f"shape ({book.tables[table].records},)"
            for table in tables}  # fmt: skip
    assert [table for table in tables if said[table] not in (inspect.getdoc(module_of(table)) or "")] == []


def changed(function: Callable[..., Any], hints: Mapping[str, Any]) -> Callable[..., Any]:
    """The function with other annotations."""
    other = FunctionType(function.__code__, function.__globals__, function.__name__)
    other.__dict__.update(function.__dict__)
    other.__annotations__ = {**function.__annotations__, **hints}
    return other


@pytest.mark.parametrize(
    ("table", "name", "hints"),
    [
        ("diary", "applied_mass", {"return": Each[Volume]}),
        ("diary", "applied_mass", {"weighed": Each[Volume]}),
        ("diary", "applied_mass", {"weighed": Each[Text]}),
        ("diary", "applied_mass", {"return": Each[Number]}),
        ("diary", "applied_mass", {"return": Mass}),
        ("diary", "applied_mass", {"return": Each[Figure]}),
        ("diary", "applied_mass", {"return": Each[float]}),
        ("diary", "applied_mass", {"return": Any}),
        ("diary", "season_month", {"date": Each[Number]}),
        ("diary", "season_month", {"return": Each[Date]}),
        ("diary", "product_line", {"products": Each[Text]}),
        ("diary", "product_line", {"product": Table}),
        ("diary", "load_each", {"return": Each[NitrogenMass]}),
        ("diary", "load_each", {"each": Table}),
        ("mix_nutrients", "hectare_each", {"rate_each": Mass}),
        ("diary", "flag_record", {"misplaced_date": bool}),
        ("mix", "salt_load", {"return": Each[MassPerArea]}),
        ("mix_products", "rate_mass", {"wanted_mass_every": list[Each[VolumePerArea]]}),
        ("mix_products", "level_tank", {"rule_every": Each[Number]}),
        ("start", "today", {"today_serial": Number}),
        ("sprayers", "carrier_volume", {"return": Each[Length]}),
    ],
)
def test_what_an_annotation_says_wrongly_is_found(table: str, name: str, hints: Mapping[str, Any]) -> None:
    book, function = shipped_templates().book("metric"), PLANNER.of(table)[name]
    assert problems(book, table, function) == []
    assert len(problems(book, table, changed(function, hints))) >= 1
