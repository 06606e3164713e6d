"""The sheets of a planner and their tables: what a template says, families expanded.

The files have the same words as flat keys: see `wbgen.sheets.records`. Everything knows where it is written.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal, get_args

from wbgen.sheets.column import Column, Unit, Written

Direction = Literal["down", "across"]
Orientation = Literal["portrait", "landscape"]
Part = Literal["today", "plan", "reports", "set_up", "behind"]

GUTTER: Final = 1
"""Columns left empty at the left of a sheet."""
FIRST_ROW: Final = 4
"""The row (from 0) of the first table; above it stand the title, the purpose and the state of the checks."""
PARTS: Final[tuple[Part, ...]] = get_args(Part)
"""The parts of a workbook, in the order of their sheets: what is done today, the plan, reports, what is set up once,
and behind them the workings and registers."""
STANDING: Final = "standing_"
"""Begins the key of the small form that shows the state of the checks on every sheet but the first."""
STUB: Final = "+ "
"""Begins what is said beside a group of columns that is folded away."""
SCOPES: Final = ("so_far", "from_here")
"""Words before a column of the same table in a formula: the records from the first to this one, and from this one to
the last. The first begin with the heading, a text; those from here on have none, so that one may reckon with them."""


@dataclass(frozen=True)
class Table:
    """Records that run down the sheet, or across it where there are few of them.

    `records` is a number, or the name of a capacity that the build sets (one for each lawn, and so on).
    A form is a table of one record that lies across.
    """

    key: str
    title: str
    columns: tuple[Column, ...]
    direction: Direction = "down"
    records: int | str = 1
    blank_unless: tuple[str, ...] = ()
    """The columns without which a record shows nothing."""
    slots: Mapping[str, Unit] = field(default_factory=dict)
    """For a form with several cells a line: the slots, left to right, with their headings."""
    rows: tuple[Mapping[str, str | float], ...] = ()
    """The constants of a table whose records are written in the template; quantities as text."""
    note: str = ""
    """What a person should know of the table."""
    filter: bool = False
    """True where the headings have the arrows of a filter."""
    plain: bool = False
    """True for a table that a person only reads: no note column, no closing row."""
    vanish: str | None = None
    """The column whose empty cells make the rest of their record fade from sight."""
    span: int = 1
    """Sheet columns that the headings of a table lying across may take."""
    page: bool = False
    """True where a printed page begins with this table."""
    joined: bool = False
    """True for a form of which each heading has its unit behind it, after a comma."""
    at: tuple[int, int] | None = None
    """The row and column (from 0) of its title, where it stands in a place of its own and not below the one before."""
    written: Written = field(default_factory=Written, compare=False, repr=False)

    @property
    def outlines(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """The groups of columns that are folded away: the words of each stub, and the keys of its columns."""
        found: list[tuple[str, list[str]]] = []
        for column in self.columns:
            if column.page.outline is not None:
                found.append((STUB + column.page.outline, []))
            if found:
                found[-1][1].append(column.key)
        return tuple((words, tuple(keys)) for words, keys in found)

    @property
    def standing(self) -> bool:
        """True for the form at the head of a sheet that shows the state of the checks."""
        return self.key.startswith(STANDING)


@dataclass(frozen=True)
class Chart:
    """Lines and bars of one table's columns over another of its columns.

    It is drawn to the right of the table, or where it says: then the table may be one of another sheet.
    """

    table: str
    over: str
    lines: tuple[str, ...]
    title: str
    along: tuple[str, ...] = ()
    """The column that each line is drawn over, where they differ: as many as there are lines."""
    bars: tuple[str, ...] = ()
    """Columns drawn as bars behind the lines, over names."""
    at: tuple[int, int] | None = None
    """The row and column (from 0) of its corner."""
    size: tuple[int, ...] = (520, 330)
    """Width and height, in pixels."""
    of: str = ""
    """What the lines are of; empty for the heading of the first."""
    right: tuple[str, ...] = ()
    """Columns drawn as marks without a line, with an axis of their own at the right."""
    scale: tuple[float, ...] | None = None
    """The ends of the axis at the right. Cells without a figure are drawn as 0, so it should begin above that."""
    written: Written = field(default_factory=Written, compare=False, repr=False)


@dataclass(frozen=True)
class Sheet:
    """A sheet of the workbook: its tables from top to bottom, and how it is printed."""

    name: str
    purpose: str
    tables: tuple[Table, ...] = ()
    part: Part = "behind"
    """The part of the workbook that it belongs to; its tab has the colour of that."""
    links: tuple[str, ...] = ()
    """Names of the sheets that its second row leads to: its neighbours in the work, last the one with its workings."""
    orientation: Orientation = "landscape"
    freeze: bool = True
    """True where the headings of its one long table stay in view."""
    widths: tuple[float, ...] = ()
    """Of the sheet's columns from the left, in characters; they come before the columns' own."""
    printed: int | None = None
    """The sheet columns (from the left) that are printed, where those to their right are the working behind them."""
    last_printed: str = ""
    """The last table that is printed, where those below it are the working behind it; goes with `printed`."""
    repeat: int = 1
    """Columns printed again on every page of a wide sheet."""
    charts: tuple[Chart, ...] = ()
    bare: bool = False
    """True for a sheet that is read by others: no decimals that are 0, and empty lines fade."""
    paper: bool = False
    """True for a page to print, on white ground; what is not typed stands on tinted ground else."""
    headless: bool = False
    """True for a page to print whose head, with its links and the state of the checks, stays on the screen."""
    gap: int = 2
    """Rows left empty between two tables."""
    notes_column: int | None = None
    """The sheet column (from 0) of all notes, wrapped; without it they stand beside their figures."""
    size: int = 10
    """Size of the sheet's print, in points."""
    written: Written = field(default_factory=Written, compare=False, repr=False)
