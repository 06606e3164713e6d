"""How the grass answered the visits of each calendar month, whatever they brought.

One record a calendar month: shape (months,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.means import mean_of, number_of
from wbgen.model.types import Each, Figure, Number, Table


@of_family("scored")
def number_each(month_number: Each[Number], answers: Table) -> Each[Number]:
    """How many visits of the month (1 to 12) have a change."""
    return number_of(answers.month, month_number, answers.change_each, answers.visit_first == 1)


@of_family("scored")
def mean_each(month_number: Each[Number], number_each: Each[Number], answers: Table, settings: Table) -> Each[Figure]:
    """Their mean change; blank where they are too few."""
    visits = answers.visit_first == 1
    return mean_of(answers.month, month_number, answers.change_each, number_each, settings, visits)
