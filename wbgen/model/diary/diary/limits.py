"""What the sprays, or the dressings, of a lawn and day are held to: the limits of a mix, and of what is spread dry.

Much is what is asked about before a mix, too much what is not to be mixed.
"""

from __future__ import annotations

from typing import Any

from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.methods import is_dry
from wbgen.model.tools.rounding import exceeds, reaches
from wbgen.model.tools.words import graded
from wbgen.model.types import Each, IronPerArea, MassPerArea, MassPerVolume, NitrogenPerArea, Number, Table, Text


def flag_visit(
    way_key: Each[Number],
    method: Each[Text],
    visit_salts: Each[MassPerVolume],
    visit_salt_load: Each[MassPerArea],
    visit_nitrogen: Each[NitrogenPerArea],
    visit_iron: Each[IronPerArea],
    limits: Table,
    settings: Table,
) -> Each[Text]:
    """What is to be said of the salts of a spray, and of the soluble nitrogen and iron of it or of a dressing.

    Both limits are still allowed, but the second of iron, which is itself too much.
    """

    def said(found: Each[Any], key: str, words: str) -> Each[Text]:
        ask, stop = (only(getattr(limits, f"{which}_{key}")) for which in ("ask", "stop"))
        return graded(exceeds(found, stop), exceeds(found, ask), words)

    iron, too_much = exceeds(visit_iron, only(limits.ask_iron)), reaches(visit_iron, only(limits.stop_iron))
    sprayed = said(visit_nitrogen, "nitrogen", "soluble nitrogen in one visit")
    sprayed = sprayed + graded(too_much, iron, "iron in one visit")
    words = (
        said(visit_salts, "salts", "salt in the spray")
        + said(visit_salt_load, "salt_load", "salt on the grass")
        + where(is_dry(method), _of_dressing(visit_nitrogen, visit_iron, settings), sprayed)
    )
    return where(blank(way_key), "", words)


def _of_dressing(nitrogen: Each[NitrogenPerArea], iron: Each[IronPerArea], settings: Table) -> Each[Text]:
    """What is to be said of a dressing: soluble nitrogen and iron (g/m²) by the settings."""
    much = exceeds(nitrogen, only(settings.dry_nitrogen))
    of_iron, too_much = exceeds(iron, only(settings.dry_iron)), reaches(iron, only(settings.dry_iron_stop))
    return where(much, "; more soluble nitrogen than one dry dressing should bring", "") + graded(
        too_much, of_iron, "iron in one dry dressing"
    )
