"""What each product does in the tank and on the grass: order, solubility, salts, nutrients, traits."""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools import measuring
from wbgen.model.tools.elementwise import as_number, blank, is_word, or_zero, ratio, where
from wbgen.model.tools.lines import at
from wbgen.model.tools.methods import soluble_share
from wbgen.model.tools.order import ranked
from wbgen.model.tools.rounding import exceeds, half_up, up
from wbgen.model.types import (
    Each,
    Mass,
    MassPerArea,
    MassPerVolume,
    NitrogenPerArea,
    Number,
    NutrientPerArea,
    Table,
    Text,
    Volume,
    VolumePerArea,
    VolumePerVolume,
    each,
)


def mixing_place(product_line: Each[Number], products: Table) -> Each[Number]:
    """The place of each product in the mixing order; one that has none goes after all of the catalogue."""
    own = at(products.mixing_place, product_line)
    known = products.mixing_place[~blank(products.mixing_place)]
    return where(blank(own), (known.max() if known.size else 0) + 1, own)


def pouring_order(mixing_place: Each[Number]) -> Each[Number]:
    """The rank (from 1) of each product by its place in the mixing order, equals in the order of the table.

    >>> import numpy as np
    >>> pouring_order(np.array([5.0, np.nan, 2.0, 5.0]))
    array([ 2., nan,  1.,  3.])
    """
    return ranked(mixing_place)


def solubility(product_line: Each[Number], products: Table, mix: Table, settings: Table) -> Each[MassPerVolume]:
    """How much of a product (g/L) dissolves at the water's temperature; common practice, no source."""
    return measuring.solubility_at(
        mix.water_used,
        settings.cold_water,
        settings.mild_water,
        at(products.solubility_cold, product_line),
        at(products.solubility_mild, product_line),
    )


@of_family("loads")
def bucket_each(weigh_each: Each[Mass], solubility: Each[MassPerVolume], settings: Table, mix: Table) -> Each[Volume]:
    """The water that dissolves a load's solid first: mass (g) ÷ (the settings' share × its solubility (g/L)).

    Rounded up to a tenth of the unit that tanks are in, or to a hundredth where that would be more than twice as much.
    Common practice, no source.

    >>> import numpy as np
    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> settings, mix = SimpleNamespace(dissolve_share=0.5), SimpleNamespace(fill_full=FLOAT("14 L"))
    >>> solubility = FLOAT.Quantity(np.array([400.0]), "g/L")
    >>> bucket_each(FLOAT.Quantity(np.array([250.0]), "g"), solubility, settings, mix).magnitude
    array([1.3])
    """
    exact = ratio(weigh_each, settings.dissolve_share * solubility).to(mix.fill_full.units)
    tenths = up(half_up(exact, 9), 1)
    return where(exceeds(tenths, 2 * exact), up(half_up(exact, 9), 2), tenths)


def solubility_share(in_water_mass: Each[MassPerVolume], solubility: Each[MassPerVolume], mix: Table) -> Each[Number]:
    """The share of its solubility (g/L) that a solid takes in the tank: concentration (g/L) × dilution ÷ solubility.

    A hose-end jar holds the concentrate, which the hose thins. Common practice, no source.

    >>> import numpy as np
    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> in_water, solubility = (FLOAT.Quantity(np.array([number]), "g/L") for number in (80.0, 400.0))
    >>> solubility_share(in_water, solubility, SimpleNamespace(dilution=1.0))
    array([0.2])
    """
    return as_number(ratio(in_water_mass * mix.dilution, solubility))


def _dissolved(product_line: Each[Number], products: Table) -> Each[MassPerVolume]:
    """What a litre of each liquid adds to the salts."""
    return or_zero(at(products.solids_counted, product_line))


def salts(
    in_water_mass: Each[MassPerVolume],
    in_water_volume: Each[VolumePerVolume],
    product_line: Each[Number],
    products: Table,
) -> Each[MassPerVolume]:
    """The salts (g/L) in the spray: solids as sold (g/L) + liquids (mL/L) × their dissolved solids (g/L).

    Water of a hydrate counts as salt. Common practice, no source.

    >>> import numpy as np
    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> solids = FLOAT.Quantity(np.array([8.0, np.nan]), "g/L")
    >>> liquids = FLOAT.Quantity(np.array([np.nan, 10.0]), "mL/L")
    >>> catalogue = SimpleNamespace(solids_counted=FLOAT.Quantity(np.array([np.nan, 300.0]), "g/L"))
    >>> salts(solids, liquids, np.array([2.0, 3.0]), catalogue).to("g/L").magnitude
    array([8., 3.])
    """
    return or_zero(in_water_mass) + or_zero(in_water_volume) * _dissolved(product_line, products)


def salt_index(product_line: Each[Number], products: Table, settings: Table) -> Each[Number]:
    """The salt index of each product, that of the settings where none is known (Rader et al. 1943)."""
    own = at(products.salt_index, product_line)
    return where(blank(own), settings.unknown_salt_index, own)


