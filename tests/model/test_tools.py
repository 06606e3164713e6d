"""Relations and rounding against the plainest program that does the same, and against spreadsheets' own examples."""

from __future__ import annotations

import math
from datetime import date
from fractions import Fraction
from importlib import import_module
from time import perf_counter
from typing import Any, cast

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from wbgen.model import tools
from wbgen.units.quantity import FLOAT

Value = Any

# Untyped: what a checker refuses is tried here too.
_NAMES = ("dates", "elementwise", "order", "relations", "rounding", "so_far")
dates, elementwise, order, relations, rounding, so_far = (
    cast(Any, import_module(f"{tools.__name__}.{name}")) for name in _NAMES
)

NAMES = st.sampled_from(["", "a", "A", "b", "straße", "STRASSE", "front lawn", "Front Lawn"])
TIMES = st.one_of(st.just(math.nan), st.integers(0, 6).map(float), st.sampled_from([2.5, 3.25]))
FIGURES = st.one_of(st.just(math.nan), st.integers(-50, 50).map(lambda n: n / 4))
RECORDS = st.lists(st.tuples(NAMES, TIMES, FIGURES, st.booleans()), max_size=12)
NUMBERS = st.one_of(
    st.integers(-(10**7), 10**7).map(lambda n: n / 1000),
    st.floats(-1e9, 1e9, allow_nan=False),
    st.floats(allow_nan=False, allow_infinity=False),
)


def columns(records: list[tuple[str, float, float, bool]]) -> tuple[Value, Value, Value, Value]:
    """The records as columns: names, times, figures, counted."""
    names, times, figures, counted = zip(*records, strict=True) if records else ((), (), (), ())
    return np.array(names, dtype=object), np.array(times, float), np.array(figures, float), np.array(counted, bool)


def same(found: Value, expected: list[float]) -> bool:
    return bool(np.array_equal(np.asarray(found, float), np.array(expected, float), equal_nan=True))


@given(RECORDS, st.lists(NAMES, max_size=5))
def test_grouped_sum_count_and_latest_are_those_of_a_loop(records: Any, keys: list[str]) -> None:
    names, _, figures, counted = columns(records)
    wanted = np.array(keys, dtype=object)
    mine = [
        [f for n, _, f, c in records if key and n.lower() == key.lower() and c and not math.isnan(f)] for key in keys
    ]
    lines = [sum(1.0 for n, _, _, c in records if key and n.lower() == key.lower() and c) for key in keys]
    assert same(relations.sum_by(names, wanted, figures, counted), [math.fsum(own) for own in mine])
    assert same(relations.count_by(names, wanted, counted), lines)
    assert same(relations.latest_by(names, wanted, figures, counted), [max(own, default=math.nan) for own in mine])


@given(RECORDS, st.lists(TIMES, max_size=5))
def test_groups_may_be_numbers_and_blank_ones_are_none(records: Any, keys: list[float]) -> None:
    _, times, figures, _ = columns(records)
    expected = [math.fsum(f for _, t, f, _ in records if t == key and not math.isnan(f)) for key in keys]
    assert same(relations.sum_by(times, np.array(keys, float), figures), expected)
    places = [next((place for place, (_, t, _, _) in enumerate(records) if t == key), -1) for key in keys]
    assert same(relations.find(np.array(keys, float), times), [float(place) for place in places])


@given(RECORDS, st.lists(NAMES, min_size=1, max_size=5))
def test_lookup_takes_the_first_match(records: Any, keys: list[str]) -> None:
    names, _, figures, _ = columns(records)
    expected = [next((f for n, _, f, _ in records if key and n.lower() == key.lower()), math.nan) for key in keys]
    assert same(relations.lookup(np.array(keys, dtype=object), names, figures), expected)
    assert same(np.atleast_1d(relations.lookup(keys[0], names, figures)), expected[:1])


@given(RECORDS)
def test_latest_before_is_that_of_a_loop(records: Any) -> None:
    names, times, _, _ = columns(records)
    expected = [
        max((u for m, u, _, _ in records if n and m.lower() == n.lower() and u < t), default=math.nan)
        for n, t, _, _ in records
    ]
    assert same(order.Days(names, times).before(names, times), expected)


