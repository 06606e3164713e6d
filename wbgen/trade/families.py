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

from wbgen.trade.checks import CHECKS
from wbgen.trade.nutrients import NUTRIENTS
from wbgen.trade.soil import SOIL_FED, said_of, target_of
from wbgen.trade.tank_rules import ACID, FROM_ANALYSIS, OTHERS, RISKS, TRAIT_RULES, TRAITS, WATERED_IN, Risk, TraitRule


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

LEVELS = {"low": "low", "usual": "usual", "high": "highest"}
"""The rates of a label, and which of what it states each is: the high one is the highest that it states."""

_PRICED = ("nitrogen", "potash", "iron")
"""The nutrients whose price in a product is worked out."""

SCORED = {
    "quality": ("Quality", "", "", "1", "1 to 9, 9 best, 6 acceptable", "plain"),
    "colour": ("Colour", "", "", "1", "1 to 9, 9 darkest green", "plain"),
    "clippings": ("Clippings", "mL/m²", "US gal/1000 ft²", "1", "by volume", "plain"),
    "moss": ("Moss", "", "", "0", "share of the ground", "share"),
}
"""What is scored: its heading, its unit in each system, the decimals shown, how it is counted, and how it shows."""

SHOWN_LIMITS = {
    "salts": "Spray salts", "salt_load": "Salt load", "solubility": "Solubility used", "nitrogen": "Soluble N",
    "iron": "Iron", "carrier": "Volume off aim",
}  # fmt: skip
"""The risks that the sheet Mix shows against their limits, and how it calls them."""

PLACES = "abcdefgh"
"""The products of a mix, as many as one has room for."""

AHEAD = "abcdefgh"
"""The next visits to a lawn, as many as the sheet Lawn report has room for."""

_REPORTED = ("nitrogen", "phosphate", "potash", "iron")
"""The nutrients that the owner of a lawn is told of."""

WEEKS_OF_A_YEAR = 53
"""Those that begin in a year: 366 days are 52 weeks and two days."""


@cache
def family(name: str) -> tuple[Member, ...]:
    """The members of a family. Raises KeyError for a name that is none."""
    return _FAMILIES[name]


def family_names() -> tuple[str, ...]:
    """The names of all families."""
    return tuple(_FAMILIES)


def _nutrients() -> tuple[Member, ...]:
    return tuple(
        Member(
            n.key,
            n.name,
            {"symbol": n.symbol, "printed": n.printed, "element": n.element, "title": n.name.capitalize()}
            | {"soil": target_of(n.key)},
        )
        for n in NUTRIENTS
    )


def _figure_said(risk: Risk, name: str) -> str:
    """The part of a formula that says a risk's figure or limit with its unit."""
    if risk.show == "share":
        return f'TEXT(N({name}_each),"0%")'
    unit = f'&" [{risk.metric}|{risk.us}]"' if risk.metric else ""
    return f"ROUND(N({name}_each),{risk.digits}){unit}"


def _risk_says(key: str) -> dict[str, str]:
    """The units and the look of a risk's figure."""
    risk = next(one for one in RISKS if one.key == key)
    return {"metric": risk.metric, "us": risk.us, "show": risk.show, "digits": str(risk.digits)}


_NAMES = TRAITS | OTHERS
"""The traits that a rule of the tank is about."""


def _shown_by(trait: str) -> str:
    """The further part of a formula's condition under which a product has the property without being told."""
    unless = {
        "ferrous": ',trait_chelated_iron<>"yes",holds_metals=""',
        "manganese": ',holds_metals=""',
        "sulphate": ',trait_thiosulphate<>"yes"',
    }
    if trait in FROM_ANALYSIS:
        there = f"N(share_{FROM_ANALYSIS[trait]})>0"
        return f",AND({there}{unless[trait]})" if trait in unless else f",{there}"
    return {
        "ammonium": ",N(ammonium_nitrogen)>0",
        "live_brew": ',form="brew"',
        "chelated_iron": ',AND(N(share_iron)>0,holds_metals="yes",trait_ferrous<>"yes")',
    }.get(trait, "")


def _rule(rule: TraitRule) -> Member:
    name = f"{_NAMES[rule.first]} with {_NAMES[rule.second]}"
    says = {"level": str(rule.level), "title": name.capitalize()}
    says |= {key: getattr(rule, key) for key in ("first", "second", "reason", "basis")}
    return Member(f"{rule.first}_with_{rule.second}", name, says)


