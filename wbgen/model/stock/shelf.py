"""The shelf: one record a count or a purchase, as typed; what it brings."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.lines import at, match
from wbgen.model.tools.relations import blank, folded, or_zero, where
from wbgen.model.tools.words import listed
from wbgen.units.quantity import FLOAT

Value = Any

BLANK_UNLESS = ("product",)


def product_line(product: Value, products: Value) -> Value:
    """The line of each product in the catalogue, its heading row being line 1; blank for an unknown one."""
    return match(product, products.name)


def mass_in(product_line: Value, packs: Value, mass: Value, products: Value) -> Value:
    """Mass of what is weighed, in packs and loose; what is not said counts as nothing. Blank for what is poured."""
    return _in(product_line, packs, mass, products, "mass")


def volume_in(product_line: Value, packs: Value, volume: Value, products: Value) -> Value:
    """Volume of what is poured, in packs and loose; what is not said counts as nothing. Blank for what is weighed."""
    return _in(product_line, packs, volume, products, "volume")


def _in(product_line: Value, packs: Value, loose: Value, products: Value, kind: str) -> Value:
    """What `kind` of measure the packs and what is loose come to, in the unit of what is loose."""
    pack = at(products.pack_mass if kind == "mass" else products.pack_volume, product_line)
    packed = (FLOAT.Quantity(or_zero(packs), "pack") * or_zero(pack)).to(loose.units)
    return where(at(products.measured_by, product_line) == kind, packed + or_zero(loose), np.nan)


def shelf_state(
    date: Value,
    product_line: Value,
    deed: Value,
    packs: Value,
    mass: Value,
    volume: Value,
    products: Value,
    misplaced_date: Value,
    misplaced_packs: Value,
    misplaced_mass: Value,
    misplaced_volume: Value,
    misplaced_paid: Value,
) -> Value:
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
