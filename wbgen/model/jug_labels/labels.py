"""A label for each thing that is measured for the mix, in the order in which it goes into the tank.

One record a thing that goes in: shape (into_tank,). There are none where the verdict is not to mix.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, where
from wbgen.model.tools.relations import lookup, pick
from wbgen.model.tools.words import amount, counts
from wbgen.model.types import Each, Mass, Number, Table, Text, Volume

BLANK_UNLESS = ("product",)

_ASK_FIRST = 1


def product(turn: Each[Number], into_tank: Table, card: Table) -> Each[Text]:
    """What is in the jug; nothing where no tank is to be filled."""
    return where(np.full(len(turn), not blank(card.fill_mark)), pick(into_tank.what, turn - 1), "")


def _measured(weighed: Each[Mass], poured: Each[Volume], turn: Each[Number]) -> Each[Text]:
    """What is weighed or poured, with its unit."""
    mass, volume = pick(weighed, turn - 1), pick(poured, turn - 1)
    solid, liquid = amount(mass, weighed.units, 2), amount(volume, poured.units, 2)
    return where(~blank(mass), solid, where(~blank(volume), liquid, "amount not known"))


def full(turn: Each[Number], into_tank: Table, card: Table) -> Each[Text]:
    """How much goes into each tank that is filled to the full mark, and how many there are."""
    alone = bool(blank(card.part_mark))
    if card.alike == 1:
        share = ", for the one tank fill" if alone else ", for the full tank"
    else:
        share = f", for each of {counts(card.alike)} {'equal tank fills' if alone else 'full tanks'}"
    return _measured(into_tank.weigh_full, into_tank.pour_full, turn) + share


def last(turn: Each[Number], into_tank: Table, card: Table) -> Each[Text]:
    """How much goes into the last part tank; nothing where there is none."""
    said = _measured(into_tank.weigh_last, into_tank.pour_last, turn) + ", for the last part tank"
    return where(np.full(len(turn), blank(card.part_mark)), "", said)


def mix(
    turn: Each[Number],
    verdict: Table,
    mix_checks: Table,
    mix_water: Table,
    mix_lawns: Table,
    card_head: Table,
) -> Each[Text]:
    """Of what mix it is: its place in the order, the lawn or how many lawns, the day and the sprayer."""
    number = f" of {counts(mix_checks.found_products + mix_water.steps_full)} into the tank; "
    treated = np.flatnonzero(~blank(mix_lawns.treated_area))
    lawns = str(mix_lawns.lawn_used[treated[0]]) if len(treated) == 1 else f"{len(treated)} lawns"
    begun = "This mix only" + (", ask first: " if verdict.level == _ASK_FIRST else ": ") + "number "
    return begun + counts(turn) + number + lawns + "; " + str(card_head.when)


def care(turn: Each[Number], product: Each[Text], mix_products: Table, mix_water: Table) -> Each[Text]:
    """What can hurt a person, as the catalogue says; of the acid for the water, what the card says."""
    hazard = lookup(product, mix_products.product, mix_products.hazard)
    said = where(blank(hazard), "no hazard stands on the list: read the label", hazard)
    acid = (turn == 1) & (mix_water.steps_full == 1)
    return where(acid, str(mix_water.caution_words).replace("•", ""), said)
