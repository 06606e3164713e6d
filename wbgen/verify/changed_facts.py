"""Says which facts are not the catalogue's: rates, analyses, limits, cautions, prices, and how each is known.

Records are compared by what they are called, so that neither order nor empty lines matter, with what a build would
fill in today.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from wbgen.files.findings import Finding, Kind
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.workbook import File, SheetCells
from wbgen.inputs.entry_checks import unchanged
from wbgen.inputs.locate import Found, column_cells
from wbgen.model.inputs import TEXT, Figures, Inputs
from wbgen.sheets.book import Book
from wbgen.sheets.column import Column
from wbgen.sheets.layout import Placed
from wbgen.verify.catalogue_facts import IDENTITY, as_shipped
from wbgen.verify.compare import is_blank
from wbgen.verify.figure_text import display, found_value
from wbgen.verify.labels import printed_currency

if TYPE_CHECKING:
    from wbgen.verify.provenance import CatalogueRecord

DETAILS: Final = frozenset({"price", "active_word", "registration"})
"""Columns of the products by which nothing is weighed, limited or cautioned. A column that is not here may move it."""
SHIPPED: Final = "the shipped catalogue"
LONG: Final = 72
"""Characters of a text of which no more is shown in a line than what is round the first difference."""
FEW, SAVED = 10, 15
"""Digits of a number that are shown, and those that a workbook keeps, shown where fewer do not tell two apart."""
BEFORE: Final = 24
"""Characters that are shown before the first difference."""


def facts_changed(file: File, book: Book, found: Found, inputs: Inputs, lawns: Path | None = None) -> Iterator[Finding]:
    """A warning or a notice for each fact that differs from the shipped catalogue, or from what `lawns` gives.

    Raises InputError where the files have a mistake, OSError where they cannot be read.
    """
    if lawns is None and as_shipped(book.system, found, inputs):
        return
    from wbgen.verify.provenance import catalogue_records  # reads the catalogue: only where something may differ

    currency = printed_currency(book, found.placed, file.text_at) or "currency"
    comparison = _Comparison(SHIPPED if lawns is None else "your files", currency)
    for table, records in catalogue_records(book, lawns).items():
        if table in found.placed:
            there = _There(file, found.placed[table], book.units[table], inputs.values[table])
            yield from comparison.of_table(there, records)


class _There:
    """A table of the planner, as it stands in the file."""

    def __init__(self, file: File, placed: Placed, units: Mapping[str, str], figures: Mapping[str, Figures]) -> None:
        self.placed, self.units, self.figures = placed, units, figures
        self.columns = [column for column in placed.table.columns if column.role != "formula"]
        sheet = file.sheet(placed.sheet) or SheetCells(placed.sheet, False)
        self.shown = {column.key: column_cells(sheet, placed, column.key)[1] for column in self.columns}
        self.filled = [
            record
            for record in range(placed.count)
            if not all(is_blank(shown[record]) for shown in self.shown.values())
        ]
        self.is_products = placed.table.key == "products"

    def differing(self, record: int, known: CatalogueRecord) -> Sequence[Column]:
        """The columns in which a record is not what the catalogue has."""
        return [column for column in self.columns if self._differs(column, record, known.values[column.key])]

    def _differs(self, column: Column, record: int, expected: Any) -> bool:
        figure, shown = self.figures[column.key][record], self.shown[column.key][record]
        if is_blank(expected):
            return not is_blank(shown)
        if self.units[column.key] != TEXT and type(shown) is not float:
            return True
        return not unchanged(expected, figure)

    def finding(self, record: int, column: Column, kind: Kind, message: str, expected: Any) -> Finding:
        return Finding(
            self.placed.sheet, address(*self.placed.cell(column.key, record)), kind,
            found_value(self.shown[column.key][record]), found_value(expected), message, None, column.heading,
        )  # fmt: skip


Identity = tuple[str, ...]
"""What a record is called, ignoring case, as look-ups do."""


class _Comparison:
    """A planner beside a catalogue, which is called `catalogue`."""

    def __init__(self, catalogue: str, currency: str) -> None:
        self.catalogue, self.currency = catalogue, currency
        self.compared: set[str] = set()
        """The products of the planner that are the catalogue's too."""

    def of_table(self, there: _There, records: Sequence[CatalogueRecord]) -> Iterator[Finding]:
        """What differs in one table, record by record; then what is not there."""
        keys = IDENTITY[there.placed.table.key]
        known: dict[Identity, CatalogueRecord] = {}
        for one in records:
            known.setdefault(_identity([one.values[key] for key in keys]), one)
        here = {record: _identity([there.figures[key][record] for key in keys]) for record in there.filled}
        names = set(here.values())
        missing = [one for identity, one in known.items() if identity not in names]
        for record, identity in here.items():
            if identity in known:
                yield from self._of_record(there, record, known[identity])
            else:
                yield from self._unknown(there, record, missing)
        if there.is_products:
            self.compared = {name for name, *_ in known.keys() & names}
        for one in missing:
            yield from self._missing(there, one)

    def _of_record(self, there: _There, record: int, known: CatalogueRecord) -> Iterator[Finding]:
        names = [str(known.values[key]) for key in IDENTITY[there.placed.table.key]]
        here = {key: shown[record] for key, shown in there.shown.items()}
        for column in there.differing(record, known):
            old, new = (self._shown(there, column, values, FEW) for values in (known.values, here))
            if old == new:
                old, new = (self._shown(there, column, values, SAVED) for values in (known.values, here))
            old, new = _excerpts(old, new)
            kind = Kind.BASIS_CHANGED
            if there.is_products:
                kind = Kind.DETAIL_CHANGED if column.key in DETAILS else Kind.FACT_CHANGED
            where = known.where(column.key)
            told = f"{old} in {self.catalogue}{f' ({where})' if where else ''}, {new} here"
            message = f"{', '.join((*names, column.heading))}: {told}"
            yield there.finding(record, column, kind, message, known.values[column.key])

    def _unknown(self, there: _There, record: int, missing: Sequence[CatalogueRecord]) -> Iterator[Finding]:
        """A record that the catalogue does not have."""
        column = there.placed.column(IDENTITY[there.placed.table.key][0])
        name = str(there.figures[column.key][record])
        if there.is_products:
            called = name or "a product without a name"
            remedy = "compare with your label" + (", or give --lawns" if self.catalogue == SHIPPED else "")
            like = self._like(there, record, missing)
            yield there.finding(
                record, column, Kind.NOT_COMPARED, f"{called}: not in {self.catalogue}{like}: {remedy}", None
            )
        elif there.placed.table.key != "facts" or name.casefold() in self.compared:
            yield there.finding(record, column, Kind.BASIS_CHANGED, f"{name}: not in {self.catalogue}", None)

    def _like(self, there: _There, record: int, missing: Sequence[CatalogueRecord]) -> str:
        """The product that this one seems to be under another name, and in which facts it is not; "" for none."""
        found = [(one, [column for column in there.differing(record, one) if column.key != "name"]) for one in missing]
        if not found:
            return ""
        one, other = min(found, key=lambda pair: len(pair[1]))
        if 2 * len(other) > sum(not is_blank(value) for value in one.values.values()):
            return ""
        but = f", but for {', '.join(column.heading for column in other)}" if other else ""
        return f"; it has the facts of {one.values['name']}, which is missing{but}"

    def _missing(self, there: _There, known: CatalogueRecord) -> Iterator[Finding]:
        """A record of the catalogue that the planner does not have."""
        names = [str(known.values[key]) for key in IDENTITY[there.placed.table.key]]
        message = f"{', '.join(names)}: in {self.catalogue}, and not here"
        if there.is_products:
            yield Finding(there.placed.sheet, "", Kind.PRODUCT_MISSING, None, names[0], message)
        elif there.placed.table.key != "facts" or names[0].casefold() in self.compared:
            yield Finding(there.placed.sheet, "", Kind.BASIS_CHANGED, None, names[-1], message)

    def _shown(self, there: _There, column: Column, values: Mapping[str, Any], digits: int) -> str:
        """A fact of a record as a line has it, with its unit, or with the unit that stands beside it."""
        value, unit = values[column.key], there.units[column.key]
        if is_blank(value):
            return "nothing"
        if unit != TEXT and isinstance(value, str):
            return f"the text {value!r}"
        if unit == TEXT:
            return f'"{value}"'
        if column.look.show == "share":  # the unit of one is that of a ratio, and the sheet shows it in per cent
            return display(value, "", share=True, digits=digits)
        shown = display(value, unit, currency=self.currency, digits=digits)
        # "dry_unit" of "dry_usual", and nothing of "dry_most_a_year"
        beside = values.get(column.key.rpartition("_")[0] + "_unit")
        return f"{shown} {beside}" if beside and not unit else shown


def _identity(names: Iterable[Any]) -> Identity:
    return tuple(str(name).casefold() for name in names)


def _excerpts(one: str, other: str) -> tuple[str, str]:
    """Two texts as they are; of long ones, what stands round the first sign in which they differ."""
    if max(len(one), len(other)) <= LONG:
        return one, other
    same = next((at for at, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other)))
    return _excerpt(one, max(0, same - BEFORE)), _excerpt(other, max(0, same - BEFORE))


def _excerpt(text: str, start: int) -> str:
    end = start + LONG
    return ("…" if start else "") + text[start:end] + ("…" if len(text) > end else "")
