"""What this visit comes to on each lawn of it, its nitrogen and iron above all.

One record a lawn of this visit: shape (lawns,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools import dates
from wbgen.model.tools.elementwise import as_number, blank, folded, like, magnitude, only, or_zero, ratio, where
from wbgen.model.tools.growth import asks_for_growth, growth_of, is_known, is_slow
from wbgen.model.tools.methods import is_dry
from wbgen.model.tools.relations import count_by, lookup, sum_by
from wbgen.model.tools.rounding import exceeds, half_up
from wbgen.model.tools.target import room_about
from wbgen.model.tools.words import amount, counts, days
from wbgen.model.types import Area, Each, IronPerArea, Mask, NitrogenPerArea, Number, Table, Text

BLANK_UNLESS = ("lawn",)


def lawn(mix_lawns: Table) -> Each[Text]:
    """The lawn treated, in the same order."""
    return mix_lawns.lawn_used


def lawn_area(mix_lawns: Table) -> Each[Area]:
    """Area of the whole lawn."""
    return mix_lawns.lawn_area


def treated_area(mix_lawns: Table) -> Each[Area]:
    """Area of it that is treated."""
    return mix_lawns.treated_area


def nitrogen_before(
    lawn: Each[Text], lawn_area: Each[Area], mix: Table, diary: Table, settings: Table
) -> Each[NitrogenPerArea]:
    """Nitrogen on the lawn (g/m²) in the rolling time that ends on the visit; of its own day what was spread dry.

    Σ loads (g) of the diary's lines of those days ÷ area of the whole lawn (m²). Common practice, no source.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> lawn, loads = np.array(["Front"] * 3, dtype=object), FLOAT.Quantity(np.array([85.0, 170.0, 85.0]), "g_N")
    >>> diary = SimpleNamespace(lawn=lawn, date=np.array([60.0, 80.0, 100.0]), load_nitrogen=loads,
    ...                         method=np.array(["spray", "spray", "spray"], dtype=object))
    >>> visit, settings = SimpleNamespace(visit_date=100.0), SimpleNamespace(rolling_time=FLOAT("30 day"))
    >>> nitrogen_before(lawn[:1], FLOAT.Quantity(np.array([85.0]), "m**2"), visit, diary, settings).magnitude
    array([2.])
    """
    recent = mix.visit_date - diary.date < dates.in_days(settings.rolling_time)
    return ratio(sum_by(diary.lawn, lawn, diary.load_nitrogen, recent & _been(mix, diary)), lawn_area)


def _been(mix: Table, diary: Table) -> Mask:
    """Which lines of the diary are before the visit. Sprays of its own day may be the visit, dressings are not."""
    return (diary.date < mix.visit_date) | ((diary.date == mix.visit_date) & is_dry(diary.method))


def nitrogen_visit(treated_area: Each[Area], lawn_area: Each[Area], mix_nutrients: Table) -> Each[NitrogenPerArea]:
    """Nitrogen of this visit, by the whole lawn."""
    return ratio(mix_nutrients.rate_nitrogen * treated_area, lawn_area)


def nitrogen_together(
    nitrogen_before: Each[NitrogenPerArea], nitrogen_visit: Each[NitrogenPerArea]
) -> Each[NitrogenPerArea]:
    """Nitrogen of the last weeks and of this visit."""
    return nitrogen_before + nitrogen_visit


def growth(lawn: Each[Text], lawns: Table, months: Table, mix: Table) -> Each[Number]:
    """Growth potential of the lawn's grass in the month of the visit; blank for an unknown lawn."""
    found = growth_of(lookup(lawn, lawns.name, lawns.grass), dates.month_of(mix.visit_date), months)
    return where(blank(lookup(lawn, lawns.name, lawns.name)), np.nan, found)


def nitrogen_ceiling(growth: Each[Number], lawn: Each[Text], lawns: Table, settings: Table) -> Each[NitrogenPerArea]:
    """Nitrogen that the grass can use (g/m²): the most in a month at full growth (g/m²) × growth potential.

    The most is the lawn's own, else that of the settings. M. Woods, Monthly maximum N or annual maximum N, 2023.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> lawn, unit = np.array(["Front"], dtype=object), "g_N/m**2"
    >>> lawns = SimpleNamespace(name=lawn, most_nitrogen_month=FLOAT.Quantity(np.array([np.nan]), unit))
    >>> settings = SimpleNamespace(most_nitrogen_month=FLOAT.Quantity(3.0, unit))
    >>> nitrogen_ceiling(np.array([0.5]), lawn, lawns, settings).magnitude
    array([1.5])
    """
    own = lookup(lawn, lawns.name, lawns.most_nitrogen_month)
    return growth * where(blank(own), settings.most_nitrogen_month, own)


