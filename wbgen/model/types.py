"""Annotations of the model's functions: what a figure is, and in what unit.

``Mass`` is one figure, of a form; ``Each[Mass]`` is one a record, of a table. The unit names the dimension alone: a
mass is a mass in pounds too. In a unit of a family's function, the words in braces are those that the member says:
a ``NutrientMass`` is grams of nitrogen in the column of nitrogen. tests/model/test_annotations.py holds every
annotation against the template of its column.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any, Final

from wbgen.model.inputs import DATE, TEXT
from wbgen.model.values import Each, Mask, Places, Quantity, SerialDate, T, Table, each

__all__ = ["Each", "Mask", "Places", "Quantity", "SerialDate", "T", "Table", "each"]

VARIES: Final = "varies"
"""Stands for the unit of a figure that is of another dimension in each member of a family."""


@dataclass(frozen=True)
class Unit:
    """The unit of a figure as `Inputs.units` has it: pint text, "" for a plain number, TEXT or DATE; or VARIES."""

    text: str


Text = Annotated[str, Unit(TEXT)]
"""Words; the empty text where there are none."""
Date = Annotated[SerialDate, Unit(DATE)]
Number = Annotated[float, Unit("")]
"""A plain number: a count, a line, a level, a share of a whole (0.25 for 25 %)."""
Figure = Annotated[Any, Unit(VARIES)]
"""A number or a quantity: the members of a family differ, and a checker cannot know which one it is."""

Length = Annotated[Quantity, Unit("m")]
Area = Annotated[Quantity, Unit("m**2")]
Volume = Annotated[Quantity, Unit("L")]
Mass = Annotated[Quantity, Unit("g")]
Time = Annotated[Quantity, Unit("day")]
Speed = Annotated[Quantity, Unit("km/h")]
Pressure = Annotated[Quantity, Unit("bar")]
Temperature = Annotated[Quantity, Unit("degC")]
Flow = Annotated[Quantity, Unit("L/min")]
Hardness = Annotated[Quantity, Unit("meq/L")]
Alkalinity = Annotated[Quantity, Unit("meq/L")]

PerArea = Annotated[Quantity, Unit("1/m**2")]
MassPerArea = Annotated[Quantity, Unit("g/m**2")]
VolumePerArea = Annotated[Quantity, Unit("L/ha")]
MassPerVolume = Annotated[Quantity, Unit("g/L")]
VolumePerVolume = Annotated[Quantity, Unit("mL/L")]

MassPerPack = Annotated[Quantity, Unit("g/pack")]
VolumePerPack = Annotated[Quantity, Unit("L/pack")]

Money = Annotated[Quantity, Unit("currency")]
MoneyPerMass = Annotated[Quantity, Unit("currency/kg")]
MoneyPerVolume = Annotated[Quantity, Unit("currency/L")]
MoneyPerArea = Annotated[Quantity, Unit("currency/m**2")]
MoneyPerPack = Annotated[Quantity, Unit("currency/pack")]

NutrientMass = Annotated[Quantity, Unit("g_{symbol}")]
NutrientPerArea = Annotated[Quantity, Unit("g_{symbol}/m**2")]
NutrientPerMass = Annotated[Quantity, Unit("g_{symbol}/g")]
NutrientPerVolume = Annotated[Quantity, Unit("g_{symbol}/L")]
MoneyPerNutrient = Annotated[Quantity, Unit("currency/kg_{symbol}")]
ElementPerArea = Annotated[Quantity, Unit("g_{element}/m**2")]
ElementPerMass = Annotated[Quantity, Unit("g_{element}/g")]
ElementPerVolume = Annotated[Quantity, Unit("g_{element}/L")]

NitrogenMass = Annotated[Quantity, Unit("g_N")]
NitrogenPerArea = Annotated[Quantity, Unit("g_N/m**2")]
NitrogenPerMass = Annotated[Quantity, Unit("g_N/g")]
PotashPerVolume = Annotated[Quantity, Unit("g_K2O/L")]
SulphatePerVolume = Annotated[Quantity, Unit("g_SO3/L")]
PhosphateMass = Annotated[Quantity, Unit("g_P2O5")]
PhosphatePerArea = Annotated[Quantity, Unit("g_P2O5/m**2")]
PotashPerArea = Annotated[Quantity, Unit("g_K2O/m**2")]
PhosphorusPerMass = Annotated[Quantity, Unit("g_P/g")]
PotassiumPerMass = Annotated[Quantity, Unit("g_K/g")]
IronMass = Annotated[Quantity, Unit("g_Fe")]
IronPerArea = Annotated[Quantity, Unit("g_Fe/m**2")]
IronPerMass = Annotated[Quantity, Unit("g_Fe/g")]
ManganesePerArea = Annotated[Quantity, Unit("g_Mn/m**2")]
ManganesePerMass = Annotated[Quantity, Unit("g_Mn/g")]
