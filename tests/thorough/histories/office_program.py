"""LibreOffice at the other end of a pipe: one request a line in, one answer a line out, both JSON.

Runs under the Python that has the `uno` module (Debian's own, with python3-uno), apart from all else here.
Usage: python3 office_program.py FOLDER [DAY]. FOLDER holds the profile; DAY is for the clock that faketime shows.
"""

from __future__ import annotations

import importlib
import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Final

START: Final = 90.0
"""Seconds that the program may take to start."""
TYPED: Final = 1 | 2 | 4
"""Kinds of contents that are emptied: numbers, dates, texts; no formulas, no looks."""


class Book:
    """The one open workbook."""

    def __init__(self, uno: Any, desktop: Any) -> None:
        self.uno, self.desktop = uno, desktop
        self.document: Any = None

    def _property(self, name: str, value: Any) -> Any:
        made = self.uno.createUnoStruct("com.sun.star.beans.PropertyValue")
        made.Name, made.Value = name, value
        return made

    def _sheet(self, name: str, unlock: bool = False) -> Any:
        sheet = self.document.Sheets.getByName(name)
        if unlock and sheet.isProtected():
            sheet.unprotect("")
        return sheet

    def open(self, path: str) -> None:
        self.close()
        opened = [self._property(name, True) for name in ("Hidden", "AsTemplate")]  # a template is not locked
        self.document = self.desktop.loadComponentFromURL(Path(path).as_uri(), "_blank", 0, tuple(opened))
        if self.document is None:
            raise FileNotFoundError(f"LibreOffice does not open {path}")

    def close(self) -> None:
        if self.document is not None:
            self.document.close(True)
            self.document = None

    def save(self, path: str) -> None:
        self.document.calculateAll()
        chosen = self._property("FilterName", "Calc MS Excel 2007 XML")
        self.document.storeToURL(Path(path).as_uri(), (chosen,))

    def names(self) -> dict[str, str]:
        named = self.document.NamedRanges
        return {name: named.getByName(name).Content for name in named.ElementNames}

    def shown(self, sheet: str, row: int, column: int) -> float | str | None:
        value = self._sheet(sheet).getCellByPosition(column, row).getDataArray()[0][0]
        return value if value != "" else None

    def type_in(self, sheet: str, row: int, column: int, value: float | str | None) -> None:
        cell = self._sheet(sheet).getCellByPosition(column, row)
        if value is None:
            cell.clearContents(TYPED)
        elif isinstance(value, str):
            cell.setString(value)
        else:
            cell.setValue(value)

    def insert_rows(self, sheet: str, row: int, count: int) -> None:
        self._sheet(sheet, True).Rows.insertByIndex(row, count)

    def delete_rows(self, sheet: str, row: int, count: int) -> None:
        self._sheet(sheet, True).Rows.removeByIndex(row, count)

    def insert_columns(self, sheet: str, column: int, count: int) -> None:
        self._sheet(sheet, True).Columns.insertByIndex(column, count)

    def move_column(self, sheet: str, column: int, before: int) -> None:
        """A column cut and put in before another one."""
        whole = self._sheet(sheet, True)
        whole.Columns.insertByIndex(before, 1)
        source = column + (column >= before)
        target = self._address(whole, before)
        whole.moveRange(target, whole.Columns.getByIndex(source).getRangeAddress())
        whole.Columns.removeByIndex(source, 1)

    def _address(self, whole: Any, column: int) -> Any:
        return whole.getCellByPosition(column, 0).getCellAddress()

    def fill_row(self, sheet: str, source: int, target: int, columns: Sequence[int], emptied: Sequence[int]) -> None:
        whole = self._sheet(sheet, True)
        row = whole.getCellRangeByPosition(columns[0], source, columns[-1], source)
        whole.copyRange(whole.getCellByPosition(columns[0], target).getCellAddress(), row.getRangeAddress())
        for column in emptied:
            whole.getCellByPosition(column, target).clearContents(TYPED)

    def sort_rows(self, sheet: str, top: int, left: int, bottom: int, right: int, by: int) -> None:
        field = self.uno.createUnoStruct("com.sun.star.table.TableSortField")
        field.Field, field.IsAscending = by - left, True
        fields = self.uno.Any("[]com.sun.star.table.TableSortField", (field,))
        rows = self._sheet(sheet, True).getCellRangeByPosition(left, top, right, bottom)
        rows.sort((self._property("SortFields", fields), self._property("ContainsHeader", False)))

    def rename_sheet(self, sheet: str, name: str) -> None:
        self._sheet(sheet).setName(name)

    def move_sheet(self, sheet: str, place: int) -> None:
        self.document.Sheets.moveByName(sheet, place)

    def hide_rows(self, sheet: str, row: int, count: int) -> None:
        self._sheet(sheet, True).getCellRangeByPosition(0, row, 0, row + count - 1).Rows.IsVisible = False

    def hide_columns(self, sheet: str, column: int, count: int) -> None:
        self._sheet(sheet, True).getCellRangeByPosition(column, 0, column + count - 1, 0).Columns.IsVisible = False

    def colour(self, sheet: str, row: int, column: int, colour: int) -> None:
        cell = self._sheet(sheet, True).getCellByPosition(column, row)
        cell.CellBackColor = colour
        cell.CharWeight = 150.0

    def remark(self, sheet: str, row: int, column: int, text: str) -> None:
        """A remark that hangs on a cell."""
        whole = self._sheet(sheet, True)
        whole.Annotations.insertNew(whole.getCellByPosition(column, row).getCellAddress(), text)

    def unprotect(self) -> None:
        for name in self.document.Sheets.ElementNames:
            self._sheet(name, True)

    def unvalidate(self, sheet: str) -> None:
        """Take away what the cells of a sheet accept."""
        whole = self._sheet(sheet, True)
        used = whole.createCursor()
        used.gotoEndOfUsedArea(True)
        rules = used.Validation
        rules.setPropertyValue("Type", self.uno.Enum("com.sun.star.sheet.ValidationType", "ANY"))
        for shown in ("ShowInputMessage", "ShowErrorMessage"):
            rules.setPropertyValue(shown, False)
        used.Validation = rules

    def unfilter(self) -> None:
        named = self.document.DatabaseRanges
        for name in named.ElementNames:
            named.getByName(name).AutoFilter = False
        unnamed = self.document.getPropertyValue("UnnamedDatabaseRanges")
        for index in range(self.document.Sheets.Count):
            if unnamed.hasByTable(index):
                unnamed.getByTable(index).AutoFilter = False


