"""The number format of a column's cells: what the writer gives them, and what verify compares theirs with.

It says how a figure looks, and is no witness of the figure.
"""

from __future__ import annotations

from wbgen.sheets.template import Column, Digits, System


def number_format(column: Column, system: System) -> str:
    """The number format of a column.

    >>> number_format(Column(key="area", heading="Area", digits=1), "metric")
    '0.0'
    """
    if column.type == "text":
        return "@"
    if column.show == "day":
        return "d mmm"
    if column.show == "moment":
        return "yyyy-mm-dd hh:mm"
    if column.type == "date" or column.show == "date":
        return "yyyy-mm-dd"
    digits = decimals(column, system)
    if column.show == "share":
        return fixed(1 if digits is None else digits) + "%"
    return "General" if digits is None else fixed(digits)


def decimals(column: Column, system: System) -> int | None:
    """The decimals that a column shows; None where it shows as many as its figures have."""
    return getattr(column.digits, system) if isinstance(column.digits, Digits) else column.digits


def fixed(digits: int) -> str:
    """The number format of so many decimals."""
    return "0." + "0" * digits if digits else "0"
