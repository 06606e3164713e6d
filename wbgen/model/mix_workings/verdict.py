"""The verdict on the visit: go, ask first, or do not mix, and why.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.dates import month_of
from wbgen.model.tools.elementwise import blank, folded, magnitude
from wbgen.model.tools.weather import heat_unchecked
from wbgen.model.types import Each, Number, Table, Text

_CHOSEN, _STOP = "yes", 2.0


def ready(mix: Table, chosen: Table, mix_products: Table, visit_lawns: Table) -> Text:
    """ "yes" where there is a number of loads and at least one known product; else what is to be done first."""
    if (chosen.misplaced_tank or not blank(chosen.tank)) and blank(mix.tank_line):
        return "the round has no such tank"
    if mix.tank_left > 0:
        return "the tank has more products than there is room for here"
    if not blank(mix.loads) and not np.all(blank(mix_products.product_line)):
        return _CHOSEN
    return "mend the lawns" if not np.all(blank(visit_lawns.problem)) else "choose a lawn, a sprayer and a product"


def level(ready: Text, mix_checks: Table, mix_products: Table, visit_lawns: Table) -> Number:
    """0 go, 1 ask first, 2 do not mix: the worst of the checks, the products and the lawns; 2 where not ready."""
    if ready != _CHOSEN:
        return 2.0
    return max(map(_worst, (mix_checks.worst, mix_products.level, visit_lawns.lawn_level)))


def verdict(level: Number) -> Text:
    """The level in words; none for a level that is not there.

    >>> verdict(1.0)
    'Ask first'
    """
    return ("Go", "Ask first", "Do not mix")[int(level)] if 0 <= level < 3 else ""


def reason(ready: Text, mix_checks: Table, mix_products: Table, visit_lawns: Table) -> Text:
    """Why the verdict is so: products that may not go in come first, products that need asking last."""
    products = "".join(mix_products.product_words)
    stopped = _worst(mix_products.level) == _STOP
    said = [
        "" if ready == _CHOSEN else f"; {ready}",
        products if stopped else "",
        "".join(visit_lawns.lawn_words),
        mix_checks.words if ready == _CHOSEN else "",
        "" if stopped else products,
    ]
    return "".join(said).removeprefix("; ")


def not_checked(mix: Table, months: Table, mix_water: Table, settings: Table) -> Text:
    """What was left empty, and so is not known to be fine; of the water what a product of the mix needs."""
    month = int(np.nan_to_num(month_of(mix.visit_date), nan=1.0))
    empty = {
        "; wind": blank(mix.wind),
        "; heat": heat_unchecked(mix, settings),
        "; rain": not _answered(mix.heavy_rain),
        "; ground": not _answered(mix.wet_ground),
        "; growth of this month": bool(blank(months.mean_temperature)[month - 1]),
    }
    told = [word for word, is_empty in empty.items() if is_empty]
    return "".join([*told, mix_water.unchecked_words]).removeprefix("; ")


def _answered(text: Text) -> bool:
    return folded(text)[0] in ("yes", "no")


def notes(mix_products: Table, mix_water: Table) -> Text:
    """What is to be known of the mix and changes no verdict."""
    return "".join([*mix_products.note_words, mix_water.note_words]).removeprefix("; ")


def said(level: Number, ready: Text, mix_checks: Table, mix_products: Table, visit_lawns: Table) -> Text:
    """What the sheet Mix says of the verdict: where it is not to be mixed, what forbids it; else all that asks."""
    begun = "" if ready == _CHOSEN else f"; {ready}"
    forbids = mix_checks.stop_words if ready == _CHOSEN else ""
    stops = [begun, *mix_products.stop_words, *visit_lawns.stop_words, forbids]
    asks = [begun, *visit_lawns.lawn_words, mix_checks.words, *mix_products.ask_words]
    told = stops if level == _STOP else asks
    return "".join(told).removeprefix("; ")


def first_reason(said: Text) -> Text:
    """The first of what is said."""
    return said.partition("; ")[0]


def after_first(said: Text) -> Text:
    """What follows the first."""
    return said.partition("; ")[2]


def second_reason(after_first: Text) -> Text:
    """The second of what is said."""
    return after_first.partition("; ")[0]


def after_second(after_first: Text) -> Text:
    """What follows the second."""
    return after_first.partition("; ")[2]


def third_reason(after_second: Text) -> Text:
    """The third of what is said, and whether there is more."""
    third, more, _ = after_second.partition("; ")
    return third + ("; and more, see Mix workings" if more else "")


def _worst(levels: Each[Number]) -> float:
    """The greatest of the levels; 0 where there is none."""
    return max((float(one) for one in np.ravel(magnitude(levels)) if not np.isnan(one)), default=0.0)
