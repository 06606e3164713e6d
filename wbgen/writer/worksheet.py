"""A worksheet that takes formulas as the templates give them, and stores blank text as text."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final

from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

Attributes = Sequence[tuple[str, str | int]]
LAST_COLUMN: Final = (1 << 14) - 1
"""Of any sheet, from 0."""


class PlannerWorksheet(Worksheet):
    """Stores a formula as it is written: the prefix of a function newer than the file format is there already.

    xlsxwriter searches each formula some thirty times for functions that lack theirs, which takes most of a build. It
    also keeps a record of each of the 16 384 columns that have a look; here those up to the last one have one together.
    """

    beyond: int = -1
    """The first of the columns up to the last of all that look alike; -1 where there are none."""

    def set_column_pixels(
        self,
        first_col: int,
        last_col: int,
        width: float | None = None,
        cell_format: Format | None = None,
        options: Mapping[str, Any] | None = None,
    ) -> int:
        if last_col == LAST_COLUMN:
            self.beyond = last_col = first_col
        return int(super().set_column_pixels(first_col, last_col, width, cell_format, options))

    def _write_col_info(self, col_min: int, col_max: int, col_info: object) -> None:
        super()._write_col_info(col_min, LAST_COLUMN if col_max == self.beyond else col_max, col_info)

    def _prepare_formula(self, formula: str, expand_future_functions: bool = False) -> str:  # noqa: ARG002
        return formula.removeprefix("=")

    def _xml_formula_element(self, formula: str, result: str | float, attributes: Attributes = ()) -> None:
        """A result that is the empty text is typed as text: without a type it would be a number, and is none."""
        typed = [*attributes, ("t", "str")] if result == "" else attributes
        super()._xml_formula_element(formula, result, typed)
