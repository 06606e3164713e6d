"""A lawn of the file: its grass, its area or its parts, and what it should have in a year."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Literal

from pydantic import BeforeValidator, ValidationInfo

from wbgen.files.accepted_values import as_read
from wbgen.files.diagnostics import Report
from wbgen.files.yaml.fields import Leaf, OneOf, Text
from wbgen.files.yaml.nodes import Scalar
from wbgen.files.yaml.records import PlacedMapping, Record, only_symbols, report_of, wrong
from wbgen.records.fields import Area, Count, Measure, Name, read_measure
from wbgen.records.site.lawn_parts import Part, check_part
from wbgen.records.site.names import Names, known, tell, unique
from wbgen.records.site.soil_tests import SoilTest, check_soil_tests
from wbgen.trade.nutrients import NUTRIENTS


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
    return only_symbols(data, symbols, report_of(info)) if isinstance(data, PlacedMapping) else data


_Target = Annotated[Measure, _RateOfNutrient()]


_WEEKDAYS = ("Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat")


class Lawn(Record):
    """One lawn, by its area or by the parts of it; lawns of a `group` are fed alike.

    `round_day` is the day of the week on which it is visited, `sprayer` the one that it is sprayed with.
    Targets are for a year, by the symbol in which the nutrient is counted. `strip` is the lawn that is its untreated
    strip.
    """

    name: Name
    grass: Annotated[Literal["cool season", "warm season"], OneOf("cool season", "warm season")]
    area: Area | None = None
    parts: tuple[Part, ...] | None = None
    group: Name | None = None
    walking_order: Count | None = None
    round_day: Annotated[Literal["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"], OneOf(*_WEEKDAYS)] | None = None
    sprayer: Text | None = None
    targets: Annotated[dict[str, _Target], BeforeValidator(_symbols_only)] | None = None
    most_N_a_month: Annotated[Measure, RateOfNitrogen()] | None = None  # noqa: N815 - the file's key, _ for a space
    strip: Text | None = None
    soil_tests: tuple[SoilTest, ...] | None = None
    notes: Text | None = None


def check_lawn(lawn: Lawn, report: Report) -> None:
    """One lawn: an area or parts, and parts that make an area."""
    if (lawn.area is None) == (lawn.parts is None):
        tell(report, lawn.place, f"{lawn.name}: exactly one of area and parts must be given", expected="area: 240 m², "
              "or parts: ...", found="both" if lawn.area else "neither",
              remedy="keep one of the two" if lawn.area else "add one")  # fmt: skip
    check_soil_tests(lawn.name, lawn.soil_tests or (), report)
    if lawn.parts is None:
        return
    if all(part.cut_out and not part.add for part in lawn.parts):
        tell(report, lawn.place_of("parts"), f"{lawn.name}: no part is added", expected="add: rectangle, ...",
              found="only cut outs" if lawn.parts else "no part", remedy="add one")  # fmt: skip
    unique(((part.name, part.place_of("name")) for part in lawn.parts), "a part", report)
    for part in lawn.parts:
        check_part(part, report)


def check_strips(lawns: Sequence[Lawn], names: Names, report: Report) -> None:
    """The untreated strips are lawns of the file, and none is a strip of itself."""
    for lawn in lawns:
        if lawn.strip is None:
            continue
        known(lawn.strip, lawn.place_of("strip"), names.lawns, "lawn", report)
        if as_read(lawn.strip) == as_read(lawn.name):
            tell(report, lawn.place_of("strip"), f"{lawn.name}: it is given as its own untreated strip",
                  expected="the name of another lawn", found=lawn.strip,
                  remedy="name the strip, or leave it out")  # fmt: skip
