"""What a file has beside its cells: sheets hidden or added, rows hidden, protection lost, how it shows and computes."""

from __future__ import annotations

import re
from collections.abc import Iterator

from wbgen.finding import Disagreement
from wbgen.reader import File, SheetCells
from wbgen.sheets.formula import letters, place
from wbgen.sheets.found import Found
from wbgen.sheets.layout import Placed
from wbgen.sheets.template import Column

NOT_SAID = frozenset({"hidden-sheet"})
"""Notes of the first look at a file that are said here better."""


def findings(file: File, found: Found) -> Iterator[Disagreement]:
    """What makes the file's figures untrustworthy, or goes beyond what a planner holds."""
    for note in file.notes:
        if note.code not in NOT_SAID:
            yield Disagreement(note.part, "", note.code.replace("-", " "), None, None, f"{note.text} ({note.part})")
    for sheet in file.sheets:
        if sheet.hidden:
            yield Disagreement(sheet.name, "", "hidden sheet", None, None, "a planner hides no sheet: show it")
    calculation = file.index.calculation
    if calculation.get("fullPrecision") in ("0", "false"):
        yield _whole("calculation", "the program is set to calculate with the digits shown, not with the figures")
    if calculation.get("iterate") in ("1", "true"):
        yield _whole("calculation", "the program is set to let formulas run in circles")
    if file.index.dates_from_1904:
        yield _whole("date system", "dates count from 1904, and the planner's from 1900")
    yield from _lost(found)
    for placed in found.placed.values():
        known = file.sheet(placed.sheet)
        if known is not None:
            yield from _shown_otherwise(file, known, placed)


def notices(file: File, found: Found) -> Iterator[Disagreement]:
    """What a person may do, and others should know."""
    if file.index.calculation.get("calcMode") == "manual":
        yield _whole("calculation by hand", "the program is set to calculate only when it is told to")
    planner = {placed.sheet for placed in found.placed.values()}
    for sheet in file.sheets:
        if sheet.name not in planner:
            yield Disagreement(sheet.name, "", "sheet of your own", None, None, "this sheet is not the planner's")
            continue
        content = sheet.content
        if not content.protected:
            yield Disagreement(sheet.name, "", "protection lost", None, None, "formulas here can be typed over")
        own = [placed for placed in found.placed.values() if placed.sheet == sheet.name]
        wanted = any(column.role == "input" for placed in own for column in placed.table.columns)
        if wanted and not content.validations:
            yield Disagreement(sheet.name, "", "validation lost", None, None, "inputs here take anything")
        if any(placed.table.filter for placed in own) and not content.filtered:
            yield Disagreement(sheet.name, "", "filter lost", None, None, "the table has no filter any more")
        if content.hidden_rows:
            rows = ", ".join(str(row + 1) for row in content.hidden_rows[:8])
            more = " …" if len(content.hidden_rows) > 8 else ""
            what = f"{len(content.hidden_rows)} rows are hidden or filtered out: {rows}{more}"
            yield Disagreement(sheet.name, "", "hidden rows", None, None, what)
        if content.hidden_columns:
            spans = ", ".join(f"{letters(first)} to {letters(last)}" for first, last in content.hidden_columns[:8])
            yield Disagreement(sheet.name, "", "hidden columns", None, None, f"columns are hidden: {spans}")


def _whole(kind: str, message: str) -> Disagreement:
    return Disagreement("the whole file", "", kind, None, None, message)


