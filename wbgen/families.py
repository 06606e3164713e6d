"""The sets that a column may be written for once: nutrients, months, traits and the like.

A column of a template that says ``each: nutrients`` stands for one column a nutrient. Its key ends in
``_each`` (or is that word alone), and it is replaced by the member's key in every name of its formula; ``_each_first``
is replaced by what the member says of ``first``. The model's function for it is named with ``_each`` too.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from itertools import product
from string import ascii_lowercase

from wbgen.nutrients import NUTRIENTS


@dataclass(frozen=True)
class Member:
    """One member of a family; `says` are its further words, for headings, units and names."""

    key: str
    name: str
    says: Mapping[str, str] = field(default_factory=dict)


MONTH_NAMES = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip

TRAITS = {
    "calcium": "calcium",
    "sulphate": "sulphate",
    "phosphate": "phosphate",
    "ferrous": "ferrous",
    "magnesium": "magnesium",
    "potassium": "potassium",
    "ammonium": "ammonium",
    "alkaline_humate": "alkaline humate",
    "live_brew": "live brew",
    "strong_salt": "strong salt",
    "wetting_agent": "wetting agent",
    "acid": "acid",
    "chelated_iron": "chelated iron",
}


@dataclass(frozen=True)
class TraitRule:
    """Two traits that must not share a tank (level 2), or only after a jar test (level 1)."""

    first: str
    second: str
    level: int
    reason: str
    basis: str


TRAIT_RULES = (
    TraitRule("calcium", "sulphate", 2, "gypsum falls out",
              "University of California ANR, micro-irrigation maintenance pages (read)"),
    TraitRule("calcium", "phosphate", 2, "calcium phosphate falls out",
              "fertigation compatibility notes (read in a secondary page); agrees with the solubilities"),
    TraitRule("ferrous", "phosphate", 2, "iron phosphate falls out",
              "fertigation compatibility notes (read in a secondary page)"),
    TraitRule("ferrous", "alkaline_humate", 2, "iron drops out in an alkaline mix", "general chemistry, from memory"),
    TraitRule("magnesium", "phosphate", 1, "magnesium phosphate may fall out",
              "fertigation compatibility notes (read in a secondary page)"),
    TraitRule("calcium", "alkaline_humate", 1, "calcium humate may fall out", "common practice, no source"),
    TraitRule("acid", "alkaline_humate", 1, "acid may curdle a humate", "common practice, no source"),
    TraitRule("potassium", "ammonium", 1, "less soluble potassium sulphate may form with ammonium sulphate",
              "fertigation compatibility notes (read in a secondary page)"),
    TraitRule("live_brew", "strong_salt", 2, "salts harm a live brew: apply it alone", "common practice, no source"),
    TraitRule("live_brew", "ferrous", 2, "iron harms a live brew: apply it alone", "common practice, no source"),
    TraitRule(
        "live_brew",
        "chelated_iron",
        2,
        "iron harms a live brew: apply it alone",
        "common practice, no source",
    ),
    TraitRule("live_brew", "wetting_agent", 1, "a wetting agent may harm a live brew", "common practice, no source"),
)  # fmt: skip


@dataclass(frozen=True)
class Risk:
    """A figure of a mix that is held against two limits: ask first, and do not mix.

    `sign` is ">" where the second limit itself is still allowed, ">=" where it is not. Limits are quantities
    as text; "" is no limit.
    """

    key: str
    name: str
    metric: str
    us: str
    ask: str
    stop: str
    sign: str
    words: str
    basis: str


RISKS = (
    Risk("carrier", "Carrier volume: delivered against wanted", "", "", "5 %", "", ">",
         "the sprayer does not put out the water wanted, see its calibration and what is wanted of it",
         "Output within 5 % of the target: Pesticide Environmental Stewardship, calibration pages (read)"),
    Risk("products", "Products in one tank", "", "", "3", "", ">", "many products in one tank",
         "About three partners a tank: Sprayers101, loading a sprayer (read)"),
    Risk("salts", "Salts in the spray", "g/L", "oz/US gal", "50 g/L", "100 g/L", ">",
         "much salt in the spray", "common practice, no source"),
    Risk("solubility", "Share of solubility used", "", "", "50 %", "80 %", ">",
         "may not dissolve", "common practice, no source"),
    Risk("salt_load", "Salt load on the grass", "g/m²", "lb/1000 ft²", "5 g/m²", "10 g/m²", ">",
         "salt load may scorch", "common practice, no source; salt index after Rader et al. 1943 (from memory)"),
    Risk("nitrogen", "Soluble nitrogen in this visit", "g N/m²", "lb N/1000 ft²", "0.25 lb N/1000 ft²",
         "0.5 lb N/1000 ft²", ">", "much soluble nitrogen in one visit",
         "0.25 lb N/1000 ft² is the upper rate of the urea sprays in USGA Green Section, 27 Feb 2015 (read); "
         "twice that: common practice, no source"),
    Risk("iron", "Iron in this visit", "g Fe/m²", "lb Fe/1000 ft²", "0.34 g Fe/m²", "1.96 g Fe/m²", ">=",
         "so much iron may blacken or thin the turf",
         "A few lb Fe an acre blackens: Hull 2000 (read); 1.96 g Fe/m² thinned Poa annua: Oregon State University, "
         "doi 10.2134/cftm2019.05.0041 (read)"),
    Risk("wind", "Wind", "km/h", "mph", "15 km/h", "20 km/h", ">=", "wind",
         "15 km/h: Ontario, how weather conditions affect spray applications (read); 20 km/h, Beaufort 4, measured "
         "at 10 m: Victoria Department of Health (read)"),
    Risk("hardness", "Hardness of the water, with calcium or phosphate", "meq/L", "meq/L", "2.5 meq/L", "", ">",
         "hard water may throw down this feed: jar test",
         "2.5 meq/L: University of California ANR, micro-irrigation maintenance pages (read)"),
)  # fmt: skip

CHECKS = {
    "totals": (
        "Totals that do not agree",
        "mend unknown names first; if none is left, run wbgen verify, a formula may have been changed",
    ),
    "lawn_names": ("Diary lines of an unknown lawn", "choose the lawn from the list"),
    "product_names": ("Diary lines of an unknown product", "choose the product from the list"),
    "half_lines": ("Diary lines without date or lawn or product", "complete them: they are not counted"),
    "diary_full": (
        "Diary nearly full",
        "insert rows above its last line and fill the formulas down, or build with more",
    ),
    "lawn_states": ("Lawns to mend", "see the column To mend of the sheet Lawns"),
    "part_states": ("Parts of lawns to mend", "see the column To mend of the sheet Areas"),
    "parts_lost": ("Parts of an unknown lawn", "choose the lawn of each part from the list"),
    "point_states": ("Points out of order", "see the column To mend of the points"),
    "points_lost": ("Points of an unknown part", "give each point the lawn and the part as they stand above"),
    "product_states": ("Products to mend", "see the column To mend of the sheet Products"),
    "line_states": ("Lines of the programme to mend", "see the column To mend of the sheet Programme"),
    "shelf_states": ("Counts and purchases to mend", "see the column To mend of the sheet Stock"),
    "dates_beyond": (
        "Dates of the programme without room",
        "they are on no other sheet: build the planner anew with the whole programme",
    ),
    "pairs_beyond": (
        "Lawns of the programme without room",
        "they are not on the sheet Due: build the planner anew with the whole programme",
    ),
    "score_states": ("Scores to mend", "see the column To mend of the sheet Scores"),
    "brew_states": ("Recipes and ingredients to mend", "see the columns To mend of the sheet Brewing"),
    "mixes_beyond": (
        "Mixes that the sheet Response has no room for",
        "they are in its other tables: build the planner anew to see them all",
    ),
    "year_beyond": (
        "Products on lawns that the sheet Next year has no room for",
        "they are in its other tables: build the planner anew to see them all",
    ),
    "lawns_unseen": ("Lawns that the totals do not see", "build the planner anew with all lawns"),
    "products_unseen": ("Products that the totals do not see", "build the planner anew with all products"),
}
"""The checks of the sheet Checks: what each finds, and what to do about it."""

WATERED_IN = ("salt_load", "nitrogen")
"""The risks whose limits are wider when the spray is watered in."""

LEVELS = {"low": "low", "usual": "usual", "high": "high"}

_PRICED = ("nitrogen", "potash", "iron")
"""The nutrients whose price in a product is worked out."""

SCORED = {
    "quality": ("Quality", "", "", "1", "1 to 9, 9 best, 6 acceptable", "plain"),
    "colour": ("Colour", "", "", "1", "1 to 9, 9 darkest green", "plain"),
    "clippings": ("Clippings", "mL/m²", "US gal/1000 ft²", "1", "by volume", "plain"),
    "moss": ("Moss", "", "", "0", "share of the ground", "share"),
}
"""What is scored: its heading, its unit in each system, the decimals shown, how it is counted, and how it shows."""

PLACES = "abcdefgh"
"""The products of a mix, as many as one has room for."""

_WEEKS_OF_A_YEAR = 53
"""Those that begin in a year: 366 days are 52 weeks and two days."""


@cache
def family(name: str) -> tuple[Member, ...]:
    """The members of a family. Raises KeyError for a name that is none."""
    return _FAMILIES[name]


def _nutrients() -> tuple[Member, ...]:
    return tuple(
        Member(n.key, n.name, {"symbol": n.symbol, "printed": n.printed, "element": n.element}) for n in NUTRIENTS
    )


def _week_keys() -> list[str]:
    """aa, ab and so on: a key of digits would read as a part of a cell's address."""
    return ["".join(pair) for pair in product(ascii_lowercase, repeat=2)][:_WEEKS_OF_A_YEAR]


