"""How much citric acid the water takes for the pH that is wanted."""

from __future__ import annotations

from typing import Final

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools import measuring
from wbgen.model.tools.elementwise import as_number, blank, is_word, like, magnitude, or_zero, ratio, where
from wbgen.model.tools.ions import charges, free_charge
from wbgen.model.tools.rounding import exceeds, half_up
from wbgen.model.types import Alkalinity, Mass, MassPerVolume, Number, Table, Text

LOW_ENOUGH: Final = "the water is not above the pH that is wanted"
NONE_TO_TAKE_UP: Final = "the water has no alkalinity"


def no_acid(ph: Number, alkalinity: Alkalinity, free_before: Alkalinity, water: Table) -> Text:
    """Why no acid can be worked out, or is needed; empty where it can."""
    if blank(water.wanted_ph):
        return "no pH is wanted on the sheet Settings"
    if blank(ph) or blank(alkalinity):
        return "pH or alkalinity of the water is not known"
    if not exceeds(ph, water.wanted_ph):
        return LOW_ENOUGH
    return "" if exceeds(alkalinity, or_zero(free_before)) else NONE_TO_TAKE_UP


def free_before(ph: Number, acid_constants: Table) -> Alkalinity:
    """Hydroxide less hydrogen ions (meq/L) in the water: what of its alkalinity no carbonate carries."""
    return free_charge(ph, acid_constants.pk_water) * acid_constants.charge


def free_after(water: Table, acid_constants: Table) -> Alkalinity:
    """The same (meq/L) at the pH that is wanted."""
    return free_charge(water.wanted_ph, acid_constants.pk_water) * acid_constants.charge


def carbonate_before(ph: Number, acid_constants: Table) -> Number:
    """How many charges a carbonate has in the water: 1 is all bicarbonate, 0 all carbonic acid."""
    return charges(ph, [acid_constants.pk_carbonic_one, acid_constants.pk_carbonic_two])


def carbonate_after(water: Table, acid_constants: Table) -> Number:
    """The same at the pH that is wanted."""
    return charges(water.wanted_ph, [acid_constants.pk_carbonic_one, acid_constants.pk_carbonic_two])


def neutralised(
    no_acid: Text,
    alkalinity: Alkalinity,
    free_before: Alkalinity,
    free_after: Alkalinity,
    carbonate_before: Number,
    carbonate_after: Number,
) -> Alkalinity:
    """The alkalinity (meq/L) that acid must take up for the pH that is wanted.

    Alkalinity = total carbonate × its charge + hydroxide − hydrogen ions (Stumm and Morgan, Aquatic Chemistry: from
    memory). No carbonic acid leaves the water, so total carbonate stays what alkalinity and pH of the water say: a
    closed system. The method is that of Whipker, Bailey, Nelson, Fonteno and Hammer, Commun. Soil Sci. Plant Anal. 27
    (1996) 959 (abstract read). 4 meq/L of bicarbonate of which half shall be left have 2 meq/L taken up.

    >>> from wbgen.units.quantity import FLOAT
    >>> alkalinity, none = FLOAT("4 meq/L"), FLOAT("0 meq/L")
    >>> float(neutralised("", alkalinity, none, none, 1.0, 0.5).magnitude)
    2.0
    """
    carbonate = ratio(alkalinity - free_before, carbonate_before)
    left = carbonate * carbonate_after + free_after
    return where(no_acid == "", alkalinity - left, np.nan)


def groups(water: Table, acid_constants: Table) -> Number:
    """How many of its three acid groups citric acid lets go at the pH that is wanted."""
    of = acid_constants
    return charges(water.wanted_ph, [of.pk_citric_one, of.pk_citric_two, of.pk_citric_three])


def acid_in_water(neutralised: Alkalinity, groups: Number, water: Table, acid_constants: Table) -> MassPerVolume:
    """Citric acid (g/L): alkalinity to be taken up (meq/L) × molar mass (mg/mmol) ÷ acid groups let go.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> site = SimpleNamespace(citric_acid="anhydrous")
    >>> constants = SimpleNamespace(anhydrous=FLOAT("192 mg/meq"), monohydrate=FLOAT("210 mg/meq"))
    >>> float(acid_in_water(FLOAT("2 meq/L"), 2.0, site, constants).to("g/L").magnitude)
    0.192
    """
    crystals = bool(is_word(water.citric_acid, "monohydrate")[0])
    return ratio(neutralised * where(crystals, acid_constants.monohydrate, acid_constants.anhydrous), groups)


@of_family("loads")
def exact_each(acid_in_water: MassPerVolume, mix: Table) -> Mass:
    """The citric acid (g) of a load: concentration (g/L) × its clean water (L), which may be none."""
    water = mix.clean_water_each
    return acid_in_water * like(water, np.maximum(magnitude(water), 0.0))


@of_family("loads")
def scale_step_each(exact_each: Mass, scales: Table) -> Mass:
    """The step (g) of the finest scale whose capacity suffices, else of the coarse one."""
    return measuring.step(exact_each, scales.fine_scale_step, scales.coarse_scale_step, scales.fine_scale_capacity)


@of_family("loads")
def weigh_each(exact_each: Mass, scale_step_each: Mass) -> Mass:
    """What to weigh (g) of it: the nearest step of the scale."""
    return half_up(half_up(as_number(ratio(exact_each, scale_step_each)), 9)) * scale_step_each
