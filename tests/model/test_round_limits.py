"""What must not go on the lawns of a round, and what is to be asked first, worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_programme import AS_OF, line, on, shown, site
from support.tables import NO, is_close
from wbgen.model.binding import Model

Value = Any

MAY: dict[str, Any] = {"months__closed": ("text", ["", "", "", "", "Yes"])}
MUCH, QUICK = "more nitrogen than allowed", "more soluble nitrogen than allowed"


def front(*lines: dict[str, Any], length: float = 1.0, **more: Any) -> Model:
    """A round on the Front (100 m²) from 15 May on; each line is due that day unless it says otherwise."""
    return site(*({"lawn": "Front", **one} for one in lines), round__length=("day", length), **more)


def due(product: str = "Urea", **more: Any) -> dict[str, Any]:
    return line(product, **{"first": AS_OF, **more})


def minded(season: Model) -> list[str]:
    return list(shown(season, "round_lines", "words"))


def per_area(value: float) -> tuple[str, float]:
    return ("g_N/m**2", value)


def test_a_round_that_nothing_speaks_against() -> None:
    season = front(due(), due("Iron salt"))
    assert minded(season) == []
    assert is_close(shown(season, "round_lines", "line_level"), [0, 0])
    assert season.column("round_whole", "lines_stopped") == 0


def test_nothing_is_measured_out_for_what_must_not_go_on() -> None:
    """The urea is due in May, the iron and the brew in June."""
    june = {"first": on(6, 1), "last": on(6, 20)}
    lines = line(), line("Iron salt", **june), line("Brew", **{**june, "first": on(6, 2)})
    season = front(*lines, length=30.0, **MAY, products__months_suited=("text", []))
    assert minded(season) == ["do not: a closed month; overdue"]
    assert is_close(shown(season, "round_lines", "line_level"), [2, 0, 0])
    assert is_close(shown(season, "round_lines", "mass", "g"), [NO, 50])
    assert is_close(shown(season, "round_lines", "volume", "mL"), [NO, NO, 300])
    assert is_close(shown(season, "round_lines", "tank"), [NO, 1, 2])
    assert is_close(shown(season, "round_tanks", "water", "L"), [4.5, 6.5])
    assert is_close(season.column("round_whole", "water_all").to("L").magnitude, 11)
    assert season.column("round_whole", "lines_stopped") == 1
    assert shown(season, "round_products", "product") == ["Iron salt", "Brew"]


def test_what_must_not_go_on_parts_no_tank() -> None:
    """Too much of the calcium nitrate: the iron has its tank alone."""
    label: dict[str, Any] = {"products__spray_mass_high": ("g/m**2", [NO, 9.0, 1.0])}
    lines = due("Calcium nitrate", own_rate_mass=1.5), due("Iron salt")
    season = front(*lines, **label)
    assert minded(season) == ["do not: over the label rate"]
    assert is_close(shown(season, "round_lines", "tank"), [NO, 1])
    assert is_close(shown(front(*lines), "round_lines", "tank"), [1, 2])


@pytest.mark.parametrize(
    ("first", "length", "closed", "words"),
    [
        (on(5, 1), 1.0, 5, "do not: a closed month; overdue"),
        (on(5, 1), 1.0, 4, "overdue"),
        (on(5, 31), 17.0, 5, "do not: a closed month"),
        (on(6, 1), 18.0, 5, ""),
        (on(6, 1), 18.0, 6, "do not: a closed month"),
    ],
)
def test_the_month_is_that_of_the_day_it_goes_on(first: float, length: float, closed: int, words: str) -> None:
    """What was due on 1 May goes on on the first day of the round, what is due later on its own."""
    months = {"months__closed": ("text", ["yes" if month == closed else "" for month in range(1, 13)])}
    season = front(line(first=first, last=on(6, 20)), length=length, **months)
    assert next(iter(season.column("round_lines", "words"))) == words


@pytest.mark.parametrize(("high", "level"), [(2.0, 0), (2.0 - 4e-10, 0), (1.999, 2), (NO, 1)])
@pytest.mark.parametrize(
    ("product", "column", "unit", "more"),
    [
        ("Urea", "spray_mass_high", "g/m**2", {"own_rate_mass": 2.0}),
        ("Urea", "dry_mass_high", "g/m**2", {"own_rate_mass": 2.0, "method": "Dry"}),
        ("Urea", "diluted_mass_high", "g/L", {"own_rate_mass": 0.2, "own_carrier": 1000.0}),
        ("Brew", "spray_volume_high", "mL/m**2", {"own_rate_volume": 2.0}),
        ("Brew", "diluted_volume_high", "mL/L", {"own_rate_volume": 0.2, "own_carrier": 1000.0}),
    ],
)
def test_over_the_label(product: str, column: str, unit: str, more: dict[str, Any], high: float, level: float) -> None:
    """A dilution of 2 g/L at 1000 L/ha is 0.2 g/m². A highest rate that is not known is asked about."""
    figures = {"Urea": [high], "Brew": [NO, NO, NO, high]}[product]
    fixed: dict[str, Any] = {
        "products__spray_mass_high": ("g/m**2", []),
        "products__spray_volume_high": ("mL/m**2", []),
    }
    label: dict[str, Any] = {**fixed, f"products__{column}": (unit, figures)}
    season = front(due(product, **more), **label)
    assert shown(season, "round_lines", "line_level") == [level]
    assert (minded(season) == ["ask first: the label's highest rate is not known"]) == (level == 1)


def test_a_label_for_one_method_says_nothing_of_the_other() -> None:
    """Fixed rates go before dilutions."""
    only_dry: dict[str, Any] = {"products__dry_mass_high": ("g/m**2", [1.0])}
    only_sprayed: dict[str, Any] = {"products__spray_mass_high": ("g/m**2", [1.0])}
    assert minded(front(due(), **only_dry)) == minded(front(due(method="dry"), **only_sprayed)) == []
    both = {**only_sprayed, "products__diluted_mass_high": ("g/L", [900.0])}
    assert minded(front(due(), **both)) == ["do not: over the label rate"]


def test_over_what_is_practice_only_the_round_asks() -> None:
    high: dict[str, Any] = {
        "products__spray_mass_high": ("g/m**2", [1.0]), "products__spray_practice": ("text", ["yes"]),
    }  # fmt: skip
    assert minded(front(due(own_rate_mass=2.01), **high)) == ["do not: far over the usual range"]
    season = front(due(), **high)
    assert minded(season) == ["ask first: over the usual range"]
    assert shown(season, "round_lines", "line_level") == [1]


DRY: dict[str, Any] = {"products__dry_least_interval": ("day", [28.0] * 3)}
PLACED: dict[str, Any] = {"place__rule": ("text", "By-law 7")}


@pytest.mark.parametrize(("most", "level"), [(1.54, 0), (1.54 - 4e-10, 0), (1.53, 2), (NO, 0)])
def test_nitrogen_of_a_lawn_and_day(most: float, level: float) -> None:
    """2 g/m² of 46 % and 4 g/m² of 15.5 % on one day: 0.92 + 0.62 g N/m². The iron brings none."""
    lines = due(), due("Calcium nitrate", own_rate_mass=4.0), due("Iron salt", method="dry", own_rate_mass=0.5)
    season = front(*lines, **PLACED, **DRY, place__most_nitrogen=per_area(most))
    assert is_close(shown(season, "round_lines", "visit_nitrogen", "g_N/m**2"), [1.54] * 3)
    assert shown(season, "round_lines", "line_level") == [level, level, 0]
    assert minded(season) == ([f"do not: {MUCH} by: By-law 7"] * 2 if level else [])


def test_nitrogen_of_another_day_or_lawn_is_another_visit() -> None:
    lines = due(), due("Calcium nitrate", own_rate_mass=4.0, first=AS_OF + 1), due(lawn="Back")
    season = front(*lines, length=2.0, **PLACED, place__most_nitrogen=per_area(0.92))
    assert is_close(shown(season, "round_lines", "visit_nitrogen", "g_N/m**2"), [0.92, 0.92, 0.62])
    assert minded(season) == []
    slow: dict[str, Any] = {
        "products__slow_nitrogen": ("g_N/g", [0.0, NO, 0.0]), "products__share_nitrogen": ("g_N/g", [0.46, NO, 0.155]),
    }  # fmt: skip
    apart = front(*lines, length=2.0, **slow, place__most_soluble=per_area(0.92))
    assert is_close(shown(apart, "round_lines", "visit_soluble", "g_N/m**2"), [0.92, 0.92, 0.62])
    late = front(line(), due("Calcium nitrate", own_rate_mass=4.0), **PLACED, place__most_nitrogen=per_area(0.92))
    assert minded(late) == [f"do not: {MUCH} by: By-law 7; overdue", f"do not: {MUCH} by: By-law 7"]


@pytest.mark.parametrize(("most", "level"), [(0.77, 0), (0.769, 2), (NO, 0)])
def test_soluble_nitrogen_of_a_lawn_and_day(most: float, level: float) -> None:
    """Half of the urea's nitrogen is slow, all of the brew's: 0.46 of 0.92 g N/m², and 0.31 of 2 g/m² of 15.5 %."""
    slow: dict[str, Any] = {
        "products__slow_nitrogen": ("g_N/g", [0.23, NO, 0.0, 0.02]),
        "products__share_nitrogen": ("g_N/g", [0.46, NO, 0.155, 0.02]),
    }
    lines = due(), due("Calcium nitrate", own_rate_mass=2.0), due("Brew")
    season = front(*lines, **slow, place__most_soluble=per_area(most))
    assert is_close(shown(season, "round_lines", "visit_soluble", "g_N/m**2"), [0.77] * 3)
    assert shown(season, "round_lines", "line_level") == [level, level, 0]
    assert minded(season) == ([f"do not: {QUICK} by: your own rule"] * 2 if level else [])


@pytest.mark.parametrize(
    ("said", "content", "stopped"), [("yes", 50.0, True), ("Yes", 50.0, True), ("", 50.0, False), ("yes", 0.0, False)]
)
def test_phosphorus_on_its_own_line(said: str, content: float, stopped: bool) -> None:
    brought: dict[str, Any] = {"products__mass_content_phosphate": ("g_P2O5/kg", [NO, content])}
    season = front(due(), due("Iron salt"), **brought, place__no_phosphorus=("text", said))
    assert minded(season) == (["", "do not: phosphorus is not allowed by: your own rule"] if stopped else [])


def test_all_that_forbids_is_said_and_nothing_to_ask_beside_it() -> None:
    brought: dict[str, Any] = {
        "products__mass_content_phosphate": ("g_P2O5/kg", [10.0]), "products__spray_mass_high": ("g/m**2", [1.0]),
        "products__slow_nitrogen": ("g_N/g", [0.0]), "products__share_nitrogen": ("g_N/g", [0.46]),
        "lawns__strip": ("text", ["", "Front"]),
    }  # fmt: skip
    limits: dict[str, Any] = {
        **PLACED, **MAY, "place__most_nitrogen": per_area(0.1), "place__most_soluble": per_area(0.2),
        "place__no_phosphorus": ("text", "yes"),
    }  # fmt: skip
    reasons = f"a closed month; {MUCH}; {QUICK}; phosphorus is not allowed by: By-law 7; over the label rate"
    assert minded(front(due(), **brought, **limits)) == [f"do not: {reasons}"]


IRON = "Iron salt"
FAMILY: dict[str, Any] = {"products__family": ("text", ["urea", "iron", "nitrate", "brew", "Iron"])}
"""The humate is of the iron's family, so that what the diary has of it does not count as the line's own visit."""


@pytest.mark.parametrize(
    ("last", "words"),
    [
        (on(5, 2), ["ask first: too soon, 13 days, at least 14"]),
        (on(5, 1), []),
        (AS_OF, []),
        (on(5, 16), []),
        (on(5, 14) + 0.5, ["ask first: too soon, 0.5 days, at least 14"]),
    ],
)
def test_too_soon_after_its_family(last: float, words: list[str]) -> None:
    """What is in the diary for the day itself, or later, was no earlier visit."""
    assert minded(front(due(IRON), diary=[(last, "front", "Humate")], **FAMILY)) == words


def test_the_family_counts_on_its_own_lawn_only() -> None:
    """Another product of the family counts; another lawn, another family or an unknown lawn does not."""
    diary = [(on(5, 10), "Back", IRON), (on(5, 11), "Front", "Urea"), (on(5, 12), "Nowhere", IRON)]
    assert minded(front(due(IRON), diary=diary, **FAMILY)) == []
    of_family = front(due(IRON), diary=[*diary, (on(5, 6), "Front", "Humate"), (on(5, 4), "Front", IRON)], **FAMILY)
    assert is_close(shown(of_family, "round_lines", "days_since", "day"), [9])
    assert minded(of_family) == ["ask first: too soon, 9 days, at least 14"]


def test_a_later_day_is_not_too_soon() -> None:
    """Six days after 10 May it is too soon, fourteen after it is not."""
    diary = [(on(5, 10), "Front", IRON)]
    for first, days in ((on(5, 16), 6), (on(5, 24), 14)):
        season = front(due(IRON, first=first), length=20.0, diary=diary)
        assert is_close(shown(season, "round_lines", "days_since", "day"), [days])
        assert minded(season) == (["ask first: too soon, 6 days, at least 14"] if days == 6 else [])


def test_number_of_the_year() -> None:
    """Four iron visits in the season from 1 March, two loads on one of the days; one before it does not count."""
    days = [on(2, 29), on(3, 1), on(3, 15), on(3, 29), on(3, 29), on(4, 12)]
    fed = [(day, "Front", IRON) for day in days]
    season = front(due(IRON), diary=fed)
    assert is_close(shown(season, "round_lines", "number_this_season"), [5])
    assert minded(season) == ["do not: number reached, this is number 5, at most 4"]
    usual = front(due(IRON), diary=fed, products__number_binds=("text", []))
    assert minded(usual) == ["ask first: number reached, this is number 5, usually at most 4"]
    fewer = front(due(IRON), diary=fed[:-1])
    assert is_close(shown(fewer, "round_lines", "number_this_season"), [4])
    assert minded(fewer) == []
    assert minded(front(due("Brew"), diary=[(on(4, 1), "Front", "Brew")])) == []


def test_each_method_is_counted_by_itself_and_waits_for_both() -> None:
    """Urea may be sprayed every day, and spread dry every four weeks, three times a year."""
    fed = [(on(3, day), "Front", "Urea") for day in (1, 8, 15, 22)]
    methods: dict[str, Any] = {"diary__method": ("text", ["dry", "spray", "Dry", "spray"])}
    sprayed, spread = due(), due(method="dry")
    assert is_close(shown(front(sprayed, diary=fed, **methods), "round_lines", "number_this_season"), [3])
    assert is_close(shown(front(spread, diary=fed, **methods), "round_lines", "number_this_season"), [3])
    late = [*fed, (on(5, 10), "Front", "Urea")]
    more: dict[str, Any] = {"diary__method": ("text", ["dry", "spray", "dry", "dry", "spray"])}
    assert minded(front(sprayed, diary=late, **more)) == []
    assert minded(front(spread, diary=late, **more)) == [
        "ask first: too soon, 5 days, at least 28; number reached, this is number 4, usually at most 3"
    ]


def test_a_dressing_of_too_much_nitrogen_is_asked_about() -> None:
    """11 g/m² of urea are 5.06 g N/m²."""
    much = "more soluble nitrogen than one dry dressing should bring"
    share: dict[str, Any] = {"products__share_nitrogen": ("g_N/g", [0.46])}
    assert minded(front(due(method="dry", own_rate_mass=11.0), **share)) == [f"ask first: {much}"]
    sprayed = "much soluble nitrogen in one visit; too much salt in the spray"
    assert minded(front(due(own_rate_mass=11.0), **share)) == [f"ask first: {sprayed}"]


SOLUBLE: dict[str, Any] = {"products__share_nitrogen": ("g_N/g", [0.46, NO, 0.155])}
FERROUS: dict[str, Any] = {"products__mass_content_iron": ("g_Fe/kg", [NO, 200.0])}
NITROGEN = "more soluble nitrogen than one dry dressing should bring"


@pytest.mark.parametrize(("rate", "asked"), [(6.0, False), (6.4, False), (6.5, True)])
def test_what_is_spread_dry_on_a_lawn_and_day_is_one_dressing(rate: float, asked: bool) -> None:
    """10 g/m² of urea (the usual) are 4.6 g N/m²; 2.58 g/m² of calcium nitrate would be 0.4. The spray is apart."""
    nitrate = due("Calcium nitrate", method="dry", own_rate_mass=rate - 3.9)
    season = front(due(method="dry"), nitrate, due("Calcium nitrate", own_rate_mass=4.0), **SOLUBLE, **DRY)
    brought = 4.6 + (rate - 3.9) * 0.155
    assert is_close(shown(season, "round_lines", "day_soluble", "g_N/m**2"), [brought, brought, 0.62])
    words = [f"ask first: {NITROGEN}"] * 2 if asked else []
    assert [one for one in minded(season) if NITROGEN in one] == words
    assert [one for one in minded(season) if one and NITROGEN not in one] == [
        "ask first: much soluble nitrogen in one visit"
    ]
    other = front(due(method="dry"), {**nitrate, "lawn": "Back"}, **SOLUBLE, **DRY)
    assert minded(other) == []


@pytest.mark.parametrize(
    ("rate", "level", "said"),
    [(10.0, 0, ""), (10.01, 1, "ask first: much"), (19.99, 1, "ask first: much"), (20.0, 2, "do not: too much")],
)
def test_iron_of_a_dressing(rate: float, level: float, said: str) -> None:
    """A fifth is iron: 2 g Fe/m² are still allowed, 4 are too much. Two lines of a day are one dressing."""
    words = f"{said} iron in one dry dressing" if said else ""
    whole = front(due("Iron salt", method="dry", own_rate_mass=rate), **FERROUS, **DRY)
    assert is_close(shown(whole, "round_lines", "line_level"), [level])
    assert minded(whole) == ([words] if words else [])
    half = due("Iron salt", method="dry", own_rate_mass=rate / 2)
    assert minded(front(half, half, due(method="dry"), **FERROUS, **DRY)) == ([words] * 2 if words else [])


@pytest.mark.parametrize(
    ("rate", "said"), [(1.7, ""), (1.8, "ask first: much"), (4.89, "ask first: much"), (4.9, "do not: too much")]
)
def test_iron_of_a_spray(rate: float, said: str) -> None:
    """By the limits of a mix: above 0.34 g Fe/m² it is much, from 0.98 too much; the dry line counts too."""
    season = front(due("Iron salt", own_rate_mass=rate), **FERROUS, products__usual_carrier=("L/ha", [800, 1000.0]))
    assert minded(season) == ([f"{said} iron in one visit"] if said else [])
    mixed = front(
        due("Iron salt", own_rate_mass=1.0), due("Iron salt", method="dry", own_rate_mass=9.0), **FERROUS, **DRY
    )
    assert minded(mixed) == ["ask first: much iron in one visit"]


@pytest.mark.parametrize(
    ("rates", "said"), [((2.0, 2.0), 0), ((2.0, 2.01), 2), ((4.01,), 0), ((4.01, 0.1), 1), ((0.1, 0.1), 0)]
)
def test_lines_of_one_product_are_held_to_its_highest_rate_together(rates: tuple[float, ...], said: int) -> None:
    """4 g/m² is the most; one that is over by itself says so otherwise. Dry lines and other lawns are apart."""
    high: dict[str, Any] = {"products__spray_mass_high": ("g/m**2", [4.0])}
    lines = [due(own_rate_mass=rate) for rate in rates]
    apart = [due(own_rate_mass=3.0, lawn="Back"), due(own_rate_mass=3.0, method="dry")]
    words = "over its highest rate with the other lines of the day"
    assert sum(words in one for one in minded(front(*lines, *apart, **high, **DRY))) == said


def test_what_is_not_stated_of_its_method_is_asked_about() -> None:
    none: dict[str, Any] = {f"products__dry_{level}": ("", [1.0, 1.0, NO]) for level in ("low", "usual", "high")}
    label: dict[str, Any] = {"products__dry_mass_high": ("g/m**2", [500.0])}
    spread = due("Calcium nitrate", method="dry", own_rate_mass=3.0)
    season = front(spread, due("Calcium nitrate", own_rate_mass=2.0), **none, **label)
    assert minded(season) == ["ask first: no dry rate stated; interval not stated"]
    assert shown(season, "programme", "line_verdict")[0] == "ask first: no dry rate stated; interval not stated"
    assert is_close(shown(season, "round_lines", "line_level"), [1, 0])
    assert is_close(shown(season, "round_lines", "mass", "g")[:1], [300])
    granule: dict[str, Any] = {f"products__spray_{level}": ("", [NO]) for level in ("low", "usual", "high")}
    sprayed = front(due(own_rate_mass=1.0), **granule, products__spray_mass_high=("g/m**2", []))
    assert minded(sprayed) == ["ask first: no spray rate stated"]


def test_what_to_mind_is_said_where_something_is_spread_dry() -> None:
    assert front(due()).column("round_whole", "dry_words") == ""
    assert "gloves" in front(due(), due(method="Dry")).column("round_whole", "dry_words")
    stopped = front(due("Iron salt", method="dry", own_rate_mass=35.0), **FERROUS, **DRY)
    assert minded(stopped) == ["do not: too much iron in one dry dressing"]
    assert stopped.column("round_whole", "dry_words") == ""


def test_another_season_counts_anew() -> None:
    days = [on(3, 1), on(3, 15), on(3, 29), on(4, 12)]
    season = front(
        due(IRON), diary=[(day, "Front", IRON) for day in days],
        settings__season_month=("", 5.0), settings__season_day=("", 15.0),
    )  # fmt: skip
    assert is_close(shown(season, "round_lines", "number_this_season"), [1])


def test_out_of_its_months_and_on_a_strip() -> None:
    """The iron does not suit June. The Front is the strip of the Back."""
    late = due(IRON, first=on(6, 1), last=on(6, 20))
    assert minded(front(late, length=20.0)) == ["ask first: out of its months"]
    strip: dict[str, Any] = {"lawns__strip": ("text", ["", "front"])}
    assert minded(front(due(IRON), **strip)) == ["ask first: an untreated strip"]
    assert minded(front(due(IRON, lawn="Back"), **strip)) == []
    both = front(late, length=20.0, diary=[(on(5, 30), "Front", IRON)], **strip)
    words = "too soon, 2 days, at least 14; out of its months; an untreated strip"
    assert minded(both) == [f"ask first: {words}"]
    assert is_close(shown(both, "round_lines", "line_level"), [1])
    assert is_close(shown(both, "round_lines", "mass", "g"), [50])


def test_an_unknown_product_breaks_no_limit() -> None:
    season = front(due("Gypsum", own_rate_mass=3.0))
    assert is_close(shown(season, "round_lines", "line_level"), [0])
    assert shown(season, "round_lines", "days_since", "day") == []
    assert minded(season) == ["not in the catalogue, so in a tank of its own"]
