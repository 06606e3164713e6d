"""What a planner should say of a site on a day: worked out of its lawns.yaml by the definitions alone.

Nothing of wbgen is used here, so that what it says can be held against this. Nitrogen is in g/m² throughout.
"""

from __future__ import annotations

import calendar
import math
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache, cached_property
from pathlib import Path
from typing import Any, Final

import yaml

SITES: Final = {path.stem: path for path in sorted((Path(__file__).parent / "year_sites").glob("*.yaml"))}
MONTH_NAMES: Final = list(calendar.month_name)[1:]

OWN_MONTHS: Final = """\
products:
  - {name: sulphate of ammonia, months: [9, 10, 11, 12, 1, 2, 3, 4]}
  - {name: Seaweed extract, months: {value: [12], basis: label}}
"""
"""A catalogue file of the southern site's own, with nothing but the months of known products."""

MASS: Final = {"g": 1.0, "kg": 1000.0, "oz": 28.349523125, "lb": 453.59237}
AREA: Final = {"m²": 1.0, "ft²": 0.09290304}
PER_THOUSAND: Final = MASS["lb"] / (1000 * AREA["ft²"])
"""A pound on a thousand square feet, in g/m²."""
SHARE: Final = {"Ammonium sulphate": 0.21, "Urea": 0.46, "Slow-release granule 24-0-10": 0.24}
"""The nitrogen in the products; what else is put on has none."""
USUAL: Final = {
    "Ammonium sulphate": 2.5 * SHARE["Ammonium sulphate"],
    "Urea": 0.1 * PER_THOUSAND,
    "Slow-release granule 24-0-10": 0.5 * MASS["oz"] / (9 * AREA["ft²"]) * SHARE["Slow-release granule 24-0-10"],
}
"""The nitrogen of one visit at the usual rate: 25 kg/ha, 0.1 lb N/1000 ft² and half an ounce a square yard."""
HARDLY: Final = 0.1
"""At this growth potential or less the grass hardly grows."""
FEEDING: Final = 0.1
"""From so much nitrogen on, one visit asks for growth."""
MARGIN: Final = timedelta(days=7)
"""So long before and after its dates a visit counts for a line of the programme."""


def number(text: str) -> tuple[float, str]:
    figure, _, unit = text.partition(" ")
    return float(figure), unit


def rate(text: str) -> float:
    """A rate by area, in g/m²."""
    figure, unit = number(text)
    return figure * {"g/m²": 1.0, "lb/1000 ft²": PER_THOUSAND}[unit]


@dataclass(frozen=True)
class Lawn:
    name: str
    area: float
    grass: str
    group: str
    target: float


@dataclass(frozen=True)
class Line:
    """A line of the programme; `nitrogen` is that of one visit."""

    product: str
    lawns: tuple[Lawn, ...]
    days: tuple[date, ...]
    step: float
    nitrogen: float


