"""The soil tests: how much was found by which method, what that is called, and what the lawn needs in a year.

One record a test: shape (soil_tests,). The amounts are those of Woods, Stowell and Gelernter 2016 (doi
10.7287/peerj.preprints.2144): what the grass uses and the least that the soil is to keep, less what it has.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import blank, is_word, like, magnitude, only, or_zero, where, yes
from wbgen.model.tools.keys import day_key
from wbgen.model.tools.lines import at, lines_at, match
from wbgen.model.tools.order import is_first
from wbgen.model.tools.rounding import reaches
from wbgen.model.tools.words import listed
from wbgen.model.types import (
    Date,
    Each,
    ElementPerMass,
    Mask,
    Number,
    NutrientPerArea,
    PhosphorusPerMass,
    PotassiumPerMass,
    Table,
    Text,
)
from wbgen.trade.families import Member

BLANK_UNLESS = ("lawn",)


def lawn_line(lawn: Each[Text], lawns: Table) -> Each[Number]:
    """The line of each lawn among the lawns, their heading row being line 1; blank for an unknown one."""
    return match(lawn, lawns.name)


def method_line(method: Each[Text], soil_methods: Table) -> Each[Number]:
    """The line of the method among those that the planner knows by name; blank for any other."""
    return match(method, soil_methods.method)


@of_family("soil_fed")
def test_key_each(
    lawn_line: Each[Number], date: Each[Date], tested_each: Each[ElementPerMass], ones: Table, start: Table
) -> Each[Number]:
    """One number for lawn and day, where the element was tested; blank for a day after the as-of date."""
    counted = ~blank(tested_each) & (date <= only(start.as_of))
    return where(counted, day_key(lawn_line, date, ones), np.nan)


@of_family("soil_fed")
def level_each(tested_each: Each[ElementPerMass], method_line: Each[Number], soil_methods: Table) -> Each[Text]:
    """What so much of the element is called; where nothing but what is enough is known, whether it is that."""
    enough, low = at(soil_methods.enough_each, method_line), at(soil_methods.low_each, method_line)
    called = where(reaches(tested_each, low), "low", "very low")
    for bound, word in (
        (at(soil_methods.medium_each, method_line), "medium"),
        (at(soil_methods.high_each, method_line), "high"),
        (at(soil_methods.excess_each, method_line), "very high"),
    ):
        called = where(reaches(tested_each, bound), word, called)
    known = where(blank(low), where(reaches(tested_each, enough), "enough", "below enough"), called)
    said = where(blank(enough), "no table for this method", known)
    return where(blank(method_line) | blank(tested_each), "", said)


@of_family("soil_fed")
def need_each(
    tested_each: Each[ElementPerMass],
    method_line: Each[Number],
    lawn_line: Each[Number],
    lawns: Table,
    soil_methods: Table,
    settings: Table,
    oxides: Table,
) -> Each[NutrientPerArea]:
    """The nutrient that the lawn needs in a year, by area, and never less than none.

    By a method of which only what is enough is known: none where there is enough, else blank. Blank for no lawn.
    """
    enough = at(soil_methods.enough_each, method_line)
    used = at(lawns.target_nitrogen, lawn_line) * or_zero(only(settings.use_each))
    lacking = (enough - tested_each) * only(settings.soil_mass)
    oxide = (used + lacking.to(used.units)) / only(oxides.element_in_each)
    worked_out = like(oxide, np.maximum(magnitude(oxide), 0.0))
    stated = where(reaches(tested_each, enough) & ~blank(lawn_line), 0.0 * worked_out.units, np.nan)
    return where(is_word(at(soil_methods.amounts, method_line), "worked out"), worked_out, stated)


@of_family("soil_fed")
def stands_each(
    each: Member,
    test_key_each: Each[Number],
    method_line: Each[Number],
    lawn_line: Each[Number],
    need_each: Each[NutrientPerArea],
    date: Each[Date],
    lawns: Table,
    soil_methods: Table,
    place: Table,
    settings: Table,
    start: Table,
) -> Each[Text]:
    """Which yearly target of the nutrient the planner goes by, for a test that may count."""
    old = ~blank(only(settings.test_life)) & (date + _days(settings) < only(start.as_of))
    counts: Each[Text] = where(old, "this test's; old, test again", "this test's")
    if each.key == "phosphate":
        barred = where(old, "none: not allowed here; old, test again", "none: not allowed here")
        counts = where(yes(only(place.no_phosphorus)), barred, counts)
    without = where(
        is_word(at(soil_methods.amounts, method_line), "worked out"),
        "none: type its N target",
        "none: no amount stated",
    )
    said = where(blank(need_each), without, counts)
    said = where(blank(at(lawns.target_each, lawn_line)), said, "typed on Lawns")
    own_line = lines_at(np.arange(len(date)))
    said = where(at(lawns.soil_line_each, lawn_line) == own_line, said, "another test counts")
    return where(blank(method_line) | blank(test_key_each), "", said)


def _days(settings: Table) -> float:
    return float(or_zero(only(settings.test_life)).to("day").magnitude)


def soil_state(
    lawn_line: Each[Number],
    date: Each[Date],
    method: Each[Text],
    method_line: Each[Number],
    tested_phosphate: Each[PhosphorusPerMass],
    tested_potash: Each[PotassiumPerMass],
    test_key_phosphate: Each[Number],
    test_key_potash: Each[Number],
    start: Table,
    misplaced_date: Mask,
    misplaced_tested_phosphate: Mask,
    misplaced_tested_potash: Mask,
) -> Each[Text]:
    """What is to be mended in the record, all that holds."""
    keys = (test_key_phosphate, test_key_potash)
    again = np.any([~blank(key) & ~is_first(key) for key in keys], axis=0)
    return listed(
        where(blank(lawn_line), "; unknown lawn", "")
        + where(blank(date), "; give the date", "")
        + where(date > only(start.as_of), "; after the as-of date, not counted yet", "")
        + where(blank(method), "; name the method", where(blank(method_line), "; unknown method", ""))
        + where(blank(tested_phosphate) & blank(tested_potash), "; nothing found", "")
        + where(
            misplaced_date | misplaced_tested_phosphate | misplaced_tested_potash,
            "; a text stands where a number belongs", "",
        )
        + where(again, "; twice that day, the first line counts", "")
    )  # fmt: skip
