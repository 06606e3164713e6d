"""A workbook in LibreOffice, by its own programming interface: slower, and what a person's program really does."""

from __future__ import annotations

import json
import re
import subprocess
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, Final

from openpyxl.utils import range_boundaries

from support.office import PROFILE, OfficeError
from thorough.histories.editor import Value
from wbgen.files.xlsx.references import Area

PYTHON: Final = Path("/usr/bin/python3")
"""Debian's Python, which alone finds Debian's `uno`."""
PROGRAM: Final = Path(__file__).with_name("office_program.py")
LOCALE: Final = """<item oor:path="/org.openoffice.Setup/L10N">
<prop oor:name="ooSetupSystemLocale" oor:op="fuse"><value>{}</value></prop></item>
</oor:items>"""
CONTENT: Final = re.compile(r"\$('(?:[^']|'')+'|[^'.]+)\.([$A-Z0-9:]+)")


class OfficeProgram:
    """LibreOffice as it waits for requests. Raises OfficeError where it does not come up, or a request fails."""

    def __init__(self, process: subprocess.Popen[str]) -> None:
        self.process = process

    def ask(self, do: str, **said: Any) -> Any:
        assert self.process.stdin is not None
        assert self.process.stdout is not None
        self.process.stdin.write(json.dumps({"do": do, **said}) + "\n")
        self.process.stdin.flush()
        line = self.process.stdout.readline()
        if not line:
            raise OfficeError(f"LibreOffice is gone, or never came: is python3-uno installed for {PYTHON}?")
        answer = json.loads(line)
        if "error" in answer:
            raise OfficeError(f"{do} {said}: {answer['error']}")
        return answer["value"]


@contextmanager
def office_program(locale: str = "en-US", day: str = "") -> Iterator[OfficeProgram]:
    """LibreOffice with the separators of a locale, and the clock on a day (2026-09-01) where one is given."""
    with TemporaryDirectory(prefix="wbgen-desk-", ignore_cleanup_errors=True) as folder:
        settings = Path(folder, "profile", "user", "registrymodifications.xcu")
        settings.parent.mkdir(parents=True)
        settings.write_text(PROFILE.replace("</oor:items>", LOCALE.format(locale)), encoding="utf-8")
        with subprocess.Popen(
            [str(PYTHON), str(PROGRAM), folder, *([day] if day else [])],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        ) as process:
            try:
                yield OfficeProgram(process)
            finally:
                if process.stdin is not None:
                    process.stdin.close()
                process.wait(timeout=60)


class Office:
    """An editor. It opens a workbook in the program, in the place of the one that was open."""

    def __init__(self, program: OfficeProgram, path: Path) -> None:
        self.ask = program.ask
        self.ask("open", path=str(path))

    def areas(self) -> Mapping[str, Area]:
        found = {}
        for name, content in self.ask("names").items():
            match = CONTENT.fullmatch(content)
            if match is not None:
                left, top, right, bottom = (int(bound) - 1 for bound in range_boundaries(match[2].replace("$", "")))
                sheet = match[1]
                bare = sheet[1:-1].replace("''", "'") if sheet.startswith("'") else sheet
                found[name] = Area(bare, top, left, bottom, right)
        return found

    def shown(self, sheet: str, row: int, column: int) -> Value:
        value = self.ask("shown", sheet=sheet, row=row, column=column)
        return value if value is None or isinstance(value, str) else float(value)

    def type_in(self, sheet: str, row: int, column: int, value: Value) -> None:
        self.ask("type_in", sheet=sheet, row=row, column=column, value=value)

    def insert_rows(self, sheet: str, row: int, count: int) -> None:
        self.ask("insert_rows", sheet=sheet, row=row, count=count)

    def delete_rows(self, sheet: str, row: int, count: int) -> None:
        self.ask("delete_rows", sheet=sheet, row=row, count=count)

    def insert_columns(self, sheet: str, column: int, count: int) -> None:
        self.ask("insert_columns", sheet=sheet, column=column, count=count)

    def fill_row(self, sheet: str, source: int, target: int, columns: range, emptied: Sequence[int]) -> None:
        self.ask("fill_row", sheet=sheet, source=source, target=target, columns=list(columns), emptied=list(emptied))

    def sort_rows(self, area: Area, by: int, typed: Sequence[int]) -> None:
        """The rows change places as they are, formulas and all."""
        del typed
        self.ask("sort_rows", **vars(area), by=by)

    def rename_sheet(self, sheet: str, name: str) -> None:
        self.ask("rename_sheet", sheet=sheet, name=name)

    def hide_rows(self, sheet: str, row: int, count: int) -> None:
        self.ask("hide_rows", sheet=sheet, row=row, count=count)

    def hide_columns(self, sheet: str, column: int, count: int) -> None:
        self.ask("hide_columns", sheet=sheet, column=column, count=count)

    def save(self, target: Path) -> Path:
        self.ask("save", path=str(target))
        return target
