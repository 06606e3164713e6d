"""What is asked of the face of the sheets: parts stand together, links lead somewhere, inputs take their examples."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from wbgen.files.diagnostics import Report, did_you_mean, shown
from wbgen.sheets.column import Column
from wbgen.sheets.read import ORDER, Unread
from wbgen.sheets.template import PARTS, Sheet


def check_examples(sheets: Sequence[Sheet], report: Report) -> None:
    """Put into the report examples that their own column would not take."""
    told = set()
    for column in (column for sheet in sheets for table in sheet.tables for column in table.columns):
        example, place = column.accepts.example, column.written.of("example")
        if example is None or place in told:
            continue
        wrong = [one for one in (example.metric, example.us) if not _taken(one, column)]
        if wrong or column.role != "input":
            told.add(place)
            report.add("wrong-value", place, f"{column.key} would not take this example",
                       expected="what may be typed there: of a number, one within its ends",
                       found=shown((wrong or [example.metric])[0]))  # fmt: skip


def _taken(example: str, column: Column) -> bool:
    """Whether an input of the column takes what is typed so."""
    if column.accepts.choices or column.meaning.type != "number":
        return not isinstance(column.accepts.choices, tuple) or example in (column.accepts.choices or (example,))
    share = column.look.show == "share"
    try:
        number = float(example.removesuffix("%")) / (100 if share and example.endswith("%") else 1)
    except ValueError:
        return False
    low, high = column.accepts.minimum, column.accepts.maximum
    return (low is None or number >= low) and (high is None or number <= high)


def check_front(sheets: Sequence[Sheet], unread: Unread, report: Report) -> None:
    """Put into the report sheets out of the order of their parts, and links to sheets that are not there."""
    for before, sheet in pairwise(sheets):
        if PARTS.index(sheet.part) < PARTS.index(before.part):
            report.add("wrong-order", sheet.written.of("part"), f"the sheet {sheet.name} stands behind {before.name}, "
                       f"and its part before that one's", expected=" then ".join(PARTS),
                       found=f"{before.part}, then {sheet.part}",
                       remedy=f"move it forward in {ORDER}, or write another part")  # fmt: skip
    names = [sheet.name for sheet in sheets]
    for sheet in sheets:
        seen: set[str] = set()
        for number, name in enumerate(sheet.links, 1):
            place = sheet.written.values.get(f"links[{number}]", sheet.written.of("links"))
            if name not in names and not unread.more:
                report.add("unknown-name", place, f"{shown(name)} is not a sheet", expected="the name of a sheet",
                           found=shown(name), remedy=did_you_mean(name, names))  # fmt: skip
            elif name in seen or name == sheet.name:
                report.add("twice", place, f"the sheet {sheet.name} leads to {shown(name)} "
                           f"{'twice' if name in seen else 'as to another'}", expected="each other sheet once",
                           found=shown(name), remedy="delete the link")  # fmt: skip
            seen.add(name)
