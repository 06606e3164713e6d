"""A product of the catalogue as a record of the sheet Products."""

from __future__ import annotations

from typing import Final

from wbgen.inputs.rows import Row
from wbgen.records.basis import UNSTATED
from wbgen.records.fields import Measure
from wbgen.records.product import Product, Rates
from wbgen.trade.nutrients import counted_form
from wbgen.trade.tank_rules import TRAITS

LABEL: Final = ("label", UNSTATED)
"""The bases on which a rate is a limit. A figure of a user's own that does not say where it is from may be the label's;
what a trial or an adviser published is what is usual, as practice is."""
BINDING: Final = ("published", *LABEL)
"""The bases on which a number of a year is a limit."""


def product_row(product: Product) -> Row:
    """Every input column that the catalogue fills, quantities as they are written there."""
    row: Row = {"name": product.name, "form": product.form, "family": product.family}
    row |= _analysis(product)
    if product.active:
        row |= {"active_share": product.active.share, "active_word": product.active.what}
    row |= _rates("spray", product.spray) | _rates("dry", product.dry)
    if product.carrier:
        row |= {"least_carrier": product.carrier.least, "usual_carrier": product.carrier.usual}
    if product.solubility:
        row |= {"solubility_cold": product.solubility.at_10_C, "solubility_mild": product.solubility.at_20_C}
    if product.months:
        row["months_suited"] = "".join(
            letter if number in product.months.value else "-" for number, letter in enumerate("JFMAMJJASOND", 1)
        )
    if product.traits:
        names = {name: key for key, name in TRAITS.items()}
        row |= {f"trait_{names[trait]}": "yes" for trait in product.traits.value}
    for key, told in (("hazards", product.hazards), ("cautions", product.cautions)):
        if told:
            row[key] = ". ".join(text.rstrip(".") for text in told.value) + "."
    if product.pack:
        row |= _pack(product, product.pack.value)
    row |= _times(product)
    facts: dict[str, object] = {
        "density": product.density,
        "dissolved_solids": product.dissolved_solids,
        "release_time": product.release,
        "salt_index": product.salt_index,
        "mixing_place": product.mixing_place,
        "price": product.price,
    }
    return row | {key: getattr(fact, "value", None) for key, fact in facts.items()}


def _times(product: Product) -> Row:
    """The interval and the number a year of each method; a number binds that has a source, or is the label's."""
    sprayed, dry = (product.interval, product.most_a_year), (product.dry_interval, product.dry_most_a_year)
    if product.dry and not product.spray:
        sprayed, dry = (None, None), sprayed
    row: Row = {}
    for method, (interval, most) in (("", sprayed), ("dry_", dry)):
        row[f"{method}least_interval"] = getattr(interval, "value", None)
        row[f"{method}most_a_year"] = getattr(most, "value", None)
        if most and most.basis.kind in BINDING:
            row[f"{method}number_binds"] = "yes"
    return row


def _pack(product: Product, pack: Measure) -> Row:
    """The size of a pack; that of a liquid is a volume, by its density where the pack is weighed."""
    if pack.kind == "mass" and product.is_liquid and product.density:
        volume = pack.to("kg") / product.density.value.to("kg/L")
        return {"pack_volume": f"{volume:.15g} L/pack"}
    return {"pack_mass" if pack.kind == "mass" else "pack_volume": f"{pack.text}/pack"}


def _analysis(product: Product) -> Row:
    row: Row = {}
    if product.analysis:
        row["analysis_per"] = product.analysis.per
        for symbol, share in product.analysis.contents.items():
            form = counted_form(symbol)
            stated = symbol == form.nutrient.symbol
            row[("stated_" if stated else "element_") + form.nutrient.key] = share
    if product.nitrogen:
        forms = product.nitrogen
        row |= {
            "ammonium_nitrogen": forms.ammonium,
            "nitrate_nitrogen": forms.nitrate,
            "urea_nitrogen": forms.urea,
            "slow_nitrogen": forms.slow_release,
        }
    return row


def _rates(method: str, rates: Rates | None) -> Row:
    """A label rate as plain numbers beside the unit of the usual one."""
    if rates is None:
        return {}
    unit = rates.usual.label_unit
    return {
        f"{method}_unit": unit.printed,
        f"{method}_practice": None if rates.basis.kind in LABEL else "yes",
        **{
            f"{method}_{level}": None if rate is None else unit.of(rate.quantity)
            for level, rate in (("low", rates.low), ("usual", rates.usual), ("high", rates.high))
        },
    }
