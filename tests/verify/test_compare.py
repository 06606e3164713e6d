"""When two witnesses say the same, and that a column at once is compared as its values one by one."""

from __future__ import annotations

from itertools import product
from typing import Any, Final

import numpy as np
import pytest

from wbgen.files.xlsx.cell_types import ErrorValue
from wbgen.inputs.entry_checks import SAVED_DIGITS, unchanged
from wbgen.verify.compare import ABSOLUTE, RELATIVE, Side, agree, same_result, same_shown

VALUES: Final = (None, "", float("nan"), "a", "A", 0.0, 1e-13, 1.0, 1.0 + 5e-10, 1.0 + 5e-9, True, False,
                 ErrorValue("#N/A"))  # fmt: skip


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        (None, "", True),
        (None, float("nan"), True),
        (0.0, None, False),
        ("a", "a", True),
        ("a", "A", False),
        ("1", 1.0, False),
        (True, 1.0, False),
        (True, True, True),
        (ErrorValue("#N/A"), ErrorValue("#N/A"), False),
        (ErrorValue("#N/A"), "#N/A", False),
        (1e6, 1e6 * (1 + RELATIVE / 2), True),
        (1.1e13, 1.1e13 + 4000.0, False),  # digits that stand for traits
        (1.1e13, 1.1e13 + 0.5, False),
        (1e12 + 1, 1e12 + 1.01, False),
        (1e12 + 1, 1e12 + 1.0004, True),  # where last digits differ
        (1e12 + 1.5, 1e12 + 1.51, True),  # neither is whole
        (1e8 + 1, 1e8 + 1.01, True),  # may have been measured
        (1e16, 1e16 + 4.0, True),  # more digits than a spreadsheet keeps
        (1e6, 1e6 * (1 + RELATIVE * 2), False),
        (0.0, ABSOLUTE / 2, True),
        (0.0, ABSOLUTE * 2, False),
    ],
)
def test_what_is_the_same_result(one: Any, other: Any, same: bool) -> None:
    assert same_result(one, other) is same_result(other, one) is same


def test_a_column_is_compared_as_its_values_are() -> None:
    ones, others = zip(*product(VALUES, VALUES), strict=True)
    assert list(agree(Side(ones), Side(others))) == [same_result(*pair) for pair in zip(ones, others, strict=True)]


def test_a_stored_text_may_have_a_decimal_comma() -> None:
    assert same_shown("2,5 L", "2.5 L")
    assert not same_shown("2,5 L", "2.6 L")
    assert not same_shown("a,b", "a.b")


def test_what_was_typed_is_compared_more_strictly_than_what_was_calculated() -> None:
    assert SAVED_DIGITS < RELATIVE
    assert unchanged(240.0, 240.0 * (1 + SAVED_DIGITS / 2))
    assert not unchanged(240.0, 240.0 * (1 + RELATIVE / 2))
    assert unchanged(np.nan, np.nan)
    assert not unchanged("", np.nan)
    assert unchanged("m²", "m²")
