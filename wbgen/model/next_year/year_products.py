"""What each product came to in this season, on all lawns.

One record a product of the catalogue: shape (products,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, where
from wbgen.model.tools.lines import at, lines_of
from wbgen.model.tools.means import mean_of, number_of
from wbgen.model.tools.relations import count_by, sum_by
from wbgen.model.types import Each, Mask, Mass, Money, NitrogenMass, Number, T, Table, Text, Volume

BLANK_UNLESS = ("product",)


def product(turn: Each[Number], products: Table) -> Each[Text]:
    """Name of the product whose turn it is (from 1), blank where there is none."""
    return at(products.name, lines_of(turn))


def _this_season(diary: Table) -> Mask:
    return diary.season_month > 0


def _sum(turn: Each[Number], diary: Table, values: Each[T]) -> Each[T]:
    return sum_by(diary.product_line, lines_of(turn), values, _this_season(diary))


def lines(turn: Each[Number], diary: Table) -> Each[Number]:
    """The number of its lines in the diary."""
    return count_by(diary.product_line, lines_of(turn), _this_season(diary))


def lawns(turn: Each[Number], diary: Table) -> Each[Number]:
    """On how many lawns it was put."""
    return count_by(diary.product_line, lines_of(turn), ~blank(diary.pair_once))


def days(turn: Each[Number], diary: Table) -> Each[Number]:
    """The days on which it was put on a lawn, each lawn counted by itself."""
    return count_by(diary.product_line, lines_of(turn), _this_season(diary) & ~blank(diary.product_day_key))


def mass(turn: Each[Number], diary: Table, products: Table) -> Each[Mass]:
    """The mass (kg) of a solid that reached a lawn; blank for a liquid."""
    applied = _sum(turn, diary, diary.applied_mass).to("kg")
    return where(at(products.measured_by, lines_of(turn)) == "mass", applied, np.nan)


def volume(turn: Each[Number], diary: Table, products: Table) -> Each[Volume]:
    """The volume (L) of a liquid that reached a lawn; blank for a solid."""
    applied = _sum(turn, diary, diary.applied_volume).to("L")
    return where(at(products.measured_by, lines_of(turn)) == "volume", applied, np.nan)


def nitrogen(turn: Each[Number], diary: Table) -> Each[NitrogenMass]:
    """The nitrogen (kg N) that it brought."""
    return _sum(turn, diary, diary.load_nitrogen).to("kg_N")


def cost(turn: Each[Number], diary: Table) -> Each[Money]:
    """What it cost (currency), so far as that is known; blank where nothing is."""
    known = number_of(diary.product_line, lines_of(turn), diary.cost, _this_season(diary))
    return where(known > 0, _sum(turn, diary, diary.cost), np.nan)


def _own(answers: Table) -> Mask:
    """True for this season's lines that count for their product."""
    return (answers.in_season == "yes") & ~blank(answers.bit)


def number(turn: Each[Number], answers: Table) -> Each[Number]:
    """How many of its lines have a change of quality."""
    return number_of(answers.product_line, lines_of(turn), answers.change_quality, _own(answers))


def mean(turn: Each[Number], number: Each[Number], answers: Table, settings: Table) -> Each[Number]:
    """The mean change of quality over them; blank where they are too few."""
    return mean_of(answers.product_line, lines_of(turn), answers.change_quality, number, settings, _own(answers))


def number_colour(turn: Each[Number], answers: Table) -> Each[Number]:
    """How many of its lines have a change of colour."""
    return number_of(answers.product_line, lines_of(turn), answers.change_colour, _own(answers))


def mean_colour(turn: Each[Number], number_colour: Each[Number], answers: Table, settings: Table) -> Each[Number]:
    """The mean change of colour over them; blank where they are too few."""
    return mean_of(answers.product_line, lines_of(turn), answers.change_colour, number_colour, settings, _own(answers))
