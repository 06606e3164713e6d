"""What of its sprayer and tank speaks against a mix: calibration, room, products that must not meet."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.mix_workings.mix_checks._levels import is_said, level_of, said
from wbgen.model.tools.elementwise import magnitude, or_zero
from wbgen.model.tools.relations import total
from wbgen.model.tools.rounding import half_up
from wbgen.model.types import Number, Table, Text, Volume
from wbgen.trade.families import Member


def level_calibration(mix: Table) -> Number:
    """1 where the sprayer was never calibrated, 2 where nobody said how a hose-end sprayer's jar is thinned."""
    if is_said(mix.calibration, "no jar dilution"):
        return 2.0
    return level_of(is_said(mix.calibration, "never calibrated"), 1.0)


def words_calibration(level_calibration: Number) -> Text:
    """What is said of a sprayer that was never calibrated, or of a jar; else empty."""
    if level_calibration > 1:
        return "; the dilution of the hose-end sprayer's jar is not given"
    return said(level_calibration, "; the sprayer was never calibrated")


def level_water(mix: Table) -> Number:
    """2 where the liquids alone overfill a load."""
    loads = (mix.clean_water_full, mix.clean_water_last)
    return level_of(any(magnitude(half_up(water, 9)) < 0 for water in loads), 2.0)


def words_water(level_water: Number) -> Text:
    """What is said where the liquids leave no room for water; else empty."""
    return said(level_water, "; no room for water, see the least carrier volume")


def level_room(mix: Table, mix_products: Table) -> Number:
    """1 where the buckets of dissolved solids take all the room that the liquids leave; 0 where there is no bucket."""
    loads = ((mix.clean_water_full, mix_products.bucket_full), (mix.clean_water_last, mix_products.bucket_last))
    return level_of(any(_overfilled(water, total(buckets)) for water, buckets in loads), 1.0)


def _overfilled(water: Volume, buckets: Volume) -> bool:
    return bool(magnitude(buckets) > 0 and magnitude(half_up(water - buckets, 9)) <= 0)


def words_room(level_room: Number) -> Text:
    """What is said where the buckets would overfill the tank; else empty."""
    return said(level_room, "; the buckets would overfill the tank, dissolve in the tank or take more water")


@of_family("trait_rules")
def tank_each(mix_products: Table) -> Number:
    """The level at which two products of this tank break the rule; 0 where none do."""
    return np.max(or_zero(mix_products.rule_each), initial=0.0)


@of_family("trait_rules")
def tank_words_each(tank_each: Number, each: Member) -> Text:
    """What is said of two products that break the rule, with its reason; else empty."""
    never, jar = "must not share a tank,", "jar test first,"
    start = f"{each.name} {never}" if tank_each > 1 else f"{each.name}, {jar}"
    return said(tank_each, f"; {start} {each.says['reason']}")
