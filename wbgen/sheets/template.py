"""The sheets of a planner, their tables and their columns: what a template says, families expanded.

The files have the same words as flat keys: see `wbgen.sheets.records`. Everything knows where it is written.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal, get_args

from wbgen.files.diagnostics import Place

Role = Literal["input", "formula", "constant"]
Kind = Literal["number", "text", "date"]
System = Literal["metric", "us"]
Show = Literal["plain", "share", "date", "day", "moment"]
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
STYLES: Final = ("strong", "key", "fading", "verdict", "link", "sample", "shrink", "top", "upright", "bar", "beyond")
"""The looks that a column may have besides that of its role."""
BARS: Final = ("bar", "beyond")
"""Those that draw a share from 0 to 1 as a bar instead of its number: up to a caution, and beyond it."""


@dataclass(frozen=True)
class Written:
    """Where something is written in a template: its own place, and that of each of its values by key."""

    place: Place = field(default_factory=lambda: Place(""))
    values: Mapping[str, Place] = field(default_factory=dict)

    def of(self, key: str) -> Place:
        """Where the value of a key stands; where the whole begins if the key is not given."""
        return self.values.get(key, self.place)


@dataclass(frozen=True)
class Unit:
    """A text in each system, most often a unit. A table of both keeps a template in one piece."""

    metric: str
    us: str


@dataclass(frozen=True)
class Digits:
    """Decimals shown in each system."""

    metric: int
    us: int


Default = str | float | int | None


@dataclass(frozen=True)
class Defaults:
    """What a new planner has in an input, in each system: a number, or a text (a quantity with its unit)."""

    metric: Default = None
    us: Default = None


@dataclass(frozen=True)
class Meaning:
    """What the figures of a column are, and where they come from."""

    type: Kind = "number"
    """Whether they are numbers, texts or dates."""
    unit: Unit | None = None
    """The unit of every quantity; a number without one is a count or an index."""
    formula: str | None = None
    """How each is worked out, as it is written; None for an input or a constant."""
    literals: tuple[float, ...] = ()
    """Numbers that the trade's own equation has, such as the 3 of Simpson's rule."""
    blank_unless: tuple[str, ...] | None = None
    """The columns without which this one stays empty, besides those of its table; an empty list lifts these too."""
    constant: bool = False
    """True where a build fills it in and nobody types."""
    running: bool = False
    """True for a constant that counts the records: 1, 2, 3."""


@dataclass(frozen=True)
class Accepts:
    """What an input takes."""

    default: Defaults = Defaults()
    """What a new planner has here."""
    example: Unit | None = None
    """What may be typed here, as a person would, in each system."""
    choices: tuple[str, ...] | str = ()
    """The words to choose from, or the column (`table.key`) that has them."""
    minimum: float | None = None
    """The least that may be typed."""
    maximum: float | None = None
    """The most that may be typed."""

    def default_in(self, system: System) -> Default:
        """What a new planner has here in one system of units; None for nothing."""
        return self.default.metric if system == "metric" else self.default.us


@dataclass(frozen=True)
class Look:
    """How a figure looks in its cell."""

    digits: Digits | int | None = None
    """The decimals shown."""
    show: Show = "plain"
    """As a number, a share in per cent, a date, a day of the year, or a moment: a day with its hour."""
    style: str | None = None
    """One of `STYLES`; None for that of the column's role alone."""
    wrap: bool = False
    """True where a long text takes several lines."""

    def digits_in(self, system: System) -> int | None:
        """The decimals shown in one system; None where there is no saying."""
        if isinstance(self.digits, Digits):
            return self.digits.metric if system == "metric" else self.digits.us
        return self.digits


@dataclass(frozen=True)
class Page:
    """Where a column stands on its sheet, and the words round it."""

    note: str = ""
    """What a person should know of the column."""
    group: str | None = None
    """The heading of a group that begins with this column."""
    outline: str | None = None
    """The name of a group of columns that begins with this one and is folded away, right of what is read each day. It
    goes on to the next one's beginning or to the table's end, and a stub beside it says its name."""
    slot: str | None = None
    """The slot of a form with several cells a line."""
    width: float | None = None
    """Of the sheet's column, in characters."""
    wide: int = 1
    """Cells that a form's figure takes, or one of a column with several lines; more than one for a sentence."""
    skip: int = 0
    """Sheet columns left empty before this one."""
    lines: int = 1
    """Lines of text that a record must have room for."""
    begins: bool = False
    """True where a printed page of a wide table begins (the key `page`)."""


@dataclass(frozen=True)
class Column:
    """One column of a table (one line, where the table lies on its side)."""

    key: str
    heading: str
    meaning: Meaning = Meaning()
    accepts: Accepts = Accepts()
    look: Look = Look()
    page: Page = Page()
    written: Written = field(default_factory=Written, compare=False, repr=False)

    @property
    def role(self) -> Role:
        return "formula" if self.meaning.formula is not None else "constant" if self.meaning.constant else "input"


def is_bar(column: Column) -> bool:
    """Whether a column's shares are drawn as bars."""
    return column.look.style in BARS


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
