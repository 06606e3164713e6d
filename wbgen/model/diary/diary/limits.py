"""What each spray of the diary is held to: the limits of a mix, and the weather that was noted.

Much is what is asked about before a mix, too much what is not to be mixed. What was not noted is not judged.
"""

from __future__ import annotations

from typing import Any

from wbgen.model.tools.elementwise import blank, only, where
from wbgen.model.tools.methods import is_dry
from wbgen.model.tools.rounding import exceeds, reaches
from wbgen.model.types import (
    Each,
    IronMass,
    IronPerArea,
    Mask,
    MassPerArea,
    MassPerVolume,
    NitrogenPerArea,
    Number,
    Speed,
    Table,
    Temperature,
    Text,
)


def _graded(too: Mask, much: Mask, words: str) -> Each[Text]:
    """Much of something, or too much of it."""
    return where(too, "; too much " + words, where(much, "; much " + words, ""))


def flag_strength(
    way_first: Each[Number], visit_salts: Each[MassPerVolume], visit_salt_load: Each[MassPerArea], limits: Table
) -> Each[Text]:
    """What is to be said of the salts of a visit, in the spray and on the grass. Both limits are still allowed."""

    def said(found: Each[Any], key: str, words: str) -> Each[Text]:
        ask, stop = (only(getattr(limits, f"{which}_{key}")) for which in ("ask", "stop"))
        return _graded(exceeds(found, stop), exceeds(found, ask), words)

    salts = said(visit_salts, "salts", "salt in the spray")
    return where(way_first == 1, salts + said(visit_salt_load, "salt_load", "salt on the grass"), "")


def flag_visit(
    way_first: Each[Number],
    method: Each[Text],
    visit_nitrogen: Each[NitrogenPerArea],
    visit_iron: Each[IronPerArea],
    limits: Table,
) -> Each[Text]:
    """What is to be said of the soluble nitrogen and the iron of a spray. The second limit of iron is too much."""
    much, too_much = (exceeds(visit_nitrogen, only(one)) for one in (limits.ask_nitrogen, limits.stop_nitrogen))
    iron, too_much_iron = exceeds(visit_iron, only(limits.ask_iron)), reaches(visit_iron, only(limits.stop_iron))
    said = _graded(too_much, much, "soluble nitrogen in one visit") + _graded(too_much_iron, iron, "iron in one visit")
    return where((way_first == 1) & ~is_dry(method), said, "")


def flag_weather(
    way_key: Each[Number],
    method: Each[Text],
    wind: Each[Speed],
    air_temperature: Each[Temperature],
    load_iron: Each[IronMass],
    visit_iron: Each[IronPerArea],
    settings: Table,
) -> Each[Text]:
    """What is to be said of the wind and of the air, as they were noted beside a spray.

    Iron in heat is said beside the iron, and on the first line of its visit. Without a humidity it is not known
    whether hot air was dry.
    """
    iron = (load_iron > 0) | (visit_iron > 0)
    stop, hot = air_temperature > only(settings.stop_air), air_temperature > only(settings.hottest_air)
    said = (
        _graded(reaches(wind, settings.wind_stop), exceeds(wind, settings.wind_ask), "wind")
        + where(wind < only(settings.calm_wind), "; hardly any wind", "")
        + where(stop, "; too hot", where(hot, "; hot", ""))
        + where(air_temperature < only(settings.coldest_air), "; cold", "")
        + where(iron & (air_temperature > only(settings.hot_air_iron)), "; iron in heat", "")
    )
    return where(blank(way_key) | is_dry(method), "", said)
