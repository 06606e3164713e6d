"""What speaks against each product of a visit, against figures worked out by hand."""

from __future__ import annotations

import re
from typing import Final

import pytest

from support.small_visit import IRON, MAY_14, NAMES, SEASON, STEP, Columns, close, found, visit
from support.tables import NO as BLANK

SOON: Final = "too soon on Back: 16 days, at least 21"
"""The iron: the visit is on day 46156, the last iron was on day 46140."""
LATER: Final = "too soon on Front: 4 days, at least 14"
"""The urea: last on day 46152."""


# The line of another lawn, the day itself and the season before do not count for the number.
@pytest.mark.parametrize(
    ("key", "unit", "figures"),
    [
        # The line of another lawn, the day itself and the season before do not count for the number.
        ("last_date", "", [46140, BLANK, BLANK, BLANK, 46152]),
        ("days_since", "day", [16, BLANK, BLANK, BLANK, 4]),
        ("number_this_season", "", [3, 1, BLANK, BLANK, 2]),
        ("level_rate", "", [0, 0, BLANK, BLANK, 0]),
        ("level_month", "", [1, 0, BLANK, BLANK, 0]),
        ("level_interval", "", [1, 0, BLANK, BLANK, 1]),
        ("level_number", "", [0, 0, BLANK, BLANK, 0]),
        ("level", "", [1, 0, BLANK, 2, 1]),
        ("level_label", "", [0, 0, BLANK, BLANK, 0]),
        ("level_diluted", "", [0, 0, BLANK, BLANK, 0]),
        ("level_carrier", "", [0, 0, BLANK, BLANK, 0]),
    ],
)
def test_levels(key: str, unit: str, figures: list[float]) -> None:
    assert found(visit(NAMES), key, unit) == close(figures)


@pytest.mark.parametrize(
    ("key", "texts"),
    [
        ("family", ["iron", "seaweed", "", "", "urea"]),
        ("product_verdict", ["Ask first", "Go", "", "Do not mix", "Ask first"]),
        ("last_lawn", ["Back", "", "", "", "Front"]),
        ("number_lawn", ["Back", "", "", "", "Front"]),
        ("product_reason", [f"out of its months; {SOON}", "", "", "unknown product", LATER]),
    ],
)
def test_verdict_and_reason(key: str, texts: list[str]) -> None:
    assert found(visit(NAMES), key) == texts


def test_an_interval_that_is_just_kept_is_kept() -> None:
    for interval, level in ((16, 0), (17, 1)):
        model = visit(NAMES, products={"least_interval": ("day", [interval])})
        assert found(model, "level_interval")[0] == level


def test_a_rate_at_the_label_is_not_over_it() -> None:
    for rate, level in ((2, 0), (2 + 4e-10, 0), (2.001, 2)):
        model = visit({"product": ("text", ["Iron sulphate"]), "own_rate_mass": ("g/m**2", [rate])})
        assert found(model, "level_label")[0] == level


@pytest.mark.parametrize("word", ["yes", "YES"])
def test_over_what_is_practice_only_it_asks(word: str) -> None:
    columns: Columns = {
        "product": ("text", ["Iron sulphate", "Seaweed"]),
        "own_rate_mass": ("g/m**2", [2.01]),
        "own_rate_volume": ("mL/m**2", [BLANK, 0.17]),
    }
    marked: Columns = {"spray_practice": ("text", [word]), "spray_asks": ("text", [word])}
    for times, level in ((1.0, 2), (1.005, 1), (BLANK, 2)):  # of 2 g/m²
        held = visit(columns, products=marked, settings={"practice_span": ("", times)})
        assert found(held, "level_label")[0] == level
        assert ("; far over the usual range" in found(held, "label_words")[0]) is (level == 2)
    model = visit(columns, products=marked)
    assert found(model, "level_label") == close([1, 2, BLANK, BLANK, BLANK])
    assert found(model, "label_words")[:2] == [
        "; over the usual range: 2.01 g/m², at most 2 g/m²",
        "; over the label rate: 0.17 mL/m², at most 0.16 mL/m²",
    ]


