"""What the lawn has had of each nutrient that its owner is told of, beside its target.

A form: each figure is a scalar.
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.elementwise import blank
from wbgen.model.tools.lines import at
from wbgen.model.tools.rounding import exceeds
from wbgen.model.types import NutrientPerArea, Table, Text


@of_family("reported")
def had_each(report_workings: Table, season_applied: Table) -> NutrientPerArea:
    """What was put on this season, by area of the whole lawn; blank for an unknown lawn or area."""
    return at(season_applied.applied_each, report_workings.lawn_line)


@of_family("reported")
def target_each(report_workings: Table, season_target: Table) -> NutrientPerArea:
    """What is wanted in a year, by area; blank where it is not planned."""
    return at(season_target.target_each, report_workings.lawn_line)


@of_family("reported")
def left_each(report_workings: Table, season_left: Table) -> NutrientPerArea:
    """What remains of the target, by area; negative where it is passed."""
    return at(season_left.left_each, report_workings.lawn_line)


@of_family("reported")
def stands_each(
    had_each: NutrientPerArea, target_each: NutrientPerArea, left_each: NutrientPerArea, report_workings: Table,
    lawns: Table,
) -> Text:  # fmt: skip
    """What is to be said of it: that it is not known, that there is no target, or that it is passed; and whether the
    target is that of the soil test, where none is typed."""
    if blank(had_each):
        return "not known"
    if blank(target_each):
        return "no target set"
    over = exceeds(-left_each, 0 * left_each)
    if blank(at(lawns.target_each, report_workings.lawn_line)):
        return "over, by soil test" if over else "by its soil test"
    return "over the target" if over else ""
