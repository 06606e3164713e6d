"""Each lawn against its untreated strip, on the days of this season on which both were scored.

One record a lawn: shape (lawns,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.lines import at, lines_of
from wbgen.model.tools.means import mean_of, number_of
from wbgen.model.types import Each, Figure, Mask, Number, Table, Text

BLANK_UNLESS = ("lawn",)


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return at(lawns.name, lines_of(turn))


def strip(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Name of its strip; blank without one, or for one that is no lawn."""
    return where(blank(at(lawns.strip_line, lines_of(turn))), "", at(lawns.strip, lines_of(turn)))


def _in_season(scores: Table, settings: Table, start: Table) -> Mask:
    return (scores.date >= only(settings.season_start)) & (scores.date <= only(start.as_of))


@of_family("scored")
def number_each(turn: Each[Number], scores: Table, settings: Table, start: Table) -> Each[Number]:
    """How many scores of the season have one of the strip beside them."""
    counted = _in_season(scores, settings, start)
    return number_of(scores.lawn_line, lines_of(turn), scores.against_each, counted)


@of_family("scored")
def mean_each(
    turn: Each[Number], number_each: Each[Number], scores: Table, settings: Table, start: Table
) -> Each[Figure]:
    """By how much the lawn was scored over its strip in the mean; blank where there are too few."""
    counted = _in_season(scores, settings, start)
    return mean_of(scores.lawn_line, lines_of(turn), scores.against_each, number_each, settings, counted)
