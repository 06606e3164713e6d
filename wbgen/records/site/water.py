"""The water that goes into a tank: that of the site, and that of a mix where it is another."""

from __future__ import annotations

from typing import Annotated, Final, Literal

from wbgen.files.diagnostics import Report
from wbgen.files.yaml.fields import OneOf
from wbgen.files.yaml.records import Record
from wbgen.records.fields import Measure, Of, Temperature
from wbgen.records.site.names import tell
from wbgen.records.site.weather import believable_temperature

PH = Annotated[Measure, Of("number")]
Dissolved = Annotated[Measure, Of("equivalents per volume", zero=True)]
"""Alkalinity or hardness: as milliequivalents, or as the calcium carbonate that would have as many."""
CitricAcid = Annotated[Literal["anhydrous", "monohydrate"], OneOf("anhydrous", "monohydrate")]

BELIEVED: Final = {"pH": (3.0, 11.0), "wanted pH": (4.0, 8.0)}
"""The pH of a water that is believed, and one that may be wanted of a spray; common practice, no source."""
MOST_ALKALINE: Final = 2000.0
"""Alkalinity that is believed, in mg CaCO3/L; common practice, no source."""


class SiteWater(Record):
    """The water of the site, by its analysis; what is None is not known. `wanted_pH` is for what needs acid water."""

    pH: PH | None = None  # noqa: N815 - the file's key
    alkalinity: Dissolved | None = None
    hardness: Dissolved | None = None
    wanted_pH: PH | None = None  # noqa: N815
    citric_acid: CitricAcid | None = None


class MixWater(Record):
    """The water of a mix, where it is another than that of the site."""

    temperature: Temperature | None = None
    pH: PH | None = None  # noqa: N815
    alkalinity: Dissolved | None = None
    hardness: Dissolved | None = None


def check_site_water(water: SiteWater, report: Report) -> None:
    """Figures that are believed."""
    _believable_ph(water.pH, "pH", report)
    _believable_ph(water.wanted_pH, "wanted pH", report)
    _believable_alkalinity(water.alkalinity, report)


def check_mix_water(water: MixWater, report: Report) -> None:
    """Figures that are believed."""
    believable_temperature(water.temperature, report)
    _believable_ph(water.pH, "pH", report)
    _believable_alkalinity(water.alkalinity, report)


def _believable_ph(measure: Measure | None, key: str, report: Report) -> None:
    least, most = BELIEVED[key]
    if measure and not least <= measure.magnitude <= most:
        tell(report, measure.place, f"this {key} cannot be right", expected=f"from {least:g} to {most:g}",
             found=measure.text, remedy="correct it")  # fmt: skip


def _believable_alkalinity(measure: Measure | None, report: Report) -> None:
    if measure and measure.to("mg CaCO3/L") > MOST_ALKALINE:
        tell(report, measure.place, "this alkalinity cannot be right", found=measure.text,
             expected=f"at most {MOST_ALKALINE:g} mg CaCO3/L", remedy="correct it")  # fmt: skip
