"""How each lawn answered its visits, whatever they brought.

One record a lawn: shape (lawns,).
"""

from __future__ import annotations

from wbgen.model.marks import of_family
from wbgen.model.tools.lines import at, lines_of
from wbgen.model.tools.means import mean_of, number_of
from wbgen.model.types import Each, Figure, Number, Table, Text

BLANK_UNLESS = ("lawn",)


def lawn(turn: Each[Number], lawns: Table) -> Each[Text]:
    """Name of the lawn whose turn it is (from 1), blank where there is none."""
    return at(lawns.name, lines_of(turn))


@of_family("scored")
def number_each(turn: Each[Number], answers: Table) -> Each[Number]:
    """How many visits have a change."""
    return number_of(answers.lawn_line, lines_of(turn), answers.change_each, answers.visit_first == 1)


@of_family("scored")
def mean_each(turn: Each[Number], number_each: Each[Number], answers: Table, settings: Table) -> Each[Figure]:
    """Their mean change; blank where they are too few."""
    visits = answers.visit_first == 1
    return mean_of(answers.lawn_line, lines_of(turn), answers.change_each, number_each, settings, visits)
