"""The head of the helper's card.

A form: each figure is a scalar.
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank
from wbgen.model.tools.words import in_words
from wbgen.model.types import Table, Text

_WEEKDAYS = ("Saturday", "Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday")
"""By the remainder of a date's serial number and seven."""


def shown_verdict(verdict: Table) -> Text:
    """The verdict, in words."""
    return verdict.verdict


def because(verdict: Table) -> Text:
    """The first reason."""
    return verdict.first_reason


def also(verdict: Table) -> Text:
    """The second reason."""
    return verdict.second_reason


def further(verdict: Table) -> Text:
    """The third reason."""
    return verdict.third_reason


def not_checked(verdict: Table) -> Text:
    """What was not checked, for want of a figure."""
    return verdict.not_checked


def when(mix: Table, months: Table) -> Text:
    """The date of the mix with its weekday, in words, and the sprayer."""
    if blank(mix.visit_date):
        return ""
    sprayer = "" if blank(mix.sprayer) else f", {mix.sprayer}"
    return f"{_WEEKDAYS[int(mix.visit_date) % 7]}, {in_words(mix.visit_date, months)}{sprayer}"


def to_mix(card: Table, mix_answers: Table) -> Text:
    """How much is mixed, where there is something to make that may be made."""
    return "" if blank(card.fill_mark) else mix_answers.to_mix