def _lost(found: Found) -> Iterator[Disagreement]:
    by_sheet: dict[str, list[bool]] = {}
    for lost in found.lost:
        by_sheet.setdefault(lost.sheet, []).append(lost.key is None)
    rest = "; the figures of this file are not recomputed until it is back"
    gone = {sheet for sheet in by_sheet if all(by_sheet[sheet]) and not _has_tables(found, sheet)}
    for sheet in gone:
        yield Disagreement(sheet, "", "sheet missing", None, sheet, f"none of the tables of this sheet is there{rest}")
    for lost in found.lost:
        if lost.sheet in gone:
            continue
        kind, what = ("column missing", "column") if lost.key else ("table missing", "table")
        yield Disagreement(
            lost.sheet, "", kind, None, lost.heading,
            f"the {what} {lost.heading!r} of {lost.table!r} is not there: "
            f"its heading or its defined name was changed, or it was deleted{rest}", None, lost.heading,
        )  # fmt: skip
    for key in found.moved:
        placed = found.placed[key]
        at = place(placed.opening, placed.left)
        yield Disagreement(placed.sheet, at, "table moved", None, None,
                           f"the table {placed.table.title!r} does not stand where the planner has it")  # fmt: skip


def _has_tables(found: Found, sheet: str) -> bool:
    return any(sheet == placed.sheet for placed in found.placed.values())


def _shown_otherwise(file: File, sheet: SheetCells, placed: Placed) -> Iterator[Disagreement]:
    """Cells whose number format shows another figure than they hold; the first of each stretch of a column."""
    for column in placed.table.columns:
        ends = range(placed.count) if placed.table.direction == "across" else (0, placed.count - 1)
        rows: dict[int, list[int]] = {}
        for row, at in (placed.cell(column.key, record) for record in ends):
            rows.setdefault(at, []).append(row)
        for at, held in rows.items():
            for row, style in _stretches(sheet.content.styles.get(at, []), held[0], held[-1]):
                said = misleading(file.index.format_of(style), column)
                if said:
                    yield Disagreement(sheet.name, place(row, at), "shown otherwise", file.index.format_of(style), None,
                                       f"the number format shows another figure than the cell holds: {said}", None,
                                       column.heading)  # fmt: skip


def _stretches(styles: list[tuple[int, int]], first: int, last: int) -> Iterator[tuple[int, int]]:
    """Row and style where a stretch of one style begins, from `first` to `last`."""
    before = None
    for row, style in styles:
        if row > last:
            break
        if row < first:
            before = style
            continue
        if before is not None and row > first:
            yield first, before
        before = None
        yield row, style
    if before is not None:
        yield first, before


_SYMBOL = re.compile(r"\[\$([^\]-]*)")
_LITERAL = re.compile(r'"([^"]*)"|\\(.)|_(.)|\*(.)')


def misleading(number_format: str, column: Column) -> str:
    """Why a number format shows another figure than a cell of `column` holds; "" where it does not.

    >>> from wbgen.sheets.template import Column
    >>> area = Column(key="area", heading="Area")
    >>> misleading('0.00', area), misleading('"120"', area), misleading("[$12]0.00", area)
    ('', 'it has digits of its own', 'it has digits of its own')
    >>> misleading('General;General;General;"Go"', Column(key="verdict", heading="Verdict", type="text"))
    'it has words of its own'
    """
    sections = number_format.split(";")
    if column.type == "text":
        return (
            ""
            if all(one == "@" for one in (*sections[3:4], *(s for s in sections if "@" in s)))
            else "it has words of its own"
        )
    written = "".join("".join(match) for match in (*_LITERAL.findall(number_format), *_SYMBOL.findall(number_format)))
    bare = [_LITERAL.sub("", re.sub(r"\[[^\]]*\]", "", section)).strip() for section in sections]
    if any(sign.isnumeric() for sign in written) or any(re.search("[1-9]", section) for section in bare):
        return "it has digits of its own"
    if any(not section for section in bare):
        return "it shows nothing of some figures"
    if bare[0].casefold() in ("general", "@") or column.type == "date" or column.show == "date":
        return ""
    if any(re.search(r"[0#?],+(?![0#?])", section) for section in bare):
        return "it shows thousandths"
    if "%" in number_format and column.show != "share":
        return "it shows a hundred times as much"
    if any(re.search("[ymdhs]", section, re.IGNORECASE) for section in bare):
        return "it shows a date"
    return ""
