"""What is known of the weather of a visit."""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank
from wbgen.model.values import Table


def heat_unchecked(mix: Table, settings: Table) -> bool:
    """True where the air's temperature is not given, or its humidity is not in air so hot that its dryness matters."""
    hot, judged = bool(mix.air_temperature > settings.hot_air), not blank(settings.dry_air)
    unknown = bool(blank(mix.humidity))
    return bool(blank(mix.air_temperature)) or (hot and judged and unknown)
