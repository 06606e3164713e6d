"""What is typed for each product on the sheet Mix, in the unit that it goes by."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import blank, is_word, only, where
from wbgen.model.tools.lines import at, match
from wbgen.model.tools.relations import count_by, find, pick
from wbgen.model.types import (
    Each,
    MassPerArea,
    NitrogenPerArea,
    Number,
    NutrientPerArea,
    T,
    Table,
    Text,
    VolumePerArea,
    each,
)


def round_line(slot: Each[Number], mix: Table, round_lines: Table, ones: Table) -> Each[Number]:
    """The line of the round, its heading row being line 1, of the tank's product whose turn it is."""
    return match(mix.tank * only(ones.key_step) + slot, round_lines.product_place)


def kept(round_line: Each[Number], round_lines: Table, chosen_products: Table) -> Each[Number]:
    """1 where that product is not chosen by hand, else blank."""
    chosen = count_by(chosen_products.product, at(round_lines.product, round_line)) > 0
    return where(blank(round_line) | chosen, np.nan, 1.0)


def kept_turn(kept: Each[Number]) -> Each[Number]:
    """Its turn among those, from 1."""
    return where(blank(kept), np.nan, np.cumsum(~blank(kept)).astype(float))


def box_free(chosen_products: Table) -> Each[Number]:
    """1 where the box is empty, else blank."""
    return where(blank(chosen_products.product), 1.0, np.nan)


def tank_place(box_free: Each[Number], kept_turn: Each[Number]) -> Each[Number]:
    """The place of the tank's product that an empty box takes, from 1; blank where none is left."""
    places = find(each(np.cumsum(~blank(box_free)).astype(float)), kept_turn) + 1.0
    return where(blank(box_free) | (places < 1), np.nan, places)


def _of_round(tank_place: Each[Number], round_line: Each[Number], values: Each[T]) -> Each[T]:
    return at(values, pick(round_line, tank_place - 1))


def product(
    box_free: Each[Number],
    tank_place: Each[Number],
    round_line: Each[Number],
    chosen_products: Table,
    round_lines: Table,
) -> Each[Text]:
    """The product that is chosen; an empty box takes one of the tank."""
    of_tank = _of_round(tank_place, round_line, round_lines.product)
    return where(blank(box_free), chosen_products.product, of_tank)


def own_rate_mass(
    measured_by: Each[Text],
    tank_place: Each[Number],
    round_line: Each[Number],
    chosen_products: Table,
    round_lines: Table,
    ones: Table,
) -> Each[MassPerArea]:
    """The rate that is typed of a product that goes by mass: so many of the planner's mass an area.

    Where none is typed, what the tank has from the round goes on at the rate of the programme.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> typed = SimpleNamespace(own_rate=FLOAT.Quantity(np.array([2.0, 3.0]), "1/m**2"))
    >>> none, tank = np.full(2, np.nan), SimpleNamespace(rate_mass=FLOAT.Quantity(np.full(2, np.nan), "g/m**2"))
    >>> by = np.array(["mass", "volume"], dtype=object)
    >>> own_rate_mass(by, none, none, typed, tank, SimpleNamespace(one_mass=FLOAT("1 g"))).to("g/m**2").magnitude
    array([ 2., nan])
    """
    typed = chosen_products.own_rate * only(ones.one_mass)
    rate = where(blank(typed), _of_round(tank_place, round_line, round_lines.rate_mass), typed)
    return where(is_word(measured_by, "volume"), np.nan, rate)


def own_rate_volume(
    measured_by: Each[Text],
    tank_place: Each[Number],
    round_line: Each[Number],
    chosen_products: Table,
    round_lines: Table,
    ones: Table,
) -> Each[VolumePerArea]:
    """The rate that is typed of a product that goes by volume, else that of the tank."""
    typed = chosen_products.own_rate * only(ones.one_volume)
    rate = where(blank(typed), _of_round(tank_place, round_line, round_lines.rate_volume), typed)
    return where(is_word(measured_by, "volume"), rate, np.nan)


def own_text(chosen_products: Table) -> Each[Number]:
    """1 where something other than a number stands as a rate; else 0."""
    return where(chosen_products.misplaced_own_rate, 1.0, 0.0)


def wanted_nitrogen(chosen_products: Table) -> Each[NitrogenPerArea]:
    """The nitrogen that is wanted."""
    return chosen_products.wanted_nitrogen


@of_family("other_nutrients")
def wanted_each(chosen_targets: Table) -> Each[NutrientPerArea]:
    """Another nutrient that is wanted."""
    return chosen_targets.wanted_each


def wanted_text(chosen_products: Table, chosen_targets: Table) -> Each[Number]:
    """1 where something other than a number stands as a nutrient that is wanted; else 0."""
    return where(chosen_products.misplaced_wanted_nitrogen | ~blank(chosen_targets.fix), 1.0, 0.0)
