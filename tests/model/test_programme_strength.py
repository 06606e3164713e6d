"""How strong the lines of the programme are: rates, salts, and what all of one day bring to a lawn by one method."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from support.small_programme import line, on, shown, site
from support.tables import NO, is_close
from wbgen.model.binding import Model

FINE = "nothing against it here"
DRESSED = "more soluble nitrogen than one dry dressing should bring"
ONCE: dict[str, Any] = {"times": 1.0, "first": on(5, 1), "last": on(5, 1)}
CONTENTS: dict[str, Any] = {
    "products__share_nitrogen": ("g_N/g", [0.46, NO, 0.155]),
    "products__mass_content_iron": ("g_Fe/kg", [NO, 200.0]),
    "products__dry_least_interval": ("day", [28.0, 28.0, 28.0]),
}


def once(product: str = "Urea", **more: Any) -> dict[str, Any]:
    """One date, the first of May, on the Front unless it says otherwise."""
    where = {} if "group" in more or "lawn" in more else {"lawn": "Front"}
    return line(product, **{**ONCE, **where, **more})


def verdicts(*lines: dict[str, Any], **more: Any) -> list[str]:
    return list(shown(site(*lines, **{**CONTENTS, **more}), "programme", "line_verdict"))


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"own_rate_mass": 9.0}, FINE),
        ({"own_rate_mass": 9.0 + 4e-10}, FINE),
        ({"own_rate_mass": 9.001}, "over the label rate"),
        ({"own_rate_mass": 9.001, "method": "Dry"}, FINE),
        ({"own_rate_mass": 10.001, "method": "dry"}, "over the label rate"),
    ],
)
def test_a_rate_is_held_to_the_highest_of_its_method(more: dict[str, Any], said: str) -> None:
    highs: dict[str, Any] = {
        "products__spray_mass_high": ("g/m**2", [9.0]),
        "products__dry_mass_high": ("g/m**2", [10]),
    }
    wide = {**highs, "limits__ask_nitrogen": ("g_N/m**2", NO), "limits__ask_salts": ("g/L", NO)}
    wide["limits__stop_salts"] = ("g/L", NO)
    assert verdicts(once(**more), **wide) == [said]


@pytest.mark.parametrize("practice", ["spray", "dry"])
def test_over_a_rate_that_is_practice_it_is_said_so_for_that_method_alone(practice: str) -> None:
    held: dict[str, Any] = {f"products__{practice}_practice": ("text", ["Yes"])}
    for method in ("spray", "dry"):
        more: dict[str, Any] = {f"products__{method}_mass_high": ("g/m**2", [1.0])}
        words = "over the usual range" if method == practice else "over the label rate"
        assert verdicts(once(own_rate_mass=1.001, method=method), **held, **more) == [words]
        if method == practice:
            assert verdicts(once(own_rate_mass=2.0, method=method), **held, **more) == [words]
            assert verdicts(once(own_rate_mass=2.001, method=method), **held, **more) == ["far over the usual range"]


def test_a_liquid_and_a_dilution_are_held_to_theirs() -> None:
    """50 mL/L at 600 L/ha are 3 mL/m²."""
    fixed: dict[str, Any] = {"products__spray_volume_high": ("mL/m**2", [NO, NO, NO, 3.0])}
    diluted: dict[str, Any] = {
        "products__spray_volume_high": ("mL/m**2", []), "products__diluted_volume_high": ("mL/L", [NO, NO, NO, 50.0]),
    }  # fmt: skip
    for high in (fixed, diluted):
        assert verdicts(once("Brew", own_rate_volume=3.0), **high) == [FINE]
        assert verdicts(once("Brew", own_rate_volume=3.01), **high) == ["over the label rate"]


@pytest.mark.parametrize(
    ("rate", "said"),
    [
        (4.0, FINE),
        (4.01, "much salt in the spray"),
        (8.0, "much salt in the spray"),
        (8.01, "too much salt in the spray"),
    ],
)
def test_salts_go_by_the_carrier_volume_of_the_line(rate: float, said: str) -> None:
    """4 g/m² in the usual 800 L/ha are 50 g/L, which is still allowed; in twice that they are half."""
    wide: dict[str, Any] = {f"limits__{which}_nitrogen": ("g_N/m**2", NO) for which in ("ask", "stop")}
    assert verdicts(once(own_rate_mass=rate), **wide) == [said]
    assert verdicts(once(own_rate_mass=rate * 2, own_carrier=1600.0), **wide)[0] == said
    assert "salt" not in verdicts(once(own_rate_mass=rate * 2, method="dry"), **wide)[0]
    unknown: dict[str, Any] = {**wide, "products__usual_carrier": ("L/ha", [])}
    assert verdicts(once(own_rate_mass=rate), **unknown) == [FINE]


def test_a_liquid_has_the_salts_that_are_dissolved_in_it() -> None:
    """3 mL/m² in 600 L/ha are 50 mL/L; of 1100 g/L that is 55 g/L."""
    for solids, said in ((900.0, FINE), (1100.0, "much salt in the spray")):
        assert verdicts(once("Brew"), products__solids_counted=("g/L", [NO, NO, NO, solids])) == [said]


def test_dry_products_of_one_day_are_one_dressing() -> None:
    """4.6 g N/m² of urea and 3 g/m² of calcium nitrate: 5.065. Each line alone is under 5."""
    urea, nitrate = once(method="dry"), once("Calcium nitrate", method="dry", own_rate_mass=3.0)
    iron = once("Iron salt", method="dry", own_rate_mass=1.0)
    assert shown(site(urea, nitrate, iron, **CONTENTS), "programme", "too_much") == [DRESSED, DRESSED]
    assert verdicts(urea, nitrate) == [DRESSED, DRESSED]
    assert verdicts(urea) == verdicts(nitrate) == [FINE]
    for other in ({"first": on(5, 2), "last": on(5, 2)}, {"lawn": "Back"}, {"method": "spray"}):
        assert verdicts(urea, {**nitrate, **other}) == [FINE, FINE]


@pytest.mark.parametrize(
    ("rate", "said"),
    [
        (10.0, FINE), (10.01, "much iron in one dry dressing"), (20.0, "too much iron in one dry dressing"),
        (35.0, "too much iron in one dry dressing"),
    ],
)  # fmt: skip
def test_iron_spread_dry_is_said_at_once(rate: float, said: str) -> None:
    """35 g/m² of a fifth of iron are 7 g Fe/m²; a line without a date is judged too."""
    assert verdicts(once("Iron salt", method="dry", own_rate_mass=rate)) == [said]
    dateless = verdicts(once("Iron salt", method="dry", own_rate_mass=rate, first=NO))[0]
    assert dateless == "; ".join(["give first and last date", *([said] if said != FINE else [])])


@pytest.mark.parametrize(("rate", "said"), [(1.7, ""), (1.71, "much"), (4.89, "much"), (4.9, "too much")])
def test_iron_sprayed_has_the_limits_of_a_mix(rate: float, said: str) -> None:
    wide: dict[str, Any] = {"limits__ask_salts": ("g/L", NO), "limits__stop_salts": ("g/L", NO)}
    found = verdicts(once("Iron salt", own_rate_mass=rate), **wide)
    assert found == [f"{said} iron in one visit" if said else FINE]


def test_soluble_nitrogen_sprayed_has_the_limits_of_a_mix() -> None:
    """Half of it slow, half of it counts: 0.23 of the rate."""
    wide: dict[str, Any] = {"limits__ask_salts": ("g/L", NO), "limits__stop_salts": ("g/L", NO)}
    for rate, said in ((5.43, FINE), (5.44, "much"), (11.95, "much"), (11.96, "too much")):
        words = said if said == FINE else f"{said} soluble nitrogen in one visit"
        assert verdicts(once(own_rate_mass=rate), **wide) == [words]
        slow: dict[str, Any] = {**wide, "products__slow_nitrogen": ("g_N/g", [0.23])}
        assert verdicts(once(own_rate_mass=2 * rate), **slow) == [words]


def test_what_is_not_stated_is_asked_about_and_never_fine() -> None:
    none: dict[str, Any] = {f"products__{way}_{level}": ("", []) for way in ("spray", "dry") for level in
                            ("low", "usual", "high")}  # fmt: skip
    assert verdicts(once(), **none) == ["ask first: no spray rate stated"]
    assert verdicts(once(method="dry"), **none) == ["ask first: no dry rate stated"]
    unknown: dict[str, Any] = {"products__spray_mass_high": ("g/m**2", [])}
    assert verdicts(once(), **unknown) == ["ask first: the label's highest rate is not known"]
    assert verdicts(once("Gypsum"), **none)[0].startswith("unknown product")


GROUP: Final = {"Front": "greens", "Side": "greens", "Back": "", "Strip": ""}
CONTENT: Final = {"Urea": (0.46, 0.0), "Iron salt": (0.0, 0.2), "Calcium nitrate": (0.155, 0.0)}


@dataclass(frozen=True)
class Planned:
    """One drawn line of one date."""

    product: str
    ground: str
    method: str
    rate: int
    day: int

    @property
    def lawns(self) -> set[str]:
        return {lawn for lawn, group in GROUP.items() if self.ground in ("", lawn, group)}

    @property
    def written(self) -> dict[str, Any]:
        ground = {"": {}, "greens": {"group": "Greens"}}.get(self.ground, {"lawn": self.ground})
        day = on(5, self.day)
        return line(self.product, method=self.method, own_rate_mass=float(self.rate), times=1.0, first=day, last=day,
                    **ground)  # fmt: skip


PLANNED: Final = st.builds(
    Planned,
    product=st.sampled_from([*CONTENT]),
    ground=st.sampled_from(["", "", "greens", *GROUP]),
    method=st.sampled_from(["dry", "Dry", "spray"]),
    rate=st.integers(1, 30),
    day=st.integers(1, 2),
)


def most(one: Planned, lines: list[Planned], of: int) -> float:
    """What the lines of its day and method bring to the lawn, of those it goes on, that gets most."""
    beside = [two for two in lines if two.day == one.day and two.method.lower() == one.method.lower()]
    return max(sum(two.rate * CONTENT[two.product][of] for two in beside if lawn in two.lawns) for lawn in one.lawns)


@given(st.lists(PLANNED, min_size=1, max_size=5))
def test_drawn_lines_count_with_their_neighbours_on_the_lawn_that_gets_most(lines: list[Planned]) -> None:
    season: Model = site(*(one.written for one in lines), **CONTENTS)
    for place, (key, unit) in enumerate((("day_nitrogen", "g_N/m**2"), ("day_iron", "g_Fe/m**2"))):
        expected = [most(one, lines, place) for one in lines]
        assert is_close(season.column("programme", key).to(unit).magnitude[: len(lines)], expected)