@given(RECORDS)
def test_what_stands_above_a_record_is_that_of_a_loop(records: Any) -> None:
    """The figures serve as values to be summed, and as the days from which is counted."""
    names, times, figures, _ = columns(records)
    before, number, sums, later = [], [], [], []
    for place, (name, time, figure, _) in enumerate(records):
        group = [(t, f) for n, t, f, _ in records[: place + 1] if n.lower() == name.lower()]
        dated = bool(name) and not math.isnan(time)
        before.append(max((t for t, _ in group if t < time), default=math.nan) if dated else math.nan)
        since = dated and not math.isnan(figure)
        number.append(float(len({t for t, _ in group if figure <= t <= time})) if since else math.nan)
        sums.append(math.fsum(f for _, f in group if not math.isnan(f)) if name else math.nan)
        later.append(any(time < t <= 2.5 for _, t, _, _ in records[:place]))
    assert same(so_far.day_before(names, times), before)
    assert same(so_far.days_since(names, times, figures), number)
    assert same(so_far.sum_so_far(names, figures), sums)
    assert so_far.is_below_later(times, 2.5).tolist() == later


@given(RECORDS, st.lists(TIMES, max_size=5))
def test_sum_up_to_a_time_is_that_of_a_loop(records: Any, limits: list[float]) -> None:
    _, times, figures, counted = columns(records)
    expected = [
        math.nan
        if math.isnan(limit)
        else math.fsum(f for _, t, f, c in records if c and t <= limit and not math.isnan(f))
        for limit in limits
    ]
    assert same(order.sum_upto(times, figures, np.array(limits, float), counted), expected)


def test_units_are_kept_and_brought_together() -> None:
    grams = FLOAT.Quantity(np.array([1.0, np.nan, 4.0]), "g")
    names = np.array(["a", "a", "b"], dtype=object)
    assert relations.sum_by(names, np.array(["b"], dtype=object), grams) == FLOAT.Quantity(4.0, "g")
    assert relations.latest_by(names, "a", grams) == FLOAT.Quantity(1.0, "g")
    assert relations.pick(grams, 2) == FLOAT.Quantity(4.0, "g")
    both = elementwise.where(np.array([True, False]), FLOAT.Quantity(1.0, "kg"), FLOAT.Quantity(5.0, "g"))
    assert both.to("g").magnitude.tolist() == [1000.0, 5.0]
    with pytest.raises(ValueError, match="plain number"):
        elementwise.where(True, FLOAT.Quantity(1.0, "kg"), 5.0)
    assert elementwise.where(False, 1.0, FLOAT.Quantity(5.0, "g/kg")) == 0.005
    assert math.isnan(elementwise.ratio(FLOAT.Quantity(1.0, "g"), FLOAT.Quantity(0.0, "m**2")).magnitude)


def test_blanks_and_odd_places() -> None:
    assert relations.pick(np.array([1, 2]), np.array([-1.0, 1.0, np.nan, 2.0])).tolist()[1] == 2.0
    assert np.isnan(relations.pick(np.array([1, 2]), -1))
    assert relations.pick(np.array([], dtype=object), 0) == ""
    assert relations.lookup("", np.array(["", "a"], dtype=object), np.array([1.0, 2.0])) != 1.0
    assert relations.joined(np.array(["a"], dtype=object), np.array(["b1"], dtype=object)) != relations.joined(
        np.array(["ab"], dtype=object), np.array(["1"], dtype=object)
    )
    assert elementwise.or_zero(FLOAT.Quantity(math.nan, "g")) == FLOAT.Quantity(0.0, "g")


def test_a_long_diary_takes_no_longer_than_its_length_asks() -> None:
    """Twenty thousand records in one group: a loop within a loop would take minutes."""
    count = 20000
    groups = np.full(count, "a", dtype=object)
    times = np.arange(count, dtype=float)[::-1]
    started = perf_counter()
    assert order.Days(groups, times).before(groups, times)[0] == count - 2
    assert so_far.days_since(groups, times, times * 0)[0] == 1
    assert so_far.day_before(groups, times[::-1])[-1] == count - 2
    assert perf_counter() - started < 20


