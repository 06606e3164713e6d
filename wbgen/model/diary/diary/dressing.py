"""What was spread dry on a lawn and day as one dressing: the soluble nitrogen and the iron of all its lines.

What a spot of the lawn had is at most the sum of what each line brought to what it treated.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.methods import is_dry
from wbgen.model.tools.order import is_first
from wbgen.model.tools.relations import sum_by
from wbgen.model.tools.rounding import exceeds, reaches
from wbgen.model.types import Each, IronPerArea, NitrogenPerArea, Number, Table, Text


def dry_key(lawn_day_key: Each[Number], method: Each[Text]) -> Each[Number]:
    """The key of lawn and day of what was spread dry; blank for what was sprayed."""
    return where(is_dry(method), lawn_day_key, np.nan)


def dry_first(dry_key: Each[Number]) -> Each[Number]:
    """1 on the first line of what was spread dry on a lawn and day, blank on all others."""
    return where(is_first(dry_key) & ~blank(dry_key), 1.0, np.nan)


def dry_nitrogen(
    dry_first: Each[Number], dry_key: Each[Number], soluble_nitrogen: Each[NitrogenPerArea]
) -> Each[NitrogenPerArea]:
    """The soluble nitrogen (g N/m²) that was spread dry on the lawn and day, on the first of its lines."""
    return where(dry_first == 1, sum_by(dry_key, dry_key, soluble_nitrogen), np.nan)


def dry_iron(dry_first: Each[Number], dry_key: Each[Number], own_iron: Each[IronPerArea]) -> Each[IronPerArea]:
    """The iron (g Fe/m²) likewise."""
    return where(dry_first == 1, sum_by(dry_key, dry_key, own_iron), np.nan)


def flag_dressing(
    dry_first: Each[Number], dry_nitrogen: Each[NitrogenPerArea], dry_iron: Each[IronPerArea], settings: Table
) -> Each[Text]:
    """What is to be said of a dressing: soluble nitrogen (g N/m²) and iron (g Fe/m²), against the settings.

    Iron has two limits; the second is itself too much.
    """
    nitrogen = exceeds(dry_nitrogen, only(settings.dry_nitrogen))
    iron, too_much = exceeds(dry_iron, only(settings.dry_iron)), reaches(dry_iron, only(settings.dry_iron_stop))
    said = where(nitrogen, "; more soluble nitrogen than one dry dressing should bring", "") + where(
        too_much, "; too much iron in one dry dressing", where(iron, "; much iron in one dry dressing", "")
    )
    return where(dry_first == 1, said, "")
