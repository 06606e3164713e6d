"""What each product came to on the lawn shown in this season: one record a product that went on it.

One record a product: shape (products,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.lines import at
from wbgen.model.tools.means import mean_of, number_of
from wbgen.model.tools.relations import count_by, pick, sum_by
from wbgen.model.types import Each, Mask, Mass, Money, NitrogenPerArea, Number, Table, Text, Volume, each

BLANK_UNLESS = ("product_line",)
NEVER_BLANK = ("product_line",)


def product_line(turn: Each[Number], year_lawn: Table, diary: Table, ones: Table) -> Each[Number]:
    """The line of the product whose turn it is (from 1), in the order of the catalogue; blank past the last."""
    lawn, product = np.divmod(diary.pair_once[~blank(diary.pair_once)], only(ones.key_step))
    return pick(each(np.sort(product[lawn == year_lawn.lawn_line])), turn - 1)


def product(product_line: Each[Number], products: Table) -> Each[Text]:
    """The product."""
    return at(products.name, product_line)


def _there(diary: Table, year_lawn: Table) -> Mask:
    """The lines of this season on the lawn shown."""
    return (diary.season_month > 0) & (diary.lawn_line == year_lawn.lawn_line)


def _answered(answers: Table, year_lawn: Table) -> Mask:
    """Those of them with an answer, that have a number of their own in a mix."""
    there = (answers.in_season == "yes") & (answers.lawn_line == year_lawn.lawn_line)
    return there & ~blank(answers.bit)


def days(product_line: Each[Number], year_lawn: Table, diary: Table) -> Each[Number]:
    """On how many different days it was put there."""
    counted = _there(diary, year_lawn) & ~blank(diary.product_day_key)
    return count_by(diary.product_line, product_line, counted)


def mass(product_line: Each[Number], year_lawn: Table, diary: Table, products: Table) -> Each[Mass]:
    """The mass (kg) of a solid that reached the lawn; blank for a liquid."""
    applied = sum_by(diary.product_line, product_line, diary.applied_mass, _there(diary, year_lawn)).to("kg")
    return where(at(products.measured_by, product_line) == "mass", applied, np.nan)


def volume(product_line: Each[Number], year_lawn: Table, diary: Table, products: Table) -> Each[Volume]:
    """The volume (L) of a liquid that reached the lawn; blank for a solid."""
    applied = sum_by(diary.product_line, product_line, diary.applied_volume, _there(diary, year_lawn)).to("L")
    return where(at(products.measured_by, product_line) == "volume", applied, np.nan)


def nitrogen(product_line: Each[Number], year_lawn: Table, diary: Table, lawns: Table) -> Each[NitrogenPerArea]:
    """The nitrogen (g N/m²) that it brought, by area of the whole lawn; blank without an area."""
    brought = sum_by(diary.product_line, product_line, diary.by_area_nitrogen, _there(diary, year_lawn))
    return where(blank(at(lawns.area, year_lawn.lawn_line)), np.nan, brought)


def cost(product_line: Each[Number], year_lawn: Table, diary: Table) -> Each[Money]:
    """What it cost (currency), so far as that is known; blank where nothing is."""
    there = _there(diary, year_lawn)
    known = number_of(diary.product_line, product_line, diary.cost, there)
    return where(known > 0, sum_by(diary.product_line, product_line, diary.cost, there), np.nan)


def number(product_line: Each[Number], year_lawn: Table, answers: Table) -> Each[Number]:
    """How many of its lines have a change of quality."""
    own = _answered(answers, year_lawn)
    return number_of(answers.product_line, product_line, answers.change_quality, own)


def mean(
    product_line: Each[Number], number: Each[Number], year_lawn: Table, answers: Table, settings: Table
) -> Each[Number]:
    """The mean change of quality over them; blank where they are too few."""
    own = _answered(answers, year_lawn)
    return mean_of(answers.product_line, product_line, answers.change_quality, number, settings, own)
