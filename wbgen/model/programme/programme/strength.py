"""How strong each line of the programme is: its rate, its salts, and what its visits bring, against their limits.

Soluble nitrogen and iron count with all that goes on the same lawn and date by the same method. The limits are those of
a dry dressing, or of a mix that is not watered in.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, greater, magnitude, only, or_zero, ratio, where, yes
from wbgen.model.tools.lines import at, lines_at
from wbgen.model.tools.methods import by_method, is_dry
from wbgen.model.tools.rates import over_high
from wbgen.model.tools.relations import latest_by
from wbgen.model.tools.rounding import exceeds, reaches
from wbgen.model.tools.words import together
from wbgen.model.types import (
    Each,
    IronPerArea,
    MassPerArea,
    MassPerVolume,
    NitrogenPerArea,
    Number,
    Quantity,
    Table,
    Text,
    VolumePerArea,
)


def label_mass(
    product_line: Each[Number], method: Each[Text], carrier_volume: Each[VolumePerArea], products: Table
) -> Each[MassPerArea]:
    """The highest rate (g/m²) of a solid on its label, by the method; a dilution goes by the carrier volume."""
    fixed = at(products.spray_mass_high, product_line)
    diluted = at(products.diluted_mass_high, product_line) * carrier_volume
    return where(is_dry(method), at(products.dry_mass_high, product_line), where(blank(fixed), diluted, fixed))


def label_volume(
    product_line: Each[Number], method: Each[Text], carrier_volume: Each[VolumePerArea], products: Table
) -> Each[VolumePerArea]:
    """The highest rate (mL/m²) of a liquid on its label, likewise; no liquid is spread dry."""
    fixed = at(products.spray_volume_high, product_line)
    diluted = at(products.diluted_volume_high, product_line) * carrier_volume
    return where(is_dry(method), np.nan, where(blank(fixed), diluted, fixed))


def rates_stated(product_line: Each[Number], method: Each[Text], products: Table) -> Each[Number]:
    """How many of the three rates the product has for the line's method."""
    of_method = [
        by_method(method, product_line, sprayed, dry)
        for sprayed, dry in (
            (products.spray_low, products.dry_low),
            (products.spray_usual, products.dry_usual),
            (products.spray_high, products.dry_high),
        )
    ]
    number = sum((~blank(one)).astype(float) for one in of_method)
    return where(blank(product_line), np.nan, number)


def salts(
    rate_mass: Each[MassPerArea],
    rate_volume: Each[VolumePerArea],
    carrier_volume: Each[VolumePerArea],
    product_line: Each[Number],
    products: Table,
) -> Each[MassPerVolume]:
    """The salts (g/L) that the product alone makes of its spray: a solid as sold, a liquid by its solids as counted.

    Salt (g/m²) ÷ carrier volume (L/m²). Common practice, no source.
    """
    salt = or_zero(rate_mass) + or_zero(rate_volume) * or_zero(at(products.solids_counted, product_line))
    return where(carrier_volume > 0, ratio(salt, carrier_volume).to("g/L"), np.nan)


def _of_a_day(own: Each[Quantity], most: Each[Quantity], applications: Table) -> Each[Quantity]:
    """The most that a date of each line brings with its neighbours; its own where it has no date."""
    dated = latest_by(applications.programme_line, lines_at(np.arange(len(magnitude(own)))), most)
    return where(blank(own), np.nan, greater(own, or_zero(dated)))


def day_nitrogen(soluble_nitrogen: Each[NitrogenPerArea], applications: Table) -> Each[NitrogenPerArea]:
    """The soluble nitrogen (g N/m²) of a day, by the line's method, on the lawn and date that get most."""
    return _of_a_day(soluble_nitrogen, applications.most_nitrogen, applications)


def day_iron(by_area_iron: Each[IronPerArea], applications: Table) -> Each[IronPerArea]:
    """The iron (g Fe/m²) of a day, likewise."""
    return _of_a_day(by_area_iron, applications.most_iron, applications)


