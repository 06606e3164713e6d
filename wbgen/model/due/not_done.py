"""What was not done, by lawn: the latest visit that was skipped, and the latest that was put off, by the diary.

One record a lawn: shape (lawns,). Days are serial numbers; those after the as-of date are none.
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank, is_word, only, or_zero, where
from wbgen.model.tools.keys import day_key
from wbgen.model.tools.lines import lines_of, match
from wbgen.model.tools.relations import joined, latest_by, lookup, pick
from wbgen.model.types import Date, Each, Mask, Number, Table, Text

BLANK_UNLESS = ("lawn",)


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    """The lawn."""
    return pick(lawns.name, turn - 1)


def _says(diary: Table, word: str) -> Mask:
    """True for the lines of what was not done that say so with this word."""
    return ~blank(diary.not_done_key) & is_word(diary.method, word)


def _latest(turn: Each[Number], diary: Table, lawns: Table, start: Table, word: str) -> Each[Date]:
    counted = _says(diary, word) & (diary.date <= only(start.as_of))
    return latest_by(match(diary.lawn, lawns.name), lines_of(turn), diary.date, counted)


def _why(turn: Each[Number], day: Each[Date], diary: Table, lawns: Table, word: str) -> Each[Text]:
    """The note of the first line that says so of the lawn and day."""
    said = where(_says(diary, word), joined(match(diary.lawn, lawns.name), diary.date), "")
    return lookup(joined(lines_of(turn), day), said, diary.note)


def skipped_on(turn: Each[Number], diary: Table, lawns: Table, start: Table) -> Each[Date]:
    """The day of the latest visit that was skipped; blank where none was."""
    return _latest(turn, diary, lawns, start, "skipped")


def skipped_key(turn: Each[Number], skipped_on: Each[Date], ones: Table) -> Each[Number]:
    """The key of that line, of lawn and day; 0 where there is none."""
    return or_zero(day_key(lines_of(turn), skipped_on, ones))


def skipped_why(turn: Each[Number], skipped_on: Each[Date], diary: Table, lawns: Table) -> Each[Text]:
    """What its note says."""
    return _why(turn, skipped_on, diary, lawns, "skipped")


def put_off_on(turn: Each[Number], diary: Table, lawns: Table, start: Table) -> Each[Date]:
    """The day of the latest visit that was put off; blank where none was."""
    return _latest(turn, diary, lawns, start, "put off")


def put_off_key(turn: Each[Number], put_off_on: Each[Date], ones: Table) -> Each[Number]:
    """The key of that line, higher than that of one that was skipped; 0 where there is none."""
    return or_zero(day_key(lines_of(turn), put_off_on, ones) + only(ones.dry_step))


def put_off_why(turn: Each[Number], put_off_on: Each[Date], diary: Table, lawns: Table) -> Each[Text]:
    """What its note says."""
    return _why(turn, put_off_on, diary, lawns, "put off")
