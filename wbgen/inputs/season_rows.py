"""From what a file says of the season to the columns of its tables: months, place, shed, brews and scores."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import zip_longest

from wbgen.files.diagnostics import Report
from wbgen.inputs.rows import Row, rate_cell
from wbgen.records.catalogue import Catalogue
from wbgen.records.site.brews import Brew, Ingredient
from wbgen.records.site.local_rules import PlaceRule
from wbgen.records.site.months import Months
from wbgen.records.site.programme import Line
from wbgen.records.site.scores import Score
from wbgen.records.site.shelf import Held
from wbgen.trade.families import MONTH_NAMES


def month_rows(months: Months) -> Iterator[Row]:
    """The twelve months, January first."""
    for number, mean in zip_longest(range(1, len(MONTH_NAMES) + 1), months.mean_temperatures):
        yield {"mean_temperature": mean, "closed": "yes" if number in months.closed else None}


def held_row(line: Held) -> Row:
    """A count or a purchase."""
    row: Row = {
        "date": line.date,
        "product": line.product,
        "deed": line.deed,
        "packs": line.packs,
        "paid": line.paid,
        "note": line.note,
    }
    if line.amount:
        row[line.amount.kind] = line.amount
    return row


def place_row(rule: PlaceRule) -> Row:
    """The limits that the place sets."""
    return {
        "rule": rule.rule,
        "most_nitrogen": rule.most_N_a_visit,
        "most_soluble": rule.most_soluble_N_a_visit,
        "no_phosphorus": "yes" if rule.no_phosphorus == "yes" else None,
    }


def recipe_row(brew: Brew, catalogue: Catalogue) -> Row:
    """A brew, without what goes into it."""
    return {
        "product": _named(brew.product, catalogue),
        "batch": brew.batch,
        "brewing_time": brew.brewing,
        "use_within": brew.use_within,
        "extra": brew.extra,
    }


def ingredient_row(brew: Brew, ingredient: Ingredient, catalogue: Catalogue) -> Row:
    """What goes into a brew, by mass or by volume."""
    return {
        "product": _named(brew.product, catalogue),
        "ingredient": ingredient.name,
        ingredient.amount.kind: ingredient.amount,
        "note": ingredient.note,
    }


def score_row(score: Score) -> Row:
    """How a lawn looked on a day."""
    return {
        "date": score.date,
        "lawn": score.lawn,
        "quality": score.quality,
        "colour": score.colour,
        "clippings": score.clippings,
        "moss": score.moss,
        "note": score.note,
    }


def _named(product: str, catalogue: Catalogue) -> str:
    """A product as the catalogue writes it."""
    found = catalogue.product(product)
    return found.name if found else product


def line_row(line: Line, catalogue: Catalogue, report: Report) -> Row:
    """One line of the programme."""
    product = catalogue.product(line.product)
    row: Row = {
        "product": product.name if product else line.product,
        "lawn": line.lawn,
        "group": line.group,
        "method": line.method,
        "own_carrier": line.carrier_volume,
        "first": line.first,
        "last": line.last,
        "every": line.every,
        "times": None if line.times is None else float(line.times),
        "shift": line.shift,
        "note": line.note,
    }
    if line.rate is not None:
        row |= rate_cell(line.rate, "own_rate_mass", "own_rate_volume", report)
    return row
