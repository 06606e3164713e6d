"""The weather of a visit, and which figures of it are believed."""

from __future__ import annotations

from typing import Annotated, Literal

from wbgen.files.diagnostics import Report
from wbgen.files.yaml.fields import OneOf
from wbgen.files.yaml.records import Record
from wbgen.records.fields import Measure, Share, Speed, Temperature
from wbgen.records.site.names import tell

YesNo = Annotated[Literal["yes", "no"], OneOf("yes", "no")]
WindHeight = Annotated[Literal["forecast at 10 m", "at spray height"], OneOf("forecast at 10 m", "at spray height")]
"""What the figure of a wind is: a forecast is for 10 m above ground."""
LOWEST_TEMPERATURE, HIGHEST_TEMPERATURE = -30.0, 60.0
"""Temperatures that are believed, in °C."""
STRONGEST_WIND = 200.0
"""Wind that is believed, in km/h."""


class Weather(Record):
    """The weather expected; what is None was not checked. A wind without its height is a forecast."""

    wind: Speed | None = None
    wind_is: WindHeight | None = None
    temperature: Temperature | None = None
    humidity: Share | None = None
    heavy_rain: YesNo | None = None
    frozen_or_waterlogged: YesNo | None = None


def check_weather(weather: Weather, report: Report) -> None:
    """The weather expected: figures that are believed."""
    believable_temperature(weather.temperature, report)
    believable_wind(weather.wind, report)
    if weather.humidity and weather.humidity.to("percent") > 100:
        tell(report, weather.humidity.place, "the humidity is above 100 %", expected="from 0 to 100 %",
              found=weather.humidity.text, remedy="correct it")  # fmt: skip


def believable_temperature(measure: Measure | None, report: Report) -> None:
    """A temperature that a person can have met."""
    if measure and not LOWEST_TEMPERATURE <= measure.to("degC") <= HIGHEST_TEMPERATURE:
        tell(report, measure.place, "this temperature cannot be right", found=measure.text,
              expected=f"from {LOWEST_TEMPERATURE:g} to {HIGHEST_TEMPERATURE:g} °C", remedy="correct it")  # fmt: skip


def believable_wind(measure: Measure | None, report: Report) -> None:
    """A wind that a person can have met."""
    if measure and measure.to("km/h") > STRONGEST_WIND:
        tell(report, measure.place, "this wind cannot be right", found=measure.text,
              expected=f"at most {STRONGEST_WIND:g} km/h", remedy="correct it")  # fmt: skip
