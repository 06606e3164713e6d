"""The lines of the record, lawn by lawn and day by day.

One record a line of the diary, as many as there is room for: shape (record_lines,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, folded, where
from wbgen.model.tools.lines import at, lines_at
from wbgen.model.tools.methods import is_dry
from wbgen.model.tools.relations import lookup, pick
from wbgen.model.tools.words import amount as said
from wbgen.model.types import Area, Date, Each, Mask, Number, Speed, Table, Temperature, Text, Volume, each

BLANK_UNLESS = ("spot",)


def spot(turn: Each[Number], diary: Table, record: Table) -> Each[Number]:
    """The line of the diary, its heading row being line 1: by lawn, day and line; blank where there are fewer."""
    within = (diary.date >= record.first_day) & (diary.date <= record.last_day)
    places = np.flatnonzero(within & ~blank(diary.line_key) & ~blank(diary.lawn_line))
    places = places[np.lexsort((places, diary.date[places], diary.lawn_line[places]))]
    found = pick(each(places.astype(float)), turn - 1)
    return lines_at(where(blank(found), -1.0, found))


def date(spot: Each[Number], diary: Table) -> Each[Date]:
    """The day."""
    return at(diary.date, spot)


def place(spot: Each[Number], diary: Table) -> Each[Text]:
    """The lawn."""
    return at(diary.lawn, spot)


def _licence(spot: Each[Number], diary: Table, people: Table) -> Each[Text]:
    """The licence number of who did it, as the list of people has it."""
    return lookup(at(diary.who, spot), people.name, people.licence)


def who(spot: Each[Number], diary: Table, people: Table) -> Each[Text]:
    """Who did it, with the number of the licence."""
    licence = _licence(spot, diary, people)
    return at(diary.who, spot) + where(blank(licence), "", ", " + licence)


def product(spot: Each[Number], diary: Table) -> Each[Text]:
    """The product, as it is written there."""
    return at(diary.product, spot)


def registration(spot: Each[Number], diary: Table, products: Table) -> Each[Text]:
    """The number under which it is registered, where the list of products has one."""
    return at(products.registration, at(diary.product_line, spot))


def method(spot: Each[Number], diary: Table) -> Each[Text]:
    """Sprayed, or spread dry."""
    return at(diary.method, spot)


def amount(spot: Each[Number], diary: Table) -> Each[Text]:
    """How much of it went on, in the units of the diary; nothing where it is not noted."""
    mass, volume = at(diary.applied_mass, spot), at(diary.applied_volume, spot)
    solid, liquid = said(mass, diary.weighed.units, 1), said(volume, diary.poured.units, 1)
    return where(~blank(mass), solid, where(~blank(volume), liquid, ""))


def rate(spot: Each[Number], diary: Table) -> Each[Text]:
    """The same by the area that was treated; nothing where it is not known."""
    mass, volume = at(diary.rate_mass, spot), at(diary.rate_volume, spot)
    solid = said(mass, diary.planned_mass_rate.units, 2)
    liquid = said(volume, diary.planned_volume_rate.units, 2)
    return where(~blank(mass), solid, where(~blank(volume), liquid, ""))


def area(spot: Each[Number], diary: Table) -> Each[Area]:
    """The area that was treated, or that of the whole lawn where none is noted."""
    return at(diary.area_counted, spot)


def water(spot: Each[Number], diary: Table) -> Each[Volume]:
    """The spray that was made."""
    return at(diary.tank_water, spot)


def wind(spot: Each[Number], diary: Table) -> Each[Speed]:
    """The wind."""
    return at(diary.wind, spot)


def air(spot: Each[Number], diary: Table) -> Each[Temperature]:
    """The temperature of the air."""
    return at(diary.air_temperature, spot)


def note(spot: Each[Number], diary: Table) -> Each[Text]:
    """What is noted besides."""
    return at(diary.note, spot)


def _said_in(note: Each[Text], word: str) -> Mask:
    """True where a note has the word, in whatever case."""
    return np.array([word in one for one in folded(note)], dtype=bool)


def lacking(
    spot: Each[Number],
    who: Each[Text],
    registration: Each[Text],
    method: Each[Text],
    amount: Each[Text],
    area: Each[Area],
    water: Each[Volume],
    wind: Each[Speed],
    air: Each[Temperature],
    note: Each[Text],
    diary: Table,
    people: Table,
) -> Each[Text]:
    """What is not noted of the line; of what is spread dry, neither water nor wind nor air is asked for."""
    nobody, sprayed = blank(who), ~is_dry(method)
    asked = {
        "who": nobody,
        "licence": ~nobody & blank(_licence(spot, diary, people)),
        "registration no.": blank(registration),
        "how": blank(method),
        "amount": blank(amount),
        "area": blank(area),
        "water": sprayed & blank(water),
        "wind": sprayed & blank(wind),
        "wind direction": sprayed & ~_said_in(note, "wind from"),
        "air": sprayed & blank(air),
        "start and end": ~_said_in(note, "start"),
        "batch": ~_said_in(note, "batch"),
        "reason": ~_said_in(note, "reason"),
    }
    rows = [
        [word for word, one in zip(asked, record, strict=True) if one] for record in zip(*asked.values(), strict=True)
    ]
    return each(np.array([", ".join(words) for words in rows], dtype=object))
