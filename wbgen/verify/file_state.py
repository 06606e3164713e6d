"""What a file has beside its cells: sheets hidden or added, rows hidden, protection lost, how it shows and computes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from wbgen.files.accepted import as_read
from wbgen.files.findings import Finding
from wbgen.files.xlsx.addresses import address, letters
from wbgen.files.xlsx.workbook import File, SheetCells
from wbgen.inputs.from_workbook import stretched
from wbgen.inputs.locate import Found
from wbgen.sheets.book import Book
from wbgen.sheets.layout import Placed

NOT_SAID = frozenset({"hidden-sheet"})
"""Notes of the first look at a file that are said here better."""


def findings(file: File, book: Book, found: Found) -> Iterator[Finding]:
    """What makes the file's figures untrustworthy, or goes beyond what a planner holds."""
    for note in file.notes:
        if note.code not in NOT_SAID:
            yield Finding(note.part, "", note.code.replace("-", " "), None, None, f"{note.text} ({note.part})")
    for sheet in file.sheets:
        if sheet.hidden:
            yield Finding(sheet.name, "", "hidden sheet", None, None, "a planner hides no sheet: show it")
    if not file.index.full_precision:
        yield _whole("calculation", "the program is set to calculate with the digits shown, not with the figures")
    if file.index.dates_from_1904:
        yield _whole("date system", "dates count from 1904, and the planner's from 1900")
    yield from _under_false_names(file, book, found)
    yield from _stretched(file)
    yield from _lost(found)


def notices(file: File, found: Found) -> Iterator[Finding]:
    """What a person may do, and others should know."""
    if file.index.by_hand:
        yield _whole("calculation by hand", "the program is set to calculate only when it is told to")
    if file.index.in_circles:
        yield _whole("calculation in circles", "the program is set to let formulas read themselves; no planner's does")
    planner = {placed.sheet for placed in found.placed.values()}
    for sheet in file.sheets:
        if sheet.name not in planner:
            yield Finding(sheet.name, "", "sheet of your own", None, None, "this sheet is not the planner's")
            continue
        yield from _said_of(sheet, [placed for placed in found.placed.values() if placed.sheet == sheet.name])


def _said_of(sheet: SheetCells, own: Sequence[Placed]) -> Iterator[Finding]:
    """What is said of one of the planner's sheets."""
    content = sheet.content
    if not content.protected:
        yield Finding(sheet.name, "", "protection lost", None, None, "formulas here can be typed over")
    wanted = any(column.role == "input" for placed in own for column in placed.table.columns)
    if wanted and not content.validations:
        yield Finding(sheet.name, "", "validation lost", None, None, "inputs here take anything")
    if any(placed.table.filter for placed in own) and not content.filtered:
        yield Finding(sheet.name, "", "filter lost", None, None, "the table has no filter any more")
    if content.hides_zeros:
        yield Finding(sheet.name, "", "zeros hidden", None, None, "figures that are 0 do not show here")
    if content.hidden_rows:
        rows = ", ".join(str(row + 1) for row in content.hidden_rows[:8])
        more = " …" if len(content.hidden_rows) > 8 else ""
        what = f"{len(content.hidden_rows)} rows are hidden or filtered out: {rows}{more}"
        yield Finding(sheet.name, "", "hidden rows", None, None, what)
    if content.hidden_columns:
        spans = ", ".join(f"{letters(first)} to {letters(last)}" for first, last in content.hidden_columns[:8])
        yield Finding(sheet.name, "", "hidden columns", None, None, f"columns are hidden: {spans}")


def _under_false_names(file: File, book: Book, found: Found) -> Iterator[Finding]:
    """Sheets that bear the name of another one of the planner's: one is taken for the other."""
    held: dict[str, set[str]] = {}
    now: dict[str, str] = {}
    for sheet in book.sheets:
        for table in sheet.tables:
            if table.key in found.placed:
                here = found.placed[table.key].sheet
                held.setdefault(here, set()).add(sheet.name)
                now[as_read(sheet.name)] = here
    for name in [sheet.name for sheet in file.sheets]:
        own = held.get(name, set())
        if now.get(as_read(name), name) != name and as_read(name) not in map(as_read, own):
            what = (
                f"this is the planner's sheet {min(own)!r}" if own else "this is not the planner's sheet of that name"
            )
            yield Finding(
                name, "", "false sheet", None, None,
                f"{what}; the one of that name is called {now[as_read(name)]!r} in this file",
            )  # fmt: skip


def _stretched(file: File) -> Iterator[Finding]:
    """Names of tables that reach beyond the cells of their sheets: what is missing there would not be missed."""
    for name, area, within in stretched(file):
        ends = [f"{address(one.top, one.left)}:{address(one.bottom, one.right)}" for one in (area, within)]
        yield Finding(
            area.sheet, address(area.top, area.left), "name stretched", ends[0], ends[1],
            f"the defined name {name!r} reaches beyond the last cell of its sheet, and is read up to there",
        )  # fmt: skip


def _whole(kind: str, message: str) -> Finding:
    return Finding("the whole file", "", kind, None, None, message)


def _lost(found: Found) -> Iterator[Finding]:
    by_sheet: dict[str, list[bool]] = {}
    for lost in found.lost:
        by_sheet.setdefault(lost.sheet, []).append(lost.key is None)
    rest = "; the figures of this file are not recomputed until it is back"
    gone = {sheet for sheet in by_sheet if all(by_sheet[sheet]) and not _has_tables(found, sheet)}
    for sheet in gone:
        yield Finding(sheet, "", "sheet missing", None, sheet, f"none of the tables of this sheet is there{rest}")
    for lost in found.lost:
        if lost.sheet in gone:
            continue
        kind, what = ("column missing", "column") if lost.key else ("table missing", "table")
        yield Finding(
            lost.sheet, "", kind, None, lost.heading,
            f"the {what} {lost.heading!r} of {lost.table!r} is not there: "
            f"its heading or its defined name was changed, or it was deleted{rest}", None, lost.heading,
        )  # fmt: skip
    for key in found.moved:
        placed = found.placed[key]
        at = address(placed.opening, placed.left)
        yield Finding(placed.sheet, at, "table moved", None, None,
                           f"the table {placed.table.title!r} does not stand where the planner has it")  # fmt: skip


def _has_tables(found: Found, sheet: str) -> bool:
    return any(sheet == placed.sheet for placed in found.placed.values())
