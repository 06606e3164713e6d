"""What each product came to on each lawn in this season: one record a pair, lawn after lawn.

One record a lawn and product: shape (year_pairs,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.lines import at
from wbgen.model.tools.means import mean_of, number_of
from wbgen.model.tools.order import place_of_rank
from wbgen.model.tools.relations import count_by, joined, pick, sum_by
from wbgen.model.types import Each, Mass, Money, NitrogenPerArea, Number, Table, Text, Volume

BLANK_UNLESS = ("pair_key",)
NEVER_BLANK = ("pair_key",)


def pair_key(turn: Each[Number], diary: Table) -> Each[Number]:
    """The pair whose turn it is (from 1), the place_of_rank first; blank past the last."""
    return pick(diary.pair_once, place_of_rank(diary.pair_once, turn))


def lawn_line(pair_key: Each[Number], ones: Table) -> Each[Number]:
    """The line of the lawn."""
    return np.floor_divide(pair_key, only(ones.key_step))


def product_line(pair_key: Each[Number], ones: Table) -> Each[Number]:
    """The line of the product."""
    return np.mod(pair_key, only(ones.key_step))


def lawn(lawn_line: Each[Number], lawns: Table) -> Each[Text]:
    """The lawn."""
    return at(lawns.name, lawn_line)


def product(product_line: Each[Number], products: Table) -> Each[Text]:
    """The product."""
    return at(products.name, product_line)


def _visited(diary: Table) -> Each[Text]:
    """The lawn and product of each line of this season, as one; blank for another."""
    return where(diary.season_month > 0, joined(diary.lawn_line, diary.product_line), "")


def _answered(answers: Table) -> Each[Text]:
    """The same of each line with an answer."""
    return where(answers.in_season == "yes", joined(answers.lawn_line, answers.product_line), "")


def days(lawn_line: Each[Number], product_line: Each[Number], diary: Table) -> Each[Number]:
    """On how many different days it was put there."""
    return count_by(_visited(diary), joined(lawn_line, product_line), ~blank(diary.product_day_key))


def mass(lawn_line: Each[Number], product_line: Each[Number], diary: Table, products: Table) -> Each[Mass]:
    """The mass (kg) of a solid that reached the lawn; blank for a liquid."""
    applied = sum_by(_visited(diary), joined(lawn_line, product_line), diary.applied_mass).to("kg")
    return where(at(products.measured_by, product_line) == "mass", applied, np.nan)


def volume(lawn_line: Each[Number], product_line: Each[Number], diary: Table, products: Table) -> Each[Volume]:
    """The volume (L) of a liquid that reached the lawn; blank for a solid."""
    applied = sum_by(_visited(diary), joined(lawn_line, product_line), diary.applied_volume).to("L")
    return where(at(products.measured_by, product_line) == "volume", applied, np.nan)


def nitrogen(lawn_line: Each[Number], product_line: Each[Number], diary: Table, lawns: Table) -> Each[NitrogenPerArea]:
    """The nitrogen (g N/m²) that it brought, by area of the whole lawn; blank without an area."""
    brought = sum_by(_visited(diary), joined(lawn_line, product_line), diary.by_area_nitrogen)
    return where(blank(at(lawns.area, lawn_line)), np.nan, brought)


def cost(lawn_line: Each[Number], product_line: Each[Number], diary: Table) -> Each[Money]:
    """What it cost (currency), so far as that is known; blank where nothing is."""
    groups, keys = _visited(diary), joined(lawn_line, product_line)
    return where(number_of(groups, keys, diary.cost) > 0, sum_by(groups, keys, diary.cost), np.nan)


def number(lawn_line: Each[Number], product_line: Each[Number], answers: Table) -> Each[Number]:
    """How many of its lines have a change of quality."""
    keys = joined(lawn_line, product_line)
    return number_of(_answered(answers), keys, answers.change_quality, ~blank(answers.bit))


def mean(
    lawn_line: Each[Number], product_line: Each[Number], number: Each[Number], answers: Table, settings: Table
) -> Each[Number]:
    """The mean change of quality over them; blank where they are too few."""
    keys, own = joined(lawn_line, product_line), ~blank(answers.bit)
    return mean_of(_answered(answers), keys, answers.change_quality, number, settings, own)
