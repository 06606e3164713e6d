"""The number format of a column's cells: what the writer gives them, and what verify compares theirs with.

It says how a figure looks, and is no witness of the figure.
"""

from __future__ import annotations

from wbgen.sheets.column import Column, System


def number_format(column: Column, system: System) -> str:
    """The number format of a column.

    >>> from wbgen.sheets.column import Look
    >>> number_format(Column(key="area", heading="Area", look=Look(digits=1)), "metric")
    '0.0'
    """
    kind, show, digits = column.meaning.type, column.look.show, column.look.digits_in(system)
    if kind == "text":
        return "@"
    if show == "day":
        return "d mmm"
    if show == "weekday":
        return "ddd d mmm yyyy"
    if show == "in_week":
        return "ddd d mmm"
    if show == "moment":
        return "yyyy-mm-dd hh:mm"
    if kind == "date" or show == "date":
        return "yyyy-mm-dd"
    if show == "share":
        return fixed(1 if digits is None else digits) + "%"
    return "General" if digits is None else fixed(digits)


def fixed(digits: int) -> str:
    """The number format of so many decimals."""
    return "0." + "0" * digits if digits else "0"
