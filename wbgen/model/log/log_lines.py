"""What the log has for the diary: how many lines, whether they stand there already, and where they belong.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank
from wbgen.model.tools.relations import total
from wbgen.model.tools.words import counts
from wbgen.model.types import Number, Table, Text


def _number(diary_lines: Table) -> int:
    """How many lines the visit has."""
    return int(np.count_nonzero(~blank(diary_lines.lawn_number)))


def _counted(number: float, name: str) -> str:
    return f"{counts(number)} {name}" + ("" if number == 1 else "s")


def lines(diary_lines: Table, mix_lawns: Table, mix_checks: Table) -> Text:
    """How many lines there are, of how many lawns and products, or why there are none."""
    number, lawns = _number(diary_lines), float(np.count_nonzero(~blank(mix_lawns.treated_area)))
    if number:
        return f"{number} below, of {_counted(lawns, 'lawn')} and {_counted(mix_checks.found_products, 'product')}"
    there = lawns > 0 and mix_checks.found_products > 0
    return "none: " + ("the verdict is not to mix" if there else "the sheet Mix has no lawn or no product")


def already(diary_lines: Table) -> Text:
    """How many of the lines the diary has already."""
    number, there = _number(diary_lines), float(total(diary_lines.stands))
    if not number:
        return ""
    if there == 0:
        return "none of them stands in the diary"
    if there == number:
        return "all of them stand in the diary: do not paste them again"
    return f"{counts(there)} of them in the diary already: see below which, and paste the others alone"


def select(diary_lines: Table) -> Text:
    """The words of a link to the lines, from their date to their note."""
    number = _number(diary_lines)
    if not number:
        return ""
    return ("Select the line" if number == 1 else f"Select the {number} lines") + ", and copy"


def go(free_line: Number, diary_lines: Table, diary: Table) -> Text:
    """The words of a link to the first free line of the diary, or that there is no room."""
    number = _number(diary_lines)
    if not number:
        return ""
    if free_line + number > len(diary.date) + 1:
        return "the diary has no room for them: build the planner with more lines"
    return f"Go to line {counts(free_line)} of the diary, and paste as values only"


def then(diary_lines: Table) -> Text:
    """What is left to do."""
    if not _number(diary_lines):
        return ""
    return "clear the boxes at the left, and mend in the diary what went otherwise on one lawn"


def free_line(diary: Table) -> Number:
    """The first line of the diary behind the last one in use, the first being 1.

    >>> from types import SimpleNamespace
    >>> free_line(SimpleNamespace(flag_line=np.array([-1.0, np.nan, 3.0, -4.0, np.nan])))
    5.0
    """
    return float(np.max(np.abs(diary.flag_line), initial=0.0, where=~blank(diary.flag_line))) + 1.0


def noted(log: Table) -> Text:
    """What goes into the note of every line, in the words that the sheet Spray record looks for."""
    said = {
        "start": log.started, "end": log.ended, "wind from": log.wind_from, "batch": log.batch, "reason": log.reason,
    }  # fmt: skip
    return "; ".join(f"{word} {text}" for word, text in said.items() if not blank(text))
