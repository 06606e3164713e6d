"""The mix that the planner shows first."""

from __future__ import annotations

from typing import Annotated, Any, Final, Literal

from pydantic_core import core_schema

from wbgen.files.diagnostics import Report
from wbgen.files.yaml.fields import OneOf, Text
from wbgen.files.yaml.nodes import Scalar
from wbgen.files.yaml.records import Record, found_text, wrong
from wbgen.records.catalogue import Catalogue
from wbgen.records.fields import Day, Measure, Of, Rate, Share, VolumeRate
from wbgen.records.product_rules import Check, check_own_rate
from wbgen.records.site.names import Names, known, known_product, tell, unique
from wbgen.records.site.water import MixWater, check_mix_water
from wbgen.records.site.weather import Weather, YesNo, check_weather


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
    who: Text | None = None
    carrier_volume: VolumeRate | None = None
    water: MixWater | None = None
    acidify: Annotated[Literal["with iron", "yes", "no"], OneOf("with iron", "yes", "no")] | None = None
    watered_in: YesNo | None = None
    loads: Annotated[Literal["equal", "full and part"], OneOf("equal", "full and part")] | None = None
    overlap: Share | None = None
    weather: Weather | None = None
    products: tuple[MixProduct, ...] | None = None


def check_mix(mix: Mix, names: Names, report: Report) -> None:
    """The mix: its names are known, and each product has one rate."""
    for number, name in enumerate(mix.lawns or (), 1):
        if name != ALL:
            known(name, mix.place_of(f"lawns[{number}]"), names.lawns, "lawn", report)
    unique(((name, mix.place_of(f"lawns[{number}]")) for number, name in enumerate(mix.lawns or (), 1)),
            "a lawn of the mix", report)  # fmt: skip
    if mix.sprayer:
        known(mix.sprayer, mix.place_of("sprayer"), names.sprayers, "sprayer", report)
    if mix.who:
        known(mix.who, mix.place_of("who"), names.people, "person", report)
    for row in mix.products or ():
        if row.rate and row.wanted:
            tell(report, row.wanted.place, f"{row.product}: a rate and a wanted nutrient are given", expected="one of "
                  "rate and wanted, or none", found="both", remedy="delete one of the two")  # fmt: skip
    if mix.overlap and mix.overlap.to("percent") >= 100:
        tell(report, mix.overlap.place, "the overlap is the whole swath or more", expected="less than 100 %",
              found=mix.overlap.text, remedy="write the share of the swath that is sprayed twice")  # fmt: skip
    if mix.water:
        check_mix_water(mix.water, report)
    if mix.weather:
        check_weather(mix.weather, report)


def check_mix_products(mix: Mix, catalogue: Catalogue, report: Report) -> None:
    """The products of the mix are in the catalogue, are there once, are sprayed, and have rates that they can have."""
    unique(((row.product, row.place_of("product")) for row in mix.products or ()), "a product of the mix", report)
    for row in mix.products or ():
        product = known_product(row.product, row.place_of("product"), catalogue, report)
        if product is None:
            continue
        check = Check(product, report)
        for rate in (row.rate, row.wanted):
            if rate:
                check_own_rate(check, rate, "spray")
        if product.spray is None:
            check.tell(row.place_of("product"), "this product has no spray rate", expected="a product to spray",
                       found=row.product, remedy="choose another, or add spray to the product")  # fmt: skip
