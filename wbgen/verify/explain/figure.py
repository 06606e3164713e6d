"""What is said of one figure: its value with its unit, what it and its record are called, and its witnesses."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from wbgen.files.dates import day_text
from wbgen.model.inputs import DATE, TEXT
from wbgen.verify.compare import is_blank, one_formula, same, same_shown
from wbgen.verify.explain.place import Figure, Position
from wbgen.verify.labels import printed_currency
from wbgen.verify.recomputed import Recomputed
from wbgen.verify.shown import display
from wbgen.verify.witnesses import ColumnWitnesses


@dataclass(frozen=True)
class Said:
    """What the four witnesses of a formula cell say.

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
    """The figures of an opened planner, by their places."""

    def __init__(self, opened: Recomputed, at: dict[Position, Figure]) -> None:
        self.opened, self.at = opened, at
        self.currency = printed_currency(opened.book, opened.found.placed, opened.file.text_at) or "currency"

    def unit(self, figure: Figure) -> str:
        return self.opened.book.units[figure.placed.table.key][figure.key]

    def witnesses(self, figure: Figure) -> ColumnWitnesses | None:
        return self.opened.columns.get((figure.placed.table.key, figure.key))

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
        values = witnesses.engine if witnesses else self.opened.inputs.values[figure.placed.table.key][figure.key]
        return values[figure.record]

    def value_at(self, spot: Position) -> Any:
        return self.value(self.at[spot]) if spot in self.at else None

    def display(self, figure: Figure, value: Any) -> str:
        column = figure.placed.column(figure.key)
        return display(value, self.unit(figure), share=column.look.show == "share", currency=self.currency)

    def heading(self, figure: Figure) -> str:
        """The titles of a table and of a column, and of the slot where a form has several cells a line."""
        table, column = figure.placed.table, figure.placed.column(figure.key)
        slot = table.slots.get(column.page.slot) if column.page.slot else None
        named = f", {getattr(slot, self.opened.book.system) or column.page.slot}" if slot else ""
        return (f"{table.title}: " if table.title else "") + column.heading + named

    def record(self, figure: Figure) -> str:
        """What the record of a figure is called: the first text of its table."""
        placed = figure.placed
        name = next((column.key for column in placed.table.columns if column.meaning.type == "text"), None)
        if placed.single or name is None or name == figure.key:
            return ""
        value = self.value(Figure(placed, name, figure.record))
        return "" if is_blank(value) else str(value)

    def said(self, witnesses: ColumnWitnesses, figure: Figure) -> Said:
        """What the four witnesses of a figure say."""
        record, unit = figure.record, witnesses.unit
        text, wanted = witnesses.texts[record], witnesses.expected[record]
        engine, model, alone = witnesses.engine[record], witnesses.global_model[record], witnesses.local_model[record]
        stored, counts = witnesses.stored[record], self.opened.recalculated
        told = []
        if text is None:
            told.append("the formula is missing" if is_blank(stored) else "a value is typed over the formula")
            told.append(f"={wanted} belongs here")
        elif not one_formula(text, wanted):
            told.append(f"the formula is not the planner's, which is ={wanted}")
        if not same(engine, model):
            one, other = self.apart(figure, engine, model)
            told.append(f"the engine says {one}, the model {other}")
            if text is not None and same(engine, alone):
                told.append("from the same parts both say the same, so the cause is below")
        if counts and not same_shown(stored, engine):
            one, other = self.apart(figure, stored, engine)
            told.append(f"the file has stored {one}, the engine says {other}")
        kind = "missing" if text is None else "same" if one_formula(text, wanted) else "changed"
        return Said(kind, plain(engine, unit), plain(model, unit), plain(stored, unit) if counts else None,
                    counts, "; ".join(told))  # fmt: skip

    def apart(self, figure: Figure, one: Any, other: Any) -> tuple[str, str]:
        """Two values that differ, with all their digits where ten do not tell them apart."""
        shown = self.display(figure, one), self.display(figure, other)
        return shown if shown[0] != shown[1] else (repr(one), repr(other))


def plain(value: Any, unit: str) -> Any:
    """A value as JSON has it: None for blank, a date as ISO text."""
    if is_blank(value):
        return None
    if isinstance(value, (str, bool, np.bool_)):
        return bool(value) if isinstance(value, np.bool_) else str(value)
    return day_text(value) if unit == DATE else float(value)
