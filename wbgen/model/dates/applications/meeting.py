"""What an application must not meet among the others of its day."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.tools.elementwise import where, yes
from wbgen.model.tools.lines import at
from wbgen.model.tools.relations import joined, sum_by
from wbgen.model.tools.traits import level_met, worst
from wbgen.model.types import (
    Date,
    Each,
    Number,
    Table,
    Text,
    each,
)


@of_family("rule_traits")
def has_each(programme_line: Each[Number], programme: Table, products: Table) -> Each[Text]:
    """ "yes" where the product has the trait."""
    product_line = at(programme.product_line, programme_line)
    return where(yes(at(products.property_each, product_line)), "yes", "")


@of_family("rule_traits")
def beside_each(
    date: Each[Date], kind: Each[Text], scope_key: Each[Number], group_of_lawn: Each[Number], has_each: Each[Text]
) -> Each[Number]:
    """How many other applications of the day have the trait, on ground that may be the same.

    All lawns are the same ground as any; a group, as itself and as its lawns; a lawn, as itself and its group.
    """
    has = yes(has_each)

    def of_day(wanted: str, *more: Each[Number]) -> Each[Number]:
        key = joined(date, *more)
        return sum_by(key, key, each(has.astype(float)), kind == wanted)

    of_group = of_day("group", group_of_lawn)
    near = {
        "all": of_day("all") + of_day("group") + of_day("lawn"),
        "group": of_day("all") + of_group + of_day("lawn", group_of_lawn),
        "lawn": of_day("all") + of_group + of_day("lawn", scope_key),
    }
    return each(np.select([kind == name for name in near], [np.asarray(one) for one in near.values()], np.nan) - has)


@of_family("trait_rules")
def rule_each(
    has_each_first: Each[Text],
    has_each_second: Each[Text],
    beside_each_first: Each[Number],
    beside_each_second: Each[Number],
    rules: Table,
) -> Each[Number]:
    """The rule's level where it has one trait and another application of the day the other, else 0."""
    return level_met(has_each_first, has_each_second, beside_each_first, beside_each_second, rules.level_each)


@reads_every(rule="trait_rules")
def level(rule_every: list[Each[Number]]) -> Each[Number]:
    """The worst of all rules."""
    return worst(rule_every)
