"""What stands on each line of the round, and what is measured out for it."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, magnitude, where
from wbgen.model.tools.lines import at, lines_at
from wbgen.model.tools.order import is_first, place_of_rank
from wbgen.model.tools.words import listed
from wbgen.model.types import Area, Date, Each, Mass, MassPerArea, Number, Table, Text, Volume, VolumePerArea


def spot(turn: Each[Number], due: Table) -> Each[Number]:
    """The line in the table of what is due, its heading row being line 1; blank past the last of the round."""
    return lines_at(place_of_rank(due.round_key, turn))


def programme_line(spot: Each[Number], due: Table) -> Each[Number]:
    """The line of the programme, its heading row being line 1."""
    return at(due.programme_line, spot)


def product_line(spot: Each[Number], due: Table) -> Each[Number]:
    """The line of the product in the catalogue; blank for an unknown one."""
    return at(due.product_line, spot)


def day(spot: Each[Number], due: Table) -> Each[Date]:
    """The day it goes on, as a serial number."""
    return at(due.visit_day, spot)


def lawn(spot: Each[Number], due: Table) -> Each[Text]:
    """The lawn."""
    return at(due.lawn, spot)


def product(spot: Each[Number], due: Table) -> Each[Text]:
    """The product."""
    return at(due.product, spot)


def method(programme_line: Each[Number], programme: Table) -> Each[Text]:
    """Whether it is sprayed or spread dry."""
    return at(programme.method, programme_line)


def area(spot: Each[Number], due: Table) -> Each[Area]:
    """The area (m²) of the lawn."""
    return at(due.area, spot)


def rate_mass(programme_line: Each[Number], programme: Table) -> Each[MassPerArea]:
    """The application rate (g/m²) of a solid."""
    return at(programme.rate_mass, programme_line)


def rate_volume(programme_line: Each[Number], programme: Table) -> Each[VolumePerArea]:
    """The application rate (mL/m²) of a liquid."""
    return at(programme.rate_volume, programme_line)


def carrier_volume(programme_line: Each[Number], programme: Table) -> Each[VolumePerArea]:
    """The carrier volume (L/ha) of a spray."""
    return at(programme.carrier_volume, programme_line)


def mass(rate_mass: Each[MassPerArea], area: Each[Area], line_level: Each[Number]) -> Each[Mass]:
    """The mass (g) of a solid for the lawn; blank for what must not go on."""
    return where(line_level > 1, np.nan, (rate_mass * area).to("g"))


def volume(rate_volume: Each[VolumePerArea], area: Each[Area], line_level: Each[Number]) -> Each[Volume]:
    """The volume (mL) of a liquid for the lawn; blank for what must not go on."""
    return where(line_level > 1, np.nan, (rate_volume * area).to("mL"))


def tick(spot: Each[Number]) -> Each[Text]:
    """A box to tick by hand."""
    return where(blank(spot), "", "□")


def lawn_turn(lawn: Each[Text]) -> Each[Number]:
    """1 on the first line of each lawn, blank on the others."""
    return where(is_first(lawn), 1.0, np.nan)


def bring_first(product: Each[Text], mass: Each[Mass], volume: Each[Volume]) -> Each[Number]:
    """1 on the first line of each product that takes some of it, blank on the others."""
    takes = (magnitude(mass) > 0) | (magnitude(volume) > 0)
    return where(is_first(where(takes, product, "")), 1.0, np.nan)


def bring_turn(bring_first: Each[Number]) -> Each[Number]:
    """The product's turn among what is to be brought, from 1, on that line."""
    return where(blank(bring_first), np.nan, np.cumsum(~blank(bring_first)).astype(float))


def words(
    line_level: Each[Number],
    stop_words: Each[Text],
    ask_words: Each[Text],
    tank_words: Each[Text],
    early_words: Each[Text],
    growth: Each[Text],
    spot: Each[Number],
    due: Table,
) -> Each[Text]:
    """What is to be said of the line: whether it may go on, what it must not meet, whether it is early or late, and
    what is not known."""
    asked = where(line_level == 1, "; ask first: " + ask_words, "")
    return listed(
        where(line_level > 1, "; do not: " + stop_words, asked)
        + tank_words
        + early_words
        + where(growth == "not known", "; growth of this month not known", "")
        + where(at(due.state, spot) == "overdue", "; overdue", "")
    )
