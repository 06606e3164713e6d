"""How the grass answered each mix: one record a set of products that went out together and was scored.

One record a mix that was scored: shape (response_mixes,). A mix is known by one number, the sum of two to the power of
each product's place; its products are read off that number from the highest down.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.tools.elementwise import blank, where
from wbgen.model.tools.lines import FIRST, at
from wbgen.model.tools.means import mean_of, number_of
from wbgen.model.tools.order import place_of_rank
from wbgen.model.tools.relations import pick
from wbgen.model.types import Each, Figure, Number, Table, Text, each
from wbgen.trade.families import Member, family

MOST: Final = 1000.0
"""No power of two of a mix is higher, and none above it would be a number; a file may hold any line."""

BLANK_UNLESS = ("mix_key",)
NEVER_BLANK = ("mix_key",)


def mix_key(turn: Each[Number], answers: Table) -> Each[Number]:
    """The mix whose turn it is (from 1), the place_of_rank first; blank past the last."""
    return pick(answers.mix_once, place_of_rank(answers.mix_once, turn))


def _before(each: Member, response_mixes: Table) -> Each[Number]:
    """What the places before have left of the mix."""
    before = each.says["before"]
    return getattr(response_mixes, f"rest_{before}" if before else "mix_key")


@of_family("places")
def line_each(each: Member, response_mixes: Table) -> Each[Number]:
    """The line in the catalogue of the highest product that is left; blank where none is."""
    rest = _before(each, response_mixes)
    # A float is a fraction from a half to 1, times two to the power of an exponent: exact, as a logarithm is not.
    return where(rest > 0, np.frexp(rest)[1] - 1.0 + FIRST, np.nan)


@of_family("places")
def rest_each(each: Member, line_each: Each[Number], response_mixes: Table) -> Each[Number]:
    """What is left without it; 0 where nothing was."""
    place = np.clip(where(blank(line_each), FIRST, line_each) - FIRST, 0.0, MOST)
    taken = where(blank(line_each), 0.0, 2.0**place)
    return _before(each, response_mixes) - taken


@reads_every(line="places")
def words(line_every: list[Each[Number]], products: Table, response_mixes: Table) -> Each[Text]:
    """The names in one; and that there are more, where the places are too few."""
    listed = zip(*(at(products.name, line) for line in line_every), strict=True)
    names = [" + ".join(filter(None, row)) for row in listed]
    left = getattr(response_mixes, f"rest_{family('places')[-1].key}")
    more = where(left > 0, " + more", "")
    return each(np.array([f"{one}{end}" for one, end in zip(names, more, strict=True)], dtype=object))


@of_family("scored")
def number_each(mix_key: Each[Number], answers: Table) -> Each[Number]:
    """How many visits with this mix have a change."""
    return number_of(answers.mix_key, mix_key, answers.change_each)


@of_family("scored")
def mean_each(mix_key: Each[Number], number_each: Each[Number], answers: Table, settings: Table) -> Each[Figure]:
    """Their mean change; blank where they are too few."""
    return mean_of(answers.mix_key, mix_key, answers.change_each, number_each, settings)
