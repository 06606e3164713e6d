"""The labels of the jugs, against words worked out by hand."""

from __future__ import annotations

from typing import Any

from support.tables import NO, planner
from wbgen.model.binding import Model

TABLES: dict[str, dict[str, tuple[str, Any]]] = {
    "labels": {"turn": ("", [1.0, 2.0, 3.0])},
    "labels_state": {},
    "into_tank": {
        "what": ("text", ["Iron sulphate", "Seaweed", ""]),
        "weigh_full": ("g", [300.0, NO, NO]),
        "weigh_last": ("g", [120.5, NO, NO]),
        "pour_full": ("mL", [NO, 190.0, NO]),
        "pour_last": ("mL", [NO, 76.0, NO]),
    },
    "card": {"alike": ("", 2.0), "fill_mark": ("L", 14.0), "part_mark": ("L", 5.6)},
    "card_head": {"when": ("text", "Tuesday, 30 June 2026, Knapsack")},
    "verdict": {"level": ("", 0.0)},
    "mix_checks": {"found_products": ("", 2.0)},
    "mix_water": {"steps_full": ("", 0.0), "caution_words": ("text", "")},
    "mix_lawns": {"lawn_used": ("text", ["Front", ""]), "treated_area": ("m**2", [240.0, NO])},
    "mix_products": {
        "product": ("text", ["Seaweed", "Iron sulphate", ""]),
        "hazard": ("text", ["", "Irritates the eyes", ""]),
    },
}
RECORDS = {"labels": 3, "into_tank": 3, "mix_lawns": 2, "mix_products": 3}


def labels(**more: dict[str, tuple[str, Any]]) -> Model:
    return planner({table: columns | more.get(table, {}) for table, columns in TABLES.items()}, RECORDS)


def said(model: Model, key: str) -> list[str]:
    return list(model.column("labels", key))


def test_a_label_for_each_measured_product_in_its_order() -> None:
    model = labels()
    assert said(model, "product") == ["Iron sulphate", "Seaweed", ""]
    assert said(model, "full") == ["300 g, for each of 2 full tanks", "190 mL, for each of 2 full tanks", ""]
    assert said(model, "last") == ["120.5 g, for the last part tank", "76 mL, for the last part tank", ""]
    assert said(model, "mix") == [
        "This mix only: number 1 of 2 into the tank; Front; Tuesday, 30 June 2026, Knapsack",
        "This mix only: number 2 of 2 into the tank; Front; Tuesday, 30 June 2026, Knapsack",
        "",
    ]
    assert said(model, "care") == ["Irritates the eyes", "no hazard stands on the list: read the label", ""]
    assert model.column("labels_state", "words") == "cut along the lines, one for each jug"


def test_equal_fills_one_fill_and_one_full_tank_are_told_apart() -> None:
    equal = labels(card={"part_mark": ("L", NO)})
    assert said(equal, "full")[0] == "300 g, for each of 2 equal tank fills"
    assert said(equal, "last") == ["", "", ""]
    one = {"alike": ("", 1.0), "part_mark": ("L", NO)}
    assert said(labels(card=one), "full")[0] == "300 g, for the one tank fill"
    assert said(labels(card={"alike": ("", 1.0)}), "full")[0] == "300 g, for the full tank"


def test_no_label_where_it_must_not_be_mixed() -> None:
    """The card has no mark to fill to then: see `test_card`."""
    model = labels(
        card={"fill_mark": ("L", NO), "part_mark": ("L", NO), "alike": ("", NO)}, verdict={"level": ("", 2.0)}
    )
    for key in ("product", "full", "last", "mix", "care"):
        assert said(model, key) == ["", "", ""], key
    assert model.column("labels_state", "words") == "none: do not mix"


def test_what_asks_first_says_so_on_each_label() -> None:
    assert said(labels(verdict={"level": ("", 1.0)}), "mix")[0].startswith("This mix only, ask first: number 1 of 2")


def test_several_lawns_are_counted() -> None:
    two = labels(mix_lawns={"lawn_used": ("text", ["Front", "Back"]), "treated_area": ("m**2", [240.0, 90.0])})
    assert "; 2 lawns; " in said(two, "mix")[0]


def test_acid_for_the_water_has_a_label_with_its_own_caution() -> None:
    acid = labels(
        into_tank={"what": ("text", ["Citric acid (water)", "Seaweed", ""])},
        mix_water={"steps_full": ("", 1.0), "caution_words": ("text", "•Citric acid: Irritates the eyes.")},
    )
    assert said(acid, "care")[0] == "Citric acid: Irritates the eyes."
    assert "number 1 of 3 into the tank" in said(acid, "mix")[0]


def test_an_amount_that_is_not_known_is_said() -> None:
    unknown = labels(into_tank={"weigh_full": ("g", []), "weigh_last": ("g", [])})
    assert said(unknown, "full")[0] == "amount not known, for each of 2 full tanks"
