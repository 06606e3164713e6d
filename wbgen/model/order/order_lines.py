"""What is needed, on hand and to be bought, the first to run out on top.

One record a product that is needed or on hand, as many as there is room for: shape (order_lines,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, magnitude, only, or_zero, where
from wbgen.model.tools.lines import at, lines_at
from wbgen.model.tools.order import place_of_rank
from wbgen.model.tools.rounding import exceeds
from wbgen.model.tools.words import amount, in_words, listed
from wbgen.model.types import Date, Each, Money, Number, Quantity, Table, Text

BLANK_UNLESS = ("spot",)


def spot(turn: Each[Number], stock: Table) -> Each[Number]:
    """The line on the sheet Stock, its heading row being line 1; blank where there are fewer."""
    return lines_at(place_of_rank(stock.order_key, turn))


def product(spot: Each[Number], stock: Table) -> Each[Text]:
    """The product."""
    return at(stock.product, spot)


def _either(mass: Each[Quantity], volume: Each[Quantity], shelf: Table) -> Each[Text]:
    """What is measured by mass or by volume, with its unit; nothing where neither is known."""
    solid, liquid = amount(mass, shelf.mass.units, 2), amount(volume, shelf.volume.units, 2)
    return where(~blank(mass), solid, where(~blank(volume), liquid, ""))


def on_hand(spot: Each[Number], stock: Table, shelf: Table) -> Each[Text]:
    """What there is of it."""
    return _either(at(stock.on_hand_mass, spot), at(stock.on_hand_volume, spot), shelf)


def needed(spot: Each[Number], stock: Table, shelf: Table) -> Each[Text]:
    """What is needed of it by then; nothing where none is."""
    return _either(_some(at(stock.order_mass, spot)), _some(at(stock.order_volume, spot)), shelf)


def _some(needed: Each[Quantity]) -> Each[Quantity]:
    return where(exceeds(needed, 0 * needed), needed, float("nan"))


def runs_out(spot: Each[Number], stock: Table) -> Each[Date]:
    """The first day for which there is not enough of it; blank where it lasts."""
    return at(stock.runs_out, spot)


def short(spot: Each[Number], stock: Table, shelf: Table) -> Each[Text]:
    """What is missing of it by then; nothing where nothing is."""
    return _either(
        _missing(at(stock.order_mass, spot), at(stock.on_hand_mass, spot)),
        _missing(at(stock.order_volume, spot), at(stock.on_hand_volume, spot)),
        shelf,
    )


def _missing(needed: Each[Quantity], there: Each[Quantity]) -> Each[Quantity]:
    """What is needed beyond what there is, less than nothing being nothing; blank where there is enough."""
    usable = where(exceeds(there, 0 * there), there, 0 * or_zero(there))
    return where(exceeds(needed, usable), needed - usable, float("nan"))


def packs(spot: Each[Number], stock: Table) -> Each[Number]:
    """Whole packs to buy; blank for none."""
    found = at(stock.order_packs, spot)
    return where(or_zero(found) == 0, float("nan"), found)


def cost(packs: Each[Number], spot: Each[Number], stock: Table) -> Each[Money]:
    """What they cost; blank without a price."""
    found = at(stock.order_cost, spot)
    return where(blank(packs), float("nan"), found)


def rest_cost(spot: Each[Number], stock: Table) -> Each[Money]:
    """What the packs for the rest of the programme cost; blank for none, and without a price."""
    return where(or_zero(at(stock.packs_to_buy, spot)) == 0, float("nan"), at(stock.cost_to_buy, spot))


def words(
    short: Each[Text],
    packs: Each[Number],
    runs_out: Each[Date],
    spot: Each[Number],
    stock: Table,
    start: Table,
    months: Table,
) -> Each[Text]:
    """What to do about it, in words: buy or brew, and count what was never counted or cannot be."""
    buy = where(or_zero(runs_out) <= only(start.as_of), "; buy now", "; buy before " + in_words(runs_out, months))
    brewed = at(stock.brewed, spot) == "yes"
    act = where(brewed, "; brew", where(blank(packs), "; short: no pack size is known", buy))
    uncounted = where(blank(at(stock.after, spot)) & ~brewed, "; never counted", "")
    mass, volume = at(stock.on_hand_mass, spot), at(stock.on_hand_volume, spot)
    below = exceeds(-magnitude(mass), 0.0) | exceeds(-magnitude(volume), 0.0)
    return listed(where(short == "", "", act) + uncounted + where(below, "; less than nothing: count again", ""))


def short_line(words: Each[Text]) -> Each[Number]:
    """1 where there is something to do, else blank."""
    return where(blank(words), float("nan"), 1.0)


def short_turn(short_line: Each[Number]) -> Each[Number]:
    """Its turn among those, from 1; blank on the others."""
    return where(blank(short_line), float("nan"), np.cumsum(~blank(short_line)).astype(float))
