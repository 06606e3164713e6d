"""What must hold within one product: its facts must fit together, in the units in which they are given."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from itertools import pairwise
from typing import Final

from wbgen.files.diagnostics import Place, Report
from wbgen.records.fields import Measure
from wbgen.records.product import Analysis, Product, Rates
from wbgen.trade.nutrients import NUTRIENTS, counted_form
from wbgen.units.quantity import UnitError

_EDGE: Final = 1e-9  # shares that add up to the limit exactly may exceed it by this in floats
LIGHTEST, HEAVIEST = 0.5, 2.5
"""Densities of a liquid feed that are believed, in kg/L."""

_OUNCES: Final = re.compile(r"(?<!fl )(?<!fluid )\b(?:oz|ounces?)\b", re.IGNORECASE)


class Check:
    """One product and the report that its rules write to."""

    def __init__(self, product: Product, report: Report) -> None:
        self.product, self._report = product, report

    def tell(self, place: Place, message: str, *, expected: str = "", found: str = "", remedy: str = "") -> None:
        """Add a finding about the product."""
        self._report.add("product-rule", place, f"{self.product.name}: {message}", expected=expected, found=found,
                         remedy=remedy)  # fmt: skip

    def rising(self, measures: Iterable[Measure | None], what: str) -> None:
        """Each measure must be of the kind of the one before and not less than it; None is skipped."""
        given = [measure for measure in measures if measure]
        for lower, upper in pairwise(given):
            try:
                falls = lower.to(upper.unit) > upper.magnitude * (1 + _EDGE)
            except UnitError:
                self.tell(upper.place, f"{what} must all be of one kind", expected=f"a {lower.kind}, as {lower.text}",
                          found=f"{upper.text}, which is a {upper.kind}", remedy="use units of one kind")  # fmt: skip
                continue
            if falls:
                self.tell(upper.place, f"{what} must rise", expected=f"{lower.text} or more", found=upper.text,
                          remedy="exchange the two, or correct one")  # fmt: skip


def check_product(product: Product, report: Report) -> None:
    """Put every rule that the product breaks into the report."""
    check = Check(product, report)
    for rule in RULES:
        rule(check)


def _analysis(check: Check) -> None:
    product, analysis = check.product, check.product.analysis
    if analysis is None:
        return
    per = analysis.place_of("per")
    if analysis.per == "w/v" and not product.is_liquid:
        check.tell(per, "the analysis of a solid is never by volume", expected="per: w/w", found="per: w/v",
                   remedy="write w/w, or correct the form")  # fmt: skip
    if analysis.per == "w/w" and product.is_liquid and product.density is None:
        check.tell(per, "a liquid with an analysis by mass needs its density", expected="density, in kg/L at 20 °C",
                   remedy="add the density, or state the analysis as w/v if the label does")  # fmt: skip
    contents = analysis.place_of("contents")
    if not analysis.contents:
        check.tell(contents, "the analysis has no contents", expected="contents such as {N: 21 %}",
                   remedy="add them, or leave the analysis out")  # fmt: skip
    for nutrient in NUTRIENTS:
        oxide, element = analysis.contents.get(nutrient.symbol), analysis.contents.get(nutrient.element)
        if nutrient.oxide and oxide and element:
            check.tell(element.place, f"{nutrient.name} is given as oxide and as element", expected="one",
                       found=f"{nutrient.oxide} and {nutrient.element}",
                       remedy="keep the one on the label")  # fmt: skip
    _whole(check, analysis)


def _whole(check: Check, analysis: Analysis) -> None:
    density = check.product.density
    if analysis.per == "w/v" and density is None:
        return
    heavier = density.value.to("kg/L") if density and analysis.per == "w/v" else 1.0
    total = sum(share.to("percent") for share in analysis.contents.values())
    if total > 100 * heavier + _EDGE:
        check.tell(analysis.place_of("contents"), "the contents are more than the whole",
                   expected=f"at most {100 * heavier:g} % in all", found=f"{total:g} %",
                   remedy="correct the shares; state a pure element as the element, not as its oxide")  # fmt: skip


def _nitrogen(check: Check) -> None:
    product, forms = check.product, check.product.nitrogen
    slow = forms.slow_release if forms else None
    is_slow = slow is not None and slow.magnitude > 0
    if product.release and not is_slow:
        check.tell(product.release.place, "a release time is only for slow release nitrogen",
                   expected="nitrogen: {slow release: ...}", remedy="add the share, or delete the release")  # fmt: skip
    if slow and is_slow and product.release is None:
        check.tell(slow.place, "slow release nitrogen needs its release time", expected="release: {value: 90 day, ...}",
                   remedy="add release")  # fmt: skip
    if forms is None:
        return
    whole = product.analysis.contents.get("N") if product.analysis else None
    given = [share for share in (forms.ammonium, forms.nitrate, forms.urea, forms.slow_release) if share]
    if not given:
        check.tell(forms.place, "no form of nitrogen is given", expected="ammonium, nitrate, urea or slow release",
                   remedy="add one, or delete the block")  # fmt: skip
    total = sum(share.to("percent") for share in given)
    if whole is None:
        check.tell(forms.place, "forms of nitrogen need the whole nitrogen", expected="N in the analysis",
                   remedy="add N to the contents")  # fmt: skip
    elif total > whole.to("percent") + _EDGE:
        check.tell(forms.place, "the forms of nitrogen are more than the nitrogen", expected=f"at most {whole.text}",
                   found=f"{total:g} %", remedy="correct the forms or N")  # fmt: skip


def _rates(check: Check) -> None:
    product = check.product
    for key, rates in (("spray", product.spray), ("dry", product.dry)):
        if rates:
            check.rising((rates.low, rates.usual, rates.high), f"the {key} rates")
            for rate in (rates.low, rates.usual, rates.high):
                if rate:
                    check_rate(check, rate, key)
    _methods(check, product.spray, product.dry)


def check_rate(check: Check, rate: Measure, method: str) -> None:
    """A rate must be one that this product can have: by mass or volume as its form, and from its analysis."""
    product, kind, nutrient = check.product, rate.kind, rate.quantity.nutrient
    if kind in ("volume rate", "dilution by volume") and not product.is_liquid:
        check.tell(rate.place, "a solid has no rate by volume", expected="a mass rate such as 25 kg/ha",
                   found=rate.text, remedy="write a mass, or correct the form")  # fmt: skip
    if kind in ("mass rate", "dilution by mass") and product.is_liquid and product.density is None:
        check.tell(rate.place, "a liquid's rate by mass needs its density", expected="a volume rate such as 20 L/ha",
                   found=rate.text, remedy="write a volume, or add the density")  # fmt: skip
    if kind in ("mass rate", "dilution by mass") and product.is_liquid and _OUNCES.search(rate.text):
        check.tell(rate.place, "ounces of a liquid may be fluid ounces or a weight",
                   expected="fl oz, or a weight in lb or g", found=rate.text,
                   remedy="look at the label: most that say oz of a liquid mean fl oz")  # fmt: skip
    if kind == "pack rate" and product.pack is None:
        check.tell(rate.place, "a rate in packs needs the size of a pack", expected="pack: {value: 1 kg, ...}",
                   found=rate.text, remedy="add pack")  # fmt: skip
    if kind == "nutrient rate":
        contents = product.analysis.contents if product.analysis else {}
        counted = counted_form(nutrient or "").nutrient
        shares = [contents[symbol].magnitude for symbol in (counted.symbol, counted.element) if symbol in contents]
        if not any(shares):
            check.tell(rate.place, f"the analysis states no {nutrient}", expected=f"a nutrient of: "
                       f"{', '.join(contents) or 'none'}", found=rate.text, remedy="choose another")  # fmt: skip
    if method == "dry" and kind.startswith("dilution"):
        check.tell(rate.place, "a product that is spread dry has no dilution", expected="a mass rate such as 20 g/m²",
                   found=rate.text, remedy="write a rate per area")  # fmt: skip


def check_own_rate(check: Check, rate: Measure, method: str) -> None:
    """A rate of the user's own: as `check_rate`, and a liquid's by volume, which is how a planner asks for it."""
    if not (rate.kind == "mass rate" and check.product.is_liquid):
        check_rate(check, rate, method)
        return
    density = check.product.density
    by_volume = f"{rate.to('kg/ha') / density.value.to('kg/L'):.3g} L/ha" if density else ""
    check.tell(rate.place, "a liquid is measured by volume",
               expected=f"a volume rate such as {by_volume or '20 L/ha'}", found=rate.text,
               remedy=f"write the volume; by its density this rate is {by_volume}" if density else
               "write the volume")  # fmt: skip


def check_amount(check: Check, amount: Measure) -> None:
    """A mass or a volume of the product: solids are weighed and liquids measured by volume."""
    product = check.product
    if amount.kind == "volume" and not product.is_liquid:
        check.tell(amount.place, "a solid is weighed", expected="a mass such as 600 g", found=amount.text,
                   remedy="write the mass")  # fmt: skip
    if amount.kind == "mass" and product.is_liquid:
        density = product.density
        by_volume = f"{amount.to('kg') / density.value.to('kg/L'):.3g} L" if density else ""
        check.tell(amount.place, "a liquid is measured by volume", expected=f"a volume such as {by_volume or '0.2 L'}",
                   found=amount.text, remedy=f"write the volume; by its density this is {by_volume}" if density else
                   "write the volume")  # fmt: skip


def _methods(check: Check, spray: Rates | None, dry: Rates | None) -> None:
    product = check.product
    if spray is None and dry is None:
        check.tell(product.place, "no label rate is given", expected="dry" if product.form == "granule" else
                   "spray" if product.is_liquid else "spray or dry", remedy="add the label rate")  # fmt: skip
    if spray and product.form == "granule":
        check.tell(spray.place, "a granule is not sprayed", expected="dry", found="spray",
                   remedy="write dry, or correct the form")  # fmt: skip
    if dry and product.is_liquid:
        check.tell(dry.place, f"a {product.form} is not spread dry", expected="spray", found="dry",
                   remedy="write spray, or correct the form")  # fmt: skip
    if product.carrier:
        check.rising((product.carrier.least, product.carrier.usual), "the carrier volumes")
        if spray is None:
            check.tell(product.carrier.place, "a carrier volume is only for a spray", expected="spray",
                       remedy="add spray, or delete the carrier")  # fmt: skip


def _times(check: Check) -> None:
    product = check.product
    for key, fact in (("dry interval", product.dry_interval), ("dry most a year", product.dry_most_a_year)):
        if fact and not (product.dry and product.spray):
            check.tell(fact.place, f"{key} is only for a product that is sprayed and spread dry",
                       expected=key.removeprefix("dry "), remedy="write it so: there is one method")  # fmt: skip


def _liquid_only(check: Check) -> None:
    product = check.product
    for key, fact in (("density", product.density), ("dissolved solids", product.dissolved_solids)):
        if fact and not product.is_liquid:
            check.tell(fact.place, f"{key} is only for liquids", found=product.form,
                       remedy="delete it, or correct the form")  # fmt: skip
    if product.density and not LIGHTEST <= product.density.value.to("kg/L") <= HEAVIEST:
        check.tell(product.density.value.place, "this density cannot be right", found=product.density.value.text,
                   expected=f"from {LIGHTEST} to {HEAVIEST} kg/L", remedy="check the number and the unit")  # fmt: skip


def _solubility(check: Check) -> None:
    product, given = check.product, check.product.solubility
    if given is None:
        return
    if product.is_liquid:
        check.tell(given.place, "solubility is only for solids", found=product.form,
                   remedy="delete it; a liquid states its dissolved solids")  # fmt: skip
    if given.at_10_C is None and given.at_20_C is None:
        check.tell(given.place, "no solubility is given", expected="at 10 C or at 20 C", remedy="add one")
    if given.note is None:
        check.rising((given.at_10_C, given.at_20_C), "the solubilities (unless a note says why not)")


def _pack(check: Check) -> None:
    product = check.product
    if product.price and product.pack is None:
        check.tell(product.price.place, "a price needs the size of a pack", expected="pack: {value: 25 kg, ...}",
                   remedy="add pack")  # fmt: skip
    if product.pack:
        pack = product.pack.value
        if pack.kind == "volume" and not product.is_liquid:
            check.tell(pack.place, "a solid is not packed by volume", expected="a mass such as 25 kg", found=pack.text,
                       remedy="write the mass, or correct the form")  # fmt: skip
        if pack.kind == "mass" and product.is_liquid and product.density is None:
            check.tell(pack.place, "a liquid packed by mass needs its density", expected="a volume such as 5 L",
                       found=pack.text, remedy="write the volume, or add the density")  # fmt: skip


def _lists(check: Check) -> None:
    product = check.product
    for key, fact in (("months", product.months), ("traits", product.traits)):
        if fact is None:
            continue
        twice = sorted({str(item) for item in fact.value if fact.value.count(item) > 1})
        if twice:
            check.tell(fact.place_of("value"), f"{key} has an item twice", expected="each once",
                       found=", ".join(twice), remedy="keep one of the two")  # fmt: skip
    if product.months and not product.months.value:
        check.tell(product.months.place_of("value"), "no month is given", expected="months such as [3, 4, 5]",
                   remedy="add one, or leave months out")  # fmt: skip


RULES: Final[tuple[Callable[[Check], None], ...]] = (
    _analysis, _nitrogen, _rates, _times, _liquid_only, _solubility, _pack, _lists,
)  # fmt: skip
