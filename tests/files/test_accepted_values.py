"""Names: which cannot be looked up safely, and which a person takes for the same."""

from __future__ import annotations

from typing import Final

import pytest

from support.papers import paper
from wbgen.files.accepted_values import LONGEST_NAME, RESERVED, as_read, bad_name

NAMED: Final = frozenset(
    {"lawns.name", "products.name", "sprayers.name", "products.family", "lawns.group", "programme.group"}
)


@pytest.mark.parametrize(
    "name",
    ["Terrace", "Bowl 1", "Ammonium sulphate 21-0-0", "Käfer’s hill", "Газон", "Λ hill", "Mayfield", "May", "Marsh 2",
     "Decking 12", "no. 3", "#9 tee", "# 4th", "Err", "0-0-50 potash", "x" * LONGEST_NAME],
)  # fmt: skip
def test_names_of_the_trade_are_names(name: str) -> None:
    assert bad_name(name) == ""


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("", "it is empty"),
        ("Back ", "spaces at an end"),
        ("Back\u00a0lawn", "spaces at an end"),
        ("Ba\u200bck", "cannot be seen"),
        ("x" * (LONGEST_NAME + 1), "at most 60"),
        ("a*", "contains *"),
        ("=a", "begins with ="),
        ("True", "true or false"),
        ("Lawn", "uses this word for itself"),
        ("Terrаce", "mixes letters"),  # the second a is Cyrillic
        ("07", "as a number"),
        ("1e3", "as a number"),
        ("3 May", "as a date"),
        ("may-4", "as a date"),
        ("Jan 5, 2026", "as a date"),
        ("7 am", "as a date"),
        *(
            (error, "as an error")
            for error in (
                "#N/A",
                "#n/a",
                "#DIV/0!",
                "#REF!",
                "#NULL!",
                "#NUM!",
                "#VALUE!",
                "#SPILL!",
                "#CALC!",
                "#GETTING_DATA",
                "Err:502",
            )
        ),
    ],
)
def test_what_a_spreadsheet_reads_otherwise_is_no_name(name: str, why: str) -> None:
    assert why in bad_name(name)


@pytest.mark.parametrize(
    ("one", "other"), [("Back", "BACK"), ("Back", "Back "), ("Back lawn", "Back\u00a0 lawn"), ("m2", "m²")]
)
def test_names_that_look_alike_are_one(one: str, other: str) -> None:
    assert as_read(one) == as_read(other)


def test_no_name_is_the_heading_of_a_column_of_names() -> None:
    """Ranges begin at the heading: a lawn called Lawn would meet it before its own record."""
    headings = {
        column.heading.casefold()
        for sheet in paper("metric").book.sheets
        for table in sheet.tables
        for column in table.columns
        if column.role == "input"
        and (f"{table.key}.{column.key}" in NAMED or column.accepts.choices in NAMED or column.key == "part")
    }
    assert headings | {"all"} == RESERVED
