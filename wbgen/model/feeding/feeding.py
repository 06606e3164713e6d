"""How each lawn stands with its nitrogen: against its target, and against the plan of the programme.

One record a lawn: shape (lawns,).
"""

from __future__ import annotations

from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import blank, only, or_zero, ratio, where
from wbgen.model.tools.lines import lines_of
from wbgen.model.tools.relations import pick, sum_by, total
from wbgen.model.tools.rounding import exceeds
from wbgen.model.types import Each, NitrogenPerArea, Number, Table, Text

BLANK_UNLESS = ("lawn",)


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return pick(lawns.name, turn - 1)


def target(turn: Each[Number], lawns: Table) -> Each[NitrogenPerArea]:
    """Nitrogen wanted in a year, by area; blank where it is not planned."""
    return pick(lawns.target_nitrogen, turn - 1)


def had(season_applied: Table) -> Each[NitrogenPerArea]:
    """Nitrogen applied this season, by area of the whole lawn; blank without an area."""
    return season_applied.applied_nitrogen


def of_target(season_share: Table) -> Each[Number]:
    """Share of the target that was applied; blank without a target or with one of 0."""
    return season_share.share_nitrogen


def plan(turn: Each[Number], lawns: Table, applications: Table, start: Table) -> Each[NitrogenPerArea]:
    """Nitrogen (g/m²) of the programme's dates from the season's start to the as-of date, that day included.

    A date is for all lawns, for a group of lawns, which goes by the line of its first lawn, or for one lawn.
    """
    past = (applications.in_year == "yes") & (applications.date <= only(start.as_of))
    brings, ground = applications.brings_nitrogen, applications.ground
    of_lawn = sum_by(ground, lines_of(turn), brings, past)
    of_group = sum_by(ground, -pick(lawns.group_line, turn - 1), brings, past)
    return of_lawn + of_group + total(brings, past & (ground == 0))


def plan_words(had: Each[NitrogenPerArea], plan: Each[NitrogenPerArea], settings: Table) -> Each[Text]:
    """Whether the lawn is ahead of its plan or behind it, in words; nothing where neither has anything.

    It is on plan while it differs by no more than the share that a rate may differ from its plan.
    """
    room = plan * or_zero(only(settings.plan_tolerance))
    stands = where(exceeds(had - plan, room), "ahead", where(exceeds(plan - had, room), "behind", "on plan"))
    nothing = ~(exceeds(abs(plan), 0 * plan) | exceeds(abs(had), 0 * had))
    return where(blank(had) | nothing, "", stands)


def remaining(season_left: Table) -> Each[NitrogenPerArea]:
    """Nitrogen still to give this season, by area; negative where the target is passed."""
    return season_left.left_nitrogen


def hectare(had: Each[NitrogenPerArea]) -> Each[NitrogenPerArea]:
    """What was applied, in the unit of large areas."""
    return had


def rolling(
    lawn: Each[Text], season_applied: Table, diary: Table, settings: Table, start: Table
) -> Each[NitrogenPerArea]:
    """Nitrogen of the days up to the as-of date that are watched over, by area of the whole lawn."""
    now = only(start.as_of)
    recent = (diary.date > now - dates.in_days(settings.rolling_time)) & (diary.date <= now)
    return ratio(sum_by(diary.lawn, lawn, diary.load_nitrogen, recent), season_applied.area)


def forecast(season_forecast: Table) -> Each[NitrogenPerArea]:
    """What the lawn will have had when the season ends, if the rest of the programme is carried out."""
    return season_forecast.end_nitrogen


def end_words(season_end: Table) -> Each[Text]:
    """How nitrogen will stand then against the target, in words."""
    return season_end.words
