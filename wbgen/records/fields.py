"""The single values of a record: text, names, words from a list, whole numbers, numbers, dates and quantities.

Each leaf stands in an `Annotated` beside the Python type that it gives, and refuses anything else with what it
expected. Quantities stay as they were written (`Measure`); nothing is converted here.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Any, ClassVar, Final

from pydantic_core import PydanticCustomError, core_schema

from wbgen.files.accepted import FIRST_DAY, LAST_DAY, LONGEST_TEXT, bad_name
from wbgen.files.diagnostics import Place, did_you_mean, shown
from wbgen.files.yaml.records import found_text, wrong
from wbgen.files.yaml.tree import Scalar
from wbgen.units.quantity import KINDS, Quantity, UnitError, parse_quantity


@dataclass(frozen=True, slots=True)
class Measure:
    """A quantity as the file gives it: its text, its number and unit, and its place."""

    text: str
    quantity: Quantity
    place: Place

    @property
    def kind(self) -> str:
        """What it is, one of `wbgen.units.KINDS`."""
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


_NO_LIMIT: Final = 1e9


class Leaf:
    """Reads one single value. `expected` says in a few words what it takes."""

    expected: ClassVar[str] = "a value"

    def read(self, scalar: Scalar) -> object:
        """The value; raises what `refusal` gives where it is not one."""
        raise NotImplementedError

    def refusal(self, scalar: Scalar, message: str = "", remedy: str = "") -> PydanticCustomError:
        """The error for a value that this leaf does not take."""
        said = message or f"this must be {self.expected}"
        return wrong("wrong-value", said, expected=self.expected, found=found_text(scalar), remedy=remedy)

    def __get_pydantic_core_schema__(self, source: object, handler: object) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(self._read)

    def _read(self, data: Any) -> object:
        if not isinstance(data, Scalar):
            raise wrong("wrong-shape", f"this must be {self.expected}", expected=self.expected, found=found_text(data))
        return self.read(data)


class TextLeaf(Leaf):
    """Any text; a number or a date is taken as its text. Text that begins with = + - or @ stays text."""

    expected = "text"

    def read(self, scalar: Scalar) -> str:
        text = scalar.text.strip()
        if not text:
            raise self.refusal(scalar, "this must not be empty", "write a text, or leave the key out")
        if len(text) > LONGEST_TEXT:
            said = f"this text is too long: {len(text)} characters, at most {LONGEST_TEXT}"
            raise self.refusal(scalar, said, "shorten it")
        return text


class NameLeaf(Leaf):
    """A name that a spreadsheet looks up: never a pattern, a comparison, a number, a truth value or a formula."""

    expected = "a name"

    def read(self, scalar: Scalar) -> str:
        text = scalar.text
        if reason := bad_name(text):
            raise self.refusal(scalar, f"this cannot be a name: {reason}", "choose another name")
        return text


@dataclass(frozen=True)
class OneOf(Leaf):
    """One word of a list."""

    words: tuple[str, ...]

    def __init__(self, *words: str) -> None:
        object.__setattr__(self, "words", words)

    def read(self, scalar: Scalar) -> str:
        if scalar.text in self.words:
            return scalar.text
        raise wrong("unknown-word", f"{shown(scalar.text)} is not one of the words for this",
                    expected="one of: " + ", ".join(self.words), found=shown(scalar.text),
                    remedy=did_you_mean(scalar.text, self.words))  # fmt: skip


@dataclass(frozen=True)
class NumberLeaf(Leaf):
    """A plain number without a unit, from `least` on to `most`; `whole` numbers only, if so said."""

    least: float
    most: float = _NO_LIMIT
    whole: bool = False

    def read(self, scalar: Scalar) -> float:
        value = scalar.value
        number = isinstance(value, int if self.whole else int | float) and not isinstance(value, bool)
        if isinstance(value, int | float) and number and self.least <= value <= self.most:
            return value
        kind = "a whole number" if self.whole else "a number"
        limit = f"{self.least:g} or more" if self.most >= _NO_LIMIT else f"from {self.least:g} to {self.most:g}"
        remedy = f"write at most {self.most:g}" if number else "write the number without a unit and without quotes"
        raise wrong("wrong-value", f"this must be {kind}, {limit}", expected=f"{kind}, {limit}",
                    found=found_text(scalar), remedy=remedy)  # fmt: skip


class DateLeaf(Leaf):
    """A date of the calendar, as yyyy-mm-dd."""

    expected = "a date such as 2026-03-01"

    def read(self, scalar: Scalar) -> date:
        value = scalar.value
        if not isinstance(value, date):
            raise self.refusal(scalar, remedy="write it as yyyy-mm-dd, without quotes")
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


def read_measure(scalar: Scalar, kinds: tuple[str, ...]) -> Measure:
    """The quantity of a value; raises the error of a leaf where it is none of the kinds."""
    try:
        return Measure(scalar.text, parse_quantity(scalar.text, *kinds), scalar.place)
    except UnitError as error:
        remedy = f"did you mean {error.nearest}?" if error.nearest else error.advice
        remedy = remedy or f"write a number and a unit, such as {KINDS[kinds[0]]}"
        found = shown(scalar.text) + error.found.removeprefix(repr(scalar.text))
        raise wrong("wrong-quantity", f"this must be {error.expected}", expected=error.expected,
                    found=found[:200], remedy=remedy) from None  # fmt: skip


@dataclass(frozen=True, slots=True)
class DayOfYear:
    """A day of every year, such as the first of the season."""

    day: int
    month: int
    text: str


class DayOfYearLeaf(Leaf):
    """A day and the English name of a month: "1 January". The 29th of February is not in every year."""

    expected = "a day and a month such as 1 January"
    _MONTHS: ClassVar = ("january", "february", "march", "april", "may", "june", "july", "august", "september",
                         "october", "november", "december")  # fmt: skip

    def read(self, scalar: Scalar) -> DayOfYear:
        match = re.fullmatch(r"([0-9]{1,2}) ([A-Za-z]+)", scalar.text)
        month = match[2].casefold() if match else ""
        if match is None or month not in self._MONTHS:
            raise self.refusal(scalar, remedy=did_you_mean(month, self._MONTHS) if match else "")
        number = self._MONTHS.index(month) + 1
        try:
            date(2001, number, int(match[1]))
        except ValueError:
            raise self.refusal(scalar, "this day is not in every year") from None
        return DayOfYear(int(match[1]), number, scalar.text)


Text = Annotated[str, TextLeaf()]
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
RATE_KINDS: Final = (
    "mass rate", "volume rate", "pack rate", "nutrient rate", "dilution by mass", "dilution by volume",
)  # fmt: skip
"""The kinds of an application rate as a label prints it."""
Rate = Annotated[Measure, Of(*RATE_KINDS)]
