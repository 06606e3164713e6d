"""A mix that takes a tank of the round: date, lawns, sprayer, products and rates, worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.tables import NO, Table, bare, changed, is_close, planner
from wbgen.model.binding import Model

DAY, AS_OF = 46156.0, 46150.0
TWO, THREE = 2 * 100000.0, 3 * 100000.0
TABLES: dict[str, Table] = {
    "start": {"as_of": ("date", [AS_OF])},
    "ones": {"key_step": ("", 100000.0), "one_mass": ("g", 1.0), "one_volume": ("mL", 1.0)},
    "lawns": {"name": ("text", ["Front", "Back"]), "group": ("text", []), "walk_rank": ("", [1.0, 2.0])},
    "months": {"month": ("text", ["January"] * 12)},
    "round_tanks": {
        "turn": ("", [1.0, 2.0, 3.0]),
        "spot": ("", [2.0, 3.0]),
        "day": ("date", [DAY, DAY + 1]),
        "sprayer": ("text", ["Boom", "Knapsack"]),
        "products_count": ("", [1.0, 3.0]),
        "wanted_carrier": ("L/ha", [600.0, 0.0]),
    },
    "round_lines": {
        "product": ("text", ["Urea", "Iron", "Seaweed", "Urea", "Iron"]),
        "lawn": ("text", ["Front", "Front", "Front", "Front", "Back"]),
        "rate_mass": ("g/m**2", [2.0, 0.5, NO, 3.0, 0.5]),
        "rate_volume": ("mL/m**2", [NO, NO, 0.8]),
        "lawn_place": ("", [100001.0, TWO + 1, NO, NO, TWO + 2]),
        "product_place": ("", [100001.0, TWO + 1, TWO + 2, TWO + 3]),
    },
    "products": {"name": ("text", ["Urea", "Iron", "Seaweed"]), "measured_by": ("text", ["mass", "mass", "volume"])},
    "chosen": {
        "tank": ("", 2.0), "date": ("date", NO), "lawns": ("text", ""), "sprayer": ("text", ""),
        "wanted_carrier": ("L/ha", NO),
    },
    "chosen_lawns": {"lawn": ("text", ["Elsewhere"]), "part_treated": ("m**2", [])},
    "chosen_products": {
        "product": ("text", []), "own_rate": ("1/m**2", []), "wanted_nitrogen": ("g_N/m**2", []),
    },
    "mix_products": {"slot": ("", [1.0, 2.0, 3.0])},
    "mix_lawns": {"turn": ("", [1.0, 2.0])},
    "visit_lawns": {"problem": ("text", [])},
    "mix": {},
    "verdict": {},
}  # fmt: skip
RECORDS = {
    "start": 1, "lawns": 2, "months": 12, "round_tanks": 3, "round_lines": 5, "products": 3, "chosen_lawns": 2,
    "chosen_products": 3, "mix_products": 3, "mix_lawns": 2, "visit_lawns": 2,
}  # fmt: skip


def mix(misplaced: tuple[str, ...] = (), **more: Any) -> Model:
    return planner(changed(TABLES, **more), RECORDS, misplaced=misplaced)


def rates(model: Model) -> tuple[list[float], list[float]]:
    mass, volume = (bare(model.column("mix_products", f"own_rate_{by}"), unit) for by, unit in
                    (("mass", "g/m**2"), ("volume", "mL/m**2")))  # fmt: skip
    return mass, volume


def test_all_of_a_tank_is_taken() -> None:
    found = mix()
    assert bare(found.column("mix", "visit_date")) == DAY + 1
    assert found.column("mix", "sprayer") == "Knapsack"
    assert found.column("mix", "which_lawns") == "tank"
    assert bare(found.column("mix_lawns", "lawn_used")) == ["Front", "Back"]
    assert bare(found.column("mix_products", "product")) == ["Iron", "Seaweed", "Urea"]
    mass, volume = rates(found)
    assert is_close(mass, [0.5, NO, 3.0])
    assert is_close(volume, [NO, 0.8, NO])
    assert bare(found.column("mix", "tank_left")) == 0
    assert found.column("chosen", "tank_taken") == "3 products"


def test_what_is_wanted_of_its_spray_is_taken() -> None:
    """The programme wants no spray volume of the second."""
    one = mix(chosen__tank=("", 1.0))
    assert bare(one.column("mix", "wanted_carrier"), "L/ha") == 600
    assert one.column("chosen", "tank_taken") == "1 product"
    assert is_close(bare(mix().column("mix", "wanted_carrier"), "L/ha"), NO)
    own = mix(chosen__tank=("", 1.0), chosen__wanted_carrier=("L/ha", 500.0))
    assert bare(own.column("mix", "wanted_carrier"), "L/ha") == 500


def test_what_is_typed_comes_first() -> None:
    found = mix(
        chosen__date=("date", DAY + 9), chosen__lawns=("text", "back"), chosen__sprayer=("text", "Boom"),
    )  # fmt: skip
    assert bare(found.column("mix", "visit_date")) == DAY + 9
    assert found.column("mix", "sprayer") == "Boom"
    assert bare(found.column("mix_lawns", "lawn_used")) == ["back", ""]
    assert bare(found.column("mix_products", "product")) == ["Iron", "Seaweed", "Urea"]


def test_a_product_chosen_by_hand_takes_the_place_of_the_tanks() -> None:
    """The seaweed stands in the first box at the rate beside it; the others follow, at theirs unless one is typed."""
    chosen = ("text", ["seaweed", "", ""])
    found = mix(chosen_products__product=chosen, chosen_products__own_rate=("1/m**2", [1.2, NO, 2.5]))
    assert bare(found.column("mix_products", "product")) == ["seaweed", "Iron", "Urea"]
    mass, volume = rates(found)
    assert is_close(mass, [NO, 0.5, 2.5])
    assert is_close(volume, [1.2, NO, NO])
    assert bare(found.column("mix", "tank_left")) == 0


def test_products_without_room_are_told() -> None:
    """Another product in one of three boxes leaves two for three; nothing is mixed without the third."""
    other: dict[str, Any] = {"chosen_products__product": ("text", ["", "Molasses", ""])}
    found = mix(**other)
    assert bare(found.column("mix_products", "product")) == ["Iron", "Molasses", "Seaweed"]
    assert bare(found.column("mix", "tank_left")) == 1
    assert found.column("verdict", "ready") == "the tank has more products than there is room for here"
    many = mix(round_tanks__products_count=("", [1.0, 4.0]))
    assert bare(many.column("mix", "tank_left")) == 1


@pytest.mark.parametrize("number", [3.0, 4.0, 0.0, 1.5])
def test_a_tank_that_there_is_not(number: float) -> None:
    """The third line of the tanks is empty."""
    found = mix(chosen__tank=("", number))
    assert found.column("chosen", "tank_taken") == found.column("verdict", "ready") == "the round has no such tank"
    assert bare(found.column("mix_lawns", "lawn_used")) == ["", ""]
    assert bare(found.column("mix_products", "product")) == ["", "", ""]
    assert bare(found.column("mix", "visit_date")) == AS_OF
    assert bare(found.column("mix", "tank_left")) == 0


def test_a_text_for_a_tank_is_none() -> None:
    found = mix(misplaced=("chosen.tank",))
    assert found.column("chosen", "tank_taken") == found.column("verdict", "ready") == "the round has no such tank"
    assert bare(found.column("mix_lawns", "lawn_used")) == ["", ""]


def test_without_a_tank_nothing_is_taken() -> None:
    found = mix(chosen__tank=("", NO))
    assert found.column("chosen", "tank_taken") == "none"
    assert bare(found.column("mix_lawns", "lawn_used")) == ["Elsewhere", ""]
    assert bare(found.column("mix_products", "product")) == ["", "", ""]
    assert bare(found.column("mix", "visit_date")) == AS_OF
