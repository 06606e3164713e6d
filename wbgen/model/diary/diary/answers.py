"""How the grass answered: the scores before and after each line, and which lines are one mix or one pair.

A score before is the last one up to the day of the line, a score after the first one from some days on; both are of
the line's own lawn. Dates are serial numbers.
"""

from __future__ import annotations

from typing import Any, Final

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.dates import in_days
from wbgen.model.tools.lines import at, lines_at, match
from wbgen.model.tools.order import Days, is_first
from wbgen.model.tools.relations import blank, count_by, joined, only, pick, sum_by
from wbgen.trade.families import Member

Value = Any

_LAST_WITH_A_BIT: Final = 49.0
"""48 bits keep a sum of them within the fifteen digits that spreadsheets hold."""


class _Keys:
    """The keys of the scores that stand once, in rising order, and the records they stand in."""

    def __init__(self, scores: Value) -> None:
        known = np.flatnonzero(~blank(scores.once_key))
        self._records = known[np.argsort(scores.once_key[known], kind="stable")]
        self._keys = scores.once_key[self._records]

    def lines(self, wanted: Any, side: Any, step: int) -> Any:
        """The line of the key `step` away from where each wanted one would stand; blank where there is none."""
        places = np.searchsorted(self._keys, wanted, side=side) + step
        # A blank is sorted behind all keys, and is no key. What is before the first and behind the last is none too.
        return lines_at(pick(self._records, np.where(np.isnan(wanted), -1, places)))


def last_scored(lawn_day_key: Value, scores: Value) -> Value:
    """The line of the score with the greatest key that is not over the line's own, of whatever lawn."""
    return _Keys(scores).lines(lawn_day_key, "right", -1)


def next_scored(lawn_day_key: Value, scores: Value, settings: Value) -> Value:
    """The line of the score with the least key that is the settings' days after the line's own, or more."""
    return _Keys(scores).lines(lawn_day_key + in_days(only(settings.after_days)), "left", 0)


def _line_of(lawn_line: Value, day: Any, scores: Value) -> Any:
    """The line of the first score of a lawn and day."""
    return match(joined(lawn_line, day), joined(scores.lawn_line, scores.date))


def scored_before(lawn_line: Value, date: Value, scores: Value, settings: Value) -> Value:
    """The line of the lawn's last score up to the day, at most so long before it; blank where there is none."""
    days = Days(scores.lawn_line, scores.date)
    return _line_of(lawn_line, days.latest(lawn_line, date - in_days(only(settings.before_time)), date), scores)


def scored_after(lawn_line: Value, date: Value, scores: Value, settings: Value) -> Value:
    """The line of the lawn's first score of those days in which the answer shows; blank where there is none."""
    since, until = date + in_days(only(settings.after_days)), date + in_days(only(settings.after_time))
    days = Days(scores.lawn_line, scores.date)
    return _line_of(lawn_line, days.earliest(lawn_line, since, until), scores)


@of_family("scored")
def change_each(each: Member, scored_before: Value, scored_after: Value, scores: Value) -> Value:
    """What was scored after the line, less what was scored before it; blank without both."""
    scored = getattr(scores, each.key)
    return at(scored, scored_after) - at(scored, scored_before)


def mix_bit(product_line: Value, product_day_key: Value) -> Value:
    """A number of its own for each product, two to the power of its place; once a lawn and day.

    Blank for a product that stands too far down the catalogue to have one.
    """
    has = ~blank(product_day_key) & (product_line <= _LAST_WITH_A_BIT)
    return np.where(has, 2.0 ** (np.where(has, product_line, 2.0) - 2), np.nan)


def product_visit(product_day_key: Value, lawn_day_key: Value) -> Value:
    """The key of lawn and day, on the first line there of each product; blank on the others."""
    return np.where(blank(product_day_key), np.nan, lawn_day_key)


def alone(mix_bit: Value, lawn_day_key: Value, product_visit: Value) -> Value:
    """1 on the line of a product that was the only one of its visit, else blank."""
    return np.where(~blank(mix_bit) & (count_by(product_visit, lawn_day_key) == 1), 1.0, np.nan)


def mix_key(
    visit_first: Value, scored_before: Value, scored_after: Value, lawn_day_key: Value, mix_bit: Value
) -> Value:
    """The products of a visit as one number, the sum of their own; 0 where none has one.

    Only of visits that were scored before and after, on the first of their lines; blank elsewhere.
    """
    answered = (visit_first == 1) & ~blank(scored_before) & ~blank(scored_after)
    return np.where(answered, sum_by(lawn_day_key, lawn_day_key, mix_bit), np.nan)


def visit_mix(mix_key: Value) -> Value:
    """The mix of a visit in which a product has a number; else blank."""
    return np.where(mix_key > 0, mix_key, np.nan)


def mix_once(visit_mix: Value) -> Value:
    """Each mix on the first visit that has it; blank on those that follow."""
    return np.where(is_first(visit_mix), visit_mix, np.nan)


def pair_key(lawn_line: Value, product_line: Value, in_season: Value, ones: Value) -> Value:
    """One number for lawn and product, on this season's lines; blank where either is unknown."""
    return np.where(in_season == "yes", lawn_line * only(ones.key_step) + product_line, np.nan)


def pair_once(pair_key: Value) -> Value:
    """Each pair on the first line that has it; blank on those that follow."""
    return np.where(is_first(pair_key), pair_key, np.nan)
