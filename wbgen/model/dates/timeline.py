"""The dates of the programme in the order of time: each line shows the date whose turn it is."""

from __future__ import annotations

from typing import Any

from wbgen.model.tools.lines import at, match
from wbgen.model.tools.relations import only, where

Value = Any

BLANK_UNLESS = ("spot",)


def spot(turn: Value, applications: Value) -> Value:
    """The line among the dates, their heading row being line 1; blank past the last."""
    return match(turn, applications.date_rank)


def date(spot: Value, applications: Value) -> Value:
    """The day."""
    return at(applications.date, spot)


def product(spot: Value, applications: Value) -> Value:
    """The product."""
    return at(applications.product, spot)


def where_words(spot: Value, applications: Value) -> Value:
    """Where it goes, in words."""
    return at(applications.where_words, spot)


def mass(spot: Value, applications: Value) -> Value:
    """The mass (g) of a solid for all of its lawns."""
    return at(applications.mass, spot)


def volume(spot: Value, applications: Value) -> Value:
    """The volume (mL) of a liquid for all of its lawns."""
    return at(applications.volume, spot)


def water(spot: Value, applications: Value) -> Value:
    """The spray (L) for all of its lawns."""
    return at(applications.water, spot)


def date_words(spot: Value, applications: Value) -> Value:
    """What is to be said of the day."""
    return at(applications.date_words, spot)


def when(date: Value, start: Value) -> Value:
    """Whether the day is past, today or to come, seen from the as-of date."""
    as_of = only(start.as_of)
    return where(date < as_of, "past", where(date == as_of, "today", "to come"))
