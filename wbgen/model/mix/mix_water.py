"""The water of this mix, and the citric acid that brings it to the pH that is wanted.

A form: each figure is a scalar. What is not known is blank.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family
from wbgen.model.tools import measuring
from wbgen.model.tools.elementwise import as_number, blank, folded, is_word, like, magnitude, or_zero, ratio, where
from wbgen.model.tools.ions import charges, free_charge
from wbgen.model.tools.relations import total
from wbgen.model.tools.rounding import exceeds, half_up, reaches
from wbgen.model.tools.words import amount
from wbgen.model.types import Alkalinity, Hardness, Mask, Mass, MassPerVolume, Number, Table, Text
from wbgen.trade.tank_rules import CONDITIONERS

_OF_MIX, _OF_SITE, _UNKNOWN = "this mix", "the site", "not known"
_LOW_ENOUGH = "the water is not above the pH that is wanted"


def water_from(mix: Table, water: Table) -> Text:
    """Whose water it is: the mix's own where it says anything of it, else the site's."""
    for name, form in ((_OF_MIX, mix), (_OF_SITE, water)):
        if not all(blank(one) for one in (form.ph, form.alkalinity, form.hardness)):
            return name
    return _UNKNOWN


def ph(water_from: Text, mix: Table, water: Table) -> Number:
    """The pH of that water."""
    return mix.ph if water_from == _OF_MIX else water.ph


def alkalinity(water_from: Text, mix: Table, water: Table) -> Alkalinity:
    """The alkalinity of that water."""
    return mix.alkalinity if water_from == _OF_MIX else water.alkalinity


def hardness(water_from: Text, mix: Table, water: Table) -> Hardness:
    """The hardness of that water."""
    return mix.hardness if water_from == _OF_MIX else water.hardness


def no_acid(ph: Number, alkalinity: Alkalinity, free_before: Alkalinity, water: Table) -> Text:
    """Why no acid can be worked out, or is needed; empty where it can."""
    if blank(water.wanted_ph):
        return "no pH is wanted on the sheet Settings"
    if blank(ph) or blank(alkalinity):
        return "pH or alkalinity of the water is not known"
    if not exceeds(ph, water.wanted_ph):
        return _LOW_ENOUGH
    return "" if exceeds(alkalinity, or_zero(free_before)) else "the water has no alkalinity"


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


def own_acids(mix_products: Table) -> Number:
    """How many products of the mix are acid for the water: water conditioners that are acid."""
    return float(np.sum(_own(mix_products)))


def own_acid(mix: Table, mix_products: Table) -> MassPerVolume:
    """How much of such products (g/L) is in the tank."""
    return total(where(_own(mix_products), mix_products.in_water_mass, np.nan)) * or_zero(mix.dilution)


def _own(mix_products: Table) -> Mask:
    return (folded(mix_products.family) == CONDITIONERS) & (mix_products.trait_acid == 1)


def asked(mix: Table, mix_products: Table) -> Text:
    """ "yes" where the mix is to have acid: always or never if so said, else where iron that can rust is in it."""
    said = folded(mix.acidify)[0]
    return "yes" if said == "yes" or (said != "no" and _has(mix_products.trait_ferrous)) else "no"


def adds(asked: Text, own_acids: Number, weigh_full: Mass) -> Text:
    """ "yes" where acid goes in: it is asked for, can be weighed, and is not among the products already."""
    return "yes" if asked == "yes" and own_acids == 0 and magnitude(weigh_full) > 0 else "no"


@of_family("loads")
def steps_each(adds: Text, weigh_each: Mass) -> Number:
    """How many steps of the card are for acid."""
    return 1.0 if adds == "yes" and magnitude(weigh_each) > 0 else 0.0


def treated(
    adds: Text, own_acids: Number, own_acid: MassPerVolume, acid_in_water: MassPerVolume, settings: Table
) -> Text:
    """ "yes" where acid brings the water to the pH that is wanted: it goes in, or products bring enough of it."""
    enough = acid_in_water * (1 - or_zero(as_number(settings.rounding_tolerance)))
    return "yes" if adds == "yes" or (own_acids > 0 and reaches(own_acid, enough)) else "no"


def ph_in_tank(treated: Text, ph: Number, water: Table) -> Number:
    """The pH of the water in the tank: with acid enough the one that is wanted, else its own, or less by other acid."""
    return where(treated == "yes", water.wanted_ph, ph)


def acid_words(adds: Text, own_acids: Number, no_acid: Text, asked: Text) -> Text:
    """What is to be done with acid, or why there is none."""
    if adds == "yes":
        return "weigh it as below, stir it into the water first; measure the pH afterwards"
    if own_acids > 0:
        return "the mix has an acid of its own, so no other goes in"
    if no_acid:
        return f"no acid: {no_acid}"
    return "no acid goes in: it is not asked for above" if asked == "no" else "no acid: too little to weigh"


def unchecked(ph: Number, alkalinity: Alkalinity, hardness: Hardness, mix_products: Table) -> Text:
    """What is not known of the water though a product needs it.

    Iron needs pH and alkalinity, a humate needs pH, calcium and phosphate need hardness; iron needs hardness too where
    alkalinity is not known, in the place of which it stands.
    """
    iron, humate = _has(mix_products.trait_ferrous), _has(mix_products.trait_alkaline_humate)
    salts = _has(mix_products.trait_calcium) or _has(mix_products.trait_phosphate)
    needed = {
        ", pH": blank(ph) and (iron or humate),
        ", alkalinity": blank(alkalinity) and iron,
        ", hardness": blank(hardness) and (salts or (iron and bool(blank(alkalinity)))),
    }
    return "".join(word for word, missing in needed.items() if missing)


def unchecked_words(unchecked: Text) -> Text:
    """The same as it is said beside the verdict."""
    return f"; {unchecked.removeprefix(', ')} of the water" if unchecked else ""


def _has(trait: object) -> bool:
    return bool(np.any(np.nan_to_num(np.asarray(trait, dtype=float)) > 0))


def note_words(
    asked: Text,
    adds: Text,
    own_acids: Number,
    own_acid: MassPerVolume,
    acid_in_water: MassPerVolume,
    no_acid: Text,
    acid_words: Text,
    water: Table,
    limits: Table,
) -> Text:
    """What is to be noted where acid is asked for and none goes in, though a pH is wanted that the water is above."""
    if blank(water.wanted_ph) or asked == "no" or adds == "yes":
        return ""
    if own_acids > 0:
        found, needed = (amount(one, limits.ask_salts.units, 2) for one in (own_acid, acid_in_water))
        return "" if blank(acid_in_water) else f"; acid among the products: {found}, this water takes {needed}"
    return "" if no_acid == _LOW_ENOUGH else f"; {acid_words}"


def caution_words(adds: Text) -> Text:
    """The caution on acid, as that of a product stands on the card."""
    return "•Citric acid: Irritates the eyes. Never with bleach. Measure the pH after." if adds == "yes" else ""
