"""What acid goes into the water: none where nothing asks for it, or where a product must not meet it."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.mix_workings.mix_water.acid import LOW_ENOUGH, NONE_TO_TAKE_UP
from wbgen.model.tools.elementwise import as_number, blank, folded, magnitude, or_zero, where
from wbgen.model.tools.relations import total
from wbgen.model.tools.rounding import exceeds, reaches
from wbgen.model.tools.traits import any_has
from wbgen.model.tools.words import amount
from wbgen.model.types import Alkalinity, Mask, Mass, MassPerVolume, Number, Table, Text
from wbgen.trade.families import Member
from wbgen.trade.tank_rules import CONDITIONERS


def own_acids(mix_products: Table) -> Number:
    """How many products of the mix are acid for the water: water conditioners that are acid."""
    return float(np.sum(_own(mix_products)))


def own_acid(mix: Table, mix_products: Table) -> MassPerVolume:
    """How much of such products (g/L) is in the tank."""
    return total(where(_own(mix_products), mix_products.in_water_mass, np.nan)) * or_zero(mix.dilution)


def taken(no_acid: Text, acid_in_water: MassPerVolume) -> MassPerVolume:
    """The citric acid (g/L) that brings the water to the pH that is wanted: none where it needs none; else blank."""
    return where(no_acid in (LOW_ENOUGH, NONE_TO_TAKE_UP), 0 * or_zero(acid_in_water), acid_in_water)


def over_taken(own_acids: Number, own_acid: MassPerVolume, taken: MassPerVolume, settings: Table) -> Number:
    """1 where the products bring more than so many times the acid that the water takes, or either is not known.

    Common practice, no source.
    """
    over = exceeds(own_acid, taken * as_number(settings.acid_span))
    return 1.0 if own_acids > 0 and (over or not _both_known(own_acid, taken)) else 0.0


def _both_known(own_acid: MassPerVolume, taken: MassPerVolume) -> bool:
    """Whether it is known how much acid the products bring (of a liquid it is not), and how much the water takes."""
    return magnitude(own_acid) != 0 and not blank(taken)


def over_words(over_taken: Number, own_acid: MassPerVolume, taken: MassPerVolume, limits: Table) -> Text:
    """How much acid the products bring, and how much the water takes (g/L, to two decimals)."""
    brought, needed = (amount(one, limits.ask_salts.units, 2) for one in (own_acid, taken))
    said = f"; more acid among the products than this water takes: {brought}, to the pH that is wanted {needed}"
    unknown = "; acid among the products, and whether the water takes so much is not known"
    return (said if _both_known(own_acid, taken) else unknown) if over_taken else ""


def _own(mix_products: Table) -> Mask:
    return (folded(mix_products.family) == CONDITIONERS) & (mix_products.trait_acid == 1)


def asked(mix: Table, mix_products: Table) -> Text:
    """ "yes" where the mix is to have acid: always or never if so said, else where iron that can rust is in it."""
    said = folded(mix.acidify)[0]
    return "yes" if said == "yes" or (said != "no" and any_has(mix_products.trait_ferrous)) else "no"


@of_family("acid_rules")
def meets_each(mix_products: Table, rules: Table) -> Number:
    """The level at which acid would break a rule of the tank with a product of the mix; 0 where it would not."""
    level = or_zero(rules.level_each)
    return level if any_has(mix_products.trait_each_partner) else 0.0


@reads_every(meets="acid_rules")
def meets(meets_every: list[Number]) -> Number:
    """The worst of these levels."""
    return float(max(meets_every))


def too_much(acid_in_water: MassPerVolume, settings: Table) -> Number:
    """1 where the water takes more acid than the most that may go in: its figures are wrong, or the wanted pH is."""
    return 1.0 if exceeds(acid_in_water, settings.most_acid) else 0.0


def adds(asked: Text, own_acids: Number, meets: Number, too_much: Number, weigh_full: Mass) -> Text:
    """ "yes" where acid goes in: it is asked for, can be weighed, is not too much, meets nothing that it must never
    meet, and is not among the products already."""
    wanted = asked == "yes" and own_acids == 0 and meets < 2 and not too_much
    return "yes" if wanted and magnitude(weigh_full) > 0 else "no"


def partners(adds: Text, mix_products: Table) -> Number:
    """How many things share the tank: the products of the catalogue that are in the mix, and acid where it goes in."""
    return float(np.sum(~blank(mix_products.product_line)) + (adds == "yes"))


@of_family("acid_rules")
def meets_words_each(adds: Text, meets_each: Number, each: Member) -> Text:
    """What the acid meets, where it goes in, and what may come of it."""
    words = f"; acid for the water with {each.name}, jar test first, {each.says['reason']}"
    return words if adds == "yes" and meets_each > 0 else ""


@reads_every(meets_words="acid_rules")
def meets_words(meets_words_every: list[Text]) -> Text:
    """All that it meets, in words."""
    return "".join(meets_words_every)


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


def alkalinity_left(treated: Text, alkalinity: Alkalinity, neutralised: Alkalinity) -> Alkalinity:
    """The alkalinity (meq/L) of the water in the tank: less what acid takes up for the pH that is wanted."""
    return where(treated == "yes" and not blank(neutralised), alkalinity - neutralised, alkalinity)


def ph_in_tank(treated: Text, ph: Number, water: Table) -> Number:
    """The pH of the water in the tank: with acid enough the one that is wanted, else its own, or less by other acid."""
    return where(treated == "yes", water.wanted_ph, ph)


def acid_words(adds: Text, own_acids: Number, no_acid: Text, asked: Text, meets: Number, too_much: Number) -> Text:
    """What is to be done with acid, or why there is none."""
    if adds == "yes":
        return "weigh it as below, stir it into the water first; measure the pH afterwards"
    if own_acids > 0:
        return "the mix has an acid of its own, so no other goes in"
    if no_acid:
        return f"no acid: {no_acid}"
    if asked == "no":
        return "no acid goes in: it is not asked for above"
    if meets > 1:
        return "no acid: a product of the mix must not meet it"
    if too_much:
        return "no acid: it would take more than the most of the sheet Settings, check pH and alkalinity of the water"
    return "no acid: too little to weigh, make a stock solution"


def note_words(
    asked: Text,
    adds: Text,
    own_acids: Number,
    own_acid: MassPerVolume,
    over_taken: Number,
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
        if over_taken or blank(acid_in_water):
            return ""
        found, needed = (amount(one, limits.ask_salts.units, 2) for one in (own_acid, acid_in_water))
        return f"; acid among the products: {found}, this water takes {needed}"
    return "" if no_acid == LOW_ENOUGH else f"; {acid_words}"


def caution_words(adds: Text) -> Text:
    """The caution on acid, as that of a product stands on the card."""
    return "•Citric acid: Irritates the eyes. Never with bleach. Measure the pH after." if adds == "yes" else ""