def ask_nitrogen(method: Each[Text], limits: Table, settings: Table) -> Each[NitrogenPerArea]:
    """The soluble nitrogen (g N/m²) above which a visit is asked about, by the line's method."""
    return where(is_dry(method), only(settings.dry_nitrogen), only(limits.ask_nitrogen))


def stop_nitrogen(method: Each[Text], limits: Table) -> Each[NitrogenPerArea]:
    """The soluble nitrogen (g N/m²) above which there is too much in a spray; a dressing has no second limit."""
    return where(is_dry(method), np.nan, only(limits.stop_nitrogen))


def ask_iron(method: Each[Text], limits: Table, settings: Table) -> Each[IronPerArea]:
    """The iron (g Fe/m²) above which a visit is asked about, by the line's method."""
    return where(is_dry(method), only(settings.dry_iron), only(limits.ask_iron))


def stop_iron(method: Each[Text], limits: Table, settings: Table) -> Each[IronPerArea]:
    """The iron (g Fe/m²) from which there is too much in a visit, by the line's method."""
    return where(is_dry(method), only(settings.dry_iron_stop), only(limits.stop_iron))


def over_level(
    rate_mass: Each[MassPerArea],
    rate_volume: Each[VolumePerArea],
    label_mass: Each[MassPerArea],
    label_volume: Each[VolumePerArea],
    method: Each[Text],
    product_line: Each[Number],
    products: Table,
    settings: Table,
) -> Each[Number]:
    """Where the rate is over the label's highest, or over what is usual, as a level."""
    rate_asks = by_method(method, product_line, products.spray_asks, products.dry_asks)
    return over_high(rate_mass, rate_volume, label_mass, label_volume, rate_asks, settings)


def over_label(over_level: Each[Number], method: Each[Text], product_line: Each[Number], products: Table) -> Each[Text]:
    """The same in words: over the label's highest, or over what is usual where that is practice only."""
    rate_practice = by_method(method, product_line, products.spray_practice, products.dry_practice)
    usual = where(over_level == 2, "far over the usual range", "over the usual range")
    return where(over_level > 0, where(yes(rate_practice), usual, "over the label rate"), "")


def salts_words(salts: Each[MassPerVolume], limits: Table) -> Each[Text]:
    """What is to be said of the salts. Both limits are still allowed."""
    much = where(exceeds(salts, only(limits.ask_salts)), "much salt in the spray", "")
    return where(exceeds(salts, only(limits.stop_salts)), "too much salt in the spray", much)


def nitrogen_words(
    method: Each[Text],
    soluble_nitrogen: Each[NitrogenPerArea],
    day_nitrogen: Each[NitrogenPerArea],
    ask_nitrogen: Each[NitrogenPerArea],
    stop_nitrogen: Each[NitrogenPerArea],
) -> Each[Text]:
    """What is to be said of the soluble nitrogen, where the line brings some."""
    said = where(
        is_dry(method),
        "more soluble nitrogen than one dry dressing should bring",
        "much soluble nitrogen in one visit",
    )
    much = where(exceeds(day_nitrogen, ask_nitrogen), said, "")
    told = where(exceeds(day_nitrogen, stop_nitrogen), "too much soluble nitrogen in one visit", much)
    return where(exceeds(soluble_nitrogen, 0.0), told, "")


def iron_words(
    method: Each[Text],
    by_area_iron: Each[IronPerArea],
    day_iron: Each[IronPerArea],
    ask_iron: Each[IronPerArea],
    stop_iron: Each[IronPerArea],
) -> Each[Text]:
    """What is to be said of the iron, where the line brings some. The second limit is itself too much."""
    one = "iron in one " + where(is_dry(method), "dry dressing", "visit")
    much = where(exceeds(day_iron, ask_iron), "much " + one, "")
    return where(exceeds(by_area_iron, 0.0), where(reaches(day_iron, stop_iron), "too much " + one, much), "")


def too_much(
    over_label: Each[Text], salts_words: Each[Text], nitrogen_words: Each[Text], iron_words: Each[Text]
) -> Each[Text]:
    """All that is too strong in the line."""
    return together(over_label, salts_words, nitrogen_words, iron_words)
