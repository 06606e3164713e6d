"""Whether the grass of a line of the diary grew enough to be fed nitrogen."""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank, ratio, where
from wbgen.model.tools.growth import asks_for_growth, growth_of, is_known, is_slow
from wbgen.model.tools.lines import at
from wbgen.model.types import Area, Each, NitrogenMass, Number, Table, Text


def flag_growth(
    lawn_line: Each[Number],
    load_nitrogen: Each[NitrogenMass],
    area_counted: Each[Area],
    month: Each[Number],
    lawns: Table,
    months: Table,
    settings: Table,
) -> Each[Text]:
    """What is to be said of nitrogen to feed with (g/m², by what was treated) in a month when the grass hardly grows.

    A month without a mean temperature is not judged.
    """
    fed = asks_for_growth(ratio(load_nitrogen, area_counted), settings) & is_known(month, months)
    slow = is_slow(growth_of(at(lawns.grass, lawn_line), month, months), settings)
    return where(fed & slow & ~blank(lawn_line), "; nitrogen while the grass hardly grows", "")
