"""The site as a whole, and the settings that a user has of their own."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from wbgen.files.diagnostics import Place
from wbgen.files.yaml.fields import Leaf, OneOf
from wbgen.files.yaml.nodes import Scalar
from wbgen.files.yaml.records import Record
from wbgen.records.fields import Day, DayOfYear, DayOfYearLeaf, Measure, Name
from wbgen.units.quantity import UnitError, parse_quantity


class _CurrencyLeaf(Leaf):
    expected = "three capital letters such as EUR"

    def read(self, scalar: Scalar) -> str:
        if len(scalar.text) != 3 or not (scalar.text.isascii() and scalar.text.isalpha() and scalar.text.isupper()):
            raise self.refusal(scalar, remedy="write the ISO 4217 code of the currency")
        return scalar.text


class Details(Record):
    """The site as a whole. `as_of` None is today."""

    name: Name
    units: Annotated[Literal["metric", "us"], OneOf("metric", "us")]
    currency: Annotated[str, _CurrencyLeaf()]
    season_starts: Annotated[DayOfYear, DayOfYearLeaf()]
    as_of: Day | None = None


@dataclass(frozen=True, slots=True)
class Setting:
    """The user's value for one setting: a quantity, a number (a Measure of kind "number") or, else, a text."""

    text: str
    measure: Measure | None
    place: Place


class _SettingLeaf(Leaf):
    expected = "a quantity, a number or a word"

    def read(self, scalar: Scalar) -> Setting:
        if not scalar.text.strip():
            raise self.refusal(scalar, "this must not be empty")
        try:
            measure = Measure(scalar.text, parse_quantity(scalar.text), scalar.place)
        except UnitError:
            return Setting(scalar.text, None, scalar.place)
        return Setting(scalar.text, measure, scalar.place)


SettingOf = Annotated[Setting, _SettingLeaf()]
