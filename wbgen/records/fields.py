"""The single values of a record that a planner's files have: names, dates and quantities.

Words, numbers and plain text stand in `wbgen.files.yaml.fields`. Quantities stay as they were written (`Measure`);
nothing is converted here.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from typing import Annotated

from wbgen.files.accepted_values import FIRST_DAY, LAST_DAY, bad_name
from wbgen.files.diagnostics import Place, did_you_mean, shown
from wbgen.files.yaml.fields import Leaf, NumberLeaf
from wbgen.files.yaml.nodes import Scalar
from wbgen.files.yaml.records import wrong
from wbgen.records.date_slips import MONTHS, date_meant, month_of
from wbgen.records.quantity_slips import kinds_wanted, what_to_do
from wbgen.units.label_rates import RATE_KINDS, WANTED, RateUnit, read_label_rate
from wbgen.units.quantity import Quantity, UnitError, parse_quantity


@dataclass(frozen=True, slots=True)
class Measure:
    """A quantity as the file gives it: its text, its number and unit, and its place."""

    text: str
    quantity: Quantity
    place: Place

    @property
    def kind(self) -> str:
        """What it is, one of `wbgen.units.kinds.KINDS`."""
        return self.quantity.kind

    @property
    def magnitude(self) -> float:
        """The number as written, in its own unit."""
        return self.quantity.magnitude

    @property
    def unit(self) -> str:
        """Its own unit, as pint reads it."""
        return self.quantity.unit

    def to(self, unit: str) -> float:
        """The number in another unit of the same dimension (UnitError otherwise)."""
        return self.quantity.to(unit)


@dataclass(frozen=True, slots=True)
class LabelMeasure(Measure):
    """A label rate as the file gives it, with the unit that stands beside its number on a sheet."""

    label_unit: RateUnit

    @property
    def kind(self) -> str:
        """One of `RATE_KINDS`: 2 g/L is a dilution here, whatever a concentration may be elsewhere."""
        return self.label_unit.kind


class NameLeaf(Leaf):
    """A name that a spreadsheet looks up: never a pattern, a comparison, a number, a truth value or a formula."""

    expected = "a name"

    def read(self, scalar: Scalar) -> str:
        text = scalar.text
        if reason := bad_name(text):
            raise self.refusal(scalar, f"this cannot be a name: {reason}", "choose another name")
        return text


class DateLeaf(Leaf):
    """A date of the calendar, as yyyy-mm-dd."""

    expected = "a date such as 2026-03-01"

    def read(self, scalar: Scalar) -> date:
        value = scalar.value
        if not isinstance(value, date):
            raise self.refusal(scalar, remedy=date_meant(scalar.text))
        first, last = FIRST_DAY.year, LAST_DAY.year
        if not first <= value.year <= last:
            raise self.refusal(scalar, f"this date is not between {first} and {last}", "check the year")
        return value


@dataclass(frozen=True)
class Of(Leaf):
    """A quantity of one of these kinds, greater than 0; `zero` and `negative` allow those too."""

    kinds: tuple[str, ...]
    zero: bool
    negative: bool

    def __init__(self, *kinds: str, zero: bool = False, negative: bool = False) -> None:
        for name, value in (("kinds", kinds), ("zero", zero or negative), ("negative", negative)):
            object.__setattr__(self, name, value)

    def read(self, scalar: Scalar) -> Measure:
        measure = read_measure(scalar, self.kinds)
        magnitude = measure.magnitude
        if (magnitude < 0 and not self.negative) or (magnitude == 0 and not self.zero):
            least = "0 or more" if self.zero else "more than 0"
            raise wrong("wrong-value", f"this must be {least}", expected=least, found=shown(scalar.text))
        return measure


class LabelRateLeaf(Leaf):
    """A rate as a label prints it, greater than 0."""

    expected = WANTED

    def read(self, scalar: Scalar) -> LabelMeasure:
        try:
            rate = read_label_rate(scalar.text)
        except UnitError as error:
            do = what_to_do(scalar.text, RATE_KINDS, error, read_label_rate)
            raise _no_quantity(scalar, error, WANTED, do) from None
        if rate.quantity.magnitude <= 0:
            raise wrong("wrong-value", "this must be more than 0", expected="more than 0", found=shown(scalar.text))
        return LabelMeasure(scalar.text, rate.quantity, scalar.place, rate.unit)


def read_measure(scalar: Scalar, kinds: tuple[str, ...]) -> Measure:
    """The quantity of a value; raises the error of a leaf where it is none of the kinds."""
    try:
        return Measure(scalar.text, parse_quantity(scalar.text, *kinds), scalar.place)
    except UnitError as error:
        do = what_to_do(scalar.text, kinds, error, lambda text: parse_quantity(text, *kinds))
        raise _no_quantity(scalar, error, kinds_wanted(kinds), do) from None


def _no_quantity(scalar: Scalar, error: UnitError, wanted: str, do: str) -> Exception:
    found = error.found.removeprefix(repr(scalar.text)).replace("which is a other", "which is none of these")
    return wrong("wrong-quantity", f"this must be {wanted}", expected=wanted, found=(shown(scalar.text) + found)[:200],
                 remedy=do)  # fmt: skip


@dataclass(frozen=True, slots=True)
class DayOfYear:
    """A day of every year, such as the first of the season."""

    day: int
    month: int
    text: str


class DayOfYearLeaf(Leaf):
    """A day and the English name of a month: "1 January". The 29th of February is not in every year."""

    expected = "a day and a month such as 1 January"

    def read(self, scalar: Scalar) -> DayOfYear:
        match = re.fullmatch(r"([0-9]{1,2}) ([A-Za-z]+)", scalar.text)
        month = match[2].casefold() if match else ""
        if match is None or month not in MONTHS:
            raise self.refusal(scalar, remedy=did_you_mean(month, map(str.capitalize, MONTHS)) if match else "")
        number = MONTHS.index(month) + 1
        try:
            date(2001, number, int(match[1]))
        except ValueError:
            raise self.refusal(scalar, "this day is not in every year") from None
        return DayOfYear(int(match[1]), number, scalar.text)


class MonthLeaf(NumberLeaf):
    """The number of a month."""

    def __init__(self) -> None:
        super().__init__(1, 12, whole=True)

    def remedy(self, written: str) -> str:
        months = re.fullmatch(r"([A-Za-z]+)(?: ?(?:-|–|to) ?([A-Za-z]+))?", written)
        if months is None:
            return super().remedy(written)
        first = month_of(months[1])
        last = month_of(months[2]) if months[2] else first
        numbers = [(month - 1) % 12 + 1 for month in range(first, last + 1 + 12 * (last < first))]
        return f"write {', '.join(map(str, numbers))}" if first and last else super().remedy(written)


Name = Annotated[str, NameLeaf()]
Day = Annotated[date, DateLeaf()]
Count = Annotated[int, NumberLeaf(1, whole=True)]
Share = Annotated[Measure, Of("share", zero=True)]
Area = Annotated[Measure, Of("area")]
Length = Annotated[Measure, Of("length")]
Volume = Annotated[Measure, Of("volume")]
VolumeRate = Annotated[Measure, Of("volume rate")]
Temperature = Annotated[Measure, Of("temperature", negative=True)]
Speed = Annotated[Measure, Of("speed", zero=True)]
Rate = Annotated[Measure, Of(*RATE_KINDS)]
LabelRate = Annotated[LabelMeasure, LabelRateLeaf()]
