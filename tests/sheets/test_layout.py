"""Where tables stand: in a place of their own or below one another, and never on one another."""

from __future__ import annotations

from pathlib import Path
from typing import Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheets.pocket import place_of, spoiled, write
from wbgen.files.diagnostics import InputError
from wbgen.files.xlsx.addresses import address, position_of
from wbgen.sheets.book import Templates
from wbgen.sheets.column import Column, Look, Meaning, Page
from wbgen.sheets.layout import lay_out
from wbgen.sheets.template import FIRST_ROW, GUTTER, Sheet, Table

CAPACITIES: Final = {"lawns": 3, "conversions": 40}


def at_place(days: str) -> dict[str, str]:
    """The small templates with the table of days, of two columns and two records, in a place of its own."""
    return spoiled("lawns.yaml", "  - key: days\n", f"  - key: days\n    at: {days}\n")


@pytest.mark.parametrize("place", ["B14", "J5", "K2000", "XFA5"])
def test_a_table_stands_where_it_says(tmp_path: Path, place: str) -> None:
    book = Templates(write(tmp_path, at_place(place))).book("metric")
    layout = lay_out(book.sheets, CAPACITIES)
    row, left = position_of(place) or (0, 0)
    assert (layout.rows["days"].title, layout.placed["days"].left) == (row, left)
    assert layout.placed["days"].at == {"day": left, "length": left + 1}
    assert layout.placed["lawns"].left == GUTTER


@pytest.mark.parametrize("place", ["B5", "H5", "C9", "H11"])
def test_a_table_on_another_is_refused_at_its_place(tmp_path: Path, place: str) -> None:
    """The lawns take B5:I11: title, units, headings, three records and the closing row."""
    files = at_place(place)
    book = Templates(write(tmp_path, files)).book("metric")
    with pytest.raises(InputError) as caught:
        lay_out(book.sheets, CAPACITIES)
    (found,) = caught.value.diagnostics
    line, column = place_of(files["lawns.yaml"], place)
    assert (found.code, found.place.file, found.place.line, found.place.column) == (
        "overlap", str(tmp_path / "lawns.yaml"), line, column,
    )  # fmt: skip
    assert "a place clear of lawns" in found.render()


@pytest.mark.parametrize("place", ["A5", "B4", "B0", "5", "lawns", "B5:C6"])
def test_a_place_that_is_none_is_refused(tmp_path: Path, place: str) -> None:
    with pytest.raises(InputError) as caught:
        Templates(write(tmp_path, at_place(place))).book("metric")
    assert ["such as B12" in one.render() for one in caught.value.diagnostics] == [True]


def folded(key: str) -> dict[str, str]:
    """The small templates with the columns of the lawns folded away from one on."""
    return spoiled("lawns.yaml", f"{{key: {key},", f"{{key: {key}, outline: Workings,")


def test_columns_that_are_folded_away_leave_room_for_the_stub_beside_them(tmp_path: Path) -> None:
    files = folded("rate")
    old, new = "      - key: words\n", "      - key: words\n        outline: Words\n"
    files["lawns.yaml"] = files["lawns.yaml"].replace(old, new)
    placed = lay_out(Templates(write(tmp_path, files)).book("metric").sheets, CAPACITIES).placed["lawns"]
    at = placed.at
    assert list(placed.folded) == [("+ Workings", at["rate"], at["mass"]), ("+ Words", at["words"], at["words"])]
    assert (at["mass"] - at["rate"], at["words"] - at["mass"]) == (1, 2)


def test_columns_of_another_table_are_never_folded_away(tmp_path: Path) -> None:
    files = folded("name")
    book = Templates(write(tmp_path, files)).book("metric")
    with pytest.raises(InputError) as caught:
        lay_out(book.sheets, CAPACITIES)
    (found,) = caught.value.diagnostics
    assert (found.code, found.place.line) == ("overlap", place_of(files["lawns.yaml"], "days\n    title")[0])
    assert "days stands below columns of lawns that are folded away" in found.render()
    assert "column B" in found.render()


NUMBERS: Final = st.integers(0, 12)
TABLES: Final = st.lists(
    st.tuples(st.sampled_from(["down", "across"]), st.integers(1, 4), st.integers(1, 3), NUMBERS, NUMBERS,
              st.booleans(), st.integers(1, 3)),
    min_size=2, max_size=4,
)  # fmt: skip


def cells(table: Table, sheet: Sheet) -> set[tuple[int, int]]:
    """Every cell that a table alone on its sheet writes to, worked out cell by cell."""
    alone = lay_out((Sheet(sheet.name, "", (table,)),), {})
    placed, rows = alone.placed[table.key], alone.rows[table.key]
    found = {(rows.title, placed.left)}
    for column in table.columns:
        for record in range(placed.count):
            row, at = placed.cell(column.key, record)
            found |= {(row, at + step) for step in range(column.page.wide)}
        found |= {(rows.headings, placed.at[column.key])} if table.direction == "down" else {(row, placed.left)}
    return found


@given(TABLES)
def test_what_shares_a_cell_is_always_refused(drawn: list[tuple[str, int, int, int, int, bool, int]]) -> None:
    """And what is far apart never: tables drawn at random, in places drawn at random."""
    tables = tuple(
        Table(
            f"table_{chr(97 + number)}", "Title",
            tuple(
                Column(f"key_{chr(97 + place)}", f"Heading {place}", Meaning(), look=Look(digits=0),
                       page=Page(wide=wide if place == columns - 1 else 1))
                for place in range(columns)
            ),
            "down" if direction == "down" else "across",
            records if direction == "down" else 1, plain=plain, at=(FIRST_ROW + row, GUTTER + left),
        )
        for number, (direction, columns, records, row, left, plain, wide) in enumerate(drawn)
    )  # fmt: skip
    sheet = Sheet("Trial", "", tables)
    taken = [cells(table, sheet) for table in tables]
    shared = any(one & other for place, one in enumerate(taken) for other in taken[:place])
    try:
        layout = lay_out((sheet,), {})
    except InputError:
        return
    assert not shared
    assert {address(*layout.placed[one.key].cell("key_a")) for one in tables} <= {
        address(*cell) for own in taken for cell in own
    }


def test_tables_that_do_not_meet_are_laid_out() -> None:
    small = [
        Table(f"table_{name}", "Title", (Column("key_a", "Heading"),), "down", 2, plain=True, at=at)
        for name, at in (("a", (4, 1)), ("b", (4, 2)), ("c", (8, 1)), ("d", (8, 2)))
    ]
    assert len(lay_out((Sheet("Trial", "", tuple(small)),), {}).placed) == 4
