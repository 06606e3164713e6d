"""Whether two witnesses say the same of a figure, and whether two texts are one formula."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from wbgen.engine import EngineError
from wbgen.inputs import Column
from wbgen.reader import ErrorValue
from wbgen.sheets.tree import FormulaError, Node, parse

RELATIVE, ABSOLUTE = 1e-9, 1e-12
"""How far two witnesses' numbers may lie apart: of their size, and near zero."""

Mask = NDArray[np.bool_]


def one_formula(text: str, expected: str) -> bool:
    """Whether a formula is the expected one, as programs may rewrite it when they save: with white space between its
    parts, without brackets and quotes that change nothing, names in another case.

    >>> one_formula("'Diary'!A1 + B1*2", "Diary!a1+(B1*2)"), one_formula("A1+B1+2", "A1+(B1+2)")
    (True, False)
    """
    if text == expected:
        return True
    return text.count("(") <= expected.count("(") and _alike(text) == _alike(expected)


@lru_cache(maxsize=65_536)
def _alike(formula: str) -> Any:
    """What is the same for all texts of one formula: its tree, or the text where that cannot be read."""
    try:
        return _bare(parse(formula), formula)
    except FormulaError:
        return formula


def _bare(node: Node, formula: str) -> tuple[Any, ...]:
    value = node.value
    if node.kind == "reference":
        sheet, mark, cells = str(value).rpartition("!")
        if sheet.startswith("'") and sheet.endswith("'"):
            sheet = sheet[1:-1].replace("''", "'")
        value = (sheet + mark + cells).casefold()
    elif node.kind == "function":  # with its prefix, without which a newer function is not known to programs
        value = formula[node.start : formula.index("(", node.start)].casefold()
    return node.kind, value, *(_bare(child, formula) for child in node.children)


def is_blank(value: Any) -> bool:
    return value is None or value == "" or (isinstance(value, float) and np.isnan(value))


def same(one: Any, other: Any) -> bool:
    """Whether two witnesses say the same: both blank, the same text, or numbers within the tolerance.

    An error value is never the same as anything, another error value not excepted.
    """
    if isinstance(one, (bool, np.bool_)) or isinstance(other, (bool, np.bool_)):
        return type(one) is type(other) and one == other
    if is_blank(one) or is_blank(other):
        return is_blank(one) and is_blank(other)
    if isinstance(one, str) or isinstance(other, str):
        return (
            isinstance(one, str) and isinstance(other, str) and not _error(one) and not _error(other) and one == other
        )
    return bool(abs(one - other) <= ABSOLUTE + RELATIVE * max(abs(one), abs(other)))


def _error(value: str) -> bool:
    return isinstance(value, (EngineError, ErrorValue))


def same_shown(stored: Any, value: Any) -> bool:
    """The same, where `stored` may have been written with another locale's decimal comma: "2,5 L" for "2.5 L"."""
    if same(stored, value):
        return True
    if isinstance(stored, str) and isinstance(value, str) and not _error(stored):
        return re.sub(r"(?<=[0-9]),(?=[0-9])", ".", stored) == re.sub(r"(?<=[0-9]),(?=[0-9])", ".", value)
    return False


def agree(ones: Sequence[Any], others: Sequence[Any] | Column) -> Mask:
    """`same` for two columns of one length, figures all at once where both are numbers or blank."""
    left, left_other = _figures(ones)
    right, right_other = _figures(others)
    with np.errstate(invalid="ignore"):
        near = np.abs(left - right) <= ABSOLUTE + RELATIVE * np.maximum(np.abs(left), np.abs(right))
    agreed = near | (np.isnan(left) & np.isnan(right))
    for index in np.flatnonzero(left_other | right_other).tolist():
        one, other = ones[index], others[index]
        agreed[index] = one == other if type(one) is str and type(other) is str else same(one, other)
    return agreed


def _figures(values: Sequence[Any] | Column) -> tuple[NDArray[np.float64], Mask]:
    """The numbers of a column, NaN for blank; and where something else than a number stands."""
    if isinstance(values, np.ndarray) and values.dtype.kind == "f":
        return values, np.zeros(len(values), dtype=bool)
    numbers = np.array([value if type(value) is float else np.nan for value in values], dtype=float)
    other = np.array([type(value) is not float and value is not None and value != "" for value in values], dtype=bool)
    return numbers, other
