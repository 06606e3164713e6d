"""The formulas of a scene, evaluated in the calculation engine without a file between."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any

import formualizer

from thorough.omissions import TODAY, At, Scene, columns
from wbgen.model.inputs import TEXT, Inputs
from wbgen.sheets.book import compile_book
from wbgen.sheets.layout import Placed, lay_out


class Sheets:
    """A scene as a workbook of the engine. `texts` gives what the formulas say once the inputs are another scene's."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.shown = scene
        """The scene whose inputs the cells hold."""
        self.placed = lay_out(scene.book.sheets, scene.capacities).placed
        self.book = formualizer.Workbook()
        self.book.set_deterministic_clock(datetime(TODAY.year, TODAY.month, TODAY.day, 12, tzinfo=UTC))
        self.book.set_temporal_egress("serial")
        for sheet in scene.book.sheets:
            self.book.add_sheet(sheet.name)
        self._write()

    def _write(self) -> None:
        compiled = compile_book(self.scene.book, self.placed)
        for role in ("input", "constant", "formula"):
            for table, column in columns(self.scene.book, role):
                placed = self.placed[table]
                if placed.table.direction == "down":
                    self.book.set_value(placed.sheet, placed.opening + 1, placed.at[column.key] + 1, column.heading)
                for record, row, place in self._cells(placed, column.key):
                    if role == "formula":
                        formula = "=" + compiled[table][column.key].text(record)
                        self.book.set_formula(placed.sheet, row, place, formula)
                    else:
                        self._put(placed.sheet, row, place, self.scene.inputs.values[table][column.key][record])

    def _cells(self, placed: Placed, key: str) -> Iterator[tuple[int, int, int]]:
        """Record (from 0), row and column (from 1) of each cell of a column."""
        for record in range(self.scene.inputs.records[placed.table.key]):
            row, column = placed.cell(key, record)
            yield record, row + 1, column + 1

    def _put(self, sheet: str, row: int, column: int, figure: Any) -> None:
        self.book.set_value(sheet, row, column, None if figure == "" or figure != figure else figure)

    def texts(self, other: Scene) -> dict[At, list[str]]:
        """Every computed column of text, by the formulas, with the inputs of a scene of as many records."""
        self._move(self.shown, other)
        self.shown = other
        self.book.evaluate_all()
        return {
            (table, column.key): [
                self._text(placed.sheet, row, place) for _, row, place in self._cells(placed, column.key)
            ]
            for table, column in columns(self.scene.book, "formula")
            if self.scene.inputs.units[table][column.key] == TEXT
            for placed in (self.placed[table],)
        }

    def _text(self, sheet: str, row: int, column: int) -> str:
        value = self.book.get_value(sheet, row, column)
        return "" if value is None else str(value)

    def _move(self, old: Scene, new: Scene) -> None:
        """Put the figures of `new` where they are not those of `old`: setting a cell costs all that reads it."""
        for table, own in new.inputs.values.items():
            for key, figures in own.items():
                if figures is old.inputs.values[table][key]:
                    continue
                for record, row, place in self._cells(self.placed[table], key):
                    figure = _stands(new.inputs, table, key, record)
                    if figure != _stands(old.inputs, table, key, record):
                        self._put(self.placed[table].sheet, row, place, figure)


def _stands(inputs: Inputs, table: str, key: str, record: int) -> Any:
    """What stands in the cell of an input: its figure, "" where it is blank, or a text that is none."""
    pasted = inputs.misplaced.get((table, key))
    if pasted is not None and record < len(pasted) and pasted[record]:
        return "a text"
    figure = inputs.values[table][key][record]
    return "" if figure != figure else figure
