"""What a type checker must refuse in a function of the model; nothing here is ever called.

Each ignore is needed as long as the checker refuses its line: mypy reports one that is not needed (strict), so that
types which no longer tell a text from a number, or a column from a scalar, are found.
"""

from __future__ import annotations

from wbgen.model.tools.dates import month_of
from wbgen.model.tools.elementwise import blank, folded, ratio, where
from wbgen.model.tools.lines import at
from wbgen.model.types import Area, Date, Each, Mass, Number, Table, Text


def a_text_for_a_mass(weighed: Each[Mass], share: Each[Number]) -> Each[Text]:
    return weighed * share  # type: ignore[return-value]


def a_number_for_a_quantity(weighed: Each[Mass], share: Each[Number]) -> Each[Number]:
    return weighed * share  # type: ignore[return-value]


def a_scalar_for_a_column(weighed: Each[Mass], share: Each[Number]) -> Mass:
    return weighed * share  # type: ignore[return-value]


def a_column_for_a_scalar(weighed: Mass, share: Number) -> Each[Mass]:
    return weighed * share  # type: ignore[return-value]


def a_text_and_a_number(name: Each[Text], number: Each[Number]) -> None:
    name + number  # type: ignore[operator]


def a_mass_and_a_number(weighed: Each[Mass], number: Each[Number]) -> None:
    weighed + number  # type: ignore[operator]


def a_month_for_a_date(date: Each[Date]) -> Each[Date]:
    return month_of(date)  # type: ignore[return-value]


def a_number_asked_for_its_month(number: Each[Number]) -> Each[Number]:
    return month_of(number)  # type: ignore[arg-type]


def days_for_a_date(date: Each[Date], other: Each[Date]) -> Each[Date]:
    return date - other  # type: ignore[return-value]


def a_text_or_a_mass(weighed: Each[Mass]) -> Each[Text]:
    return where(blank(weighed), "", weighed)  # type: ignore[arg-type]


def a_mass_in_small_letters(weighed: Each[Mass]) -> Each[Text]:
    return folded(weighed)  # type: ignore[arg-type]


def a_quotient_for_a_number(weighed: Each[Mass], area: Each[Area]) -> Each[Number]:
    return ratio(weighed, area)  # type: ignore[return-value]


def a_text_for_a_line(names: Each[Text], name: Each[Text]) -> Each[Text]:
    return at(names, name)  # type: ignore[arg-type]


def a_table_for_a_column(diary: Table) -> Each[Mass]:
    return diary  # type: ignore[return-value]
