"""The names of units: one table of what each unit in `units.txt` is called and how it is printed. No numbers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from wbgen.trade.nutrients import FORMS, NUTRIENTS


@dataclass(frozen=True, slots=True)
class Atom:
    """One known unit: its `name` in `units.txt` (or its short form there), how it is printed, other spellings."""

    name: str
    printed: str
    spellings: tuple[str, ...] = ()


_MASSES: Final = (
    Atom("mg", "mg", ("milligram", "milligrams")),
    Atom("g", "g", ("gram", "grams", "gramme", "grammes")),
    Atom("kg", "kg", ("kgs", "kilogram", "kilograms", "kilo", "kilos")),
    Atom("oz", "oz", ("ounce", "ounces")),
    Atom("lb", "lb", ("lbs", "pound", "pounds")),
)
_TONNE: Final = Atom("tonne", "t", ("tonnes",))
TEN_LITRES: Final = Atom("ten_litres", "10 L")
_THOUSAND_SQUARE_FEET: Final = Atom("thousand_square_feet", "1000 ft²")
_HUNDRED_SQUARE_METRES: Final = Atom("hundred_square_metres", "100 m²")
_LITRE: Final = Atom("L", "L", ("l", "litre", "litres", "liter", "liters", "ltr"))
_METRE: Final = Atom("m", "m", ("metre", "metres", "meter", "meters"))
_FOOT: Final = Atom("ft", "ft", ("foot", "feet"))
_YARD: Final = Atom("yd", "yd", ("yard", "yards"))
_OTHERS: Final = (
    Atom("mL", "mL", ("ml", "millilitre", "millilitres", "milliliter", "milliliters", "cc")),
    _LITRE,
    TEN_LITRES,
    Atom("us_fluid_ounce", "fl oz", ("fl_oz", "floz", "fl. oz", "fl.oz", "US fl oz", "fluid ounce", "fluid ounces")),
    Atom("us_pint", "US pt", ("us_pt", "US pint", "US pints")),
    Atom("us_quart", "US qt", ("us_qt", "US quart", "US quarts")),
    Atom("us_gallon", "US gal", ("us_gal", "US gallon", "US gallons")),
    Atom("imperial_fluid_ounce", "imp fl oz", ("imp_fl_oz", "UK fl oz", "imperial fluid ounces")),
    Atom("imperial_pint", "imp pt", ("imp_pt", "UK pt", "imp pint", "imperial pints", "UK pint")),
    Atom("imperial_quart", "imp qt", ("imp_qt", "UK qt", "imp quart", "imperial quarts", "UK quart")),
    Atom("imperial_gallon", "imp gal", ("imp_gal", "UK gal", "imp gallon", "imperial gallons", "UK gallon")),
    Atom("mm", "mm", ("millimetre", "millimetres", "millimeter", "millimeters")),
    Atom("cm", "cm", ("centimetre", "centimetres", "centimeter", "centimeters")),
    _METRE,
    Atom("km", "km", ("kilometre", "kilometres", "kilometer", "kilometers")),
    Atom("inch", "in", ("inches",)),
    _FOOT,
    _YARD,
    Atom("mile", "mile", ("mi", "miles")),
    Atom("ha", "ha", ("hectare", "hectares")),
    Atom("acre", "acre", ("acres", "ac")),
    _THOUSAND_SQUARE_FEET,
    _HUNDRED_SQUARE_METRES,
    Atom("s", "s", ("sec", "second", "seconds")),
    Atom("min", "min", ("minute", "minutes")),
    Atom("h", "h", ("hr", "hour", "hours")),
    Atom("day", "day", ("days",)),
    Atom("week", "week", ("weeks",)),
    Atom("mph", "mph", ("mile_per_hour",)),
    Atom("us_gallon_per_minute", "US gpm"),
    Atom("Pa", "Pa", ("pascal",)),
    Atom("kPa", "kPa", ("kilopascal",)),
    Atom("bar", "bar", ("bars",)),
    Atom("psi", "psi", ("pound_per_square_inch",)),
    Atom("degC", "°C", ("deg C", "° C", "C", "celsius")),
    Atom("degF", "°F", ("deg F", "° F", "F", "fahrenheit")),
    Atom("delta_degC", "°C difference", ("kelvin",)),
    Atom("delta_degF", "°F difference"),
    Atom("percent", "%", ("per cent",)),
    Atom("meq", "meq", ("milliequivalent", "milliequivalents")),
    Atom("mg_CaCO3", "mg CaCO₃", ("mg as CaCO3", "mg of CaCO3")),
    Atom("ppm_CaCO3", "ppm CaCO₃", ("ppm as CaCO3", "ppm of CaCO3")),
    Atom("pack", "pack", ("packs", "sachet", "sachets", "bag", "bags", "tub", "tubs")),
    Atom("load", "load", ("loads", "tank load", "tank loads")),
    Atom("spray_pass", "pass", ("passes",)),
    Atom("bottle", "bottle", ("bottles",)),
    Atom("currency", "currency"),
    Atom("turf_quality", "score"),
    Atom("dimensionless", "number"),
)
_PRINTED_FORM: Final = {n.symbol: n.printed for n in NUTRIENTS}
NUTRIENT_ATOMS: Final[dict[str, str]] = {f"{mass.name}_{form}": form for mass in _MASSES for form in FORMS}
"""Name of each nutrient unit, such as kg_P2O5, with the nutrient's symbol."""


def _nutrient_atoms() -> tuple[Atom, ...]:
    return tuple(
        Atom(f"{mass.name}_{form}", f"{mass.printed} {_PRINTED_FORM.get(form, form)}",
             tuple(f"{spelling} {form}" for spelling in (mass.name, *mass.spellings)))
        for mass in _MASSES
        for form in FORMS
    )  # fmt: skip


ATOMS: Final[tuple[Atom, ...]] = (*_MASSES, _TONNE, *_OTHERS, *_nutrient_atoms())
"""Every unit that may be written alone or as a part of a compound one."""

SQUARES: Final = {
    "sq m": _METRE, "sqm": _METRE, "square metres": _METRE, "square meters": _METRE,
    "sq ft": _FOOT, "sqft": _FOOT, "square feet": _FOOT, "sq yd": _YARD, "sqyd": _YARD, "square yards": _YARD,
}  # fmt: skip
NUMBERED: Final = {
    (1000, "ft", 2): _THOUSAND_SQUARE_FEET,
    (100, "m", 2): _HUNDRED_SQUARE_METRES,
    (10, "L", 1): TEN_LITRES,
}

TWO_COUNTRIES: Final = {
    **dict.fromkeys(("gal", "gals", "gallon", "gallons"), "gal"),
    **dict.fromkeys(("qt", "qts", "quart", "quarts"), "qt"),
    **dict.fromkeys(("pt", "pts", "pint", "pints"), "pt"),
    "gpm": "gal/min",
}
"""Measures that are a fifth larger in Britain than in the United States, and what is written after "US" or "imp"."""
