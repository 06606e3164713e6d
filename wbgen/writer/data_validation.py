"""What each input cell accepts, and what it tells a person who types something else."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from wbgen.files.accepted_values import FIRST_DAY, LAST_DAY, LONGEST_TEXT, NAMES
from wbgen.files.xlsx.addresses import address, letters
from wbgen.sheets.column import Column, System
from wbgen.sheets.compile import quoted
from wbgen.sheets.layout import Placed

LONGEST_TITLE, LONGEST_MESSAGE = 32, 255
"""Most characters that the file format allows."""


def rules_for(
    placed: Placed, column: Column, tables: Mapping[str, Placed], unit: str, system: System
) -> dict[str, Any]:
    """The validation of one input column, as xlsxwriter takes it."""
    rule = _rule(placed, column, tables)
    told = told_of(column, unit, tables, system)
    return rule | {
        "ignore_blank": True,
        "input_title": column.heading[:LONGEST_TITLE],
        "input_message": told[:LONGEST_MESSAGE],
        "error_title": column.heading[:LONGEST_TITLE],
        "error_message": f"This cell takes: {told}"[:LONGEST_MESSAGE],
    }


def _rule(placed: Placed, column: Column, tables: Mapping[str, Placed]) -> dict[str, Any]:
    accepts = column.accepts
    if isinstance(accepts.choices, str):
        table, _, key = accepts.choices.partition(".")
        return {"validate": "list", "source": "=" + _records(tables[table], key)}
    if accepts.choices:
        return {"validate": "list", "source": list(accepts.choices)}
    if column.meaning.type == "date":
        return {"validate": "date", "criteria": "between", "minimum": FIRST_DAY, "maximum": LAST_DAY}
    if column.meaning.type == "text":
        if column.key in NAMES:
            row, at = placed.cell(column.key)
            return {"validate": "custom", "value": _plain_name(address(row, at))}
        return {"validate": "length", "criteria": "<=", "value": LONGEST_TEXT}
    low = accepts.minimum if accepts.minimum is not None else -1e9
    return {
        "validate": "decimal", "criteria": "between",
        "minimum": low, "maximum": accepts.maximum if accepts.maximum is not None else 1e9,
    }  # fmt: skip


def _records(placed: Placed, key: str) -> str:
    """The records of a column and its closing row, so that a row inserted at the end is offered too."""
    column = letters(placed.at[key])
    return f"{quoted(placed.sheet)}!${column}${placed.first + 1}:${column}${placed.closing + 1}"


def _plain_name(cell: str) -> str:
    stripped = f'SUBSTITUTE(SUBSTITUTE(SUBSTITUTE({cell},"*",""),"?",""),"~","")'
    first = f"LEFT({cell},1)"
    return f'=AND({stripped}={cell},{first}<>"=",{first}<>"<",{first}<>">",{first}<>"+",{first}<>"-",{first}<>"@")'


def told_of(column: Column, unit: str, tables: Mapping[str, Placed], system: System) -> str:
    """What an input takes: a list, a date, a text, or a number with its unit; an example; what its template notes."""
    told, given = _told(column, unit, tables), column.accepts.example
    example = getattr(given, system) if given else ""
    return " ".join(filter(None, (told + (f", such as {example}." if example else "."), column.page.note)))


def _told(column: Column, unit: str, tables: Mapping[str, Placed]) -> str:
    accepts = column.accepts
    if isinstance(accepts.choices, str):
        told = f"a name from the sheet {tables[accepts.choices.partition('.')[0]].sheet}"
    elif accepts.choices:
        told = "one of " + ", ".join(accepts.choices)
    elif column.meaning.type == "date":
        told = "a date, such as 2026-05-04"
    elif column.meaning.type == "text":
        told = "a name without * ? ~ and not beginning with = < > + - @" if column.key in NAMES else "text"
    else:
        told = "a number" + (f" in {unit}" if unit else " (a share: 5 % is 5%)" if column.look.show == "share" else "")
        if accepts.minimum is not None and accepts.maximum is not None:
            told += f" from {accepts.minimum:g} to {accepts.maximum:g}"
        elif accepts.minimum is not None:
            told += f", {accepts.minimum:g} or more"
    return told
