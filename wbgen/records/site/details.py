"""What a user's file says: the site, its lawns, sprayers, scales and jugs, the mix to show first, and the diary."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any, Final, Literal

from pydantic import BeforeValidator, ValidationInfo
from pydantic_core import core_schema

from wbgen.files.diagnostics import Place
from wbgen.files.yaml.fields import Leaf, NumberLeaf, OneOf, Text
from wbgen.files.yaml.records import Placed, Record, found_text, only_symbols, report_of, wrong
from wbgen.files.yaml.tree import Scalar
from wbgen.records.fields import (
    Area,
    Count,
    Day,
    DayOfYear,
    DayOfYearLeaf,
    Length,
    Measure,
    Name,
    Of,
    Rate,
    Share,
    Speed,
    Temperature,
    Volume,
    VolumeRate,
    read_measure,
)  # fmt: skip
from wbgen.records.site.lawn_parts import Part
from wbgen.trade.nutrients import NUTRIENTS
from wbgen.units.quantity import UnitError, parse_quantity

YesNo = Annotated[Literal["yes", "no"], OneOf("yes", "no")]
Seconds = Annotated[float, NumberLeaf(0.1, 86_400)]


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


class _RateOfNutrient(Leaf):
    """A rate of the nutrient that the key names; the unit may name it again, but no other."""

    expected = "a rate such as 12 g/m²"

    def read(self, scalar: Scalar) -> Measure:
        measure = read_measure(scalar, ("mass rate", "nutrient rate"))
        symbol = self._symbol(scalar)
        if measure.quantity.nutrient not in (None, symbol):
            raise wrong("wrong-nutrient", f"the unit names another nutrient than {symbol}", found=scalar.text,
                        expected=f"g/m² or g {symbol}/m²", remedy="leave the nutrient out of the unit")  # fmt: skip
        if measure.magnitude < 0:
            raise self.refusal(scalar, "this must be 0 or more")
        return measure

    def _symbol(self, scalar: Scalar) -> str:
        return scalar.place.key.rpartition(".")[2]


class RateOfNitrogen(_RateOfNutrient):
    def _symbol(self, scalar: Scalar) -> str:  # noqa: ARG002 - the key of the one value is no symbol
        return "N"


def _symbols_only(data: object, info: ValidationInfo) -> object:
    symbols = [nutrient.symbol for nutrient in NUTRIENTS]
    return only_symbols(data, symbols, report_of(info)) if isinstance(data, Placed) else data


_Target = Annotated[Measure, _RateOfNutrient()]


class Lawn(Record):
    """One lawn, by its area or by the parts of it; lawns of a `group` are fed alike.

    Targets are for a year, by the symbol in which the nutrient is counted. `strip` is the lawn that is its untreated
    strip.
    """

    name: Name
    grass: Annotated[Literal["cool season", "warm season"], OneOf("cool season", "warm season")]
    area: Area | None = None
    parts: tuple[Part, ...] | None = None
    group: Name | None = None
    walking_order: Count | None = None
    targets: Annotated[dict[str, _Target], BeforeValidator(_symbols_only)] | None = None
    most_N_a_month: Annotated[Measure, RateOfNitrogen()] | None = None  # noqa: N815 - the file's key, _ for a space
    strip: Text | None = None
    notes: Text | None = None


class KnownArea(Record):
    """A calibration: the area sprayed as usual, and what the refill took."""

    sprayed: Area
    used: Volume


class Catch(Record):
    """A calibration: what each nozzle gave in a number of seconds."""

    seconds: Seconds
    volumes: tuple[Volume, ...]


class Walk(Record):
    """A calibration: how many seconds a distance took."""

    distance: Length
    seconds: Seconds


class Jar(Record):
    """The jar of a hose-end sprayer: what it holds, and the parts of water to one part of it."""

    capacity: Volume
    dilution: Annotated[float, NumberLeaf(1, 10_000)]


class _NozzleLeaf(Leaf):
    expected = 'an ISO size such as "03"'

    def read(self, scalar: Scalar) -> str:
        if not (scalar.text.isascii() and scalar.text.isdigit() and 2 <= len(scalar.text) <= 3):
            raise self.refusal(scalar, remedy="write the two or three digits of the ISO size, in quotes")
        return scalar.text


SprayerKind = Literal["knapsack", "lance", "boom", "watering can", "hose-end"]


class Sprayer(Record):
    """One sprayer. `working` is the working capacity, to the mark to which it is filled.

    `carrier_volume` is what is wanted of it, where that is not what the products usually have.
    """

    name: Name
    kind: Annotated[SprayerKind, OneOf("knapsack", "lance", "boom", "watering can", "hose-end")]
    brim: Volume
    working: Volume
    passes: Count
    carrier_volume: VolumeRate | None = None
    remainder: Annotated[Measure, Of("volume", zero=True)] | None = None
    swath: Length | None = None
    known_area: KnownArea | None = None
    catch: Catch | None = None
    walk: Walk | None = None
    nozzle: Annotated[str, _NozzleLeaf()] | None = None
    pressure: Annotated[Measure, Of("pressure")] | None = None
    jar: Jar | None = None


class Scale(Record):
    """A scale or a jug: its step and the most it holds."""

    name: Name
    measures: Annotated[Literal["weight", "volume"], OneOf("weight", "volume")]
    step: Annotated[Measure, Of("mass", "volume")]
    capacity: Annotated[Measure, Of("mass", "volume")]


class Water(Record):
    """The water of a mix."""

    temperature: Temperature | None = None
    hardness: Annotated[Measure, Of("equivalents per volume", zero=True)] | None = None


class Weather(Record):
    """The weather expected; what is None was not checked."""

    wind: Speed | None = None
    temperature: Temperature | None = None
    humidity: Share | None = None
    heavy_rain: YesNo | None = None
    frozen_or_waterlogged: YesNo | None = None


class MixProduct(Record):
    """A product of a mix at its usual rate, at an own `rate`, or at the rate that gives a `wanted` nutrient."""

    product: Text
    rate: Rate | None = None
    wanted: Annotated[Measure, Of("nutrient rate")] | None = None


ALL: Final = "all"
"""Stands for every lawn in a mix; no lawn may have this name."""


class _LawnsLeaf:
    def __get_pydantic_core_schema__(self, source: object, handler: object) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(self._read)

    def _read(self, data: Any) -> tuple[str, ...]:
        if isinstance(data, Scalar) and data.text == ALL:
            return (ALL,)
        if isinstance(data, tuple) and data and all(isinstance(item, Scalar) for item in data):
            return tuple(item.text for item in data)
        raise wrong("wrong-shape", "this must be a list of lawns, or all", expected="[name, name], or all",
                    found=found_text(data) if data else "an empty list")  # fmt: skip


class Mix(Record):
    """The mix that the sheet shows first; whatever is None is left for the user to fill in."""

    date: Day | None = None
    lawns: Annotated[tuple[str, ...], _LawnsLeaf()] | None = None
    sprayer: Text | None = None
    carrier_volume: VolumeRate | None = None
    water: Water | None = None
    watered_in: YesNo | None = None
    loads: Annotated[Literal["equal", "full and part"], OneOf("equal", "full and part")] | None = None
    overlap: Share | None = None
    weather: Weather | None = None
    products: tuple[MixProduct, ...] | None = None


class Application(Record):
    """One row of the diary: what was applied where."""

    date: Day
    lawn: Text
    product: Text
    method: Annotated[Literal["spray", "dry"], OneOf("spray", "dry")]
    measured: Annotated[Measure, Of("mass", "volume", "pack")]
    water: Volume | None = None
    left_over: Annotated[Measure, Of("volume", zero=True)] | None = None
    planned_rate: Rate | None = None
    treated_area: Area | None = None
    who: Text | None = None
    temperature: Temperature | None = None
    wind: Speed | None = None
    rain: Annotated[Measure, Of("length", zero=True)] | None = None
    note: Text | None = None
