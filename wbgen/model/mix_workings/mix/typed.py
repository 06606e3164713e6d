"""What is typed for the mix on the sheets Mix and Start, or what an empty box takes."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank, folded, magnitude, only, where
from wbgen.model.tools.lines import at
from wbgen.model.tools.relations import find
from wbgen.model.types import Alkalinity, Date, Hardness, Number, Speed, Table, Temperature, Text, VolumePerArea


def tank(chosen: Table) -> Number:
    """The number of the tank of the round that is typed."""
    return chosen.tank


def tank_line(tank: Number, round_tanks: Table) -> Number:
    """Its line among the tanks of the round, the heading row being line 1; blank where the round has no such tank."""
    place = find(tank, where(blank(round_tanks.spot), np.nan, round_tanks.turn))[0]
    return float(place) + 2 if place >= 0 else np.nan


def tank_left(tank_line: Number, round_tanks: Table, mix_products: Table) -> Number:
    """How many of its products are neither chosen by hand nor in an empty box."""
    if blank(tank_line):
        return 0.0
    of = mix_products
    taken, listed, kept = (float(np.sum(~blank(one))) for one in (of.tank_place, of.round_line, of.kept))
    return at(round_tanks.products_count, tank_line) - taken - (listed - kept)


def date_else(tank_line: Number, round_tanks: Table, start: Table) -> Date:
    """The date where none is typed, as a serial number: that of the tank, else the as-of date."""
    return only(start.as_of) if blank(tank_line) else at(round_tanks.day, tank_line)


def date(chosen: Table) -> Date:
    """The date that is typed, as a serial number."""
    return chosen.date


def sprayer(chosen: Table, tank_line: Number, round_tanks: Table) -> Text:
    """The sprayer that is chosen, else that of the tank."""
    return chosen.sprayer if not blank(chosen.sprayer) or blank(tank_line) else at(round_tanks.sprayer, tank_line)


def who(chosen_more: Table) -> Text:
    """Who mixes and sprays."""
    return chosen_more.who


def which_lawns(chosen: Table, lawns: Table) -> Text:
    """How the lawns are chosen: by the "tank" of the round, "listed" one by one, "all", "one" by its name, or a
    "group" of them.

    A lawn comes before a group of the same name; a name that is neither is taken for a lawn's.
    """
    if blank(chosen.lawns):
        return "tank" if chosen.misplaced_tank or not blank(chosen.tank) else "listed"
    if folded(chosen.lawns)[0] == "all":
        return "all"
    is_lawn, is_group = (find(chosen.lawns, names)[0] >= 0 for names in (lawns.name, lawns.group))
    return "group" if is_group and not is_lawn else "one"


def wanted_carrier(chosen: Table, tank_line: Number, round_tanks: Table) -> VolumePerArea:
    """The carrier volume that is wanted of this mix, else what the programme wants of its tank."""
    if blank(tank_line) or not blank(chosen.wanted_carrier):
        return chosen.wanted_carrier
    of_tank = at(round_tanks.wanted_carrier, tank_line)
    return where(magnitude(of_tank) > 0, of_tank, np.nan)


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