def _tank_traits() -> tuple[Member, ...]:
    """The traits that part two products of a tank, each with the parts of a formula that add up its partners' digits.

    What parts a live brew from everything else is no matter of two traits.
    """
    rules = [rule for rule in TRAIT_RULES if rule.second not in OTHERS]
    found = []
    for key, name in TRAITS.items():
        met = [
            (f"N(rules.level_{rule.first}_with_{rule.second})", rule.second if rule.first == key else rule.first)
            for rule in rules
            if key in (rule.first, rule.second)
        ]
        if met:
            apart = "+".join(f"IF({level}>=2,meets.digit_{other},0)" for level, other in met)
            jar = "+".join(f"IF(AND({level}>0,{level}<2),meets.digit_{other},0)" for level, other in met)
            found.append(Member(key, name, {"apart": apart, "jar": jar}))
    return tuple(found)


def _week_keys() -> list[str]:
    """aa, ab and so on: a key of digits would read as a part of a cell's address."""
    return ["".join(pair) for pair in product(ascii_lowercase, repeat=2)][:WEEKS_OF_A_YEAR]


def _weeks() -> tuple[Member, ...]:
    keys = _week_keys()
    return tuple(
        Member(key, f"week {number}", {"number": str(number), "before": before})
        for number, (before, key) in enumerate(zip(["", *keys], keys, strict=False), start=1)
    )


def _numbered(keys: str, name: str) -> tuple[Member, ...]:
    return tuple(
        Member(key, f"{name} {number}", {"number": str(number), "before": before})
        for number, (before, key) in enumerate(zip(["", *keys], keys, strict=False), start=1)
    )


_FAMILIES: dict[str, tuple[Member, ...]] = {
    "nutrients": _nutrients(),
    "other_nutrients": _nutrients()[1:],
    "oxides": tuple(member for member, n in zip(_nutrients(), NUTRIENTS, strict=True) if n.oxide),
    "reported": tuple(member for member in _nutrients() if member.key in _REPORTED),
    "soil_fed": tuple(
        Member(one.key, one.name, {**one.says, "use": SOIL_FED[one.key], "stands": said_of(one.key)})
        for one in _nutrients()
        if one.key in SOIL_FED
    ),
    "priced": tuple(member for member in _nutrients() if member.key in _PRICED),
    "months": tuple(Member(name.lower(), name, {"short": name[:3]}) for name in MONTH_NAMES),
    "traits": tuple(Member(key, name, {"shown_by": _shown_by(key)}) for key, name in TRAITS.items()),
    "tank_traits": _tank_traits(),
    "trait_rules": tuple(_rule(rule) for rule in TRAIT_RULES),
    "acid_rules": tuple(
        Member(f"{rule.first}_with_{rule.second}", TRAITS[partner], {"partner": partner, "reason": rule.reason})
        for rule in TRAIT_RULES
        for own, partner in ((rule.first, rule.second), (rule.second, rule.first))
        if own in ACID
    ),
    "risks": tuple(
        Member(
            risk.key,
            risk.name,
            {name: getattr(risk, name) for name in ("metric", "us", "ask", "stop", "sign", "words", "basis", "show")}
            | {"times": "*mix.limit_factor" if risk.key in WATERED_IN else "", "digits": str(risk.digits)}
            | {"beyond": "from" if risk.sign == ">=" else "above"}
            | {f"{name}_said": _figure_said(risk, name) for name in ("found", "ask", "stop")},
        )
        for risk in RISKS
    ),
    "shown_limits": tuple(Member(key, name, _risk_says(key)) for key, name in SHOWN_LIMITS.items()),
    "checks": tuple(Member(key, name, {"advice": advice}) for key, (name, advice) in CHECKS.items()),
    "loads": (
        Member("full", "each load", {"short": ""}),
        Member("last", "the part load", {"short": " last"}),
    ),
    "levels": tuple(Member(key, key, {"stated": stated}) for key, stated in LEVELS.items()),
    "weeks": _weeks(),
    "later_weeks": _weeks()[1:],
    "scored": tuple(
        Member(key, name, {"metric": metric, "us": us, "digits": digits, "how": how, "show": show})
        for key, (name, metric, us, digits, how, show) in SCORED.items()
    ),
    "places": _numbered(PLACES, "product"),
    "later_places": _numbered(PLACES, "product")[1:],
    "ahead": _numbered(AHEAD, "visit"),
    "later_ahead": _numbered(AHEAD, "visit")[1:],
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
