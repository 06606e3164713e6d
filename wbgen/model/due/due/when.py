"""When it is due next: by the line itself, less what was skipped, later than what was put off. And how it stands."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import blank, only, or_zero, where, with_unit
from wbgen.model.tools.lines import at
from wbgen.model.tools.rounding import down, half_up
from wbgen.model.types import Date, Each, Number, Table, Text, Time, each


def planned_day(
    programme_line: Each[Number],
    done: Each[Number],
    following: Each[Date],
    programme: Table,
) -> Each[Date]:
    """The day by the line itself: its first, then an interval after it was done last.

    A line that is shifted is due no sooner than on its own date of that turn, later by the shift.
    """
    first = at(programme.first, programme_line)
    shift = or_zero(at(programme.shift, programme_line)).to("day").magnitude
    apart = or_zero(at(programme.interval, programme_line)).to("day").magnitude
    own: Each[Date] = first + half_up(half_up(done * apart, 6)) + shift
    later: Each[Date] = where(shift > 0, each(np.maximum(following, own)), following)
    return where(done == 0, first + shift, later)


def turn_day(
    planned_day: Each[Date], lawn_line: Each[Number], programme_line: Each[Number], programme: Table, not_done: Table
) -> Each[Date]:
    """That day, or where a visit to the lawn was skipped on it or later, the first of its turns after that.

    Blank where no turn comes after it. A skipped visit is never made up for: common practice, no source.
    """
    skipped, apart = at(not_done.skipped_on, lawn_line), at(programme.interval, programme_line).to("day").magnitude
    turns = down(half_up((skipped - planned_day) / where(apart > 0, apart, np.nan), 6)) + 1
    after = planned_day + half_up(half_up(turns * apart, 6))
    return where(skipped >= planned_day, after, planned_day)


def next_due(
    programme_line: Each[Number],
    lawn_line: Each[Number],
    times_planned: Each[Number],
    done: Each[Number],
    turn_day: Each[Date],
    programme: Table,
    not_done: Table,
    start: Table,
) -> Each[Date]:
    """The day on which it is due next; the day after a visit was put off that was due by then.

    Blank where it is done as often as planned, where the line is over, and where the next day is past its end.
    """
    ends, put_off = at(programme.ends, programme_line), at(not_done.put_off_on, lawn_line)
    found = where(put_off >= turn_day, put_off + 1, turn_day)
    over = (done >= times_planned) | (only(start.as_of) > ends) | (found > ends) | (turn_day > ends)
    return where(over, np.nan, found)


def state(
    done: Each[Number],
    times_planned: Each[Number],
    planned_day: Each[Date],
    lawn_line: Each[Number],
    next_due: Each[Date],
    not_done: Table,
    start: Table,
    settings: Table,
) -> Each[Text]:
    """Whether it is done, skipped, missed, overdue, due within the time that the settings look ahead, or later."""
    as_of = only(start.as_of)
    ahead = as_of + dates.in_days(only(settings.due_time))
    coming = where(next_due < as_of, "overdue", where(next_due <= ahead, "due", "later"))
    over = where(at(not_done.skipped_on, lawn_line) >= planned_day, "skipped", "missed")
    return where(done >= times_planned, "done", where(blank(next_due), over, coming))


def due_words(
    planned_day: Each[Date],
    turn_day: Each[Date],
    next_due: Each[Date],
    lawn_line: Each[Number],
    not_done: Table,
) -> Each[Text]:
    """Why it is not due sooner, with the reason that the diary's note gives; else empty."""
    put_off = "put off" + _reason(at(not_done.put_off_why, lawn_line))
    skipped = "skipped" + _reason(at(not_done.skipped_why, lawn_line))
    was_skipped = at(not_done.skipped_on, lawn_line) >= planned_day
    return where(next_due > turn_day, put_off, where(was_skipped, skipped, ""))


def _reason(why: Each[Text]) -> Each[Text]:
    return where(blank(why), "", ": " + why)


def days_late(state: Each[Text], next_due: Each[Date], start: Table) -> Each[Time]:
    """How long it is overdue; blank where it is not."""
    return with_unit(where(state == "overdue", only(start.as_of) - next_due, np.nan), "day")