def _weeks() -> tuple[Member, ...]:
    keys = _week_keys()
    return tuple(
        Member(key, f"week {number}", {"number": str(number), "before": before})
        for number, (before, key) in enumerate(zip(["", *keys], keys, strict=False), start=1)
    )


def _places() -> tuple[Member, ...]:
    return tuple(
        Member(key, f"product {number}", {"number": str(number), "before": before})
        for number, (before, key) in enumerate(zip(["", *PLACES], PLACES, strict=False), start=1)
    )


_FAMILIES: dict[str, tuple[Member, ...]] = {
    "nutrients": _nutrients(),
    "oxides": tuple(member for member, n in zip(_nutrients(), NUTRIENTS, strict=True) if n.oxide),
    "priced": tuple(member for member in _nutrients() if member.key in _PRICED),
    "months": tuple(Member(name.lower(), name, {"short": name[:3]}) for name in MONTH_NAMES),
    "traits": tuple(Member(key, name) for key, name in TRAITS.items()),
    "trait_rules": tuple(
        Member(
            f"{rule.first}_with_{rule.second}",
            f"{TRAITS[rule.first]} with {TRAITS[rule.second]}",
            {
                "first": rule.first,
                "second": rule.second,
                "level": str(rule.level),
                "reason": rule.reason,
                "basis": rule.basis,
                "title": f"{TRAITS[rule.first]} with {TRAITS[rule.second]}".capitalize(),
            },
        )
        for rule in TRAIT_RULES
    ),
    "risks": tuple(
        Member(
            risk.key,
            risk.name,
            {name: getattr(risk, name) for name in ("metric", "us", "ask", "stop", "sign", "words", "basis")}
            | {"times": "*mix.limit_factor" if risk.key in WATERED_IN else ""},
        )
        for risk in RISKS
    ),
    "checks": tuple(Member(key, name, {"advice": advice}) for key, (name, advice) in CHECKS.items()),
    "loads": (Member("full", "each load"), Member("last", "the part load")),
    "levels": tuple(Member(key, name) for key, name in LEVELS.items()),
    "weeks": _weeks(),
    "later_weeks": _weeks()[1:],
    "scored": tuple(
        Member(key, name, {"metric": metric, "us": us, "digits": digits, "how": how, "show": show})
        for key, (name, metric, us, digits, how, show) in SCORED.items()
    ),
    "places": _places(),
    "later_places": _places()[1:],
}

