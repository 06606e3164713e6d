"""The properties of a tank mix as digits of a number, and for each those that it meets by a rule.

A form: each figure is a scalar.
"""

from __future__ import annotations

from collections.abc import Callable

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import only, or_zero
from wbgen.model.tools.traits import NEVER
from wbgen.model.types import Number, Table
from wbgen.trade.families import Member
from wbgen.trade.tank_rules import OTHERS, TRAIT_RULES


def _met(trait: str, meets: Table, rules: Table, counts: Callable[[float], bool]) -> float:
    """The digits of the properties that a rule of the levels that count is about, beside the trait."""
    found = 0.0
    for rule in TRAIT_RULES:
        if trait not in (rule.first, rule.second) or rule.second in OTHERS:
            continue
        partner = rule.second if rule.first == trait else rule.first
        digit = getattr(meets, f"digit_{partner}")
        if counts(only(or_zero(getattr(rules, f"level_{rule.first}_with_{rule.second}")))):
            found += digit
    return found


@of_family("tank_traits")
def apart_each(each: Member, meets: Table, rules: Table) -> Number:
    """The digits of what it must not meet, added."""
    return _met(each.key, meets, rules, lambda level: level >= NEVER)


@of_family("tank_traits")
def jar_each(each: Member, meets: Table, rules: Table) -> Number:
    """The digits of what asks for a jar test first, added."""
    return _met(each.key, meets, rules, lambda level: 0 < level < NEVER)
