"""What was applied, and what was not done: the rows of the diary that the file begins with."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Literal

from wbgen.files.diagnostics import Report
from wbgen.files.yaml.fields import OneOf, Text
from wbgen.files.yaml.records import Record
from wbgen.records.catalogue import Catalogue
from wbgen.records.fields import Area, Day, Measure, Of, Rate, Speed, Temperature, Volume
from wbgen.records.product_rules import Check, check_amount, check_own_rate
from wbgen.records.site.names import Names, known, known_product, tell
from wbgen.records.site.weather import believable_temperature, believable_wind


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


class NotDone(Record):
    """A visit to a lawn that was skipped or put off, and why."""

    date: Day
    lawn: Text
    how: Annotated[Literal["skipped", "put off"], OneOf("skipped", "put off")]
    why: Text


def check_application(row: Application, names: Names, report: Report) -> None:
    """One row of the diary: its names are known, and its water fits its method."""
    known(row.lawn, row.place_of("lawn"), names.lawns, "lawn", report)
    if row.who:
        known(row.who, row.place_of("who"), names.people, "person", report)
    for key, measure in (("water", row.water), ("left over", row.left_over)):
        if measure and row.method == "dry":
            tell(report, measure.place, f"a product that is spread dry has no {key!r}", expected="method: spray",
                  found="method: dry", remedy=f"delete {key}, or correct the method")  # fmt: skip
    if row.left_over and row.water is None:
        tell(report, row.left_over.place, "what is left over needs the water that it was mixed in",
              expected="water: 14 L", remedy="add water")  # fmt: skip
    elif row.left_over and row.water and row.left_over.to(row.water.unit) > row.water.magnitude:
        tell(report, row.left_over.place, "more is left over than was mixed", expected=f"{row.water.text} or less",
              found=row.left_over.text, remedy="correct one of the two")  # fmt: skip
    believable_temperature(row.temperature, report)
    believable_wind(row.wind, report)


def check_diary_products(diary: Sequence[Application], catalogue: Catalogue, report: Report) -> None:
    """The products of the diary are in the catalogue, at rates and in units that they can have."""
    for row in diary:
        product = known_product(row.product, row.place_of("product"), catalogue, report)
        if product is not None:
            _check_use(row, Check(product, report))


def _check_use(row: Application, check: Check) -> None:
    product = check.product
    if row.planned_rate:
        check_own_rate(check, row.planned_rate, row.method)
    kind = row.measured.kind
    if kind == "volume":
        check_amount(check, row.measured)
    if kind == "mass" and product.is_liquid and product.density is None:
        check.tell(row.measured.place, "a liquid that was weighed needs its density", expected="a volume such as "
                   "200 mL", found=row.measured.text, remedy="write the volume, or add the density")  # fmt: skip
    if kind == "pack" and product.pack is None:
        check.tell(row.measured.place, "a number of packs needs the size of a pack", expected="a mass or a volume",
                   found=row.measured.text, remedy="add pack to the product")  # fmt: skip