@dataclass(frozen=True)
class Site:
    """One of SITES."""

    name: str

    @cached_property
    def said(self) -> dict[str, Any]:
        found: dict[str, Any] = yaml.safe_load(SITES[self.name].read_text("utf-8"))
        return found

    @cached_property
    def lawns(self) -> tuple[Lawn, ...]:
        return tuple(
            Lawn(one["name"], number(one["area"])[0] * AREA[number(one["area"])[1]], one["grass"],
                 one.get("group", ""), rate(one["targets"]["N"]))
            for one in self.said["lawns"]
        )  # fmt: skip

    @cached_property
    def programme(self) -> tuple[Line, ...]:
        return tuple(self._line(one) for one in self.said["programme"])

    def _line(self, one: dict[str, Any]) -> Line:
        wanted = [lawn for lawn in self.lawns if one.get("lawn", lawn.name) == lawn.name
                  and one.get("group", lawn.group) == lawn.group]  # fmt: skip
        first, last = one["first"], one["last"]
        if "times" in one:
            times = one["times"]
            step = (last - first).days / (times - 1) if times > 1 else math.nan
        else:
            step = number(one["every"])[0]
            times = (last - first).days // int(step) + 1
        days = tuple(first + timedelta(days=math.floor(step * turn + 0.5)) if turn else first for turn in range(times))
        product = one["product"]
        brings = rate(one["rate"]) * SHARE.get(product, 0.0) if "rate" in one else USUAL.get(product, 0.0)
        return Line(product, tuple(wanted), days, step, brings)

    # --- the season ------------------------------------------------------------------------------------------------

    def starts(self, day: date) -> date:
        """The latest start of a season that is not after the day."""
        on, month = self.said["site"]["season starts"].split()
        this = date(day.year, MONTH_NAMES.index(month) + 1, int(on))
        return this if this <= day else this.replace(year=this.year - 1)

    def ends(self, day: date) -> date:
        """The start of the next season."""
        start = self.starts(day)
        return start.replace(year=start.year + 1)

    def months(self, day: date) -> list[tuple[int, int]]:
        """The twelve months of the season, as year and month."""
        start = self.starts(day)
        return [(start.year + (start.month - 1 + turn) // 12, (start.month - 1 + turn) % 12 + 1) for turn in range(12)]

    # --- growth ----------------------------------------------------------------------------------------------------

    @cached_property
    def means(self) -> list[float]:
        found = [number(text) for text in self.said["months"]["mean temperatures"]]
        return [figure if unit == "degC" else (figure - 32) / 1.8 for figure, unit in found]

    def growth(self, grass: str, month: int) -> float:
        """Gelernter and Stowell 2005, as M. Woods has it: best at 20 and 31 °C, 5.5 and 7 degrees wide."""
        best, wide = (31.0, 7.0) if grass == "warm season" else (20.0, 5.5)
        return math.exp(-(((self.means[month - 1] - best) / wide) ** 2) / 2)

    def slow(self, line: Line, day: date) -> list[str]:
        """The lawns of a line on which nitrogen goes on a day though their grass hardly grows."""
        fed = line.nitrogen >= FEEDING
        return [one.name for one in line.lawns if fed and self.growth(one.grass, day.month) <= HARDLY]

    # --- nitrogen --------------------------------------------------------------------------------------------------

    @cache  # noqa: B019 - there are two sites
    def fed(self, lawn: Lawn) -> tuple[tuple[date, float], ...]:
        """The days on which the diary has nitrogen for the lawn, and how much."""
        found = []
        for one in self.said["diary"]:
            if one["lawn"] == lawn.name and one["product"] in SHARE:
                figure, unit = number(one["measured"])
                found.append((one["date"], figure * MASS[unit] * SHARE[one["product"]] / lawn.area))
        return tuple(found)

    def applied(self, lawn: Lawn, day: date, month: int = 0) -> float:
        """What the lawn has had this season up to the day, of all months or of one."""
        start = self.starts(day)
        return sum(much for on, much in self.fed(lawn) if start <= on <= day and month in (0, on.month))

    def should(self, lawn: Lawn, day: date) -> list[float]:
        """The target split over the months of the season by growth and days, but for the closed ones."""
        closed = self.said["months"].get("closed", [])
        weights = [
            0.0 if month in closed else self.growth(lawn.grass, month) * calendar.monthrange(year, month)[1]
            for year, month in self.months(day)
        ]
        return [lawn.target * one / sum(weights) for one in weights]

    def planned(self, lawn: Lawn, day: date) -> list[float]:
        """What the programme brings the lawn in each month of the season."""
        inside = [
            (on.month, line.nitrogen)
            for line in self.programme if lawn in line.lawns
            for on in line.days if self.starts(day) <= on < self.ends(day)
        ]  # fmt: skip
        return [sum(much for of, much in inside if of == month) for _, month in self.months(day)]

    # --- what is due -----------------------------------------------------------------------------------------------

    def last(self, line: Line) -> date:
        """The last date that a line may have, which its dates need not reach."""
        found: date = self.said["programme"][self.programme.index(line)]["last"]
        return found

    def done(self, line: Line, lawn: Lawn, day: date) -> list[date]:
        """The days on which the line's product went on the lawn, within its time."""
        since, until = line.days[0] - MARGIN, min(day, self.last(line) + MARGIN)
        found = {one["date"] for one in self.said["diary"]
                 if (one["lawn"], one["product"]) == (lawn.name, line.product)}  # fmt: skip
        return sorted(on for on in found if since <= on <= until)

    def next_due(self, line: Line, lawn: Lawn, day: date) -> date | None:
        """The day on which the line is due next on the lawn; None where it is done, over, or past its end."""
        done, last = self.done(line, lawn, day), self.last(line)
        if len(done) >= len(line.days) or day > last:
            return None
        if not done:
            return line.days[0]
        if math.isnan(line.step):
            return None
        found = done[-1] + timedelta(days=math.floor(line.step + 0.5))
        return found if found <= last else None

    def state(self, line: Line, lawn: Lawn, day: date) -> str:
        due = self.next_due(line, lawn, day)
        if len(self.done(line, lawn, day)) >= len(line.days):
            return "done"
        if due is None:
            return "missed"
        return "overdue" if due < day else "due" if due <= day + timedelta(days=14) else "later"

    def to_come(self, line: Line, lawn: Lawn, day: date) -> int:
        """How many visits of the line are still to come on the lawn before the season ends, from the day on."""
        due = self.next_due(line, lawn, day)
        if due is None:
            return 0
        begin, end = max(due, day), min(self.last(line), self.ends(day) - timedelta(days=1))
        if math.isnan(line.step) or line.step == 0:
            return int(begin < self.ends(day))
        fitting = math.floor((end - begin).days / line.step + 1e-6) + 1
        return max(0, min(len(line.days) - len(self.done(line, lawn, day)), fitting))

    def end(self, lawn: Lawn, day: date) -> float:
        """What the lawn will have had at the end of the season."""
        coming = (line.nitrogen * self.to_come(line, lawn, day) for line in self.programme if lawn in line.lawns)
        return self.applied(lawn, day) + sum(coming)
