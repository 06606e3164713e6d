"""What is typed for the mix on the sheets Mix and Start, or what an empty box takes."""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank, folded
from wbgen.model.tools.relations import find
from wbgen.model.types import Alkalinity, Date, Hardness, Number, Speed, Table, Temperature, Text, VolumePerArea


def date(chosen: Table) -> Date:
    """The date that is typed, as a serial number."""
    return chosen.date


def sprayer(chosen: Table) -> Text:
    """The sprayer that is chosen."""
    return chosen.sprayer


def who(chosen_more: Table) -> Text:
    """Who mixes and sprays."""
    return chosen_more.who


def which_lawns(chosen: Table, lawns: Table) -> Text:
    """How the lawns are chosen: "listed" one by one, "all", "one" by its name, or a "group" of them.

    A lawn comes before a group of the same name; a name that is neither is taken for a lawn's.
    """
    if blank(chosen.lawns):
        return "listed"
    if folded(chosen.lawns)[0] == "all":
        return "all"
    is_lawn, is_group = (find(chosen.lawns, names)[0] >= 0 for names in (lawns.name, lawns.group))
    return "group" if is_group and not is_lawn else "one"


def wanted_carrier(chosen: Table) -> VolumePerArea:
    """The carrier volume that is wanted of this mix."""
    return chosen.wanted_carrier


def loads_style(chosen: Table) -> Text:
    """How loads are made: equal ones, unless it is said."""
    return _or(chosen.loads_style, "equal")


def watered_in(chosen: Table) -> Text:
    """Whether it is watered in: no, unless it is said."""
    return _or(chosen.watered_in, "no")


def overlap(chosen_more: Table) -> Number:
    """The share of the swath that is sprayed twice."""
    return chosen_more.overlap


def water_temperature(chosen_more: Table) -> Temperature:
    """The temperature of this mix's water."""
    return chosen_more.water_temperature


def ph(chosen_more: Table) -> Number:
    """The pH of this mix's water, where it is another than the site's."""
    return chosen_more.ph


def alkalinity(chosen_more: Table) -> Alkalinity:
    """The alkalinity of this mix's water, where it is another than the site's."""
    return chosen_more.alkalinity


def hardness(chosen_more: Table) -> Hardness:
    """The hardness of this mix's water, where it is another than the site's."""
    return chosen_more.hardness


def acidify(chosen_more: Table) -> Text:
    """When citric acid goes in: with iron that can rust, unless it is said."""
    return _or(chosen_more.acidify, "with iron")


def wind(weather: Table) -> Speed:
    """The wind that is expected."""
    return weather.wind


def wind_height(weather: Table) -> Text:
    """For which height the wind is: a forecast, unless it is said."""
    return _or(weather.wind_height, "forecast at 10 m")


def air_temperature(weather: Table) -> Temperature:
    """The temperature of the air that is expected."""
    return weather.air_temperature


def humidity(weather: Table) -> Number:
    """The humidity of the air that is expected, a share."""
    return weather.humidity


def heavy_rain(weather: Table) -> Text:
    """Whether heavy rain is forecast."""
    return weather.heavy_rain


def wet_ground(weather: Table) -> Text:
    """Whether the ground is frozen or waterlogged."""
    return weather.wet_ground


def _or(text: Text, otherwise: Text) -> Text:
    return otherwise if blank(text) else text
