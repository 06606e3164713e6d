"""Visits that nobody listed, drawn at random, against what is written out here in whole fractions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from support.small_diary import NO, column_of, line, on, planner

AREAS: Final = {"Front": 100, "Back": 200}
SALTY: Final = {"Iron salt": (True, Fraction(1), 100), "Iron brew": (False, Fraction(200, 1000), 100),
                "Urea": (True, Fraction(1), 75)}  # fmt: skip
"""By product: whether it is a solid, grams of salt in a gram or a millilitre, salt index."""
NITROGEN: Final = {"Iron salt": Fraction(0), "Iron brew": Fraction(20, 1000), "Urea": Fraction(460, 1000)}
IRON: Final = {"Iron salt": Fraction(200, 1000), "Iron brew": Fraction(60, 1000), "Urea": Fraction(0)}
ASK_STOP: Final[dict[str, tuple[Fraction | int, Fraction | int]]] = {
    "salts": (50, 100),
    "salt_load": (10, 20),
    "nitrogen": (6, 9),
    "iron": (Fraction(34, 100), Fraction(98, 100)),
}
"""Those of the small diary, in whole fractions."""


RISKS: Final = {"salts": ("g/L", "salt in the spray"), "salt_load": ("g/m**2", "salt on the grass"),
                "nitrogen": ("g_N/m**2", "soluble nitrogen in one visit"),
                "iron": ("g_Fe/m**2", "iron in one visit")}  # fmt: skip
"""What is held to limits: its unit, and what is said beyond them."""


@dataclass(frozen=True)
class Sprayed:
    """One drawn line. None is not noted."""

    day: int
    lawn: str
    product: str
    method: str
    measured: int
    water: int | None
    left: int | None
    area: int | None
    wind: int | None
    air: int | None

    @property
    def written(self) -> list[Any]:
        amount = "weighed" if SALTY[self.product][0] else "poured"
        noted = {"water": self.water, "left_over": self.left, "treated_area": self.area, "wind": self.wind,
                 "air_temperature": self.air, amount: self.measured}  # fmt: skip
        return line(on(4, self.day), self.lawn, self.product, self.method,
                    **{key: float(one) for key, one in noted.items() if one is not None})  # fmt: skip

    @property
    def treated(self) -> Fraction:
        return Fraction(AREAS[self.lawn] if self.area is None else self.area)

    @property
    def applied(self) -> Fraction:
        """What left the tank of it; nothing where more was left over than made."""
        noted = self.water and self.left
        return max(
            Fraction(0), self.measured * (1 - Fraction(self.left or 0, self.water or 1) if noted else Fraction(1))
        )


def maybe(*values: int) -> st.SearchStrategy[int | None]:
    return st.sampled_from([None, *values])


SPRAYED: Final = st.builds(
    Sprayed,
    day=st.integers(1, 2),
    lawn=st.sampled_from([*AREAS]),
    product=st.sampled_from([*SALTY]),
    method=st.sampled_from(["spray", "spray", "Spray", "dry", ""]),
    measured=st.sampled_from([0, 1, 70, 170, 250, 490, 500, 501, 1000, 2000]),
    water=maybe(0, 4, 5, 10, 20),
    left=maybe(0, 1, 5, 6),
    area=maybe(50, 100),
    wind=maybe(0, 2, 10, 11, 14, 15),
    air=maybe(-3, 2, 27, 28, 31, 36),
)


def visits(lines: Sequence[Sprayed]) -> Iterator[dict[int, Sprayed]]:
    """The sprayed lines of each lawn and day, by their places in the diary."""
    for key in dict.fromkeys((one.lawn, one.day) for one in lines):
        places = [at for at, one in enumerate(lines) if (one.lawn, one.day) == key and one.method.lower() != "dry"]
        if places:
            yield {at: lines[at] for at in places}


def strength(visit: Sequence[Sprayed]) -> Fraction | None:
    """Grams of salt in a litre of the last one's load, with the first load of each other product beside it.

    None where neither it nor the first line has water; a load without has no strength that is known.
    """
    *_, own = visit

    def of(one: Sprayed) -> Fraction:
        water = one.water or visit[0].water
        return one.measured * SALTY[one.product][1] / water if water else Fraction(0)

    if not (own.water or visit[0].water):
        return None
    others = {one.product: one for one in reversed(visit) if one.product != own.product}
    return of(own) + sum(map(of, others.values()), Fraction(0))


def brought(visit: Sequence[Sprayed]) -> dict[str, Fraction | None]:
    by_area = [(one.product, one.applied / one.treated) for one in visit]
    return {
        "salts": strength(visit),
        "salt_load": sum((rate * SALTY[name][1] * SALTY[name][2] / 100 for name, rate in by_area), Fraction(0)),
        "nitrogen": sum((rate * NITROGEN[name] for name, rate in by_area), Fraction(0)),
        "iron": sum((rate * IRON[name] for name, rate in by_area), Fraction(0)),
    }


def said_of(visit: Sequence[Sprayed]) -> list[str]:
    found = []
    for risk, figure in brought(visit).items():
        ask, stop = ASK_STOP[risk]
        if figure is not None:
            over = figure >= stop if risk == "iron" else figure > stop
            found += [f"; {'too much' if over else 'much'} {RISKS[risk][1]}"] * (over or figure > ask)
    return found


def weather_of(visit: Sequence[Sprayed]) -> str:
    """What is said of the last one's weather; of iron in heat where it or one above had iron, by the air noted first.

    That air counts only where none is noted beside it.
    """
    *_, one = visit
    iron = any(two.applied * IRON[two.product] > 0 for two in visit)
    air = visit[0].air if one.air is None else one.air
    found = []
    if one.wind is not None:
        found += ["; too much wind"] * (one.wind >= 14.5) + ["; much wind"] * (10 < one.wind < 14.5)
        found += ["; hardly any wind"] * (one.wind < 2)
    if one.air is not None:
        found += ["; too hot"] * (one.air > 35) + ["; hot"] * (30 < one.air <= 35) + ["; cold"] * (one.air < 2)
    found += ["; iron in heat"] * (iron and air is not None and air > 27)
    return "".join(found)


SPREAD: Final = {"nitrogen": ("g_N/m**2", NITROGEN), "iron": ("g_Fe/m**2", IRON)}
"""What a dressing is judged by: its unit, and what is in a gram or a millilitre of each product."""


def dressing_said(brought: dict[str, Fraction]) -> str:
    """Above 5 g N/m² of soluble nitrogen; above 2 g Fe/m² of iron, and from 4 too much."""
    said = "; more soluble nitrogen than one dry dressing should bring" if brought["nitrogen"] > 5 else ""
    if brought["iron"] > 2:
        said += f"; {'too much' if brought['iron'] >= 4 else 'much'} iron in one dry dressing"
    return said


@given(st.lists(SPRAYED, min_size=1, max_size=7))
def test_drawn_visits_are_judged_as_they_are_written_out(lines: list[Sprayed]) -> None:
    """Each line with those of its visit above it, and with no other."""
    model = planner([one.written for one in lines])
    told = {key: column_of(model, f"flag_{key}") for key in ("visit", "conditions")}
    figures = {risk: column_of(model, f"visit_{risk}", of[0]) for risk, of in RISKS.items()}
    for visit in visits(lines):
        for number, place in enumerate(visit, 1):
            above = list(visit.values())[:number]
            assert told["visit"][place] == "".join(said_of(above))
            assert told["conditions"][place] == weather_of(above)
            for risk, figure in brought(above).items():
                expected = NO if figure is None else float(figure)
                assert figures[risk][place] == pytest.approx(expected, rel=1e-9, abs=1e-12, nan_ok=True)


@given(st.lists(SPRAYED, min_size=1, max_size=7))
def test_drawn_dressings_are_judged_as_one_by_lawn_and_day(lines: list[Sprayed]) -> None:
    """Half of the lines are spread dry that were sprayed; each is judged with those of its dressing above it."""
    lines = [replace(one, method="Dry") if place % 2 == 0 else one for place, one in enumerate(lines)]
    model = planner([one.written for one in lines])
    told = {key: column_of(model, f"flag_{key}") for key in ("visit", "conditions")}
    figures = {what: column_of(model, f"visit_{what}", unit) for what, (unit, _) in SPREAD.items()}
    for place, one in enumerate(lines):
        if one.method.lower() != "dry":
            continue
        key = one.lawn, one.day
        above = [two for two in lines[: place + 1] if (two.lawn, two.day) == key and two.method.lower() == "dry"]
        brought_there = {
            what: sum((two.applied / two.treated * content[two.product] for two in above), Fraction(0))
            for what, (_, content) in SPREAD.items()
        }
        assert (told["visit"][place], told["conditions"][place]) == (dressing_said(brought_there), "")
        for what, figure in brought_there.items():
            assert figures[what][place] == pytest.approx(float(figure), rel=1e-9, abs=1e-12)


@given(st.lists(st.tuples(st.integers(1, 40), SPRAYED), min_size=1, max_size=9))
def test_drawn_intervals_and_numbers_are_of_the_lines_above(drawn: list[tuple[int, Sprayed]]) -> None:
    """Days since the latest earlier day of the family on the lawn, and how many days of its method were in the season.

    The season began on 1 March; the lines are of April and May, in any order.
    """
    family = {"Iron salt": "iron", "Iron brew": "iron", "Urea": "urea"}
    lines = [replace(one, day=day) for day, one in drawn]
    rows = [[on(4, 1) + one.day, *one.written[1:]] for one in lines]
    model = planner(rows)
    since, number = column_of(model, "days_since", "day"), column_of(model, "number_this_season")
    for place, one in enumerate(lines):
        above = [
            two for two in lines[: place + 1] if (two.lawn, family[two.product]) == (one.lawn, family[one.product])
        ]
        earlier = [two.day for two in above if two.day < one.day]
        assert since[place] == pytest.approx(one.day - max(earlier) if earlier else NO, nan_ok=True)
        dry = one.method.lower() == "dry"
        assert number[place] == len(
            {two.day for two in above if two.day <= one.day and (two.method.lower() == "dry") == dry}
        )
