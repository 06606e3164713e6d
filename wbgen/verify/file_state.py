"""Looks at what a file has beside its cells: sheets hidden or added, rows hidden, protection, how it calculates."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from wbgen.files.accepted_values import as_read
from wbgen.files.findings import Finding, Kind
from wbgen.files.xlsx.addresses import address, letters
from wbgen.files.xlsx.workbook import File, SheetCells
from wbgen.inputs.from_workbook import stretched
from wbgen.inputs.locate import Found
from wbgen.sheets.book import Book
from wbgen.sheets.layout import Placed


def findings(file: File, book: Book, found: Found) -> Iterator[Finding]:
    """What makes the file's figures untrustworthy or goes beyond what a planner holds, then what is to be known."""
    for note in file.notes:
        if note.kind is not Kind.HIDDEN_SHEET:  # said below with the sheet's name
            yield Finding(note.part, "", note.kind, None, None, f"{note.text} ({note.part})")
    for sheet in file.sheets:
        if sheet.hidden:
            yield Finding(sheet.name, "", Kind.HIDDEN_SHEET, None, None, "a planner hides no sheet: show it")
    if not file.index.full_precision:
        yield _whole(Kind.CALCULATION, "the program is set to calculate with the digits shown, not with the figures")
    if file.index.dates_from_1904:
        yield _whole(Kind.DATE_SYSTEM, "dates count from 1904, and the planner's from 1900")
    yield from _under_false_names(file, book, found)
    yield from _stretched_names(file)
    yield from _lost_tables(found)
    yield from _notices(file, found)


def _notices(file: File, found: Found) -> Iterator[Finding]:
    """What a person may do, and others should know."""
    if file.index.by_hand:
        yield _whole(Kind.MANUAL_CALCULATION, "the program is set to calculate only when it is told to")
    if file.index.in_circles:
        yield _whole(
            Kind.ITERATIVE_CALCULATION, "the program is set to let formulas read themselves; no planner's does"
        )
    planner = {placed.sheet for placed in found.placed.values()}
    for sheet in file.sheets:
        if sheet.name not in planner:
            yield Finding(sheet.name, "", Kind.OWN_SHEET, None, None, "this sheet is not the planner's")
            continue
        yield from _notices_of_sheet(sheet, [placed for placed in found.placed.values() if placed.sheet == sheet.name])


def _notices_of_sheet(sheet: SheetCells, own: Sequence[Placed]) -> Iterator[Finding]:
    """What is to be known of one of the planner's sheets."""
    content = sheet.content
    if not content.protected:
        yield Finding(sheet.name, "", Kind.PROTECTION_LOST, None, None, "formulas here can be typed over")
    has_inputs = any(column.role == "input" for placed in own for column in placed.table.columns)
    if has_inputs and not content.validations:
        yield Finding(sheet.name, "", Kind.VALIDATION_LOST, None, None, "inputs here take anything")
    if any(placed.table.filter for placed in own) and not content.filtered:
        yield Finding(sheet.name, "", Kind.FILTER_LOST, None, None, "the table has no filter any more")
    if content.hides_zeros:
        yield Finding(sheet.name, "", Kind.ZEROS_HIDDEN, None, None, "figures that are 0 do not show here")
    if content.hidden_rows:
        rows = ", ".join(str(row + 1) for row in content.hidden_rows[:8])
        more = " …" if len(content.hidden_rows) > 8 else ""
        message = f"{len(content.hidden_rows)} rows are hidden or filtered out: {rows}{more}"
        yield Finding(sheet.name, "", Kind.HIDDEN_ROWS, None, None, message)
    folded = {at for placed in own for _, first, last in placed.folded for at in range(first, last + 1)}
    hidden = [span for span in content.hidden_columns if not folded.issuperset(range(span[0], span[1] + 1))]
    if hidden:
        spans = ", ".join(f"{letters(first)} to {letters(last)}" for first, last in hidden[:8])
        yield Finding(sheet.name, "", Kind.HIDDEN_COLUMNS, None, None, f"columns are hidden: {spans}")


def _under_false_names(file: File, book: Book, found: Found) -> Iterator[Finding]:
    """Sheets that bear the name of another one of the planner's: one is taken for the other."""
    templates_on: dict[str, set[str]] = {}
    name_in_file: dict[str, str] = {}
    for sheet in book.sheets:
        for table in sheet.tables:
            if table.key in found.placed:
                here = found.placed[table.key].sheet
                templates_on.setdefault(here, set()).add(sheet.name)
                name_in_file[as_read(sheet.name)] = here
    for name in [sheet.name for sheet in file.sheets]:
        own = templates_on.get(name, set())
        if name_in_file.get(as_read(name), name) != name and as_read(name) not in map(as_read, own):
            what = (
                f"this is the planner's sheet {min(own)!r}" if own else "this is not the planner's sheet of that name"
            )
            yield Finding(
                name, "", Kind.FALSE_SHEET, None, None,
                f"{what}; the one of that name is called {name_in_file[as_read(name)]!r} in this file",
            )  # fmt: skip


def _stretched_names(file: File) -> Iterator[Finding]:
    """Names of tables that reach beyond the cells of their sheets, where a row that is missing would not be noticed."""
    for name, area, within in stretched(file):
        ends = [f"{address(one.top, one.left)}:{address(one.bottom, one.right)}" for one in (area, within)]
        yield Finding(
            area.sheet, address(area.top, area.left), Kind.NAME_STRETCHED, ends[0], ends[1],
            f"the defined name {name!r} reaches beyond the last cell of its sheet, and is read up to there",
        )  # fmt: skip


def _whole(kind: Kind, message: str) -> Finding:
    return Finding("the whole file", "", kind, None, None, message)


def _lost_tables(found: Found) -> Iterator[Finding]:
    by_sheet: dict[str, list[bool]] = {}
    for lost in found.lost:
        by_sheet.setdefault(lost.sheet, []).append(lost.key is None)
    rest = "; the figures of this file are not recomputed until it is back"
    gone = {sheet for sheet in by_sheet if all(by_sheet[sheet]) and not _has_tables(found, sheet)}
    for sheet in gone:
        yield Finding(sheet, "", Kind.SHEET_MISSING, None, sheet, f"none of the tables of this sheet is there{rest}")
    for lost in found.lost:
        if lost.sheet in gone:
            continue
        kind, what = (Kind.COLUMN_MISSING, "column") if lost.key else (Kind.TABLE_MISSING, "table")
        yield Finding(
            lost.sheet, "", kind, None, lost.heading,
            f"the {what} {lost.heading!r} of {lost.table!r} is not there: "
            f"its heading or its defined name was changed, or it was deleted{rest}", None, lost.heading,
        )  # fmt: skip
    for key in found.moved:
        placed = found.placed[key]
        message = f"the table {placed.table.title!r} does not stand where the planner has it"
        yield Finding(placed.sheet, address(placed.opening, placed.left), Kind.TABLE_MOVED, None, None, message)


def _has_tables(found: Found, sheet: str) -> bool:
    return any(sheet == placed.sheet for placed in found.placed.values())
