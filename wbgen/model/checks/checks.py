"""What is not as it should be, and what to do about it.

A form: each figure is a scalar.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.tools.elementwise import blank, magnitude, or_zero
from wbgen.model.tools.rounding import half_up
from wbgen.model.types import Each, Mask, Number, Table, Text
from wbgen.trade.families import Member


def _count(condition: Mask | Sequence[bool]) -> float:
    return float(np.count_nonzero(condition))


def _given(column: Each[Any]) -> float:
    """How many figures of a column are there."""
    return _count(~blank(column))


@reads_every(agree="nutrients")
def found_totals(control: Table) -> Number:
    """Number of nutrients whose totals do not agree."""
    return _count([word != "yes" for word in control.agree_every])


def found_lawn_names(diary: Table) -> Number:
    """Number of complete lines whose lawn is unknown."""
    return _count(~blank(diary.line_key) & blank(diary.lawn_line))


def found_product_names(diary: Table) -> Number:
    """Number of complete lines whose product is unknown."""
    return _count(~blank(diary.line_key) & blank(diary.product_line))


def _said(diary: Table, words: str) -> float:
    """The number of lines of whose record that is said."""
    return float(sum(words in said for said in diary.flag_record))


def found_incomplete_lines(diary: Table) -> Number:
    """Number of lines that are begun, and lack a date, a lawn or a product."""
    return _said(diary, "; date, lawn or product is missing")


def found_diary_texts(diary: Table) -> Number:
    """Number of lines in which a text stands where a date or a number belongs."""
    return _said(diary, "; a text stands where a number belongs")


def found_diary_duplicates(diary: Table) -> Number:
    """Number of lines that say once more what the first line of the lawn, the product and the day says."""
    return _said(diary, "; stands twice")


def found_diary_full(diary: Table, settings: Table) -> Number:
    """1 where more than a set share of the diary's lines have a date, be it one that is no date, else 0."""
    return float(_count(~blank(diary.date) | diary.misplaced_date) > settings.diary_warning * diary.records)


def found_lawn_states(lawns: Table) -> Number:
    """Number of lawns with something to mend."""
    return _given(lawns.lawn_state)


def found_part_states(parts: Table) -> Number:
    """Number of parts with something to mend."""
    return _given(parts.part_state)


def found_parts_lost(parts: Table, lawns: Table) -> Number:
    """1 where the parts together and the measured lawns together differ in area, to six decimals, else 0."""
    of_parts, of_lawns = or_zero(parts.signed_area), or_zero(lawns.measured_area)
    return float(magnitude(half_up(of_parts.sum() - of_lawns.sum(), 6)) != 0)


def found_point_states(points: Table) -> Number:
    """Number of points with something to mend."""
    return _given(points.point_state)


def found_points_lost(points: Table, parts: Table) -> Number:
    """1 where the points, and those that the parts know of, differ in number, else 0."""
    return float(_count(~blank(points.lawn) & ~blank(points.part)) != np.sum(or_zero(parts.corners)))


def found_product_states(products: Table) -> Number:
    """Number of products with something to mend."""
    return _given(products.product_state)


def found_sprayer_states(sprayers: Table) -> Number:
    """Number of sprayers with something to mend."""
    return _given(sprayers.sprayer_state)


def found_shelf_states(shelf: Table) -> Number:
    """How many counts and purchases have something to mend."""
    return _given(shelf.shelf_state)


def found_line_states(programme: Table) -> Number:
    """Number of lines of the programme with something to mend."""
    return _given(programme.line_state)


def found_score_states(scores: Table) -> Number:
    """Number of scores with something to mend."""
    return _given(scores.score_state)


def found_soil_states(soil_tests: Table) -> Number:
    """Number of soil tests with something to mend."""
    return _given(soil_tests.soil_state)


def found_brew_states(recipes: Table, ingredients: Table) -> Number:
    """Number of recipes and of ingredients with something to mend."""
    return _given(recipes.recipe_state) + _given(ingredients.ingredient_state)


def found_mixes_beyond(response_room: Table) -> Number:
    """Number of mixes that were scored and that there is no room for."""
    return response_room.beyond


def found_answers_beyond(response_room: Table) -> Number:
    """Number of lines with an answer that the sheet Response does not count."""
    return response_room.answers_beyond


def found_dates_beyond(plan: Table) -> Number:
    """Number of dates of the programme that there is no room for."""
    return max(0.0, -plan.dates_left)


def found_pairs_beyond(plan: Table) -> Number:
    """Number of lawns, line by line, that there is no room for."""
    return max(0.0, -plan.pairs_left)


def found_lawns_unseen(lawns: Table, season_applied: Table) -> Number:
    """Number of lawns that the totals do not show."""
    return _given(lawns.name) - _given(season_applied.lawn)


def found_products_unseen(products: Table, season_products: Table) -> Number:
    """Number of products that the totals do not show."""
    return _given(products.name) - _given(season_products.product)


@of_family("checks")
def failed_each(found_each: Number) -> Number:
    """1 where a check found something, else 0."""
    return float(found_each != 0)


@of_family("checks")
def advice_each(each: Member, failed_each: Number) -> Text:
    """What to do where a check fails; nothing where it does not."""
    return each.says["advice"] if failed_each else ""


@reads_every(failed="checks")
def failed(failed_every: list[Number]) -> Number:
    """Number of checks that fail."""
    return float(sum(failed_every))
