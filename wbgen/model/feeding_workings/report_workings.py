"""The lawn of the sheet Lawn report: how many lines it has, what is not known of it, and what is due on it next.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import blank, only
from wbgen.model.tools.lines import at, match
from wbgen.model.tools.relations import pick
from wbgen.model.tools.words import counts, listed
from wbgen.model.types import Area, Date, Mask, Number, SerialDate, Table, Text, each


def lawn(report_choice: Table, lawns: Table) -> Text:
    """Name of the lawn: the one chosen, or the first of all."""
    return report_choice.lawn or pick(lawns.name, 0)


def lawn_line(lawn: Text, lawns: Table) -> Number:
    """Its line on the sheet Lawns, the heading row being line 1; blank for an unknown lawn."""
    return only(match(each(np.array([lawn], dtype=object)), lawns.name))


def group_line(lawn_line: Number, lawns: Table) -> Number:
    """The line of the first lawn of its group; blank without one."""
    return at(lawns.group_line, lawn_line)


def grass(lawn_line: Number, lawns: Table) -> Text:
    """Kind of grass."""
    return at(lawns.grass, lawn_line)


def area(lawn_line: Number, lawns: Table) -> Area:
    """Area of the whole lawn."""
    return at(lawns.area, lawn_line)


def _number(lawn_line: Number, found: Mask) -> float:
    """How many there are; blank for an unknown lawn."""
    return np.nan if blank(lawn_line) else float(np.count_nonzero(found))


def _own(lawn_line: Number, diary: Table) -> Mask:
    """This season's lines of the lawn."""
    return (diary.lawn_line == lawn_line) & (diary.season_month > 0)


def lines(lawn_line: Number, diary: Table) -> Number:
    """Lines of the diary that count this season."""
    return _number(lawn_line, _own(lawn_line, diary))


def later(lawn_line: Number, diary: Table, start: Table) -> Number:
    """Lines of the diary whose key is higher: later than the as-of date, or of a lawn further down the list."""
    further = (diary.lawn_line > lawn_line) | ((diary.lawn_line == lawn_line) & (diary.date > only(start.as_of)))
    return _number(lawn_line, further & ~blank(diary.line_key))


def _scores(lawn_line: Number, scores: Table) -> Mask:
    return (scores.lawn_line == lawn_line) & ~blank(scores.once_key)


def scored(lawn_line: Number, scores: Table, start: Table) -> Number:
    """Days up to the as-of date on which it was scored."""
    return _number(lawn_line, _scores(lawn_line, scores) & (scores.date <= only(start.as_of)))


def scored_later(lawn_line: Number, scores: Table, start: Table) -> Number:
    """Scores whose key is higher: later than the as-of date, or of a lawn further down the list."""
    later = _scores(lawn_line, scores) & (scores.date > only(start.as_of))
    return _number(lawn_line, later | ((scores.lawn_line > lawn_line) & ~blank(scores.once_key)))


def unmeasured(lawn_line: Number, diary: Table) -> Number:
    """Lines of this season of which neither weight nor volume is noted."""
    return _number(lawn_line, _own(lawn_line, diary) & blank(diary.applied_mass) & blank(diary.applied_volume))


def unlisted(lawn_line: Number, diary: Table) -> Number:
    """Lines of this season whose product is not on the sheet Products."""
    return _number(lawn_line, _own(lawn_line, diary) & blank(diary.product_line))


def astray(diary: Table) -> Number:
    """Lines of this season whose lawn is not on the sheet Lawns: they may be this one's."""
    return float(np.count_nonzero((diary.season_month > 0) & blank(diary.lawn_line)))


def _of(number: Number) -> str:
    return f"{counts(number)} line{'' if number == 1 else 's'}"


def words(
    lawn_line: Number,
    area: Area,
    unmeasured: Number,
    unlisted: Number,
    scored: Number,
    astray: Number,
) -> Text:
    """What cannot be said of the lawn, parted by semicolons; nothing where all is known."""
    said = {
        "; there is no such lawn": blank(lawn_line),
        "; the area of the lawn, so that nothing is said by area": blank(area) and not blank(lawn_line),
        f"; the amount of {_of(unmeasured)}, not counted": unmeasured > 0,
        f"; what is in the product of {_of(unlisted)}, not counted": unlisted > 0,
        "; how the grass looked": scored == 0,
        f"; the lawn of {_of(astray)} of the diary, not counted": astray > 0,
    }
    return str(listed(["".join(text for text, there in said.items() if there)])[0])


def _after(lawn_line: Number, due: Table, day: SerialDate | float, number: float) -> tuple[SerialDate, float]:
    """The day and the number of the line of Due that comes next on the lawn, lines of a day in their order.

    Blanks for none, and after a blank.
    """
    own = (due.lawn_line == lawn_line) & ~blank(due.next_due)
    places = np.flatnonzero(own & ((due.next_due > day) | ((due.next_due == day) & (due.number > number))))
    first = places[np.lexsort((due.number[places], due.next_due[places]))][:1]
    place = float(first[0]) if len(first) else -1.0
    return pick(due.next_due, place), pick(due.number, place)


def day_a(lawn_line: Number, due: Table) -> Date:
    """The day of what is due on it first, overdue or not; blank where nothing is."""
    return _after(lawn_line, due, -np.inf, 0.0)[0]


def number_a(lawn_line: Number, due: Table) -> Number:
    """The number of its line of the sheet Due."""
    return _after(lawn_line, due, -np.inf, 0.0)[1]


@of_family("later_ahead")
def day_each(lawn_line: Number, day_each_before: Date, number_each_before: Number, due: Table) -> Date:
    """The day of what is due on it next; blank where nothing is."""
    return _after(lawn_line, due, day_each_before, number_each_before)[0]


@of_family("later_ahead")
def number_each(lawn_line: Number, day_each_before: Date, number_each_before: Number, due: Table) -> Number:
    """The number of its line of the sheet Due."""
    return _after(lawn_line, due, day_each_before, number_each_before)[1]
