"""The dates of the programme in the order of time: each line shows the date whose turn it is.

One record a date in the order of time: shape (applications,).
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import only, where
from wbgen.model.tools.lines import at, match
from wbgen.model.types import Date, Each, Mass, Number, Table, Text, Volume

BLANK_UNLESS = ("spot",)


def spot(turn: Each[Number], applications: Table) -> Each[Number]:
    """The line among the dates, their heading row being line 1; blank past the last."""
    return match(turn, applications.date_rank)


def date(spot: Each[Number], applications: Table) -> Each[Date]:
    """The day."""
    return at(applications.date, spot)


def product(spot: Each[Number], applications: Table, programme: Table) -> Each[Text]:
    """The product."""
    return at(programme.product, at(applications.programme_line, spot))


def where_words(spot: Each[Number], applications: Table, programme: Table) -> Each[Text]:
    """Where it goes, in words."""
    return at(programme.where_words, at(applications.programme_line, spot))


def mass(spot: Each[Number], applications: Table, programme: Table) -> Each[Mass]:
    """The mass (g) of a solid for all of its lawns; blank without a rate."""
    return at(programme.rate_mass * programme.area_counted, at(applications.programme_line, spot)).to("g")


def volume(spot: Each[Number], applications: Table, programme: Table) -> Each[Volume]:
    """The volume (mL) of a liquid for all of its lawns; blank without a rate."""
    return at(programme.rate_volume * programme.area_counted, at(applications.programme_line, spot)).to("mL")


def water(spot: Each[Number], applications: Table, programme: Table) -> Each[Volume]:
    """The spray (L) for all of its lawns."""
    return at(programme.water_each_time, at(applications.programme_line, spot))


def date_words(spot: Each[Number], applications: Table) -> Each[Text]:
    """What is to be said of the day."""
    return at(applications.date_words, spot)


def when(date: Each[Date], start: Table) -> Each[Text]:
    """Whether the day is past, today or to come, seen from the as-of date."""
    as_of = only(start.as_of)
    return where(date < as_of, "past", where(date == as_of, "today", "to come"))
