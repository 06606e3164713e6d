"""Compares what witnesses say: two values of a figure, two columns of values, two texts of a formula."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from functools import lru_cache
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from wbgen.files.xlsx.cell_types import ErrorValue
from wbgen.model.inputs import Figures
from wbgen.sheets.formula_tree import FormulaError, Node, parse

DIGITS: Final = 1e15
"""From here on a spreadsheet keeps no last digit of a whole number: 15 digits are stored."""
MEASURED: Final = 1e9
"""No figure that is measured is as large; keys and digits are."""
LAST_DIGITS: Final = 32 * float(np.finfo(float).eps)
RELATIVE: Final = 1e-9
ABSOLUTE: Final = 1e-12
"""How far two calculated numbers may lie apart: of their size, and near zero.

The witnesses add and multiply in another order, so that their last digits differ. What was typed is compared more
strictly, by `inputs.entry_checks.unchanged`.
"""

Mask = NDArray[np.bool_]


def one_formula(text: str, expected: str) -> bool:
    """Whether a formula is the expected one, as programs may rewrite it when they save: with white space between its
    parts, without brackets and quotes that change nothing, names in another case.

    >>> one_formula("'Diary'!A1 + B1*2", "Diary!a1+(B1*2)"), one_formula("A1+B1+2", "A1+(B1+2)")
    (True, False)
    """
    if text == expected:
        return True
    return text.count("(") <= expected.count("(") and _canonical(text) == _canonical(expected)


@lru_cache(maxsize=65_536)
def _canonical(formula: str) -> Any:
    """What is the same for all texts of one formula: its tree, or the text where that cannot be read."""
    try:
        return _essence(parse(formula), formula)
    except FormulaError:
        return formula


def _essence(node: Node, formula: str) -> tuple[Any, ...]:
    """A tree without what programs rewrite: quotes round a sheet's name, and the case of names."""
    value = node.value
    if node.kind == "reference":
        sheet, mark, cells = str(value).rpartition("!")
        if sheet.startswith("'") and sheet.endswith("'"):
            sheet = sheet[1:-1].replace("''", "'")
        value = (sheet + mark + cells).casefold()
    elif node.kind == "function":  # with its prefix, without which a newer function is not known to programs
        value = formula[node.start : formula.index("(", node.start)].casefold()
    return node.kind, value, *(_essence(child, formula) for child in node.children)


def is_blank(value: Any) -> bool:
    """Whether a value is None, the empty text or NaN."""
    return value is None or value == "" or (isinstance(value, float) and math.isnan(value))


def same_result(one: Any, other: Any) -> bool:
    """Whether two witnesses say the same: both blank, the same text, or numbers within the tolerance.

    An error value is never the same as anything, another error value not excepted.
    """
    if isinstance(one, (bool, np.bool_)) or isinstance(other, (bool, np.bool_)):
        return type(one) is type(other) and one == other
    if is_blank(one) or is_blank(other):
        return is_blank(one) and is_blank(other)
    if isinstance(one, str) or isinstance(other, str):
        texts = isinstance(one, str) and isinstance(other, str)
        return texts and one == other and not _is_error(one) and not _is_error(other)
    near = abs(one - other) <= ABSOLUTE + RELATIVE * max(abs(one), abs(other))
    return bool(near and not _are_other_wholes(one, other))


def _are_other_wholes(one: Any, other: Any) -> Any:
    """Whether two numbers, or the numbers of two columns, are whole and not the same: keys, places and digits that
    stand for traits. They are large, and no witness may be a digit off. Of numbers larger than any that is measured it
    is enough that one is whole, and that the other lies further off than where last digits may differ."""
    size, apart = np.maximum(np.abs(one), np.abs(other)), np.abs(one - other)
    one_whole, other_whole = np.rint(one) == one, np.rint(other) == other
    off = (one_whole | other_whole) & (size >= MEASURED) & (apart > LAST_DIGITS * size)
    return (size < DIGITS) & (apart > 0) & ((one_whole & other_whole) | off)


def _is_error(value: str) -> bool:
    return isinstance(value, ErrorValue)


def same_shown(stored: Any, value: Any) -> bool:
    """`same_result`, where `stored` may have been written with another locale's decimal comma: "2,5 L" for "2.5 L"."""
    if same_result(stored, value):
        return True
    if isinstance(stored, str) and isinstance(value, str) and not _is_error(stored):
        return re.sub(r"(?<=[0-9]),(?=[0-9])", ".", stored) == re.sub(r"(?<=[0-9]),(?=[0-9])", ".", value)
    return False


class Side:
    """A column as one witness has it, ready to be compared.

    `numbers` are its numbers, NaN for everything else; `other` is true where there is neither a number nor a blank.
    Both have the shape (records,).
    """

    def __init__(self, values: Sequence[Any] | Figures) -> None:
        self.values = values
        if isinstance(values, np.ndarray) and values.dtype.kind == "f":
            self.numbers, self.other = values, np.zeros(len(values), dtype=bool)
            return
        kinds = list(map(type, values))
        self.numbers = np.array(
            [value if kind is float else np.nan for kind, value in zip(kinds, values, strict=True)], dtype=float
        )
        if kinds.count(float) + kinds.count(type(None)) == len(kinds):
            self.other = np.zeros(len(kinds), dtype=bool)
        else:
            pairs = zip(kinds, values, strict=True)
            self.other = np.array(
                [kind is not float and value is not None and value != "" for kind, value in pairs], dtype=bool
            )


def agree(one: Side, other: Side) -> Mask:
    """`same_result` for two columns of one length, numbers all at once where both are numbers or blank."""
    with np.errstate(invalid="ignore"):
        near = np.abs(one.numbers - other.numbers) <= ABSOLUTE + RELATIVE * np.maximum(
            np.abs(one.numbers), np.abs(other.numbers)
        )
        near &= ~_are_other_wholes(one.numbers, other.numbers)
    agreed: Mask = near | (np.isnan(one.numbers) & np.isnan(other.numbers))
    for index in np.flatnonzero(one.other | other.other).tolist():
        left, right = one.values[index], other.values[index]
        agreed[index] = left == right if type(left) is str and type(right) is str else same_result(left, right)
    return agreed