def salt_load(
    laid_mass: Each[MassPerArea],
    laid_volume: Each[VolumePerArea],
    salt_index: Each[Number],
    product_line: Each[Number],
    products: Table,
    settings: Table,
) -> Each[MassPerArea]:
    """The salt load (g/m²): salt on the grass (g/m²) × its salt index ÷ that of sodium nitrate, which is 100.

    The index is Rader's (Rader et al. 1943); a limit on the load is common practice, no source.

    >>> import numpy as np
    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> laid = FLOAT.Quantity(np.array([4.0]), "g/m**2"), FLOAT.Quantity(np.array([np.nan]), "mL/m**2")
    >>> catalogue = SimpleNamespace(solids_counted=FLOAT.Quantity(np.array([np.nan]), "g/L"))
    >>> settings = SimpleNamespace(salt_index_reference=100.0)
    >>> salt_load(*laid, np.array([75.0]), np.array([2.0]), catalogue, settings).magnitude
    array([3.])
    """
    salt = or_zero(laid_mass) + or_zero(laid_volume) * _dissolved(product_line, products)
    return ratio(salt * salt_index, settings.salt_index_reference)


@of_family("nutrients")
def delivered_each(
    laid_mass: Each[MassPerArea], laid_volume: Each[VolumePerArea], product_line: Each[Number], products: Table
) -> Each[NutrientPerArea]:
    """The nutrient (g/m²) that a product delivers: rate (g/m² or mL/m²) × content (g/g or g/L); not stated is nothing.

    Penn State Extension, Determining How Much Nitrogen or Active Ingredient You Are Applying: 5 lb of 20 % N bring
    1 lb.

    >>> import numpy as np
    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> unit, none = "lb/thousand_square_feet", FLOAT.Quantity(np.array([np.nan]), "mL/m**2")
    >>> contents = {"mass_content_each": FLOAT.Quantity(np.array([0.2]), "g_N/g"),
    ...             "volume_content_each": FLOAT.Quantity(np.array([np.nan]), "g_N/L")}
    >>> laid, catalogue = FLOAT.Quantity(np.array([5.0]), unit), SimpleNamespace(**contents)
    >>> found = delivered_each(laid, none, np.array([2.0]), catalogue)
    >>> found.to("lb_N/thousand_square_feet").magnitude.round(9)
    array([1.])
    """
    solid = or_zero(laid_mass) * or_zero(at(products.mass_content_each, product_line))
    return solid + or_zero(laid_volume) * or_zero(at(products.volume_content_each, product_line))


def soluble_nitrogen(
    delivered_nitrogen: Each[NitrogenPerArea], product_line: Each[Number], products: Table
) -> Each[NitrogenPerArea]:
    """The nitrogen (g N/m²) that is not of slow release: delivered × (1 − slow (g/g) ÷ all of it (g/g)).

    0 where the product holds none. Common practice, no source.

    >>> import numpy as np
    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> slow, share = (FLOAT.Quantity(np.array([number]), "g_N/g") for number in (0.05, 0.2))
    >>> catalogue = SimpleNamespace(slow_nitrogen=slow, share_nitrogen=share)
    >>> soluble_nitrogen(FLOAT.Quantity(np.array([4.0]), "g_N/m**2"), np.array([2.0]), catalogue).magnitude
    array([3.])
    """
    return delivered_nitrogen * soluble_share(product_line, products)


@of_family("traits")
def trait_each(product_line: Each[Number], products: Table) -> Each[Number]:
    """1 where the product has the tank-mix property, stated or shown by its analysis; else 0."""
    return each(is_word(at(products.property_each, product_line), "yes").astype(float))


def trait_not_live(trait_live_brew: Each[Number]) -> Each[Number]:
    """1 where the product is not known to be live, else 0."""
    return 1.0 - trait_live_brew


def potash_meets_sulphate(trait_potassium: Each[Number], trait_sulphate: Each[Number]) -> Each[Number]:
    """1 where a product has potassium and another product of the mix has sulphate; else 0."""
    sulphate = or_zero(trait_sulphate)
    return where((trait_potassium > 0) & (sulphate.sum() - sulphate > 0), 1.0, 0.0)


def unknown_solubility(rate_mass: Each[MassPerArea], solubility: Each[MassPerVolume]) -> Each[Text]:
    """Named where a solid is to be dissolved of which it is not known how much dissolves."""
    return where((rate_mass > 0) & ~(solubility > 0), ", solubility", "")


def unknown_side(
    trait_acid: Each[Number],
    trait_neutral: Each[Number],
    trait_alkaline: Each[Number],
    trait_alkaline_humate: Each[Number],
    trait_strongly_alkaline: Each[Number],
) -> Each[Text]:
    """Named where none of the properties tells on which side of neutral a product is."""
    told = trait_acid + trait_neutral + trait_alkaline + trait_alkaline_humate + trait_strongly_alkaline
    return where(told > 0, "", ", pH")


def unknown_life(trait_live_brew: Each[Number], product_line: Each[Number], products: Table) -> Each[Text]:
    """Named where no property is stated: of a product whose properties are, a live one would be said to be live."""
    stated = is_word(at(products.properties_stated, product_line), "yes")
    return where((trait_live_brew > 0) | stated, "", ", whether it is live")


@of_family("trait_rules")
def rule_each(trait_each_first: Each[Number], trait_each_second: Each[Number], rules: Table) -> Each[Number]:
    """The rule's level where a product has one trait and another product the other, else 0."""
    first, second = or_zero(trait_each_first), or_zero(trait_each_second)
    with_second, with_first = second.sum() - second, first.sum() - first
    met = ((first > 0) & (with_second > 0)) | ((second > 0) & (with_first > 0))
    return where(met, or_zero(rules.level_each), 0.0)