@pytest.mark.parametrize(("overlap", "level"), [(BLANK, 0), (0.25, 0), (0.26, 2)])
def test_the_label_holds_for_what_is_laid(overlap: float, level: int) -> None:
    """1.6 g/m² with a quarter more are the label's 2 g/m²; 0.128 mL/m² of the liquid are the label's 0.16."""
    model = visit(
        {
            "product": ("text", ["Iron sulphate", "Seaweed"]),
            "own_rate_mass": ("g/m**2", [1.6]),
            "own_rate_volume": ("mL/m**2", [BLANK, 0.128]),
        },
        mix={"overlap": ("", overlap)},
    )
    assert found(model, "level_label") == close([level, level, BLANK, BLANK, BLANK])
    over = level == 2  # 1.6 × 1.26 = 2.016, 0.128 × 1.26 = 0.161
    assert found(model, "label_words")[0] == "; over the label rate: 2.02 g/m², at most 2 g/m²" * over
    assert found(model, "label_words")[1] == "; over the label rate: 0.16 mL/m², at most 0.16 mL/m²" * over


def test_a_rate_under_the_label_is_only_noted() -> None:
    """The label begins at 0.5 g/m², and at 1 mL/L of 400 L/ha. An overlap does not lift the rate to it."""
    for solid, liquid, noted in ((0.5, 0.04, 0), (0.5 - 4e-10, 0.04 - 4e-10, 0), (0.49, 0.039, 1)):
        model = visit(
            {
                "product": ("text", ["Iron sulphate", "Seaweed"]),
                "own_rate_mass": ("g/m**2", [solid]),
                "own_rate_volume": ("mL/m**2", [BLANK, liquid]),
            },
            mix={"overlap": ("", 0.5)},
            products={"least_interval": ("day", [1, 1]), "months_suited": ("text", [])},
        )
        said = [
            "; Iron sulphate under the label rate: 0.49 g/m², at least 0.5 g/m²" * noted,
            "; Seaweed under the label rate: 0.04 mL/m², at least 0.04 mL/m²" * noted,
        ]
        assert found(model, "low_words")[:2] == found(model, "note_words")[:2] == said
        assert found(model, "level") == close([0, 0, BLANK, BLANK, BLANK])


def test_no_rate_is_not_a_rate_under_the_label() -> None:
    model = visit({**IRON, "own_rate_mass": ("g/m**2", [0])})
    assert found(model, "low_words")[0] == ""
    assert found(model, "level_rate")[0] == 2


@pytest.mark.parametrize(
    ("carrier", "usual", "span", "own", "level"),
    [
        (600, 300, 2, BLANK, 0), (601, 300, 2, BLANK, 1), (9000, 300, 2, BLANK, 1), (601, 300, 2.5, BLANK, 0),
        (9000, BLANK, 2, BLANK, 0), (9000, 300, BLANK, BLANK, 0), (9000, 300, 2, 0.9, 0),
    ],
)  # fmt: skip
def test_a_dilution_in_much_more_water_than_usual_is_asked_about(
    carrier: float, usual: float, span: float, own: float, level: int
) -> None:
    """3 mL in a litre: 2.7 mL/m² by a watering can of 9000 L/ha. A rate of one's own is no dilution, nor a solid's."""
    model = visit(
        {"product": ("text", ["Seaweed", "Iron sulphate"]), "own_rate_volume": ("mL/m**2", [own])},
        mix={"carrier_volume": ("L/ha", carrier)},
        products={"usual_carrier": ("L/ha", [usual, usual])},
        settings={"diluted_span": ("", span)},
    )
    assert found(model, "level_diluted")[:2] == [level, 0]
    comes = {601: "0.18 mL/m²", 9000: "2.7 mL/m²"}.get(int(carrier), "")
    said = f"; its dilution is meant for about 300 L/ha, and comes to {comes}" * level
    assert found(model, "diluted_words")[:2] == [said, ""]
    assert said.removeprefix("; ") in found(model, "product_reason")[0]


