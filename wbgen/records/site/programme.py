"""The programme in a user's file: what is meant to go on where, how often, between which dates."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Literal

from wbgen.files.diagnostics import Report
from wbgen.files.yaml.fields import OneOf, Text
from wbgen.files.yaml.records import Record
from wbgen.records.catalogue import Catalogue
from wbgen.records.fields import Count, Day, Measure, Name, Of, Rate, VolumeRate
from wbgen.records.product_rules import Check, check_own_rate
from wbgen.records.site.names import Names, known, known_product


class Line(Record):
    """One line: a product on a lawn, on a group of lawns, or with neither on all lawns.

    Exactly one of `every` and `times` says how often; `rate` None is the usual rate of the catalogue. By `shift` all
    that is still to come goes on so much later.
    """

    product: Text
    lawn: Text | None = None
    group: Name | None = None
    method: Annotated[Literal["spray", "dry"], OneOf("spray", "dry")] = "spray"
    rate: Rate | None = None
    carrier_volume: VolumeRate | None = None
    first: Day
    last: Day
    every: Annotated[Measure, Of("time")] | None = None
    times: Count | None = None
    shift: Annotated[Measure, Of("time")] | None = None
    note: Text | None = None

    @property
    def dates(self) -> int:
        """How many dates the line stands for."""
        if self.every is None:
            return self.times or 0
        return int((self.last - self.first).days // self.every.to("day")) + 1


def check_line(line: Line, names: Names, report: Report) -> None:
    """One line: its names are known, its dates are in order, and it says how often in one way."""
    what = line.product
    if line.lawn and line.group:
        _tell(line, "group", f"{what}: a lawn and a group are given", "one of lawn and group, or none", "both",
              "delete one of the two", report)  # fmt: skip
    if line.lawn:
        known(line.lawn, line.place_of("lawn"), names.lawns, "lawn", report)
    if line.group:
        known(line.group, line.place_of("group"), names.groups, "group", report)
    if (line.every is None) == (line.times is None):
        key = "every" if line.every else "product"
        found, remedy = ("both", "keep one of the two") if line.every else ("neither", "add one")
        _tell(line, key, f"{what}: exactly one of every and times must say how often", "every: 14 days, or times: 6",
              found, remedy, report)  # fmt: skip
    if line.every and line.every.to("day") < 1:
        _tell(line, "every", f"{what}: it comes more often than once a day", "1 day or more", line.every.text,
              "write a longer time", report)  # fmt: skip
    if line.last < line.first:
        _tell(line, "last", f"{what}: it ends before it begins", f"{line.first} or later", f"{line.last}",
              "exchange the two, or correct one", report)  # fmt: skip
    if line.carrier_volume and line.method == "dry":
        _tell(line, "carrier volume", f"{what}: a product that is spread dry has no carrier volume", "method: spray",
              "method: dry", "delete carrier volume, or correct the method", report)  # fmt: skip


def check_lines(lines: Sequence[Line], catalogue: Catalogue, report: Report) -> None:
    """The products of the programme are in the catalogue, at rates and by methods that they can have."""
    for line in lines:
        product = known_product(line.product, line.place_of("product"), catalogue, report)
        if product is None:
            continue
        check = Check(product, report)
        if line.rate:
            check_own_rate(check, line.rate, line.method)
        elif (product.dry if line.method == "dry" else product.spray) is None:
            other = "spray" if line.method == "dry" else "dry"
            check.tell(line.place_of("method") if "method" in line.places else line.place,
                       f"this product has no rate to {line.method}", expected=f"method: {other}",
                       found=f"method: {line.method}", remedy="correct the method, or give a rate")  # fmt: skip


def _tell(line: Line, key: str, message: str, expected: str, found: str, remedy: str, report: Report) -> None:
    report.add("programme-line", line.place_of(key), message, expected=expected, found=found, remedy=remedy)
