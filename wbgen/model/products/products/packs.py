"""What a pack of each product is good for."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, ratio, where, with_unit
from wbgen.model.types import Area, Each, MassPerArea, MassPerPack, Quantity, VolumePerArea, VolumePerPack


def spray_pack_area(
    spray_mass_usual: Each[MassPerArea],
    spray_volume_usual: Each[VolumePerArea],
    pack_mass: Each[MassPerPack],
    pack_volume: Each[VolumePerPack],
) -> Each[Area]:
    """The area that one pack covers once at the usual rate of spraying; blank without a pack or a rate by area.

    Cornell Cooperative Extension, Another set of calculations for fertilizer applications.

    >>> from wbgen.units.quantity import FLOAT
    >>> none = FLOAT.Quantity(np.array([np.nan]), "L/ha"), FLOAT.Quantity(np.array([np.nan]), "L/pack")
    >>> rate, pack = FLOAT.Quantity(np.array([2.5]), "g/m**2"), FLOAT.Quantity(np.array([25.0]), "kg/pack")
    >>> spray_pack_area(rate, none[0], pack, none[1]).to("m**2").magnitude
    array([10000.])
    """
    solid, liquid = _covered(pack_mass, spray_mass_usual), _covered(pack_volume, spray_volume_usual)
    return where(blank(solid), liquid, solid)


def dry_pack_area(dry_mass_usual: Each[MassPerArea], pack_mass: Each[MassPerPack]) -> Each[Area]:
    """The area that one pack covers once at the usual rate of spreading dry."""
    return _covered(pack_mass, dry_mass_usual)


def _covered(pack: Each[Quantity], rate: Each[Quantity]) -> Each[Area]:
    area = ratio(pack * with_unit(1.0, "pack"), rate)
    return where((pack > 0) & (rate > 0), area, np.nan)
