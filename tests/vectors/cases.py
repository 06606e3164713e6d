"""The vectors: one published example each, with what it adds to a planner's files and what must come out.

A vector (``*.yaml`` beside this module) has these keys:

- `id`, `source` (author, publisher, title, where), `why` it is there, and `status`: how it is known (`STATUSES`);
- `inputs`: its own lawns, products, sprayers, mix, lines of programme, shelf, diary and scores, as users write them
  but for short forms (`expanded`); a line of diary with ``again: {every: 7, times: 18}`` stands for so many lines,
  noted "1", "2" and on;
- `typed`: figures that only the workbook takes, by table.column, and by the record's name where there are several;
- `answers`: which column to `read`, `at` which record, and what must stand there in `unit`: `exact`, as a number, a
  text or a product such as 100/12 (`within` so much, where the planner's own data are rounded); `printed`, as the
  publication has it, at most `tolerance` away from that;
- `trap`: the printed figure is a misprint, more than `tolerance` away;
- `setting`: a threshold of the planner that the publication contradicts, `ours` (exact) and `published` (printed);
- `planners`: those it goes into (`PLANNERS`); without it the two that have all of them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any, Final

import yaml

STATUSES: Final = ("seen", "secondary", "memory", "computed", "common practice, no source")
"""Read in the publication; read in a page that quotes it; not read; worked out here; and what nobody published."""
PLANNERS: Final = {"metric": "metric", "us": "us", "refill": "metric"}
"""The workbooks, with their systems of units. One has one mix, so the third is there for a mix of its own."""
WHOLE: Final = ("metric", "us")
CLOSE: Final = 1e-9
"""How far from the exact figure a result may be, relatively."""

NAMED_BY: Final = {
    "diary": "lawn", "scores": "lawn", "soil_methods": "method",
    "parts": "lawn", "catches": "sprayer", "nozzles": "size", "rate_units": "rate_unit",
    "months": "month", "season_months": "month", "season_applied": "lawn", "season_hectare": "lawn",
    "budget_months": "month", "budget_running": "month", "season_forecast": "lawn",
}  # fmt: skip
"""The column that a record goes by, where it is not "name"."""


@dataclass(frozen=True)
class Answer:
    """What must stand in one cell. `at` finds its record by some columns; the unit of a plain number is ""."""

    table: str
    column: str
    at: Mapping[str, Any]
    unit: str
    exact: Fraction | str
    printed: Fraction | None
    tolerance: Fraction
    within: Fraction

    @property
    def agrees_in_print(self) -> bool:
        """Whether the printed figure is the exact one, as the publication rounds."""
        assert self.printed is not None
        assert isinstance(self.exact, Fraction)
        return abs(self.printed - self.exact) <= self.tolerance

    @property
    def both(self) -> str:
        """A setting's own figure and the published one, for a reader."""
        ours, theirs = (float(self.exact), float(self.printed or 0))
        return f"{self.column} is {ours:g} {self.unit} here and {theirs:g} there"

    def wrong(self, found: float | str, trap: bool) -> str:
        """What is wrong with a figure found, in the answer's unit; "" where nothing is."""
        where = f"{self.table}.{self.column} {dict(self.at)}"
        if isinstance(self.exact, str) or isinstance(found, str):
            return "" if found == self.exact else f"{where}: expected {self.exact!r}, found {found!r}"
        if not abs(found - float(self.exact)) <= max(float(self.within), CLOSE * abs(float(self.exact)), 1e-12):
            return f"{where}: expected {float(self.exact)!r} {self.unit}, found {found!r}"
        if self.printed is None:
            return ""
        like_print = abs(found - float(self.printed)) <= float(self.tolerance) + CLOSE
        if like_print is trap:
            print_ = f"{float(self.printed)!r} in print, " + ("a misprint" if trap else "which should agree")
            return f"{where}: {found!r} {self.unit} against {print_}"
        return ""


@dataclass(frozen=True)
class Vector:
    """One published example."""

    id: str
    source: Mapping[str, str]
    status: str
    why: str
    trap: bool
    planners: tuple[str, ...]
    inputs: Mapping[str, Any]
    typed: Mapping[str, Any]
    answers: tuple[Answer, ...]
    setting: Answer | None

    @property
    def cells(self) -> tuple[Answer, ...]:
        """The answers and, last, the setting that the publication contradicts."""
        return (*self.answers, self.setting) if self.setting else self.answers


def number(text: Any) -> Fraction | str:
    """A number or a product of numbers as a fraction; any other text stays as it is.

    >>> number("3*10/4"), number(0.1), number("too soon")
    (Fraction(15, 2), Fraction(1, 10), 'too soon')
    """
    product = Fraction(1)
    try:
        for sign, factor in re.findall(r"([*/]?)([^*/]+)", str(text)):
            product = product / Fraction(factor) if sign == "/" else product * Fraction(factor)
    except ValueError:
        return str(text)
    return product if text != "" else ""


