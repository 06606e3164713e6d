"""What is asked of the face of the sheets: parts stand together, links lead somewhere, inputs take their examples."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from wbgen.files.diagnostics import Report, did_you_mean, shown
from wbgen.sheets.column import Column
from wbgen.sheets.read import ORDER, Unread
from wbgen.sheets.template import PARTS, Chart, Sheet

MOST_LINES, MOST_MARKS, MOST_BARS = 4, 2, 2
"""Lines, marks and bars of a chart that can be told apart: lines and marks together, the marks among them, the bars."""


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


def check_chart(chart: Chart, report: Report) -> None:
    """Put into the report a chart whose lines cannot be told apart, or that cannot be drawn."""
    if (
        not (chart.lines or chart.bars)
        or len(chart.right) > MOST_MARKS
        or len(chart.lines) + len(chart.right) > MOST_LINES
    ):
        report.add("wrong-value", chart.written.of("lines"), "these lines cannot be told apart",
                        expected=f"a line or a bar, at most {MOST_MARKS} on the right and {MOST_LINES} in all",
                        found=f"{len(chart.lines)} lines, {len(chart.right)} on the right")  # fmt: skip
    if len(chart.bars) > MOST_BARS or (chart.bars and (chart.along or chart.right)):
        report.add("wrong-value", chart.written.of("bars"), "these bars cannot be drawn",
                        expected=f"at most {MOST_BARS}, with lines over the same names",
                        found=f"{len(chart.bars)} bars")  # fmt: skip
    if chart.along and len(chart.along) != len(chart.lines):
        report.add("wrong-value", chart.written.of("along"), "each line needs what it is drawn over",
                        expected=f"{len(chart.lines)} columns", found=f"{len(chart.along)}")  # fmt: skip
    if len(chart.size) != len(("width", "height")):
        report.add("wrong-value", chart.written.of("size"), "this is no size",
                        expected="width and height, in pixels")  # fmt: skip
    if chart.scale is not None and (len(chart.scale) != 2 or chart.scale[0] >= chart.scale[1]):
        report.add("wrong-value", chart.written.of("scale"), "this is no scale",
                        expected="two numbers, the lower one first")  # fmt: skip
