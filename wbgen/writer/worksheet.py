"""A worksheet that takes formulas as the templates give them, and stores blank text as text."""

from __future__ import annotations

from collections.abc import Sequence

from xlsxwriter.worksheet import Worksheet

Attributes = Sequence[tuple[str, str | int]]


class PlannerWorksheet(Worksheet):
    """Stores a formula as it is written: the prefix of a function newer than the file format is there already.

    xlsxwriter searches each formula some thirty times for functions that lack theirs, which takes most of a build.
    """

    def _prepare_formula(self, formula: str, expand_future_functions: bool = False) -> str:  # noqa: ARG002
        return formula.removeprefix("=")

    def _xml_formula_element(self, formula: str, result: str | float, attributes: Attributes = ()) -> None:
        """A result that is the empty text is typed as text: without a type it would be a number, and is none."""
        typed = [*attributes, ("t", "str")] if result == "" else attributes
        super()._xml_formula_element(formula, result, typed)
