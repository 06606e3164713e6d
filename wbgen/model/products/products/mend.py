"""What is to be mended in each product."""

from __future__ import annotations

from wbgen.model.marks import reads_every
from wbgen.model.tools.elementwise import any_given, blank, folded, where
from wbgen.model.tools.relations import count_by
from wbgen.model.tools.words import listed
from wbgen.model.types import (
    Each,
    MassPerArea,
    MassPerVolume,
    Number,
    NutrientPerMass,
    Text,
    VolumePerArea,
    VolumePerVolume,
)


@reads_every(spray="levels", dry="levels", share="nutrients")
def product_state(
    name: Each[Text],
    spray_every: list[Each[Number]],
    spray_one_mass: Each[MassPerArea],
    spray_one_volume: Each[VolumePerArea],
    spray_one_mass_diluted: Each[MassPerVolume],
    spray_one_volume_diluted: Each[VolumePerVolume],
    dry_every: list[Each[Number]],
    dry_one_mass: Each[MassPerArea],
    measured_by: Each[Text],
    analysis_per: Each[Text],
    millilitre_mass: Each[MassPerVolume],
    share_every: list[Each[NutrientPerMass]],
) -> Each[Text]:
    """What is to be mended in the product, all that holds.

    A rate is given where one of its levels is; an analysis, where the share of one nutrient is.
    """
    one = (spray_one_mass, spray_one_volume, spray_one_mass_diluted, spray_one_volume_diluted)
    liquid = measured_by == "volume"
    unweighed = liquid & blank(millilitre_mass) & any_given(share_every)
    by_volume = ~liquid & (folded(analysis_per) == "w/v")
    return listed(
        where(any_given(spray_every) & ~any_given(one), "; the spray rate cannot be brought to one unit", "")
        + where(any_given(dry_every) & blank(dry_one_mass), "; the dry rate cannot be brought to one unit", "")
        + where(unweighed, "; give the density, or an analysis by w/v", "")
        + where(by_volume, "; w/v is for liquids only", "")
        + where(count_by(name, name) > 1, "; this name stands twice", "")
    )
