"""What meets on a day of the programme, against a plain reckoning of every pair of its products."""

from __future__ import annotations

from typing import Any, NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from support.small_programme import line, on, shown, site
from wbgen.trade.families import family
from wbgen.trade.tank_rules import TRAIT_RULES, TRAITS

GREENS = {"Front", "Side"}
"""The lawns of the group; Back and Strip are in none."""
PLACES: dict[str, dict[str, Any]] = {
    "all": {}, "greens": {"group": "Greens"}, "Front": {"lawn": "Front"}, "Side": {"lawn": "Side"},
    "Back": {"lawn": "Back"}, "Strip": {"lawn": "Strip"},
}  # fmt: skip
NAMES = [f"Product {number}" for number in range(1, 13)]
RULED = sorted({trait.key for trait in family("tank_traits")} | {"live_brew"})
Traits = dict[str, set[str]]


class Going(NamedTuple):
    """A product that goes somewhere on a day of May."""

    product: str
    place: str
    day: int


def lawns_of(place: str) -> set[str]:
    return {"all": {"Front", "Side", "Back", "Strip"}, "greens": GREENS}.get(place, {place})


def met(first: set[str], second: set[str], levels: dict[Any, float]) -> float:
    """The worst rule of two products with these properties."""
    found = [0.0]
    for rule in TRAIT_RULES:
        for one, other in ((first, second), (second, first)):
            there = "live_brew" not in other if rule.second == "not_live" else rule.second in other
            found += [levels[rule]] * (rule.first in one and there)
    return max(found)


def expected(going: list[Going], traits: Traits, levels: dict[Any, float]) -> list[float]:
    """The worst of all pairs that share a day and a lawn; 3 where a product has more than nine others beside it."""
    found = []
    for own in going:
        near = {
            one.product
            for one in going
            if one.day == own.day and lawns_of(one.place) & lawns_of(own.place) and one.product != own.product
        }
        worst = max([met(traits[own.product], traits[other], levels) for other in near], default=0.0)
        found.append(3.0 if len(near) > 9 else worst)
    return found


def season(going: list[Going], traits: Traits, levels: dict[Any, float]) -> Any:
    lines = [line(one.product, times=1.0, first=on(5, one.day), **PLACES[one.place]) for one in going]
    has: dict[str, Any] = {
        f"products__property_{key}": ("text", ["yes" if key in traits[name] else "" for name in NAMES])
        for key in TRAITS
    }
    rules: dict[str, Any] = {
        f"rules__level_{rule.first}_with_{rule.second}": ("", level) for rule, level in levels.items()
    }
    return site(*lines, wide=True, products__name=("text", NAMES), **has, **rules)


USUAL = {rule: float(rule.level) for rule in TRAIT_RULES}
drawn_traits = st.fixed_dictionaries({name: st.sets(st.sampled_from(RULED), max_size=3) for name in NAMES})
drawn_going = st.lists(
    st.builds(Going, st.sampled_from(NAMES), st.sampled_from(list(PLACES)), st.integers(1, 2)), min_size=1, max_size=13
)
drawn_levels = st.fixed_dictionaries({rule: st.sampled_from([float(rule.level), 0.0, 1.0, 2.0]) for rule in USUAL})


@given(drawn_going, drawn_traits, drawn_levels)
def test_every_date_has_the_worst_of_its_pairs(
    going: list[Going], traits: Traits, levels: dict[Any, float]
) -> None:  # fmt: skip
    found = season(going, traits, levels)
    assert list(found.column("applications", "level"))[: len(going)] == expected(going, traits, levels)


@pytest.mark.parametrize("others", [9, 10])
@pytest.mark.parametrize("place", list(PLACES))
def test_too_many_products_are_said_not_passed_over(place: str, others: int) -> None:
    """Calcium among so many others, of which the last has sulphate: beside nine it is seen, beside ten it is said."""
    names = NAMES[: others + 1]
    going = [Going(name, place, 1) for name in names]
    traits: Traits = {name: set() for name in NAMES} | {names[0]: {"calcium"}, names[-1]: {"sulphate"}}
    found = season(going, traits, USUAL)
    level = 2.0 if others == 9 else 3.0
    middle = 0.0 if others == 9 else 3.0
    assert list(found.column("applications", "level"))[: others + 1] == [level, *[middle] * (others - 1), level]
    unseen = "too many products on 1 of its days to hold them against one another"
    words = "1 date with something it must not meet" if others == 9 else unseen
    assert found.column("programme", "meets")[0] == words
    if others > 9:
        assert unseen in found.column("programme", "line_verdict")[1]
        said = "too many products this day to hold them against one another"
        assert set(shown(found, "timeline", "date_words")) == {said}


def test_many_lawns_with_one_product_each_day_are_one() -> None:
    """Every place gets the same two products: they are two, wherever one looks."""
    going = [Going(name, place, 1) for place in PLACES for name in NAMES[:2]]
    traits: Traits = {name: set() for name in NAMES} | {NAMES[0]: {"calcium"}, NAMES[1]: {"citrate"}}
    found = season(going, traits, USUAL)
    assert shown(found, "applications", "together") == [2.0] * 12
    assert shown(found, "applications", "level") == [1.0] * 12
    assert shown(found, "applications", "stands")[:2] == [0.0, 0.0]
    assert len(shown(found, "applications", "stands")) == 2


def test_a_product_does_not_meet_itself() -> None:
    """A gypsum has both properties of a rule, and goes on twice that day."""
    going = [Going(NAMES[0], "all", 1), Going(NAMES[0], "Front", 1)]
    traits: Traits = {name: set() for name in NAMES} | {NAMES[0]: {"calcium", "sulphate"}}
    assert shown(season(going, traits, USUAL), "applications", "level") == [0.0, 0.0]


def test_an_unknown_product_meets_nothing_here() -> None:
    """Its line says that it is unknown."""
    found = site(line("Lost", times=1.0), line("Calcium nitrate", times=1.0))
    level = found.column("applications", "level")
    assert level[0] != level[0]
    assert level[1] == 0.0
    assert found.column("programme", "line_state")[0] == "unknown product"
