"""Tells of one figure its value with its unit, what it and its record are called, and what its witnesses say."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from wbgen.model.inputs import DATE, TEXT
from wbgen.verify.compare import is_blank, one_formula, same_result, same_shown
from wbgen.verify.explain.position import Figure, Position
from wbgen.verify.figure_text import display, plain_value
from wbgen.verify.labels import printed_currency
from wbgen.verify.recomputed import Recomputed
from wbgen.verify.witnesses import ColumnWitnesses


@dataclass(frozen=True)
class WitnessValues:
    """What the four witnesses of a formula cell say, as JSON has it.

    `text` is "same", "changed" or "missing" beside the template's formula; `engine`, `model` and `cached` are
    values, None for blank. `cached` counts only where `recalculated`. `disagreement` is "" where they agree.
    """

    text: str
    engine: Any
    model: Any
    cached: Any
    recalculated: bool
    disagreement: str = ""


class Figures:
    """The figures of a recomputed planner, by their positions."""

    def __init__(self, recomputed: Recomputed, by_position: dict[Position, Figure]) -> None:
        self.recomputed, self.by_position = recomputed, by_position
        currency = printed_currency(recomputed.book, recomputed.found.placed, recomputed.file.text_at)
        self.currency = currency or "currency"

    def unit(self, figure: Figure) -> str:
        return self.recomputed.book.units[figure.placed.table.key][figure.key]

    def witnesses(self, figure: Figure) -> ColumnWitnesses | None:
        return self.recomputed.columns.get((figure.placed.table.key, figure.key))

    def summary(self, first: Figure, filled: list[Any]) -> str:
        """The sum of figures that can be added up, and otherwise the least and the greatest."""
        unit = self.unit(first)
        numbers = [value for value in filled if isinstance(value, (int, float, np.floating))]
        if not numbers or len(numbers) != len(filled) or unit == TEXT:
            return ""
        least, most = (self.display(first, value) for value in (min(numbers), max(numbers)))
        if unit in ("", DATE, "degC") or "/" in unit:
            return f", all {least}" if least == most else f", {least} to {most}"
        return f", sum {self.display(first, sum(numbers))}"

    def value(self, figure: Figure) -> Any:
        """The engine's value of a formula, and what stands in any other cell."""
        witnesses = self.witnesses(figure)
        inputs = self.recomputed.inputs.values
        values = witnesses.engine if witnesses else inputs[figure.placed.table.key][figure.key]
        return values[figure.record]

    def value_at(self, position: Position) -> Any:
        return self.value(self.by_position[position]) if position in self.by_position else None

    def display(self, figure: Figure, value: Any) -> str:
        column = figure.placed.column(figure.key)
        return display(value, self.unit(figure), share=column.look.show == "share", currency=self.currency)

    def heading(self, figure: Figure) -> str:
        """The titles of a table and of a column, and of the slot where a form has several cells a line."""
        table, column = figure.placed.table, figure.placed.column(figure.key)
        slot = table.slots.get(column.page.slot) if column.page.slot else None
        named = f", {getattr(slot, self.recomputed.book.system) or column.page.slot}" if slot else ""
        return (f"{table.title}: " if table.title else "") + column.heading + named

    def record(self, figure: Figure) -> str:
        """What the record of a figure is called: the first text of its table."""
        placed = figure.placed
        name = next((column.key for column in placed.table.columns if column.meaning.type == "text"), None)
        if placed.single or name is None or name == figure.key:
            return ""
        value = self.value(Figure(placed, name, figure.record))
        return "" if is_blank(value) else str(value)

    def witness_values(self, witnesses: ColumnWitnesses, figure: Figure) -> WitnessValues:
        """What the four witnesses of a figure say, and in which they disagree."""
        record, unit = figure.record, witnesses.unit
        text, expected = witnesses.texts[record], witnesses.expected[record]
        engine, stored = witnesses.engine[record], witnesses.stored[record]
        global_model, local_model = witnesses.global_model[record], witnesses.local_model[record]
        recalculated = self.recomputed.recalculated
        text_is = "missing" if text is None else "same" if one_formula(text, expected) else "changed"
        differences = []
        if text_is == "missing":
            what = "the formula is missing" if is_blank(stored) else "a value is typed over the formula"
            differences += [what, f"={expected} belongs here"]
        elif text_is == "changed":
            differences.append(f"the formula is not the planner's, which is ={expected}")
        if not same_result(engine, global_model):
            one, other = self.distinct(figure, engine, global_model)
            differences.append(f"the engine says {one}, the model {other}")
            if text is not None and same_result(engine, local_model):
                differences.append("from the same parts both say the same, so the cause is below")
        if recalculated and not same_shown(stored, engine):
            one, other = self.distinct(figure, stored, engine)
            differences.append(f"the file has stored {one}, the engine says {other}")
        cached = plain_value(stored, unit) if recalculated else None
        return WitnessValues(
            text_is, plain_value(engine, unit), plain_value(global_model, unit), cached, recalculated,
            "; ".join(differences),
        )  # fmt: skip

    def distinct(self, figure: Figure, one: Any, other: Any) -> tuple[str, str]:
        """Two values that differ, with all their digits where ten do not tell them apart."""
        shown = self.display(figure, one), self.display(figure, other)
        return shown if shown[0] != shown[1] else (repr(one), repr(other))