def nitrogen_level(
    nitrogen_together: Each[NitrogenPerArea],
    nitrogen_visit: Each[NitrogenPerArea],
    nitrogen_ceiling: Each[NitrogenPerArea],
) -> Each[Number]:
    """1, ask first, where this visit brings nitrogen and the sum exceeds the ceiling; else 0."""
    over = (magnitude(nitrogen_visit) > 0) & exceeds(nitrogen_together, nitrogen_ceiling)
    return where(blank(nitrogen_together), np.nan, where(over, 1.0, 0.0))


def growth_level(
    growth: Each[Number], mix_nutrients: Table, mix: Table, months: Table, settings: Table
) -> Each[Number]:
    """1, ask first, where this visit brings nitrogen to feed with and the grass hardly grows in its month; else 0.

    Nitrogen counts as it lies on the treated ground (g/m²). A month without a mean temperature is not judged.
    """
    fed = asks_for_growth(mix_nutrients.rate_nitrogen, settings) & is_known(dates.month_of(mix.visit_date), months)
    return where(blank(growth), np.nan, where(is_slow(growth, settings) & fed, 1.0, 0.0))


def nitrogen_season(lawn: Each[Text], lawn_area: Each[Area], mix: Table, diary: Table) -> Each[NitrogenPerArea]:
    """Nitrogen on the lawn since the visit's season began, by the whole lawn; of its own day what was spread dry."""
    counted = _been(mix, diary) & (diary.date >= mix.season_start)
    return ratio(sum_by(diary.lawn, lawn, diary.load_nitrogen, counted), lawn_area)


def nitrogen_target(lawn: Each[Text], lawns: Table) -> Each[NitrogenPerArea]:
    """The lawn's nitrogen target of the year."""
    return lookup(lawn, lawns.name, lawns.target_nitrogen)


def _most_on_target(nitrogen_target: Each[NitrogenPerArea], settings: Table) -> Each[NitrogenPerArea]:
    """The most nitrogen that is still on the target."""
    return nitrogen_target + room_about(nitrogen_target, settings)


def target_level(
    nitrogen_season: Each[NitrogenPerArea],
    nitrogen_visit: Each[NitrogenPerArea],
    nitrogen_target: Each[NitrogenPerArea],
    settings: Table,
) -> Each[Number]:
    """1, ask first, where this visit brings nitrogen and takes the season over what is on its target; else 0."""
    together = nitrogen_season + nitrogen_visit
    over = (magnitude(nitrogen_visit) > 0) & exceeds(together, _most_on_target(nitrogen_target, settings))
    return where(blank(together), np.nan, where(over, 1.0, 0.0))


def lines_today(lawn: Each[Text], diary: Table, mix: Table) -> Each[Number]:
    """How many lines the diary has for the lawn on the day of the visit."""
    return count_by(diary.lawn, lawn, diary.date == mix.visit_date)


def iron_before(
    lawn: Each[Text], lawn_area: Each[Area], mix: Table, diary: Table, settings: Table
) -> Each[IronPerArea]:
    """Iron on the lawn (g/m²) in the days of the settings that end on the visit; of its own day what was spread dry.

    Σ loads (g) of the diary's lines of those days, sprayed and dry ÷ area of the whole lawn (m²).
    """
    recent = mix.visit_date - diary.date < dates.in_days(settings.iron_time)
    return ratio(sum_by(diary.lawn, lawn, diary.load_iron, recent & _been(mix, diary)), lawn_area)


def iron_together(iron_before: Each[IronPerArea], mix_nutrients: Table) -> Each[IronPerArea]:
    """The same with this visit, which counts as it lies on the treated ground."""
    visit = mix_nutrients.rate_iron
    return iron_before + like(visit, or_zero(magnitude(visit)))


def iron_level(
    iron_before: Each[IronPerArea], iron_together: Each[IronPerArea], mix_nutrients: Table, limits: Table
) -> Each[Number]:
    """1, ask first, where this visit's iron with that of the days before is what asks first in one visit; else 0."""
    adds = (magnitude(mix_nutrients.rate_iron) > 0) & (magnitude(iron_before) > 0)
    much = adds & exceeds(iron_together, only(limits.ask_iron))
    return where(blank(iron_together), np.nan, where(much, 1.0, 0.0))


def strip_level(lawn: Each[Text], lawns: Table) -> Each[Number]:
    """1, ask first, where the lawn is the untreated strip of another; else 0."""
    others = folded(lawns.name) != folded(lawns.strip)
    return where(count_by(lawns.strip, lawn, others) > 0, 1.0, 0.0)


