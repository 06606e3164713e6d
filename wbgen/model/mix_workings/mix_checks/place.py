"""What the rules of the place have against a mix."""

from __future__ import annotations

from wbgen.model.mix_workings.mix_checks._levels import is_said, level_of, said
from wbgen.model.tools.dates import month_of
from wbgen.model.tools.relations import pick
from wbgen.model.tools.rounding import exceeds
from wbgen.model.types import Number, Table, Text


def level_place_nitrogen(mix_nutrients: Table, place: Table) -> Number:
    """2 where the visit brings more nitrogen than the rule of the place allows."""
    return level_of(exceeds(mix_nutrients.rate_nitrogen, place.most_nitrogen), 2.0)


def words_place_nitrogen(level_place_nitrogen: Number, place: Table) -> Text:
    """What is said of more nitrogen than the place allows in one visit, with its rule; else empty."""
    return said(level_place_nitrogen, f"; more nitrogen in one visit than allowed: {place.rule_words}")


def level_place_soluble(mix: Table, place: Table) -> Number:
    """2 where the visit brings more soluble nitrogen than the rule of the place allows."""
    return level_of(exceeds(mix.soluble_nitrogen, place.most_soluble), 2.0)


def words_place_soluble(level_place_soluble: Number, place: Table) -> Text:
    """What is said of more soluble nitrogen than the place allows, with its rule; else empty."""
    return said(level_place_soluble, f"; more soluble nitrogen in one visit than allowed: {place.rule_words}")


def level_place_phosphorus(mix_nutrients: Table, place: Table) -> Number:
    """2 where the visit brings phosphate to a place that allows none."""
    return level_of(is_said(place.no_phosphorus, "yes") and exceeds(mix_nutrients.rate_phosphate, 0.0), 2.0)


def words_place_phosphorus(level_place_phosphorus: Number, place: Table) -> Text:
    """What is said of phosphorus where the place allows none, with its rule; else empty."""
    return said(level_place_phosphorus, f"; phosphorus is not allowed: {place.rule_words}")


def level_place_month(mix: Table, months: Table) -> Number:
    """2 where the visit falls into a month that is closed to feeding."""
    return level_of(is_said(pick(months.closed, month_of(mix.visit_date) - 1), "yes"), 2.0)


def words_place_month(level_place_month: Number) -> Text:
    """What is said of a month that is closed to feeding; else empty."""
    return said(level_place_month, "; this month is closed to feeding")
