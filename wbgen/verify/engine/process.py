"""Starts the engine, tells it the day, and takes what it found: values, a refusal, or its death."""

from __future__ import annotations

import json
import os
import re
import signal
import subprocess
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any, Final

from wbgen.files.xlsx.cell_types import ErrorValue
from wbgen.files.xlsx.refusal import DISTRUST, MIB, SAVE_ANEW, UnsafeFile
from wbgen.files.xlsx.sheet_cells import SheetContent
from wbgen.files.xlsx.workbook import File

_ROOT: Final = Path(__file__).resolve().parents[3]
"""The folder of the package wbgen."""

_TEXT: Final = re.compile(r'"[^"]*"')

MEMORY: Final = 512 * MIB
MEMORY_FOR_A_BYTE: Final = 64
"""Bytes that the engine may take, and more for each byte of the file; a planner needs less than 60 of its own bytes."""

SECONDS: Final = 10
SECONDS_FOR_A_MIB: Final = 4
"""Seconds of the processor, and more for each MiB of the file; a planner of 3 000 lines needs less than one a MiB."""


class Engine:
    """A workbook in the engine: see `evaluating`."""

    def __init__(self, path: Path, process: subprocess.Popen[bytes], seconds: int) -> None:
        self._path, self._process, self._seconds = path, process, seconds
        self._day: float | None = None

    def look(self, sheet: SheetContent) -> None:
        """Begin as soon as one of the sheets tells for which day the file was calculated."""
        if self._day is not None:
            return
        for column, formulas in sheet.formulas.items():
            for row, formula in formulas.items():
                day = sheet.values.get(column, {}).get(row)
                if formula == "TODAY()" and isinstance(day, float) and day == int(day) and 0 < day < 1e6:
                    self.begin(day)
                    return

    def begin(self, day: float) -> None:
        """Evaluate for a day (a serial date). Nothing waits for it."""
        if day != self._day:
            self._day = day
            self._say({"day": day})

    def values(self, file: File) -> dict[str, list[list[Any]]]:
        """The value of every cell of each sheet, by row and column from 0: float, str, bool, None or ErrorValue.

        A formula that refers to another file is an error where the engine does not take it. Raises UnsafeFile where
        the engine cannot load the file, or goes beyond its limits.
        """
        extents = {sheet.name: sheet.extent for sheet in file.sheets}
        self._say({"extents": extents, "strange": list(_to_other_files(file))})
        said, _ = self._process.communicate()
        if self._process.returncode:
            raise self._death(self._process.returncode)
        answer = json.loads(said, object_hook=_error)
        if "refused" in answer:
            raise _refusal(answer["refused"])
        values: dict[str, list[list[Any]]] = answer["values"]
        return values

    def _say(self, words: Mapping[str, Any]) -> None:
        with suppress(BrokenPipeError):  # of its death, `values` tells
            if self._process.stdin:
                self._process.stdin.write(json.dumps(words).encode() + b"\n")
                self._process.stdin.flush()

    def _death(self, code: int) -> UnsafeFile:
        if code in (-getattr(signal, "SIGXCPU", 0), -getattr(signal, "SIGKILL", 0)):
            return UnsafeFile(
                "too-much", f"formulas that are evaluated in {self._seconds} s of the processor", "no end by then",
                DISTRUST,
            )  # fmt: skip
        return UnsafeFile(
            "too-much", "formulas that are evaluated in the memory of a planner of that size",
            "an engine that ended without an answer", DISTRUST,
        )  # fmt: skip


@contextmanager
def evaluating(path: Path) -> Iterator[Engine]:
    """The engine at work on a file, in a process of its own that ends with the `with` block.

    The file may be read meanwhile, and refused: nothing that the engine makes of it is believed before `values`.
    """
    size = path.stat().st_size if path.is_file() else 0
    memory, seconds = MEMORY + MEMORY_FOR_A_BYTE * size, SECONDS + SECONDS_FOR_A_MIB * size // MIB
    command = [sys.executable, "-P", "-m", __package__ or "", str(path.absolute()), str(memory), str(seconds)]
    environment = os.environ | {"PYTHONPATH": os.pathsep.join(filter(None, [str(_ROOT), *sys.path]))}
    with subprocess.Popen(  # noqa: S603 - this program itself, and of the file its name alone
        command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, env=environment
    ) as process:
        try:
            yield Engine(path, process, seconds)
        finally:
            process.kill()


def _to_other_files(file: File) -> Iterator[tuple[str, int, int]]:
    """Sheet, row and column of each formula with square brackets: what they enclose is another file, or a table."""
    for sheet in file.sheets:
        for column, formulas in sheet.content.formulas.items():
            for row, formula in formulas.items():
                if "[" in formula and "[" in _TEXT.sub("", formula):
                    yield sheet.name, row, column


def _error(found: dict[str, Any]) -> Any:
    return ErrorValue(found["error"]) if isinstance(found.get("error"), str) else found


def _refusal(reason: str) -> UnsafeFile:
    """The engine's own words name a formula; those of a reader that gave up say nothing to a person."""
    if "panicked" in reason or "open failed" in reason:
        return UnsafeFile(
            "unreadable", "a file that every reader opens", "one that the engine's reader does not open", SAVE_ANEW
        )
    return UnsafeFile("unreadable", "formulas that can be evaluated", reason, "look at the formula that is named")
