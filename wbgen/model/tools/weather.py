"""What is known of the weather of a visit."""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank
from wbgen.model.values import Table


def heat_unchecked(mix: Table, settings: Table) -> bool:
    """True where the air's temperature is not given, or its humidity is not in air so hot that its dryness matters."""
    hot = bool(mix.air_temperature > settings.hot_air) and not blank(settings.dry_air)
    return bool(blank(mix.air_temperature)) or (hot and bool(blank(mix.humidity)))
