"""Conditional formats that let a cell show something else than it holds, or nothing.

The planner has some of its own: records that are not used fade from sight, decimals that are 0 are left out, and shares
are drawn as bars beside their figures. Each is known by its condition, or by its column; a look that shows figures
otherwise under any other condition is named.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Final

from wbgen.files.findings import Finding, Kind
from wbgen.files.xlsx.addresses import column_of
from wbgen.files.xlsx.conditional_formats import Look, Rule
from wbgen.files.xlsx.references import Area, area_of
from wbgen.files.xlsx.workbook import File
from wbgen.sheets.book import Book
from wbgen.sheets.column import is_bar
from wbgen.sheets.layout import Placed
from wbgen.sheets.number_format import fixed
from wbgen.writer import styles

INK: Final = styles.INK.removeprefix("#")
PAPERS: Final = tuple(ground.removeprefix("#") for ground in (styles.PAPER, styles.DESK))
"""What a planner's figures are written in and on."""
UNREAD: Final = 1.5
"""Ink and paper of a lower contrast than this cannot be told apart (common practice, no source)."""
SMALLEST: Final = 4.0
"""Letters lower than this, in points, are not read (common practice, no source)."""
ABOVE: Final = 4
"""So many rows above a table's first belong to it: title, note, groups, units."""
_WHOLE: Final = re.compile(r"AND\(ISNUMBER\(([A-Z]+[0-9]+)\),ROUND\(\1,([01])\)=\1\)")
_UNUSED: Final = re.compile(r'\$([A-Z]+)(\$?)([0-9]+)=""')


def findings(file: File, book: Book, placed: Mapping[str, Placed]) -> Iterator[Finding]:
    """The rules of a planner's sheets that show figures or words otherwise, each once."""
    forms = {table.key for sheet in book.sheets if sheet.bare for table in sheet.tables}
    for sheet in file.sheets:
        tables = [one for one in placed.values() if one.sheet == sheet.name]
        bare = any(one.table.key in forms for one in tables)  # a sheet of the file may have been given another name
        for rule in sheet.content.rules:
            areas = _areas(rule.cells, sheet.name)
            if not any(area.meets(_ground(one)) for area in areas for one in tables):
                continue
            why, found = _misleading(rule, areas, file.index.look_of(rule.look), tables, bare)
            if why:
                cells = rule.cells.split()[0].replace("$", "")
                yield Finding(
                    sheet.name,
                    cells,
                    Kind.CONDITIONAL_FORMAT,
                    found,
                    None,
                    f"a conditional format shows otherwise: {why}",
                )


def _misleading(rule: Rule, areas: Sequence[Area], look: Look, tables: Sequence[Placed], bare: bool) -> tuple[str, str]:
    """Why a rule misleads, "" where it does not, and what of it is to be shown."""
    condition = "; ".join(rule.formulas)
    if rule.hides and not (rule.kind == "dataBar" and all(_is_drawn(area, tables) for area in areas)):
        return "it has a bar or a sign in the place of the figure", rule.kind
    if look.number_format is not None and not _shortens(condition, look.number_format, areas):
        return "it has a number format that is none of the planner's", f"{look.number_format} where {condition}"
    if _small(look.size) or (_vanishes(look) and not _fades(condition, areas, tables, bare)):
        return "figures vanish under it", f"where {condition}"
    return "", ""


def _is_drawn(area: Area, tables: Sequence[Placed]) -> bool:
    """Whether all cells of an area are of columns that the templates draw as bars."""
    drawn = {
        one.cell(column.key, record)
        for one in tables for column in one.table.columns if is_bar(column) for record in range(one.count)
    }  # fmt: skip
    cells = {(row, at) for row in range(area.top, area.bottom + 1) for at in range(area.left, area.right + 1)}
    return cells <= drawn


def _shortens(condition: str, code: str, areas: Sequence[Area]) -> bool:
    """Whether a rule leaves out only decimals that are 0."""
    known = _WHOLE.fullmatch(condition)
    at = area_of(known[1], "") if known else None
    return known is not None and at is not None and (at.top, at.left) == _corner(areas) and code == fixed(int(known[2]))


def _fades(condition: str, areas: Sequence[Area], tables: Sequence[Placed], bare: bool) -> bool:
    """Whether a rule lets vanish only what is not used: a table's records without a key, a bare form's empty line."""
    known = _UNUSED.fullmatch(condition)
    if known is None:
        return False
    row, column = int(known[3]) - 1, column_of(known[1])
    if known[2]:
        return all(_only(row, area, tables) for area in areas) and any(
            one.cell(of.key) == (row, column)
            for one in tables if bare and one.single for of in one.table.columns if of.role == "formula"
        )  # fmt: skip
    return row == _corner(areas)[0] and any(
        one.at.get(one.table.vanish or "") == column
        and all(one.first <= area.top and _free(range(one.closing + 1, area.bottom + 1), tables) for area in areas)
        for one in tables
    )


def _only(row: int, area: Area, tables: Sequence[Placed]) -> bool:
    """Whether a row is in an area, and no other row of it is a table's: rows that were inserted widen a rule."""
    others = (at for at in range(area.top, area.bottom + 1) if at != row)
    return area.top <= row <= area.bottom and _free(others, tables)


def _free(rows: Iterable[int], tables: Sequence[Placed]) -> bool:
    """Whether none of the rows is a table's."""
    return not {at for one in tables for at in _rows(one)} & set(rows)


def _rows(one: Placed) -> Iterable[int]:
    """The rows in which a table has figures."""
    return one.at.values() if one.table.direction != "down" else range(one.opening, one.closing + 1)


def _vanishes(look: Look) -> bool:
    if look.font is None and look.fill is None:
        return False
    papers = PAPERS if look.fill is None else (look.fill,)
    return any(_contrast(look.font or INK, paper) < UNREAD for paper in papers)


def _small(size: str | None) -> bool:
    try:
        return size is not None and not float(size) >= SMALLEST
    except ValueError:
        return True


def _contrast(one: str, other: str) -> float:
    """The contrast of two colours, from 1 to 21: Web Content Accessibility Guidelines 2.1, "contrast ratio"."""
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    """Web Content Accessibility Guidelines 2.1, "relative luminance"."""
    parts = [int(colour[at:to], 16) / 255 for at, to in pairwise((0, 2, 4, 6))]
    red, green, blue = (part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _areas(cells: str, sheet: str) -> list[Area]:
    return [area for one in cells.split() if (area := area_of(one, sheet)) is not None]


def _corner(areas: Sequence[Area]) -> tuple[int, int]:
    """Row and column of the cell that a rule's condition is written for."""
    return min(area.top for area in areas), min(area.left for area in areas)


def _ground(one: Placed) -> Area:
    """The cells of a table and of the words round it."""
    places, beside = list(one.at.values()), list(one.beside.values())
    if one.table.direction == "down":
        return Area(one.sheet, one.opening - ABOVE, min(places), one.closing, max(places))
    return Area(one.sheet, min(places) - ABOVE, one.left, max(places), max([one.last, *beside]) + 1)
