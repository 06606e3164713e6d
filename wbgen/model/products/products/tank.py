"""What each product does in a tank, by what is stated of it and by its analysis."""

from __future__ import annotations

from wbgen.model.marks import of_family, reads_every
from wbgen.model.tools.elementwise import any_given, folded, magnitude, where
from wbgen.model.tools.traits import yes
from wbgen.model.types import (
    Each,
    Mask,
    Table,
    Text,
)
from wbgen.trade.families import Member
from wbgen.trade.tank_rules import FROM_ANALYSIS


@of_family("traits")
def property_each(trait_each: Each[Text], products: Table, each: Member) -> Each[Text]:
    """ "yes" where a product has the tank-mix property: stated, or shown by what the label says is in it.

    Stating adds to what the analysis shows and takes nothing away, but that iron stated to be chelated is not ferrous.

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
    if trait == "ammonium":
        return magnitude(products.ammonium_nitrogen) > 0
    if trait not in FROM_ANALYSIS:
        return False
    there: Mask = magnitude(getattr(products, f"share_{FROM_ANALYSIS[trait]}")) > 0
    return there & ~yes(products.trait_chelated_iron) if trait == "ferrous" else there


@reads_every(trait="traits")
def properties_stated(trait_every: list[Each[Text]]) -> Each[Text]:
    """ "yes" where a property at least is stated: then somebody has looked through the list of them."""
    return where(any_given(trait_every), "yes", "")
