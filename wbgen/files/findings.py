"""What verify says of one cell."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

FOLLOWS, WRONG, MISSING, STALE = "follows", "wrong result", "formula missing", "stale result"

REMEDIES: Final = {
    "formula changed": "copy the formula from the record beside, or undo the change",
    "typed over": "copy the formula from the record beside",
    MISSING: "copy the formula from the record beside",
    WRONG: "tell the makers of wbgen: the template and the model disagree",
    FOLLOWS: "mend the cause; this mends itself",
    STALE: "open the file in a spreadsheet program, recalculate everything and save",
    "input not valid": "type what the cell takes",
    "unknown name": "choose a name from the list, or add it to that sheet",
    "number stored as text": "type the number anew, with your program's own decimal sign",
    "formula in an input": "paste values only",
    "name twice": "give one of them another name",
    "constant changed": "put back what the planner came with",
    "label changed": "put back the words that the planner came with",
    "unit changed": "put back the unit, or build a planner in the units you want",
    "outside the table": "insert rows above the closing row and move it there",
    "row missing": "copy the table's last row down until every record has one",
    "column missing": "undo the change, or build the planner anew",
    "table missing": "undo the change, or build the planner anew",
    "sheet missing": "undo the change, or build the planner anew",
    "false sheet": "give it another name, and the planner's sheet its own, or delete it",
    "name stretched": "give the defined name the table's own cells again, or build the planner anew",
    "table moved": "move it back, or build the planner anew",
    "copy of a table": "delete it: figures beside the planner's own can be taken for them",
    "stray formula": "check it yourself, or keep it in a workbook of your own",
    "shown otherwise": "give the cell the number format of the record beside",
    "conditional format": "delete this conditional format, or build the planner anew",
    "merged cells": "split the cells that were merged",
    "date of calculation": "recalculate and save the file on a machine whose clock is right",
    "calculation": "set the program to calculate by itself, with full precision, without iteration",
    "date system": "set the workbook to dates from 1900",
    "hidden sheet": "show the sheet",
    "macros": "open it with macros off and save it as .xlsx, which holds none",
    "external link": "break the link: keep the values, or delete the cells that draw on the other file",
    "data connection": "delete the connection in the program's list of connections",
    "data query": "delete the query in the program's list of queries",
    "dde": "delete what asks the other program, and do not allow it when you are asked",
    "reaches out": "delete the formula, and do not allow it when you are asked",
    "outside target": "delete what refers there, unless you put it in yourself",
    "embedded object": "delete the object, unless you put it in yourself",
    "calculation by hand": "recalculate before you read a figure, or set the program to calculate by itself",
    "calculation in circles": "set the program to calculate without iteration",
    "fewer digits": "give the cell more decimals, or the year, where you want to see them",
    "filter lost": "put the filter back, if you want it",
    "hidden columns": "show the columns, unless you hid them",
    "hidden rows": "show the rows, or clear the filter, before you read or type on this sheet",
    "protection lost": "protect the sheet again; it needs no password",
    "setting changed": "nothing, if you meant it; else put the usual value back",
    "sheet of your own": "nothing: it is yours",
    "spare cell": "nothing, if it is yours; else empty the cell",
    "validation lost": "build the planner anew, or mind what you type",
    "zeros hidden": "let the sheet show figures that are 0",
}
"""What to do about each kind of finding."""


@dataclass(frozen=True)
class CellAddress:
    """A place in a workbook: `cell` is empty for a sheet as a whole."""

    sheet: str
    cell: str


@dataclass(frozen=True)
class Finding:
    """One cell that is not as it should be.

    `kind` is a stable short name. `cause` is the cell that this one follows from, or None where it is itself the
    cause. `heading` is what the cell's column is called. `units` is what the proof of units says of the formula in
    the file, "" where it has nothing against it.
    """

    sheet: str
    cell: str
    kind: str
    found: Any
    expected: Any
    message: str
    cause: CellAddress | None = None
    heading: str = ""
    units: str = ""

    @property
    def spot(self) -> CellAddress:
        return CellAddress(self.sheet, self.cell)

    @property
    def remedy(self) -> str:
        """What to do about it."""
        return REMEDIES[self.kind]