@cache
def vectors() -> tuple[Vector, ...]:
    """Every vector of the files beside this module, by file and in their order."""
    files = sorted(Path(__file__).parent.glob("*.yaml"))
    return tuple(_vector(item) for file in files for item in yaml.safe_load(file.read_text("utf-8")))


def _vector(item: Mapping[str, Any]) -> Vector:
    unknown = set(item) - {"id", "source", "status", "why", "trap", "planners", "inputs", "typed", "answers", "setting"}
    if unknown:
        raise ValueError(f"{item['id']}: unknown keys {sorted(unknown)}")
    return Vector(
        item["id"],
        item["source"],
        item["status"],
        item["why"],
        item.get("trap", False),
        tuple(item.get("planners", WHOLE)),
        item.get("inputs", {}),
        item.get("typed", {}),
        tuple(_answer(**answer) for answer in item.get("answers", ())),
        _setting(**item["setting"]) if "setting" in item else None,
    )


def _setting(read: str, ours: Any, published: Any, unit: str = "") -> Answer:
    return _answer(read, ours, None, unit, published)


def _answer(
    read: str, exact: Any, at: Any = None, unit: str = "", printed: Any = None, tolerance: Any = 0, within: Any = 0
) -> Answer:
    table, _, column = read.partition(".")
    record = at if isinstance(at, dict) else {} if at is None else {NAMED_BY.get(table, "name"): at}
    figures = [number(text) for text in (0 if printed is None else printed, tolerance, within)]
    assert not any(isinstance(figure, str) for figure in figures), f"{read}: no number in {figures}"
    known = [Fraction(figure) for figure in figures]
    return Answer(table, column, record, unit, number(exact), None if printed is None else known[0], *known[1:])


def expanded(kind: str, item: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    """The records that one record of a vector stands for, every short form written out.

    >>> list(expanded("lawns", {"name": "Green", "area": "1 acre"}))
    [{'grass': 'cool season', 'name': 'Green', 'area': '1 acre'}]
    """
    if kind == "products":
        yield _product(item)
    elif kind == "lawns":
        yield {"grass": "cool season", **item}
    elif kind == "sprayers":
        yield {"kind": "knapsack", "brim": "10 L", "working": "10 L", "passes": 1, **item}
    elif kind == "diary":
        yield from _lines(item)
    else:
        yield dict(item)


def _product(item: Mapping[str, Any]) -> dict[str, Any]:
    invented = {"basis": "invented"}
    whole: dict[str, Any] = {"form": "granule", "family": item["name"], **item}
    if "analysis" in item:
        whole["analysis"] = {"per": "w/w", "contents": item["analysis"], **invented}
    rates = [key for key in ("spray", "dry") if key in item]
    for key in rates:
        whole[key] = ({"usual": item[key]} if isinstance(item[key], str) else item[key]) | invented
    if not rates:
        whole["dry"] = {"usual": "1 g/m²", **invented}
    if "solubility" in item:
        whole["solubility"] = item["solubility"] | invented
    return whole


def _lines(item: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    line = {key: value for key, value in item.items() if key != "again"}
    again: Mapping[str, int] = item.get("again", {"every": 0, "times": 1})
    line = {"date": DAY, "method": "dry", **line}
    for count in range(again["times"]):
        numbered = {"note": str(count + 1)} if "again" in item else {}
        yield line | {"date": line["date"] + timedelta(days=again["every"] * count)} | numbered


DAY: Final = yaml.safe_load("2026-05-01")
"""The date of a line that names none."""
LISTS: Final = ("products", "lawns", "sprayers", "programme", "shelf", "diary", "scores")


def files_of(chosen: Sequence[Vector], units: str) -> tuple[str, str]:
    """The texts of a user's lawns.yaml and of the products that go with it, with all that the vectors add."""
    site = {"name": "House of worked examples", "units": units, "currency": "EUR", "season starts": "1 January"}
    lists: dict[str, list[Any]] = {
        kind: [one for vector in chosen for item in vector.inputs.get(kind, ()) for one in expanded(kind, item)]
        for kind in LISTS
    }
    lists["diary"].sort(key=lambda line: line["date"])  # as a diary is written: one that is not says so in its flags
    mix: dict[str, Any] = {}
    for vector in chosen:
        own = vector.inputs.get("mix", {})
        mix |= own | {"products": mix.get("products", []) + own.get("products", [])}
    lawns = {"site": site | {"as of": yaml.safe_load("2026-12-31")}, "catalogue": ["products.yaml"], "mix": mix}
    products = {"products": lists.pop("products")}
    return _text(lawns | lists), _text(products)


def _text(data: Mapping[str, Any]) -> str:
    return yaml.dump(data, Dumper=_Plain, allow_unicode=True, sort_keys=False, width=10_000)


class _Plain(yaml.SafeDumper):
    def ignore_aliases(self, _data: object) -> bool:
        return True
