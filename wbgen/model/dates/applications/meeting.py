"""What an application must not meet among the other products that its day brings to the same ground.

All lawns are the same ground as any; a group, as itself and as its lawns; a lawn, as itself and its group. However many
lines bring a product, it is one, and it does not meet itself.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from wbgen.model.tools.digits import present, share_a_digit
from wbgen.model.tools.elementwise import blank, only, or_zero, where, yes
from wbgen.model.tools.lines import at
from wbgen.model.tools.traits import NEVER, NOT_CHECKED
from wbgen.model.types import Date, Each, Number, Table, each

_MOST_PRODUCTS = 10
"""On one ground and day: as many others as one digit can count, and the product itself."""


def order(number: Each[Number], product_line: Each[Number], ground: Each[Number], ones: Table) -> Each[Number]:
    """Its place among the dates, those for all lawns first, then those for groups; blank for an unknown product."""
    after = np.select([ground == 0, ground < 0], [0.0, 1.0], 2.0)
    return where(blank(product_line), np.nan, number + each(after) * only(ones.key_step))


def stands(
    order: Each[Number],
    date: Each[Date],
    product_line: Each[Number],
    ground: Each[Number],
    group: Each[Number],
) -> Each[Number]:
    """Which of a day's lines with a product it stands for, so that the product is counted once.

    0 for the first line of all; 1 for the first of a group, 2 for the first of a lawn, where no line of a wider ground
    that it lies in has the product; blank for all others. The first is the first in order.
    """
    first: dict[Any, float] = {}
    found = np.full(len(order), np.nan)
    records = list(zip(date, product_line, ground, group, strict=True))
    for place in np.argsort(order, kind="stable"):
        if np.isnan(order[place]):
            continue
        day, product, own, grouped = records[place]
        seen = [(day, product), (day, product, "group", grouped), (day, product, "ground", own)]
        wider = [(day, product, "ground", 0.0)] + ([(day, product, "ground", -grouped)] if own > 0 else [])
        if any(one in first for one in wider if one != seen[2]) or seen[2] in first:
            continue
        found[place] = next(float(level) for level, one in enumerate(seen) if one not in first)
        first |= dict.fromkeys(seen, order[place])
    return each(found)


def traits(product_line: Each[Number], products: Table, ones: Table) -> Each[Number]:
    """The properties of its product, a digit each, and before them one for a live brew; blank for an unknown one."""
    digits: Each[Number] = or_zero(at(products.traits_digits, product_line))
    live = yes(at(products.property_live_brew, product_line))
    return where(blank(product_line), np.nan, where(live, digits + only(ones.live_digit), digits))


def _others(
    date: Each[Date], product_line: Each[Number], ground: Each[Number], group: Each[Number], value: Each[Number],
    told: Callable[[list[float]], float],
) -> Each[Number]:  # fmt: skip
    """What is told of the values of the other products of its day on its ground, each product once."""
    days: dict[float, list[int]] = {}
    for place, (day, product) in enumerate(zip(date, product_line, strict=True)):
        if not np.isnan(product):
            days.setdefault(day, []).append(place)
    found = np.full(len(date), np.nan)
    for places in days.values():
        for own in places:
            near = {product_line[one]: value[one] for one in places if _shared(own, one, ground, group)}
            near.pop(product_line[own], None)  # it is not among them where somebody typed over its ground
            found[own] = told(list(near.values()))
    return each(found)


def _shared(own: int, other: int, ground: Each[Number], group: Each[Number]) -> bool:
    """Whether a lawn may be on the ground of both."""
    if 0 in (ground[own], ground[other]):
        return True
    parted = ground[own] > 0 and ground[other] > 0 and ground[own] != ground[other]
    return bool(group[own] == group[other] and not parted)


def beside(
    date: Each[Date], product_line: Each[Number], ground: Each[Number], group: Each[Number], traits: Each[Number]
) -> Each[Number]:
    """The properties of the other products, added: how many of them have each."""
    return _others(date, product_line, ground, group, traits, lambda values: float(sum(values)))


def together(
    date: Each[Date], product_line: Each[Number], ground: Each[Number], group: Each[Number]
) -> Each[Number]:  # fmt: skip
    """How many products there are on its ground that day, its own among them."""
    return _others(date, product_line, ground, group, product_line, lambda values: len(values) + 1.0)


def there(beside: Each[Number]) -> Each[Number]:
    """The digits of the properties that one of the others has at least."""
    return where(blank(beside), np.nan, present(beside))


def level(
    together: Each[Number],
    beside: Each[Number],
    there: Each[Number],
    traits: Each[Number],
    product_line: Each[Number],
    products: Table,
    rules: Table,
    ones: Table,
) -> Each[Number]:
    """The worst of all rules: 2 where it must not meet another, 1 where a jar test comes first, else 0.

    3 where there are more others than the digits can count; blank for an unknown product.
    """
    digit = only(ones.live_digit)
    brews = np.floor(beside / digit)
    met_brew = np.where(traits >= digit, brews < together - 1, brews > 0)
    alone = np.minimum(only(or_zero(rules.level_live_brew_with_not_live)), NEVER)
    apart = share_a_digit(there, at(products.apart_digits, product_line))
    jar = share_a_digit(there, at(products.jar_digits, product_line))
    parted: Each[Number] = where(apart, float(NEVER), where(jar, 1.0, 0.0))
    worst = np.maximum(parted, where(met_brew, float(alone), 0.0))
    found: Each[Number] = where(together > _MOST_PRODUCTS, float(NOT_CHECKED), worst)
    return where(blank(product_line), np.nan, found)
