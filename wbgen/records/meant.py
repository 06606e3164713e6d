"""What a person meant who wrote a name that is not known: the name of which it is a slip, never another substance.

A suggestion differs from what was written by at most two letters, and not by a number. A word of it that is spelt
otherwise was not nearer, nor as near, to a word that means something else: "phosphote" may be a phosphate or a
phosphite, so nothing is offered for it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import Final

from wbgen.files.accepted_values import as_read
from wbgen.files.diagnostics import did_you_mean
from wbgen.trade.nutrients import FORMS
from wbgen.units.names import ATOMS, NUTRIENT_ATOMS, SQUARES

MOST_LETTERS: Final = 2
"""How many letters a suggestion may differ by, in all."""

_ELEMENTS: Final = (
    "hydrogen helium lithium beryllium boron carbon nitrogen oxygen fluorine neon sodium magnesium aluminium aluminum "
    "silicon phosphorus sulphur chlorine argon potassium calcium scandium titanium vanadium chromium manganese iron "
    "cobalt nickel copper zinc gallium germanium arsenic selenium bromine krypton rubidium strontium yttrium zirconium "
    "niobium molybdenum technetium ruthenium rhodium palladium silver cadmium indium tin antimony tellurium iodine "
    "xenon caesium cesium barium lanthanum cerium praseodymium neodymium promethium samarium europium gadolinium "
    "terbium dysprosium holmium erbium thulium ytterbium lutetium hafnium tantalum tungsten rhenium osmium iridium "
    "platinum gold mercury thallium lead bismuth polonium astatine radon francium radium actinium thorium protactinium "
    "uranium neptunium plutonium americium curium berkelium californium einsteinium fermium mendelevium nobelium"
)
_SALTS: Final = (
    "nitrate nitrite nitride sulphate sulphite sulphide bisulphate bisulphite thiosulphate sulphonate phosphate "
    "phosphite phosphide phosphonate polyphosphate pyrophosphate chloride chlorate chlorite hypochlorite carbonate "
    "bicarbonate oxide hydroxide peroxide borate borax silicate molybdate acetate citrate gluconate fluoride bromide "
    "iodide iodate ammonia ammonium ferrous ferric cuprous cupric manganous manganic potash soda lime muriate chelate "
    "monohydrate dihydrate trihydrate tetrahydrate pentahydrate hexahydrate heptahydrate anhydrous"
)
SUBSTANCES: Final = frozenset(f"{_ELEMENTS} {_SALTS}".split())
"""Words that mean a substance, whether or not a product has it: chemistry, from memory."""

_SHORTEST_SLIP: Final = 3
"""Letters of the shortest word of a unit that is mended: of one or two letters every other unit is as near."""
_DIGITS: Final = str.maketrans("₀₁₂₃₄₅₆₇₈₉", "0123456789")


def folded(name: str) -> str:
    """A name as it is looked up: without regard to case and spaces, sulfate being sulphate.

    >>> folded("Ammonium  Sulfate")
    'ammonium sulphate'
    """
    return as_read(name).replace("sulf", "sulph")


def slip_of(written: str, names: Mapping[str, str]) -> str:
    """What the name stands for of which `written` is a slip, or ""; `names` has what each name stands for.

    >>> names = {"Ammonium sulphate": "Ammonium sulphate", "sulphate of ammonia": "Ammonium sulphate"}
    >>> slip_of("Amonium sulfate", names), slip_of("sulphat of ammonia", names), slip_of("Iron sulphate", names)
    ('Ammonium sulphate', 'Ammonium sulphate', '')
    """
    known = SUBSTANCES.union(*map(_words, names))
    far = {name: letters for name in names if (letters := _apart(written, name, known)) <= MOST_LETTERS}
    nearest = {names[name] for name, letters in far.items() if letters == min(far.values())}
    return nearest.pop() if len(nearest) == 1 else ""


def offer(meant: str, names: Iterable[str]) -> str:
    """What to do about a name that is not known: what was meant, or else the list of what there is."""
    return f"did you mean {meant}?" if meant else did_you_mean("", names)


@lru_cache(1000)
def _words(name: str) -> tuple[str, ...]:
    return tuple(re.findall(r"[^\W\d_]+", folded(name)))


@lru_cache(1000)
def _numbers(name: str) -> tuple[str, ...]:
    return tuple(re.findall(r"\d+", name))


def _apart(written: str, name: str, known: Iterable[str]) -> int:
    """How many letters two names are apart; more than `MOST_LETTERS` where the one is no slip of the other."""
    if _numbers(written) != _numbers(name):
        return MOST_LETTERS + 1
    ours, theirs = _words(written), _words(name)
    if "".join(ours) == "".join(theirs):
        return 0
    if len(ours) != len(theirs):
        return MOST_LETTERS + 1
    otherwise = [(one, other) for one, other in zip(ours, theirs, strict=True) if one != other]
    letters = 0
    for one, other in otherwise:
        letters += distance(one, other)
        if letters > MOST_LETTERS or distance(one, other) > _allowed(other):
            return MOST_LETTERS + 1
    return MOST_LETTERS + 1 if any(_nearer(one, other, known) for one, other in otherwise) else letters


def _nearer(written: str, word: str, known: Iterable[str]) -> bool:
    """Whether a word is as near to another known one as to this."""
    letters = distance(written, word)
    return any(distance(written, one) <= letters for one in known if one != word)


def _allowed(word: str) -> int:
    return 0 if len(word) < 4 else 1 if len(word) < 8 else MOST_LETTERS


@lru_cache(20_000)
def distance(one: str, other: str) -> int:
    """How many letters two words are apart: one left out, put in, another, or exchanged with its neighbour.

    Beyond `MOST_LETTERS` it is only said that it is more.

    >>> distance("slat", "salt"), distance("nitrite", "nitrate"), distance("iron", "ammonium")
    (1, 1, 3)
    """
    if abs(len(one) - len(other)) > MOST_LETTERS or len(set(one) ^ set(other)) > 2 * MOST_LETTERS:
        return MOST_LETTERS + 1
    rows = [list(range(len(other) + 1))]
    for i, letter in enumerate(one, 1):
        row, above = [i], rows[-1]
        for j, its in enumerate(other, 1):
            cost = min(above[j] + 1, row[-1] + 1, above[j - 1] + (letter != its))
            if i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == its:
                cost = min(cost, rows[-2][j - 2] + 1)
            row.append(cost)
        rows.append(row)
    return min(rows[-1][-1], MOST_LETTERS + 1)


def same_symbol(written: str, symbol: str) -> bool:
    """Whether a symbol of a nutrient is written with its own letters; a nought may stand for O.

    >>> same_symbol("K20", "K₂O"), same_symbol("Mo", "MgO")
    (True, False)
    """
    return _symbol(written) == _symbol(symbol)


def _symbol(text: str) -> str:
    return text.translate(_DIGITS).casefold().replace("0", "o")


def mended_unit(written: str, unit: str) -> str:
    """`unit` where it is only the right spelling of the unit in `written`, else "": no other unit, no other nutrient.

    >>> mended_unit("25 kgg/m²", "kg/m²"), mended_unit("12 kph", "mph"), mended_unit("1 g Cu/m²", "g Ca/m²")
    ('kg/m²', '', '')
    """
    sides, meant = _sides(re.sub(r"^[\d\s.,+-]+", "", written)), _sides(unit)
    if len(sides) != len(meant):
        return ""
    return unit if all(map(_same_side, sides, meant)) else ""


def _sides(text: str) -> list[list[str]]:
    spelt = re.sub(r"\bper\b", "/", text.translate(_DIGITS)).replace("²", "2").replace("^2", "2")
    return [side.split() for side in spelt.split("/")]


def _same_side(written: list[str], meant: list[str]) -> bool:
    if len(written) != len(meant):
        return False
    return all(map(_same_unit, written, meant))


def _same_unit(written: str, meant: str) -> bool:
    if meant in FORMS:
        return same_symbol(written, meant)
    if written.casefold() == meant.casefold():
        return True
    if len(written) < _SHORTEST_SLIP:
        return False
    table = _unit_words()
    far = {word: distance(written.casefold(), word) for word in table if len(word) > 1}
    least = min(far.values())
    near = {table[word] for word, letters in far.items() if letters == least}
    return least <= 1 and near == {table.get(meant.casefold(), meant)}


@lru_cache(1)
def _unit_words() -> dict[str, str]:
    """Every word of a unit, and which unit it is of; a word of several, such as gal, is its own."""
    table: dict[str, str] = {}
    for atom in ATOMS:
        if atom.name in NUTRIENT_ATOMS:
            continue
        for spelling in (atom.printed, *atom.spellings):
            single = " " not in spelling
            for word in spelling.casefold().split():
                table.setdefault(word, atom.printed if single else word)
    return {**table, **{word: word for square in SQUARES for word in square.split()}}
