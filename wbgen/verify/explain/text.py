"""Tells an explanation as lines for a person and as JSON for a program.

The JSON is one object of format "wbgen-explain", version 1:

    {"format": "wbgen-explain", "version": 1, "workbook": "planner.xlsx", ...the step asked for}

A step has always these keys:

    place      "Mix!D53"; of a column "Lawns!G8:G17"
    heading    the table's title and the column's heading
    record     what the record is called, such as the lawn's name; "" for a form
    role       "formula", "typed" (an input), "given" (a constant of the planner) or "column" (a whole one)
    value      number, text, true or false; null for an empty cell and for a column; a date as "2026-03-14"
    unit       the unit of the value as it is printed, "" for none
    shown      value and unit for a person; of a column how many cells are filled, and their sum or extremes
    formula    the formula in the file, with its equals sign; "" where there is none
    words      the same in the planner's own names
    note       what the planner says beside the figure: a source, or how it is known
    witnesses  null where there is no formula, or
               {"text": "same" | "changed" | "missing", "engine": value, "model": value, "cached": value,
                "recalculated": true | false, "disagreement": what each says, "" where they agree};
               cached is null unless a spreadsheet program has recalculated the file
    came_from  null, or {"file": name, "line": number from 1 or 0, "text": what stands there, "same": true | false}
    parts      the steps of the figures it is made of, in the order of the formula
    below      how many parts are not shown, for want of depth or of room
    repeated   true where the parts of this step stand at an earlier step of the same place

A later version 1 may add keys; it takes none away and changes the meaning of none.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from wbgen.verify.explain.explain import Step
from wbgen.verify.explain.figure import WitnessValues
from wbgen.verify.figure_text import EMPTY
from wbgen.verify.provenance import Origin

FORMAT, VERSION = "wbgen-explain", 1
NOT_RECALCULATED = "none: not recalculated"


def as_json(step: Step, workbook: Path) -> str:
    """The explanation as one JSON object."""
    whole = {"format": FORMAT, "version": VERSION, "workbook": workbook.name} | _object(step)
    return json.dumps(whole, ensure_ascii=False, indent=2, allow_nan=False)


def _object(step: Step) -> dict[str, Any]:
    origin = step.came_from
    return {
        "place": step.address, "heading": step.heading, "record": step.record, "role": step.role, "value": step.value,
        "unit": step.unit, "shown": step.shown, "formula": step.formula, "words": step.words, "note": step.note,
        "witnesses": vars(step.witnesses) if step.witnesses else None,
        "came_from": origin and {
            "file": origin.file, "line": origin.place.line, "text": origin.text, "same": origin.same
        },
        "parts": [_object(part) for part in step.parts], "below": step.below, "repeated": step.repeated,
    }  # fmt: skip


def as_lines(step: Step) -> Iterator[str]:
    """The lines of one step without its parts: the figure, its formula twice, its witnesses, where it is from."""
    of = f" ({step.record})" if step.record not in ("", step.shown) else ""
    yield f"{step.address}  {step.heading} = {step.shown}{of}"
    if step.words and not step.repeated:
        yield f"in words: {_spaced(step.words)}"
        if step.formula:
            yield f"formula: {_spaced(step.formula)}"
    if step.witnesses:
        yield _witness_line(step.witnesses, step)
        if step.witnesses.disagreement:
            yield f"THEY DISAGREE: {step.witnesses.disagreement}"
    if step.role in ("typed", "given"):
        yield _source(step)
    if step.note and not step.repeated:
        yield f"note: {step.note}"
    if step.repeated:
        yield "its formula and its parts stand above, where it was first met"
    elif step.below and step.role == "formula":
        yield f"{step.below} more parts, not shown" if step.parts else f"made of {step.below} parts, one step deeper"


def _spaced(formula: str) -> str:
    """A formula with room after its commas, so that a line can be broken there; texts in it stay as they are."""
    parts = re.split(r'("(?:[^"]|"")*")', formula)
    return "".join(part if part.startswith('"') else re.sub(r",\s*", ", ", part) for part in parts)


def _witness_line(values: WitnessValues, step: Step) -> str:
    cached = _value(values.cached, step) if values.recalculated else NOT_RECALCULATED
    engine, model = _value(values.engine, step), _value(values.model, step)
    return f"witnesses: text {values.text}; engine {engine}; model {model}; cached {cached}"


def _value(value: Any, step: Step) -> str:
    if value is None:
        return EMPTY
    if value == step.value:
        return step.shown
    return str(value) if isinstance(value, (str, bool)) else f"{value:.10g} {step.unit}".rstrip()


def _source(step: Step) -> str:
    if step.role == "given":
        return "given: a constant of the planner"
    return "typed: an input" + (f"; {_origin(step.came_from)}" if step.came_from else "")


def _origin(origin: Origin) -> str:
    if not origin.text:
        return f"{origin.where} says nothing of it"
    if origin.same:
        return f"same as {origin.where} ({origin.text})"
    return f"{origin.where}: the file there says {origin.text}"
