"""The records of a template: a sheet, its tables, their columns."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, model_validator

Role = Literal["input", "formula", "constant"]
Kind = Literal["number", "text", "date"]
System = Literal["metric", "us"]

NAME = r"^[a-z][a-z_]*[a-z]$"
"""Keys are lower-case words joined by underscores; digits would make some of them cell addresses."""


STANDING = "standing_"
"""Begins the key of the small form that shows the state of the checks on every sheet but the first."""


class Record(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class Unit(Record):
    """The unit of a column in each system, as pint text. A table of both keeps a template in one piece."""

    metric: str
    us: str


class Digits(Record):
    """Decimals shown in each system."""

    metric: int
    us: int


def _both(unit: object) -> object:
    return {"metric": unit, "us": unit} if isinstance(unit, str) else unit


def _default(value: object) -> object:
    return Unit.model_validate(value) if isinstance(value, dict) else value


class Column(Record):
    """One column of a table (one line, where the table lies on its side).

    `unit` is stated for every quantity; a number without one is a count or an index. `blank_unless` names
    the columns without which this one stays empty, besides those of its table; an empty list lifts these too.
    """

    key: str = Field(pattern=NAME)
    heading: str
    type: Kind = "number"
    unit: Annotated[Unit | None, BeforeValidator(_both)] = None
    formula: str | None = None
    constant: bool = False
    running: bool = False
    """True for a constant that counts the records: 1, 2, 3."""
    default: Annotated[Unit | str | float | int | None, BeforeValidator(_default)] = None
    """What a new planner has here: a number, a quantity as text, or one of these in each system."""
    literals: tuple[float, ...] = ()
    """Numbers that the trade's own equation has, such as the 3 of Simpson's rule."""
    choices: tuple[str, ...] | str = ()
    minimum: float | None = None
    maximum: float | None = None
    digits: Digits | int | None = None
    show: Literal["plain", "share", "date", "day", "moment", "each"] = "plain"
    """A moment is a day with its hour; `each`: as the family's member says, and with its digits."""
    blank_unless: tuple[str, ...] | None = None
    each: str | None = None
    slot: str | None = None
    group: str | None = None
    note: str = ""
    width: float | None = None
    wrap: bool = False
    wide: int = 1
    """Cells that a form's figure takes, or one of a column with several lines; more than one for a sentence."""
    skip: int = 0
    """Sheet columns left empty before this one."""
    lines: int = 1
    """Lines of text that a record must have room for."""
    style: str | None = None
    page: bool = False
    """True where a printed page of a wide table begins."""
    beside: bool = False
    """True for a column of a family whose members stand with those of the column before: A one, A two, B one, B two."""

    @property
    def role(self) -> Role:
        return "formula" if self.formula is not None else "constant" if self.constant else "input"

    @model_validator(mode="after")
    def _one_role(self) -> Column:
        if self.formula is not None and self.constant:
            raise ValueError("a column is a formula or a constant, not both")
        if self.type != "number" and self.unit is not None:
            raise ValueError("only a number has a unit")
        return self


class Table(Record):
    """Records that run down the sheet, or across it where there are few of them.

    `records` is a number, or the name of a capacity that the build sets (one for each lawn, and so on).
    A form is a table of one record that lies across.
    """

    key: str = Field(pattern=NAME)
    title: str
    direction: Literal["down", "across"] = "down"
    records: int | str = 1
    blank_unless: tuple[str, ...] = ()
    columns: tuple[Column, ...]
    slots: dict[str, Annotated[Unit, BeforeValidator(_both)]] = Field(default_factory=dict)
    """For a form with several cells a line: the slots, left to right, with their headings."""
    rows: tuple[dict[str, str | float], ...] = ()
    """The constants of a table whose records are written in the template; quantities as text."""
    note: str = ""
    filter: bool = False
    plain: bool = False
    """True for a table that a person only reads: no note column, no closing row."""
    vanish: str | None = None
    """The column whose empty cells make the rest of their record fade from sight."""
    span: int = 1
    """Sheet columns that the headings of a table lying across may take."""
    page: bool = False
    """True where a printed page begins with this table."""

    @property
    def standing(self) -> bool:
        """True for the form at the head of a sheet that shows the state of the checks."""
        return self.key.startswith(STANDING)


class Chart(Record):
    """Lines of one table's columns over another of its columns, drawn to the right of the table."""

    table: str
    over: str
    lines: tuple[str, ...]
    title: str
    of: str = ""
    """What the lines are of; empty for the heading of the first."""
    right: tuple[str, ...] = ()
    """Columns drawn as marks without a line, with an axis of their own at the right."""
    scale: tuple[float, float] | None = None
    """The ends of the axis at the right. Cells without a figure are drawn as 0, so it should begin above that."""


class Sheet(Record):
    name: str = Field(max_length=31)
    purpose: str
    orientation: Literal["portrait", "landscape"] = "landscape"
    tables: tuple[Table, ...] = ()
    freeze: bool = True
    widths: tuple[float, ...] = ()
    printed: int | None = None
    """The sheet columns (from the left) that are printed, where those to their right are the working behind them."""
    last_printed: str = ""
    """The last table that is printed, where those below it are the working behind it; goes with `printed`."""
    repeat: int = 1
    """Columns printed again on every page of a wide sheet."""
    charts: tuple[Chart, ...] = ()
    bare: bool = False
    """True for a sheet that is printed for others: formulas are not shaded."""
    gap: int = 2
    """Rows left empty between two tables."""
    notes_column: int | None = None
    """The sheet column (from 0) of all notes, wrapped; without it they stand beside their figures."""
    size: int = 10
    """Size of the sheet's print, in points."""
