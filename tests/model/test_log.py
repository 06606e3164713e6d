"""The log: its words, the lines that stand in the diary already, and where the free ones begin."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any, Final

import numpy as np
import pytest

from wbgen.model.log import diary_lines, log, log_lines
from wbgen.units.quantity import FLOAT

NO: Final = float("nan")


def column(*values: Any) -> Any:
    """A column as a function sees it: of texts, or of numbers."""
    return np.array(values, dtype=object if isinstance(values[0], str) else float)


def table(**columns: Any) -> Any:
    """A table as a function sees it."""
    return SimpleNamespace(**columns)


def visit(number: int, there: int = 0) -> Any:
    """So many lines of a visit, of which so many stand in the diary."""
    line = np.array([1.0] * number + [NO] * (4 - number))
    return table(lawn_number=line, stands=np.array([1.0] * there + [0.0] * (4 - there)))


@pytest.mark.parametrize(
    ("used", "free"), [([NO] * 5, 1), ([-1, NO, NO, NO, NO], 2), ([-1, 2, NO, 4, NO], 5), ([-1, -2, -3, -4, 5], 6)]
)
def test_the_first_free_line_is_behind_the_last_in_use(used: list[float], free: float) -> None:
    """A gap is not filled: what stands below it would be pasted over."""
    assert log_lines.free_line(table(flag_line=np.array(used, dtype=float))) == free


@pytest.mark.parametrize(("free", "number", "fits"), [(3, 3, True), (4, 3, False), (6, 1, False), (5, 1, True)])
def test_what_does_not_fit_leads_nowhere(free: float, number: int, fits: bool) -> None:
    """A diary of five lines."""
    said = log_lines.go(free, visit(number), table(date=np.zeros(5)))
    assert said.startswith("Go to line" if fits else "the diary has no room")


@pytest.mark.parametrize(
    ("number", "there", "said"), [(0, 0, ""), (2, 0, "none of them"), (2, 1, "1 of them"), (2, 2, "all of them")]
)
def test_what_stands_in_the_diary_is_said(number: int, there: int, said: str) -> None:
    found = log_lines.already(visit(number, there))
    assert found.startswith(said)
    assert bool(found) is bool(said)


def test_a_line_stands_where_day_lawn_product_and_method_are_the_same() -> None:
    days, sprayed = column(46000.0, 46000.0, 46000.0, NO), column("spray", "spray", "spray", "")
    lawns, products = column("Front", "Back", "Front", ""), column("A", "A", "B", "")
    diary = table(
        date=np.array([46000.0, 46000.0, 45999.0]), lawn=np.array(["front", "Back", "Front"], dtype=object),
        product=np.array(["A", "A", "B"], dtype=object), method=np.array(["spray", "dry", "spray"], dtype=object),
    )  # fmt: skip
    assert np.array_equal(diary_lines.stands(days, lawns, products, sprayed, diary), [1, 0, 0, NO], equal_nan=True)


def test_what_is_typed_comes_before_what_was_planned() -> None:
    share = column(0.75, 0.25)
    mix = table(remainder=FLOAT.Quantity(0.8, "L"))
    for typed, expected in ((NO, [0.6, 0.2]), (0.0, [0.0, 0.0]), (2.0, [1.5, 0.5])):
        log = table(left_over=FLOAT.Quantity(typed, "L"))
        assert diary_lines.left_over(share, log, mix).to("L").magnitude == pytest.approx(expected)


def test_the_note_has_what_the_spray_record_looks_for() -> None:
    said = table(started="9:10", ended="", wind_from="W", batch="", reason="moss")
    assert log_lines.noted(said) == "start 9:10; wind from W; reason moss"


WHATEVER: Final = [FLOAT.Quantity(value, unit) for value, unit in ((NO, "L"), (2.0, "L"), (NO, "degC"), (12.0, "degC"))]


@pytest.mark.parametrize("remainder", WHATEVER[:2])
@pytest.mark.parametrize("air", WHATEVER[2:])
@pytest.mark.parametrize("height", ["forecast at 10 m", "at spray height"])
@pytest.mark.parametrize("wind", [NO, 8.0])
def test_a_text_where_a_number_belongs_is_told_beside_what_is_taken(
    remainder: Any, air: Any, height: str, wind: float
) -> None:
    mix = table(remainder=remainder, air_temperature=air, wind=FLOAT.Quantity(wind, "km/h"), wind_height=height)
    settings = table(diary_wind="forecast at 10 m")
    for taken in (
        lambda text: log.left_over_taken(mix, text),
        lambda text: log.air_taken(mix, text),
        lambda text: log.wind_taken(mix, settings, text),
        log.rain_taken,
    ):
        assert taken(True) == "not a number; " + taken(False)
        assert taken(False)