def nearest_float(number: Fraction) -> float:
    """The float of a fraction; of one that is too large, infinity."""
    try:
        return float(number)
    except OverflowError:
        return -math.inf if number < 0 else math.inf


def exactly(number: float, digits: int) -> Fraction:
    """The number as its fifteen digits say, times ten to the digits."""
    return Fraction(f"{number:.15g}") * Fraction(10) ** digits


@given(NUMBERS, st.integers(-2, 9))
@example(1e300, 9)
@example(5e-324, 9)
@example(1.7976931348623151e308, 0)
@example(0.1 + 0.2, 1)
@example(2.5, 0)
@example(-2.5, 0)
def test_rounding_is_that_of_fractions(number: float, digits: int) -> None:
    scaled = exactly(number, digits)
    back = Fraction(10) ** digits
    nearest = math.floor(abs(scaled) + Fraction(1, 2)) * (1 if scaled >= 0 else -1)
    assert rounding.half_up(number, digits) == nearest_float(nearest / back)
    assert rounding.towards_zero(number, digits) == nearest_float(math.trunc(scaled) / back)
    assert rounding.up(number, digits) == nearest_float(math.ceil(scaled) / back)
    assert rounding.down(number, digits) == nearest_float(math.floor(scaled) / back)


@pytest.mark.parametrize(
    ("number", "digits", "rounded"),
    [(2.15, 1, 2.2), (2.149, 1, 2.1), (-1.475, 2, -1.48), (21.5, -1, 20.0), (626.3, -3, 1000.0), (1.98, -1, 0.0)],
)
def test_rounding_as_a_spreadsheet_documents_it(number: float, digits: int, rounded: float) -> None:
    """Examples of the support page of ROUND (Microsoft; from memory)."""
    assert rounding.half_up(number, digits) == rounded


def test_rounding_of_blanks_units_and_small_negatives() -> None:
    assert math.isnan(rounding.half_up(math.nan))
    assert rounding.up(FLOAT.Quantity(np.array([1.2, np.nan]), "L"))[0] == FLOAT.Quantity(2.0, "L")
    assert math.copysign(1.0, rounding.half_up(-0.2)) == 1.0


@given(st.dates(min_value=date(1900, 3, 1)))
def test_serial_dates_are_those_of_the_calendar(day: Any) -> None:
    serial = float(dates.serial(day.year, day.month, day.day))
    assert serial == day.toordinal() - 693594
    assert (dates.year_of(serial), dates.month_of(serial)) == (day.year, day.month)


@given(st.integers(800, 2958465).map(float), st.integers(1, 12), st.integers(1, 28))
def test_season_starts_within_the_year_before(at: float, month: int, day: int) -> None:
    start = float(dates.season_start_of(at, month, day))
    assert 0 <= at - start <= 365
    assert dates.serial(dates.year_of(start), month, day) == start


def test_what_is_no_date_has_no_month() -> None:
    assert np.isnan(dates.month_of(np.array([np.nan, -1.0, 1e300, np.inf]))).all()
    assert np.isnan(dates.serial(math.nan, 1, 1))


def test_keys_are_kept_only_of_columns_that_nobody_can_change() -> None:
    names = np.array(["a", "b"], dtype=object)
    assert float(relations.count_by(names, "a")) == 1
    names[1] = "A"
    assert float(relations.count_by(names, "a")) == 2
    names.flags.writeable = False
    before = len(relations._MADE)
    assert [float(relations.count_by(names, "a")) for _ in "12"] == [2, 2]
    assert len(relations._MADE) == before + 1
    del names
    assert len(relations._MADE) == before


@pytest.mark.parametrize(
    ("value", "over", "at_least"),
    [
        (0.5e-9, True, True),
        (0.49e-9, False, True),
        (-0.49e-9, False, True),
        (-0.5e-9, False, False),
        (np.nan, False, False),
    ],
)
def test_a_difference_counts_from_the_ninth_decimal(value: float, over: bool, at_least: bool) -> None:
    """As ROUND(value-limit,9) does, halves away from zero."""
    assert (bool(rounding.exceeds(value, 0.0)), bool(rounding.reaches(value, 0.0))) == (over, at_least)
    shown = float(rounding.half_up(value, 9))
    assert (shown > 0, shown >= 0) == (over, at_least)