_EACH = re.compile(r'(?<![A-Za-z" ])each(?:_(\w+))?\b')
"""The word in a name, or alone as one; not in a text between quotes."""
_EVERY = re.compile(r"\b([\w.]+)_(every|joined)\b")


def for_member(text: str, member: Member) -> str:
    """`text` with every ``_each`` name made the member's own.

    >>> for_member("content_each * rate", family("nutrients")[6])
    'content_iron * rate'
    """

    def own(match: re.Match[str]) -> str:
        return member.says[match.group(1)] if match.group(1) else member.key

    return _EACH.sub(own, text)


def described(text: str, member: Member) -> str:
    """A heading, note or unit with the member's words in its braces.

    >>> described("{printed} applied", family("nutrients")[1])
    'P₂O₅ applied'
    """
    return text.format(name=member.name, key=member.key, **member.says)


def for_all(text: str, family_of: Mapping[str, str]) -> str:
    """`text` with ``_every`` names made a list of all members, and ``_joined`` names joined by &.

    `family_of` gives the family of a column's key as a template writes it (with ``_each``).

    >>> for_all("SUM(rate_every)", {"rate_each": "levels"})
    'SUM(rate_low,rate_usual,rate_high)'
    """

    def all_of(match: re.Match[str]) -> str:
        members = family(family_of[match.group(1) + "_each"])
        return {"every": ",", "joined": "&"}[match.group(2)].join(f"{match.group(1)}_{m.key}" for m in members)

    return _EVERY.sub(all_of, text)