@pytest.mark.parametrize(
    ("interval", "tolerance", "level", "noted"),
    [(16, 1, 0, False), (17, 1, 0, True), (18, 1, 1, False), (17, BLANK, 1, False), (20, 4, 0, True)],
)
def test_a_day_too_early_is_only_noted(interval: float, tolerance: float, level: int, noted: bool) -> None:
    """The iron is 16 days after the last."""
    model = visit(
        IRON,
        products={"least_interval": ("day", [interval]), "months_suited": ("text", [])},
        settings={"interval_tolerance": ("day", tolerance)},
    )
    said = f"; Iron sulphate a little early on Back: 16 days, at least {interval}" * noted
    assert found(model, "level_interval")[0] == found(model, "level")[0] == level
    assert found(model, "early_words")[0] == found(model, "note_words")[0] == said


@pytest.mark.parametrize(("intervals", "missing"), [([1, 1], []), ([BLANK, 1], [0]), ([1, BLANK], [1]), ([], [0, 1])])
def test_an_interval_that_is_not_stated_is_noted(intervals: list[float], missing: list[int]) -> None:
    """Of the products of the mix, and of no empty place; it changes no verdict."""
    names = ["Iron sulphate", "Seaweed"]
    model = visit({"product": ("text", names)}, products={"least_interval": ("day", intervals)})
    notes = found(model, "note_words")
    assert [f"; not stated: the interval of {name}" * (number in missing) for number, name in enumerate(names)] == [
        re.sub(r"; not known:.*", "", note) for note in notes[: len(names)]
    ]
    assert notes[len(names) :] == [""] * (len(notes) - len(names))
    assert found(model, "level_interval")[: len(names)] == [0, 0]


@pytest.mark.parametrize(("begins", "level"), [(17, 0), (17.1, 1), (BLANK, 0)])
def test_of_a_short_interval_a_day_is_much(begins: float, level: int) -> None:
    settings = {"interval_tolerance": ("day", 1), "interval_from": ("day", begins)}
    model = visit(IRON, products={"least_interval": ("day", [17])}, settings=settings)
    assert found(model, "level_interval")[0] == level


@pytest.mark.parametrize(
    ("carrier", "level", "noted"), [(400, 0, False), (399, 0, True), (380, 0, True), (379, 1, False)]
)
def test_a_little_less_water_is_only_noted(carrier: float, level: int, noted: bool) -> None:
    """The seaweed asks for 400 L/ha, of which 5 % are 20."""
    model = visit(
        {"product": ("text", ["Seaweed"])},
        mix={"carrier_volume": ("L/ha", carrier)},
        settings={"volume_tolerance": ("", 0.05)},
    )
    said = f"; Seaweed in a little less water than the least: {carrier} L/ha, at least 400 L/ha" * noted
    assert found(model, "level_carrier")[0] == found(model, "level")[0] == level
    assert found(model, "short_words")[0] == found(model, "note_words")[0] == said


@pytest.mark.parametrize(("carrier", "levels"), [(400, [0, 0, 0]), (399.9, [0, 1, 0]), (199, [1, 1, 0])])
def test_less_water_than_the_label_asks(carrier: float, levels: list[float]) -> None:
    """The iron asks for 200 L/ha, the seaweed for 400; of the urea nothing is known."""
    products = {"product": ("text", ["Iron sulphate", "Seaweed", "Slow urea"])}
    model = visit(products, mix={"carrier_volume": ("L/ha", carrier)})
    assert found(model, "level_carrier")[:3] == levels
    said = f"less water than the least of the sheet Products: {carrier:g} L/ha, at least 400 L/ha"
    assert found(model, "product_reason")[1] == said * bool(levels[1])
    assert found(model, "level")[1] == levels[1]


def test_what_the_catalogue_warns_of() -> None:
    assert found(visit(NAMES), "caution") == ["stains paving", "", "", "", "scorches in heat"]


def test_the_number_a_year_counts_this_visit() -> None:
    model = visit(NAMES, products={"most_a_year": ("", [2, 0])})
    assert found(model, "level_number") == close([1, 0, BLANK, BLANK, 0])
    assert "number 3 of the family iron on Back this season, usually at most 2" in found(model, "product_reason")[0]


