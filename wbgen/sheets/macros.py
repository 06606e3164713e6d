"""Words of the template language that stand for more text of a formula, written out before it is parsed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from wbgen.sheets.formula_tree import FormulaError

MACROS: Final = ("GIVEN",)
"""GIVEN(x): x, or blank where x is blank; a spreadsheet makes 0 of a blank cell that is looked up."""
_CALL: Final = re.compile(r"\bGIVEN\s*\(", re.IGNORECASE)


def written_out(formula: str) -> str:
    """A formula with its macros written out. Raises FormulaError where one has not one argument.

    >>> written_out("2*GIVEN(INDEX(lawns.area,line))")
    '2*IF(INDEX(lawns.area,line)="","",INDEX(lawns.area,line))'
    >>> written_out('GIVEN(area)&"GIVEN(area)"')
    'IF(area="","",area)&"GIVEN(area)"'
    """
    if not _CALL.search(formula):
        return formula
    quoted = {place for place, depth in _depths(formula) if depth is None}
    for call in _CALL.finditer(formula):
        if call.start() in quoted:
            continue
        end = _partner(formula, call.end() - 1)
        argument = written_out(formula[call.end() : end])
        return f'{formula[: call.start()]}IF({argument}="","",{argument}){written_out(formula[end + 1 :])}'
    return formula


def _partner(formula: str, opening: int) -> int:
    """Where the bracket that opens there is closed again; one argument stands between the two."""
    inside = list(_depths(formula[opening:]))
    end = next((place for place, depth in inside if depth == 0), None)
    if end is None:
        raise FormulaError("cannot be read as a formula: a bracket of GIVEN is not closed", remedy="close it")
    between = formula[opening + 1 : opening + end]
    commas = [place for place, depth in inside[:end] if depth == 1 and formula[opening + place] == ","]
    if commas or not between.strip():
        number = len(commas) + 1 if between.strip() else 0
        raise FormulaError(f"gives GIVEN {number} arguments", expected="one argument", found=str(number))
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
