"""A worksheet that takes formulas as the templates give them."""

from __future__ import annotations

from xlsxwriter.worksheet import Worksheet


class PlannerWorksheet(Worksheet):
    """Stores a formula as it is written: the prefix of a function newer than the file format is there already.

    xlsxwriter searches each formula some sixty times for functions that lack theirs, which takes most of a build.
    """

    def _prepare_formula(self, formula: str, expand_future_functions: bool = False) -> str:  # noqa: ARG002
        return formula.removeprefix("=")