def problem(mix_lawns: Table) -> Each[Text]:
    """What keeps the lawn from being treated, in words."""
    return mix_lawns.lawn_problem


def lawn_level(
    problem: Each[Text],
    growth_level: Each[Number],
    nitrogen_level: Each[Number],
    target_level: Each[Number],
    iron_level: Each[Number],
    strip_level: Each[Number],
    lines_today: Each[Number],
) -> Each[Number]:
    """The worst for the lawn: 2 do not mix, 1 ask first, 0 go."""
    today = where(lines_today > 0, 1.0, 0.0)
    levels = [or_zero(one) for one in (growth_level, nitrogen_level, target_level, iron_level)]
    worst = np.max([*levels, strip_level, today], axis=0)
    return where(blank(problem), worst, 2.0)


def growth_words(lawn: Each[Text], growth_level: Each[Number], growth: Each[Number], settings: Table) -> Each[Text]:
    """That nitrogen goes on grass that hardly grows, with its growth potential and the limit, to two decimals."""
    found, limit = counts(half_up(growth, 2)), counts(half_up(only(settings.slow_growth), 2))
    said = ", nitrogen while its grass hardly grows: growth " + found + f", ask first at {limit} or under"
    return where(growth_level > 0, "; " + lawn + said, "")


def iron_words(
    lawn: Each[Text], iron_level: Each[Number], iron_together: Each[IronPerArea], limits: Table, settings: Table
) -> Each[Text]:
    """The iron of those days with this visit, and what asks first in one, to three decimals."""
    unit = limits.ask_iron.units
    found, most = amount(iron_together, unit, 3), amount(only(limits.ask_iron), unit, 3)
    said = f", much iron in {days(settings.iron_time)} days: " + found + ", in one visit ask first above " + most
    return where(iron_level > 0, "; " + lawn + said, "")


def lawn_words(
    lawn: Each[Text],
    problem: Each[Text],
    strip_level: Each[Number],
    growth_words: Each[Text],
    iron_words: Each[Text],
    nitrogen_level: Each[Number],
    target_level: Each[Number],
    lines_today: Each[Number],
    nitrogen_together: Each[NitrogenPerArea],
    nitrogen_ceiling: Each[NitrogenPerArea],
    nitrogen_season: Each[NitrogenPerArea],
    nitrogen_visit: Each[NitrogenPerArea],
    nitrogen_target: Each[NitrogenPerArea],
    lawns: Table,
    settings: Table,
) -> Each[Text]:
    """What is to be said of the lawn, in words; nitrogen as the sheet Lawns counts it, to two decimals."""
    unit = lawns.most_nitrogen_month.units
    time = days(settings.rolling_time)
    used = amount(nitrogen_together, unit, 2) + ", at most " + amount(nitrogen_ceiling, unit, 2)
    most = amount(_most_on_target(nitrogen_target, settings), unit, 2)
    year = amount(nitrogen_season + nitrogen_visit, unit, 2) + ", at most " + most
    month = "; " + lawn + ", more nitrogen in " + time + " days than it can use: " + used
    told = (
        where(strip_level > 0, "; " + lawn + " is an untreated strip", "")
        + growth_words
        + iron_words
        + where(nitrogen_level > 0, month, "")
        + where(target_level > 0, "; " + lawn + ", over its nitrogen target of the year: " + year, "")
        + where(lines_today > 0, "; " + lawn + ", the diary has lines of this day already", "")
    )
    return where(blank(problem), told, "; " + lawn + " " + problem)


def stop_words(lawn: Each[Text], problem: Each[Text]) -> Each[Text]:
    """What keeps the lawn from being treated, with its name."""
    return where(blank(problem), "", "; " + lawn + " " + problem)


def nitrogen_share(
    nitrogen_visit: Each[NitrogenPerArea],
    nitrogen_together: Each[NitrogenPerArea],
    nitrogen_ceiling: Each[NitrogenPerArea],
) -> Each[Number]:
    """The share of the nitrogen that the grass can use, with this visit; blank where the visit brings none."""
    asked = (magnitude(nitrogen_visit) > 0) & (magnitude(nitrogen_ceiling) > 0)
    return where(asked, as_number(ratio(nitrogen_together, nitrogen_ceiling)), np.nan)


def spray_said(lawn: Each[Text], mix_lawns: Table, mix: Table) -> Each[Text]:
    """The lawn and its spray, with a comma before them."""
    spray = ", " + lawn + " " + amount(mix_lawns.water, mix.remainder.units, 1)
    return where(blank(mix_lawns.water), "", spray)