def connected(uno: Any, pipe: str, program: subprocess.Popen[bytes]) -> Any:
    """The program's desktop, as soon as it answers."""
    context = uno.getComponentContext()
    resolver = context.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", context)
    end = time.monotonic() + START
    while True:
        try:
            remote = resolver.resolve(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
            return remote.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", remote)
        except uno.getClass("com.sun.star.connection.NoConnectException"):
            if time.monotonic() > end or program.poll() is not None:
                raise
            time.sleep(0.1)


def answer(book: Book, line: str) -> dict[str, Any]:
    """What comes of a request: a value, or the program's own complaint."""
    request = json.loads(line)
    try:
        return {"value": getattr(book, request.pop("do"))(**request)}
    except (book.uno.getClass("com.sun.star.uno.Exception"), FileNotFoundError) as error:
        return {"error": f"{type(error).__name__}: {error}"}


def main(folder: str, day: str = "") -> None:
    uno = importlib.import_module("uno")
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))  # or the program would outlive this one
    pipe = f"wbgen-{os.getpid()}"
    program = subprocess.Popen(
        [
            *(["faketime", f"{day} 12:00:00"] if day else []),
            "soffice",
            f"-env:UserInstallation={Path(folder, 'profile').as_uri()}",
            "--headless",
            "--norestore",
            f"--accept=pipe,name={pipe};urp;StarOffice.ComponentContext",
        ],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
        env={**os.environ, "XDG_RUNTIME_DIR": folder},
    )
    try:
        book = Book(uno, connected(uno, pipe, program))
        for line in sys.stdin:
            print(json.dumps(answer(book, line)), flush=True)
    finally:
        os.killpg(program.pid, signal.SIGKILL)
        program.wait()


if __name__ == "__main__":
    main(*sys.argv[1:])
