"""Whose water it is, what is known of it, and what of it is missing though a product needs it."""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank
from wbgen.model.tools.traits import any_has, meets_hardness
from wbgen.model.types import Alkalinity, Hardness, Number, Table, Text

_OF_MIX, _OF_SITE, _UNKNOWN = "this mix", "the site", "not known"


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


def unchecked(ph: Number, alkalinity: Alkalinity, hardness: Hardness, own_acids: Number, mix_products: Table) -> Text:
    """What is not known of the water though a product needs it.

    Iron and an acid for the water need pH and alkalinity, calcium needs alkalinity, a humate needs pH; calcium,
    phosphate, a humate and what is strongly alkaline need hardness, and so does iron where alkalinity is not known, in
    the place of which it stands.
    """
    iron, humate = any_has(mix_products.trait_ferrous), any_has(mix_products.trait_alkaline_humate)
    acid = own_acids > 0
    calcium = any_has(mix_products.trait_calcium)
    salts = meets_hardness(mix_products)
    needed = {
        ", pH": blank(ph) and (iron or humate or acid),
        ", alkalinity": blank(alkalinity) and (iron or acid or calcium),
        ", hardness": blank(hardness) and (salts or (iron and bool(blank(alkalinity)))),
    }
    return "".join(word for word, missing in needed.items() if missing)


def unchecked_words(unchecked: Text) -> Text:
    """The same as it is said beside the verdict."""
    return f"; {unchecked.removeprefix(', ')} of the water" if unchecked else ""