def test_a_number_that_is_a_limit_stops() -> None:
    model = visit(NAMES, products={"most_a_year": ("", [2, 0]), "number_binds": ("text", ["Yes", "yes", "yes"])})
    assert found(model, "level_number") == close([2, 0, BLANK, BLANK, 0])
    assert found(model, "often_words")[0] == "; number 3 of the family iron on Back this season, at most 2"
    assert found(model, "product_verdict") == ["Do not mix", "Go", "", "Do not mix", "Ask first"]


@pytest.mark.parametrize(("dry", "last", "lawn", "number"), [
    ([], 46140.0, "Back", 3), ([2], 46140.0, "Back", 2), ([1, 2], 46140.0, "Back", 1), ([1], 46140.0, "Back", 3),
])  # fmt: skip
def test_what_was_spread_dry_is_a_last_time_but_none_of_the_sprays(
    dry: list[int], last: float, lawn: str, number: int
) -> None:
    """Of the lines of 14 April and 24 May before, those of `dry` were spread; a family is so many steps higher then."""
    families = [STEP + line if place in dry else line for place, line in enumerate([2, 2, 2, BLANK, 2, 4])]
    model = visit(NAMES, diary={"mix_family": ("", families)})
    assert (found(model, "last_date")[0], found(model, "last_lawn")[0]) == (last, lawn)
    assert found(model, "number_this_season")[0] == number


def test_of_several_lawns_the_last_of_the_sheet_lawns_is_named() -> None:
    """Front had iron for the second time on the same day as Back; on day 46100 it was its first."""
    diary = {"date": ("date", [46000, 46140, 46140, 46150, MAY_14, 46152]), "number_this_season": ("", [9, 2, 2, 7, 8])}
    for lines, lawn in (([2, 2, 3], "Back"), ([2, 3, 2], "Back"), ([2, 2, 2], "Front")):
        model = visit(NAMES, diary={**diary, "lawn_line": ("", [*lines, 3, 2, 2])})
        assert (found(model, "last_lawn")[0], found(model, "number_lawn")[0]) == (lawn, lawn)


def test_a_text_where_a_rate_belongs_is_not_passed_over() -> None:
    for place, words in (
        ("chosen_products.own_rate@1", "the own rate is a text, not a number"),
        ("chosen_products.wanted_nitrogen@1", "the wanted nutrient is a text, not a number"),
        ("chosen_targets.wanted_iron@1", "the wanted nutrient is a text, not a number"),
    ):
        model = visit({"product": ("text", ["Seaweed", "Seaweed"])}, misplaced=[place])
        assert found(model, "level_text") == close([0, 2, BLANK, BLANK, BLANK])
        assert found(model, "product_verdict")[:2] == ["Go", "Do not mix"]
        assert found(model, "product_reason")[:2] == ["", words]


@pytest.mark.parametrize(("season", "number"), [(45900, 10), (SEASON, 3), (46140, 3), (46141, 1), (MAY_14, 1)])
def test_the_number_is_of_the_season_that_the_visit_is_in(season: float, number: float) -> None:
    """Before the visit its lawns had iron on days 46000 (the ninth), 46100 (the first) and 46140 (the second)."""
    model = visit(NAMES, mix={"season_start": ("date", season)})
    assert found(model, "number_this_season")[0] == number


def test_words_name_the_products_that_are_not_to_go_in_as_they_are() -> None:
    assert found(visit(NAMES), "product_words") == [
        f"; iron SULPHATE, out of its months; {SOON}",
        "",
        "",
        "; Unknown, unknown product",
        f"; Slow urea, {LATER}",
    ]


def test_every_figure_has_its_record_blank_where_there_is_no_product() -> None:
    """A first and a last record that are blank leave the ones between as they are."""
    model = visit({"product": ("text", ["", "Seaweed", "Iron sulphate", ""])})
    assert found(model, "pouring_order") == close([BLANK, 2, 1, BLANK, BLANK])
    assert found(model, "level_month") == close([BLANK, 0, 1, BLANK, BLANK])
