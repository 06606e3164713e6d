"""What runs short first, and what is to be brewed.

One record a product: shape (today_short,).
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank, where
from wbgen.model.tools.lines import at, match
from wbgen.model.types import Date, Each, Number, Table, Text

BLANK_UNLESS = ("spot",)


def spot(turn: Each[Number], order_lines: Table) -> Each[Number]:
    """The line on Order, the heading row being line 1."""
    return match(turn, order_lines.short_turn)


def runs_out(spot: Each[Number], order_lines: Table) -> Each[Date]:
    """The first day for which there is not enough, as a serial number."""
    return at(order_lines.runs_out, spot)


def packs(spot: Each[Number], order_lines: Table) -> Each[Number]:
    """The packs to buy."""
    return at(order_lines.packs, spot)


def product(spot: Each[Number], order_lines: Table) -> Each[Text]:
    """The product."""
    return at(order_lines.product, spot)


def amounts(spot: Each[Number], order_lines: Table) -> Each[Text]:
    """What is on hand, and what is needed."""
    on_hand, needed = at(order_lines.on_hand, spot), at(order_lines.needed, spot)
    counted = where(blank(on_hand), "none counted", on_hand + " on hand")
    return counted + where(blank(needed), "", ", " + needed + " needed")


def words(spot: Each[Number], order_lines: Table) -> Each[Text]:
    """What is to be done."""
    return at(order_lines.words, spot)
