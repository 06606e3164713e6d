"""Words of the template language that stand for more text of a formula, written out before it is parsed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from wbgen.files.diagnostics import did_you_mean
from wbgen.sheets.formula_tree import FormulaError
from wbgen.trade.families import family, family_names, for_member

MACROS: Final = ("GIVEN", "PRESENT", "EVERY")
"""GIVEN(x): x, or blank where x is blank; a spreadsheet makes 0 of a blank cell that is looked up.
PRESENT(x): x with a 1 for each of its digits that is not 0: what is counted digit by digit, and is there at all.
EVERY(family,x): x for every member of a family in turn, parted by commas: the arguments of a function.
"""
_CALL: Final = re.compile(r"\b(GIVEN|PRESENT)\s*\(", re.IGNORECASE)
_EVERY: Final = re.compile(r"\bEVERY\s*\(\s*(\w+)\s*,\s*", re.IGNORECASE)


def written_out(formula: str) -> str:
    """A formula with its macros written out. Raises FormulaError where one has not one argument.

    >>> written_out("2*GIVEN(INDEX(lawns.area,line))")
    '2*IF(INDEX(lawns.area,line)="","",INDEX(lawns.area,line))'
    >>> written_out('GIVEN(area)&"GIVEN(area)"')
    'IF(area="","",area)&"GIVEN(area)"'
    >>> written_out("PRESENT(traits)").count("SUBSTITUTE")
    8
    """
    if not _CALL.search(formula):
        return formula
    quoted = {place for place, depth in _depths(formula) if depth is None}
    for call in _CALL.finditer(formula):
        if call.start() in quoted:
            continue
        end = _partner(formula, call.end() - 1, call[1].upper())
        argument = written_out(formula[call.end() : end])
        meant = f'IF({argument}="","",{argument})' if call[1].upper() == "GIVEN" else _present(argument)
        return f"{formula[: call.start()]}{meant}{written_out(formula[end + 1 :])}"
    return formula


def _present(argument: str) -> str:
    text = f'TEXT({argument},"0")'
    for digit in range(2, 10):
        text = f'SUBSTITUTE({text},"{digit}","1")'
    return f"VALUE({text})"


def for_members(formula: str) -> str:
    """A formula with what it says of every member of a family written out for each.

    >>> for_members("CHOOSE(kind,1,EVERY(levels,rate_each/2),0)")
    'CHOOSE(kind,1,rate_low/2,rate_usual/2,rate_high/2,0)'

    Raises FormulaError for a family that there is not, or a bracket that is not closed.
    """
    call = _EVERY.search(formula)
    if not call:
        return formula
    if call[1] not in family_names():
        raise FormulaError(f"names the family {call[1]!r}, which there is not", expected="a family", found=call[1],
                           remedy=did_you_mean(call[1], family_names()))  # fmt: skip
    end = _closing(formula, formula.index("(", call.start()), "EVERY")
    said = formula[call.end() : end]
    members = ",".join(for_member(said, member) for member in family(call[1]))
    return formula[: call.start()] + members + for_members(formula[end + 1 :])


def _closing(formula: str, opening: int, macro: str) -> int:
    """Where the bracket that opens there is closed again."""
    end = next((place for place, depth in _depths(formula[opening:]) if depth == 0), None)
    if end is None:
        raise FormulaError(f"cannot be read as a formula: a bracket of {macro} is not closed", remedy="close it")
    return opening + end


def _partner(formula: str, opening: int, macro: str) -> int:
    """Where the bracket of the macro that opens there is closed again; one argument stands between the two."""
    end = _closing(formula, opening, macro) - opening
    inside = list(_depths(formula[opening:]))
    between = formula[opening + 1 : opening + end]
    commas = [place for place, depth in inside[:end] if depth == 1 and formula[opening + place] == ","]
    if commas or not between.strip():
        number = len(commas) + 1 if between.strip() else 0
        raise FormulaError(f"gives {macro} {number} arguments", expected="one argument", found=str(number))
    return opening + end


def _depths(formula: str) -> Iterator[tuple[int, int | None]]:
    """Each place of a formula, and how many brackets are open behind its character; None within quotes."""
    depth, within = 0, False
    for place, character in enumerate(formula):
        if character == '"':
            within = not within
        elif not within:
            depth += {"(": 1, ")": -1}.get(character, 0)
        yield place, None if within or character == '"' else depth
