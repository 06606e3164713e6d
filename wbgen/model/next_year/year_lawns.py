"""What each lawn came to in this season: what it had, what that cost, and how it was scored.

One record a lawn: shape (lawns,).
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.lines import at, lines_of
from wbgen.model.tools.means import mean_of, number_of
from wbgen.model.tools.relations import joined, latest_by, lookup
from wbgen.model.types import Date, Each, Mask, Money, NitrogenPerArea, Number, Table, Text

BLANK_UNLESS = ("lawn",)


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return at(lawns.name, lines_of(turn))


def visits(turn: Each[Number], lawn_costs: Table) -> Each[Number]:
    """Number of this season's days on which it was fed."""
    return at(lawn_costs.visits, lines_of(turn))


def nitrogen(turn: Each[Number], season_applied: Table) -> Each[NitrogenPerArea]:
    """The nitrogen (g N/m²) that it had, by its whole area; blank without an area."""
    return at(season_applied.applied_nitrogen, lines_of(turn))


def target(turn: Each[Number], lawns: Table) -> Each[NitrogenPerArea]:
    """The nitrogen (g N/m²) that it was meant to have in a year; blank where that is not planned."""
    return at(lawns.target_nitrogen, lines_of(turn))


def over(nitrogen: Each[NitrogenPerArea], target: Each[NitrogenPerArea]) -> Each[NitrogenPerArea]:
    """By how much it had more than that; negative where it had less."""
    return nitrogen - target


def cost(turn: Each[Number], lawn_costs: Table) -> Each[Money]:
    """What its feeds cost (currency), so far as prices are known."""
    return at(lawn_costs.cost, lines_of(turn))


def _visits_of(answers: Table) -> Mask:
    """True for the first line of each visit of this season."""
    return (answers.visit_first == 1) & (answers.in_season == "yes")


def number(turn: Each[Number], answers: Table) -> Each[Number]:
    """How many of its visits have a change of quality."""
    return number_of(answers.lawn_line, lines_of(turn), answers.change_quality, _visits_of(answers))


def mean(turn: Each[Number], number: Each[Number], answers: Table, settings: Table) -> Each[Number]:
    """The mean change of quality over them; blank where they are too few."""
    return mean_of(answers.lawn_line, lines_of(turn), answers.change_quality, number, settings, _visits_of(answers))


def _scored(scores: Table, settings: Table, start: Table) -> Mask:
    """True for the scores of quality of this season, one a lawn and day."""
    within = (scores.date >= only(settings.season_start)) & (scores.date <= only(start.as_of))
    return within & ~blank(scores.quality) & ~blank(scores.once_key)


def _quality_on(turn: Each[Number], day: Each[Date], scores: Table) -> Each[Number]:
    """The quality of each lawn on a day of its own."""
    keys = where(blank(scores.once_key), "", joined(scores.lawn_line, scores.date))
    return lookup(joined(lines_of(turn), day), keys, scores.quality)


def first_day(turn: Each[Number], scores: Table, settings: Table, start: Table) -> Each[Date]:
    """The day on which its quality was first scored this season; blank where it never was."""
    return -latest_by(scores.lawn_line, lines_of(turn), -scores.date, _scored(scores, settings, start))


def last_day(turn: Each[Number], scores: Table, settings: Table, start: Table) -> Each[Date]:
    """The day on which its quality was last scored, likewise."""
    return latest_by(scores.lawn_line, lines_of(turn), scores.date, _scored(scores, settings, start))


def first_score(turn: Each[Number], first_day: Each[Date], scores: Table) -> Each[Number]:
    """The quality as it was scored first; blank where it never was."""
    return _quality_on(turn, first_day, scores)


def last_score(turn: Each[Number], last_day: Each[Date], scores: Table) -> Each[Number]:
    """The quality as it was scored last; blank where it never was."""
    return _quality_on(turn, last_day, scores)


def gain(first_score: Each[Number], last_score: Each[Number]) -> Each[Number]:
    """The last less the first."""
    return last_score - first_score


def against(turn: Each[Number], response_strips: Table) -> Each[Number]:
    """By how much its quality was over that of its untreated strip in the mean; blank where that is not known."""
    return at(response_strips.mean_quality, lines_of(turn))
