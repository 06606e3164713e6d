"""The shelf: one record a count or a purchase, as typed; what it brings.

One record a count or a purchase: shape (shelf,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, folded, or_zero, where, with_unit
from wbgen.model.tools.lines import at, match
from wbgen.model.tools.words import listed
from wbgen.model.types import Date, Each, Mask, Mass, Number, Quantity, Table, Text, Volume

BLANK_UNLESS = ("product",)


def product_line(product: Each[Text], products: Table) -> Each[Number]:
    """The line of each product in the catalogue, its heading row being line 1; blank for an unknown one."""
    return match(product, products.name)


def mass_in(product_line: Each[Number], packs: Each[Number], mass: Each[Mass], products: Table) -> Each[Mass]:
    """Mass of what is weighed, in packs and loose; what is not said counts as nothing. Blank for what is poured."""
    return _in(product_line, packs, mass, products, "mass")


def volume_in(product_line: Each[Number], packs: Each[Number], volume: Each[Volume], products: Table) -> Each[Volume]:
    """Volume of what is poured, in packs and loose; what is not said counts as nothing. Blank for what is weighed."""
    return _in(product_line, packs, volume, products, "volume")


def _in(
    product_line: Each[Number], packs: Each[Number], loose: Each[Quantity], products: Table, kind: str
) -> Each[Quantity]:
    """What `kind` of measure the packs and what is loose come to, in the unit of what is loose."""
    pack = at(products.pack_mass if kind == "mass" else products.pack_volume, product_line)
    packed = (with_unit(or_zero(packs), "pack") * or_zero(pack)).to(loose.units)
    return where(at(products.measured_by, product_line) == kind, packed + or_zero(loose), np.nan)


def shelf_state(
    date: Each[Date],
    product_line: Each[Number],
    deed: Each[Text],
    packs: Each[Number],
    mass: Each[Mass],
    volume: Each[Volume],
    products: Table,
    misplaced_date: Mask,
    misplaced_packs: Mask,
    misplaced_mass: Mask,
    misplaced_volume: Mask,
    misplaced_paid: Mask,
) -> Each[Text]:
    """What is to be mended in the line, all that holds."""
    by, said = at(products.measured_by, product_line), folded(deed)
    text = misplaced_date | misplaced_packs | misplaced_mass | misplaced_volume | misplaced_paid
    wrong = ((by == "mass") & ~blank(volume)) | ((by == "volume") & ~blank(mass))
    return listed(
        where(blank(product_line), "; unknown product", "")
        + where(blank(date), "; give the date", "")
        + where((said != "counted") & (said != "bought"), "; say counted or bought", "")
        + where(blank(packs) & blank(mass) & blank(volume), "; nothing given", "")
        + where(text, "; a text stands where a number belongs", "")
        + where(wrong, "; weigh solids and pour liquids", "")
    )
