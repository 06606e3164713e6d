"""What is said of all that was spread dry on a lawn and day, which is one dressing."""

from __future__ import annotations

from wbgen.model.tools.elementwise import only, where
from wbgen.model.tools.methods import is_dry
from wbgen.model.tools.rounding import exceeds, reaches
from wbgen.model.types import Each, IronPerArea, NitrogenPerArea, Number, Table, Text


def flag_dressing(
    way_first: Each[Number],
    method: Each[Text],
    visit_nitrogen: Each[NitrogenPerArea],
    visit_iron: Each[IronPerArea],
    settings: Table,
) -> Each[Text]:
    """What is to be said of a dressing, on the first of its lines: soluble nitrogen and iron (g/m²) by the settings.

    Iron has two limits; the second is itself too much.
    """
    nitrogen = exceeds(visit_nitrogen, only(settings.dry_nitrogen))
    iron, too_much = exceeds(visit_iron, only(settings.dry_iron)), reaches(visit_iron, only(settings.dry_iron_stop))
    said = where(nitrogen, "; more soluble nitrogen than one dry dressing should bring", "") + where(
        too_much, "; too much iron in one dry dressing", where(iron, "; much iron in one dry dressing", "")
    )
    return where((way_first == 1) & is_dry(method), said, "")
