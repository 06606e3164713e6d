"""What each product does in a tank, by what is stated of it and by its analysis."""

from __future__ import annotations

import numpy as np

from wbgen.model.marks import of_family, reads_every
from wbgen.model.tools.digits import present
from wbgen.model.tools.elementwise import any_given, folded, magnitude, where, yes
from wbgen.model.types import (
    Each,
    Mask,
    Number,
    Table,
    Text,
    each,
)
from wbgen.trade.families import Member
from wbgen.trade.tank_rules import FROM_ANALYSIS, HOLDS_METALS


@of_family("traits")
def property_each(trait_each: Each[Text], products: Table, each: Member) -> Each[Text]:
    """ "yes" where a product has the tank-mix property: stated, or shown by what the label says is in it.

    Stating adds to what the analysis shows and takes nothing away, but that iron stated to be chelated is not ferrous,
    and that the sulphur of a thiosulphate is no sulphate. A product that holds its own iron beside phosphate, or in
    what is alkaline, holds it as a chelate unless it is stated to be ferrous; manganese likewise.

    >>> import numpy as np
    >>> from types import SimpleNamespace
    >>> from wbgen.trade.families import family
    >>> from wbgen.units.quantity import FLOAT
    >>> products = SimpleNamespace(share_phosphate=FLOAT.Quantity(np.array([0.61, np.nan]), "g_P2O5/g"))
    >>> phosphate = next(one for one in family("traits") if one.key == "phosphate")
    >>> property_each(np.array(["", ""], dtype=object), products, phosphate)
    array(['yes', ''], dtype=object)
    """
    return where(yes(trait_each) | _shown(products, each.key), "yes", "")


def _shown(products: Table, trait: str) -> Mask | bool:
    """Whether the form, the forms of nitrogen or the analysis show a property."""
    if trait == "live_brew":
        return folded(products.form) == "brew"
    if trait == "chelated_iron":
        return _holds(products, "ferrous") & yes(products.holds_metals) & ~yes(products.trait_ferrous)
    if trait == "ammonium":
        return magnitude(products.ammonium_nitrogen) > 0
    if trait not in FROM_ANALYSIS:
        return False
    there = _holds(products, trait)
    if trait == "sulphate":
        return there & ~yes(products.trait_thiosulphate)
    if trait == "ferrous":
        return there & ~yes(products.trait_chelated_iron) & ~yes(products.holds_metals)
    return there & ~yes(products.holds_metals) if trait == "manganese" else there


def _holds(products: Table, trait: str) -> Mask:
    """Whether the analysis has the nutrient that shows a property."""
    there: Mask = magnitude(getattr(products, f"share_{FROM_ANALYSIS[trait]}")) > 0
    return there


def holds_metals(products: Table) -> Each[Text]:
    """ "yes" where a product has what would throw down its own iron and manganese: they must be held in solution."""
    stated = [yes(getattr(products, f"trait_{trait}")) for trait in HOLDS_METALS]
    return where(np.logical_or.reduce([*stated, _holds(products, "phosphate")]), "yes", "")


@reads_every(trait="traits")
def properties_stated(trait_every: list[Each[Text]]) -> Each[Text]:
    """ "yes" where a property at least is stated: then somebody has looked through the list of them."""
    return where(any_given(trait_every), "yes", "")


@reads_every(property="tank_traits", digit="tank_traits")
def traits_digits(property_every: list[Each[Text]], meets: Table) -> Each[Number]:
    """What it counts as in a tank, a digit each."""
    return _added(property_every, meets.digit_every)


@reads_every(property="tank_traits", apart="tank_traits")
def apart_sum(property_every: list[Each[Text]], meets: Table) -> Each[Number]:
    """For how many of them it is kept apart from each property, a digit each."""
    return _added(property_every, meets.apart_every)


def apart_digits(apart_sum: Each[Number]) -> Each[Number]:
    """The properties that it is kept apart from, a digit each."""
    return present(apart_sum)


@reads_every(property="tank_traits", jar="tank_traits")
def jar_sum(property_every: list[Each[Text]], meets: Table) -> Each[Number]:
    """For how many of them a jar test with each property comes first, a digit each."""
    return _added(property_every, meets.jar_every)


def jar_digits(jar_sum: Each[Number]) -> Each[Number]:
    """The properties that a jar test comes first with, a digit each."""
    return present(jar_sum)


def _added(has: list[Each[Text]], digits: list[float]) -> Each[Number]:
    return each(np.sum([yes(one) * float(digit) for one, digit in zip(has, digits, strict=True)], axis=0))
