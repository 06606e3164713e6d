"""Lawns: the area of each, typed or measured in parts; its number, its group and its place on the walk.

One record a lawn: shape (lawns,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import blank, magnitude, only, where
from wbgen.model.tools.lines import lines_at, match
from wbgen.model.tools.order import numbered, ranked
from wbgen.model.tools.relations import count_by, latest_by, lookup, sum_by
from wbgen.model.tools.words import amount, listed
from wbgen.model.types import Area, Each, Mask, Number, PhosphatePerArea, PotashPerArea, Table, Text


def measured_area(name: Each[Text], parts: Table) -> Each[Area]:
    """Sum of the lawn's parts, those cut out being negative; 0 for a lawn without parts."""
    return where(blank(name), np.nan, sum_by(parts.lawn, name, parts.signed_area))


def parts_to_mend(name: Each[Text], parts: Table) -> Each[Number]:
    """How many of the lawn's parts are to be mended."""
    return where(blank(name), np.nan, sum_by(parts.lawn, name, parts.to_mend))


def area(
    name: Each[Text], typed_area: Each[Area], measured_area: Each[Area], parts_to_mend: Each[Number]
) -> Each[Area]:
    """The area (m²) typed, else the one measured; blank where there is neither. One of 0 is none.

    What was measured is none either while a part of the lawn is to be mended: a wrong area would be weighed for.
    """
    measured = where(_any(measured_area) & (parts_to_mend == 0), measured_area, np.nan)
    return where(blank(name), np.nan, where(_any(typed_area), typed_area, measured))


def area_from(name: Each[Text], typed_area: Each[Area], area: Each[Area]) -> Each[Text]:
    """Where the area comes from: typed, measured, or missing."""
    found = where(_any(typed_area), "typed", where(blank(area), "missing", "measured"))
    return where(blank(name), "", found)


def strip_line(name: Each[Text], strip: Each[Text]) -> Each[Number]:
    """The line of the lawn's untreated strip among the lawns; blank without one, or for one that is unknown."""
    return where(blank(name), np.nan, match(strip, name))


def weekday(name: Each[Text], round_day: Each[Text], weekdays: Table) -> Each[Number]:
    """The number of its round day, 1 for a Sunday; blank without one, or for one that there is not."""
    return where(blank(name), np.nan, lookup(round_day, weekdays.day, weekdays.number))


@of_family("soil_fed")
def soil_line_each(name: Each[Text], soil_tests: Table) -> Each[Number]:
    """The line of the latest soil test of the lawn in which the element was tested; of one day, the first line."""
    latest = latest_by(soil_tests.lawn_line, lines_at(np.arange(len(name))), soil_tests.test_key_each)
    return where(blank(name), np.nan, match(latest, soil_tests.test_key_each))


def soil_words(
    name: Each[Text],
    target_phosphate: Each[PhosphatePerArea],
    target_potash: Each[PotashPerArea],
    season_target: Table,
) -> Each[Text]:
    """The yearly targets that stand by the soil test, where none is typed, with their units."""
    said = where(blank(name), "", "")
    for typed, stands in (
        (target_phosphate, season_target.target_phosphate),
        (target_potash, season_target.target_potash),
    ):
        by_test = blank(typed) & ~blank(stands)
        said = said + where(by_test, "; " + amount(stands, typed.units, 2), "")
    return where(blank(name), "", listed(said))


def strip_for(name: Each[Text], strip: Each[Text]) -> Each[Text]:
    """The name of the first lawn whose untreated strip this one is; blank for one that is no strip."""
    return where(blank(name), "", lookup(name, strip, name))


def lawn_state(
    name: Each[Text],
    area: Each[Area],
    parts_to_mend: Each[Number],
    strip: Each[Text],
    strip_line: Each[Number],
    round_day: Each[Text],
    weekday: Each[Number],
    sprayer: Each[Text],
    sprayers: Table,
    misplaced_walking_order: Mask,
    misplaced_typed_area: Mask,
) -> Each[Text]:
    """What is to be mended: a name that stands twice, no area, a text for a number, a round day or a
    sprayer that there is not, a strip that nobody knows or that is the lawn itself."""
    own_line = lines_at(np.arange(len(name)))
    said = (
        where(count_by(name, name) > 1, "; this name stands twice", "")
        + where(blank(area), where(parts_to_mend > 0, "; no area: mend its parts", "; no area yet"), "")
        + where(misplaced_walking_order | misplaced_typed_area, "; a text stands where a number belongs", "")
        + where(~blank(round_day) & blank(weekday), "; unknown round day", "")
        + where(~blank(sprayer) & (count_by(sprayers.name, sprayer) == 0), "; unknown sprayer", "")
        + where(~blank(strip) & blank(strip_line), "; unknown strip", "")
        + where(strip_line == own_line, "; a strip of itself", "")
    )
    return where(blank(name), "", listed(said))


def lawn_number(name: Each[Text]) -> Each[Number]:
    """The number of the lawn among those that have a name, from 1.

    >>> lawn_number(np.array(["Front", "", "Back"], dtype=object))
    array([ 1., nan,  2.])
    """
    return where(blank(name), np.nan, np.cumsum(~blank(name)).astype(float))


def group_line(name: Each[Text], group: Each[Text]) -> Each[Number]:
    """The line of the first lawn of the lawn's group; blank for a lawn that is fed on its own."""
    return where(blank(name), np.nan, match(group, group))


def group_key(name: Each[Text], group: Each[Text], ones: Table) -> Each[Number]:
    """One number for the group and the lawn's number in it; blank for a lawn that is fed on its own.

    The group is known by the line of its first lawn; a record without a name is no lawn, and is not numbered.
    """
    number = numbered(group, ~blank(name))
    return where(blank(name), np.nan, match(group, group) * only(ones.key_step) + number)


def walk(name: Each[Text], walking_order: Each[Number], lawn_number: Each[Number]) -> Each[Number]:
    """Where the lawn comes on the walk: as typed, else its number."""
    return where(blank(name), np.nan, where(blank(walking_order), lawn_number, walking_order))


def walk_rank(walk: Each[Number]) -> Each[Number]:
    """The lawn's turn on the walk, from 1; lawns at the same place go in the order of the list."""
    return ranked(walk)


def _any(area: Each[Area]) -> Mask:
    """True where there is an area to speak of; a blank one is none."""
    return magnitude(area) > 0
