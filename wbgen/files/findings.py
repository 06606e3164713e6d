"""Findings: what verify says of a cell, a sheet or a whole workbook, and all that is known of each kind of finding."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from typing import Any


class Level(enum.Enum):
    """Whether a finding makes a planner wrong."""

    FINDING = enum.auto()
    """Something is wrong."""
    WARNING = enum.auto()
    """Nothing is wrong with the planner, and what it says may not be what it said: somebody must have meant that."""
    NOTICE = enum.auto()
    """Nothing is wrong: a person may want it so, and others should know."""
    BY_SHEET = enum.auto()
    """A finding on the planner's sheets, a notice on any other sheet of the file."""


_COPY = "copy the formula from the record beside"
_UNDO = "undo the change, or build the planner anew"


@enum.unique
class Kind(enum.StrEnum):
    """A kind of finding: its words (the value), what to do about it, its level.

    `grouped` says how alike ones are printed: those of one column of one sheet as one group, or else each by itself,
    since each has a text of its own to show.
    """

    remedy: str
    level: Level
    grouped: bool

    def __new__(cls, words: str, remedy: str, level: Level = Level.FINDING, grouped: bool = False) -> Kind:
        kind = str.__new__(cls, words)
        kind._value_ = words
        kind.remedy, kind.level, kind.grouped = remedy, level, grouped
        return kind

    def wrong(self, *, on_planner_sheet: bool) -> bool:
        """Whether it is a finding, and not a notice, where it stands."""
        return self.level is Level.FINDING or (self.level is Level.BY_SHEET and on_planner_sheet)

    # Cells with a formula.
    FORMULA_CHANGED = "formula changed", "copy the formula from the record beside, or undo the change"
    TYPED_OVER = "typed over", _COPY
    FORMULA_MISSING = "formula missing", _COPY, Level.FINDING, True
    WRONG_RESULT = (
        "wrong result", "tell the makers of wbgen: the template and the model disagree", Level.FINDING, True
    )  # fmt: skip
    FOLLOWS = "follows", "mend the cause; this mends itself"
    STALE_RESULT = (
        "stale result", "open the file in a spreadsheet program, recalculate everything and save", Level.FINDING, True
    )  # fmt: skip
    CALCULATION_DATE = "date of calculation", "recalculate and save the file on a machine whose clock is right"

    # Inputs and constants.
    INPUT_NOT_VALID = "input not valid", "type what the cell takes"
    UNKNOWN_NAME = "unknown name", "choose a name from the list, or add it to that sheet"
    NUMBER_AS_TEXT = "number stored as text", "type the number anew, with your program's own decimal sign"
    FORMULA_IN_INPUT = "formula in an input", "paste values only"
    DUPLICATE_NAME = "name twice", "give one of them another name"
    CONSTANT_CHANGED = "constant changed", "put back what the planner came with"
    OUTSIDE_TABLE = "outside the table", "insert rows above the closing row and move it there"
    SETTING_CHANGED = (
        "setting changed", "nothing, if you meant it; else put the usual value back", Level.NOTICE
    )  # fmt: skip

    TO_MEND = "to mend", "do what the cell says: until then it is not reckoned with as you meant it", Level.NOTICE

    # Facts that come from the catalogue.
    FACT_CHANGED = (
        "fact changed", "put back what the catalogue has, unless it is what the label in your hand says", Level.WARNING
    )  # fmt: skip
    NOT_COMPARED = (
        "not compared", "compare each of its facts with the label, or give --lawns", Level.WARNING
    )  # fmt: skip
    DETAIL_CHANGED = "detail changed", "nothing, if you meant it; else put it back", Level.NOTICE
    BASIS_CHANGED = "basis changed", "nothing, if you meant it; else put it back", Level.NOTICE
    PRODUCT_MISSING = "product missing", "nothing, if you took it out", Level.NOTICE

    # Labels and tables.
    LABEL_CHANGED = "label changed", "put back the words that the planner came with"
    UNIT_CHANGED = "unit changed", "put back the unit, or build a planner in the units you want"
    ROW_MISSING = "row missing", "copy the table's last row down until every record has one"
    COLUMN_MISSING = "column missing", _UNDO
    TABLE_MISSING = "table missing", _UNDO
    SHEET_MISSING = "sheet missing", _UNDO
    FALSE_SHEET = "false sheet", "give it another name, and the planner's sheet its own, or delete it"
    NAME_STRETCHED = (
        "name stretched", "give the defined name the table's own cells again, or build the planner anew"
    )  # fmt: skip
    LINK_CHANGED = "link changed", "let it lead to the sheet that it names, or build the planner anew"
    LINK_LOST = "link lost", "find the sheet by its tab, or build the planner anew", Level.NOTICE
    TABLE_MOVED = "table moved", "move it back, or build the planner anew"

    # Cells that are none of the planner's.
    TABLE_COPY = (
        "copy of a table", "delete it: figures beside the planner's own can be taken for them", Level.BY_SHEET
    )  # fmt: skip
    STRAY_FORMULA = "stray formula", "check it yourself, or keep it in a workbook of your own", Level.BY_SHEET
    SPARE_CELL = "spare cell", "nothing, if it is yours; else empty the cell", Level.NOTICE, True
    OWN_SHEET = "sheet of your own", "nothing: it is yours", Level.NOTICE

    # How cells are shown.
    SHOWN_OTHERWISE = "shown otherwise", "give the cell the number format of the record beside"
    CONDITIONAL_FORMAT = "conditional format", "delete this conditional format, or build the planner anew"
    MERGED_CELLS = "merged cells", "split the cells that were merged"
    HIDDEN_SHEET = "hidden sheet", "show the sheet"
    FEWER_DIGITS = (
        "fewer digits", "give the cell more decimals, or the year, where you want to see them", Level.NOTICE
    )  # fmt: skip
    ZEROS_HIDDEN = "zeros hidden", "let the sheet show figures that are 0", Level.NOTICE
    HIDDEN_COLUMNS = "hidden columns", "show the columns, unless you hid them", Level.NOTICE
    HIDDEN_ROWS = (
        "hidden rows", "show the rows, or clear the filter, before you read or type on this sheet", Level.NOTICE
    )  # fmt: skip

    # How the workbook is set.
    CALCULATION = "calculation", "set the program to calculate by itself, with full precision, without iteration"
    DATE_SYSTEM = "date system", "set the workbook to dates from 1900"
    MANUAL_CALCULATION = (
        "calculation by hand", "recalculate before you read a figure, or set the program to calculate by itself",
        Level.NOTICE,
    )  # fmt: skip
    ITERATIVE_CALCULATION = (
        "calculation in circles", "set the program to calculate without iteration", Level.NOTICE
    )  # fmt: skip
    PROTECTION_LOST = "protection lost", "protect the sheet again; it needs no password", Level.NOTICE
    VALIDATION_LOST = "validation lost", "build the planner anew, or mind what you type", Level.NOTICE
    FILTER_LOST = "filter lost", "put the filter back, if you want it", Level.NOTICE

    # What the file holds beside its sheets (`xlsx.hazards`).
    MACROS = "macros", "open it with macros off and save it as .xlsx, which holds none"
    EXTERNAL_LINK = (
        "external link", "break the link: keep the values, or delete the cells that draw on the other file"
    )  # fmt: skip
    DATA_CONNECTION = "data connection", "delete the connection in the program's list of connections"
    DATA_QUERY = "data query", "delete the query in the program's list of queries"
    DDE = "dde", "delete what asks the other program, and do not allow it when you are asked"
    REACHES_OUT = "reaches out", "delete the formula, and do not allow it when you are asked"
    OUTSIDE_TARGET = "outside target", "delete what refers there, unless you put it in yourself"
    EMBEDDED_OBJECT = "embedded object", "delete the object, unless you put it in yourself"


@dataclass(frozen=True)
class CellAddress:
    """A cell of a workbook: its sheet's name and its A1 reference; `cell` is empty for a sheet as a whole."""

    sheet: str
    cell: str


@dataclass(frozen=True)
class Finding:
    """One cell, sheet or workbook that is not as it should be, or that should be known.

    `cell` is empty for a whole sheet; `sheet` is then its name, the name of a part of the file, or "the whole file".
    `found` and `expected` are a number, text, true or false; None where there is nothing to show. `cause` is the cell
    that this one follows from, or None where it is itself the cause. `heading` is what the cell's column is called.
    `units` is what the proof of units says of the formula in the file, "" where it has nothing against it.
    """

    sheet: str
    cell: str
    kind: Kind
    found: Any
    expected: Any
    message: str
    cause: CellAddress | None = None
    heading: str = ""
    units: str = ""

    @property
    def address(self) -> CellAddress:
        return CellAddress(self.sheet, self.cell)
