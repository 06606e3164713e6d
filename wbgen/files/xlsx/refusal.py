"""What a workbook file may not be, and how that is said."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

KIB: Final = 1024
MIB: Final = 1024 * KIB


class UnsafeFile(Exception):  # noqa: N818 - named for what is refused
    """A file that is not opened.

    `code` names the reason, `expected` and `found` say what is wrong, `remedy` what to do about it.

    >>> print(UnsafeFile("not-a-zip", "an .xlsx workbook", "other content", "save it as .xlsx"))
    not-a-zip: expected an .xlsx workbook, found other content; save it as .xlsx
    """

    def __init__(self, code: str, expected: str, found: str, remedy: str) -> None:
        super().__init__(code, expected, found, remedy)
        self.code = code
        self.expected = expected
        self.found = found
        self.remedy = remedy

    def __str__(self) -> str:
        return f"{self.code}: expected {self.expected}, found {self.found}; {self.remedy}"


@dataclass(frozen=True, slots=True)
class Limits:
    """The largest file that is opened. Sizes are in bytes, `extent`, `grid` and `merged` in cells, `ratio` is of the
    size unpacked to the size packed.

    A planner of 10 000 diary lines is a sheet of 25 MiB, packed 27 times smaller, in about 20 parts.
    A sheet of more than `grid` cells from A1 on holds something in at least one of `emptiness` of them.
    `formulas` are those of one sheet, and the most that a build writes.
    `ratio` counts only once `ratio_from` bytes have come out, because short parts pack by chance.
    """

    file: int = 128 * MIB
    parts: int = 2000
    directory: int = 1 * MIB
    part: int = 256 * MIB
    total: int = 512 * MIB
    ratio: int = 200
    ratio_from: int = 1 * MIB
    depth: int = 100
    extent: int = 10_000_000
    grid: int = 2_000_000
    emptiness: int = 40
    merged: int = 100_000
    formulas: int = 2_000_000


DEFAULT_LIMITS: Final = Limits()

SAVE_ANEW: Final = "open it in a spreadsheet program and save it again as .xlsx"
"""The remedy for a file that is damaged or of another kind."""

DISTRUST: Final = "do not open it unless you know who made it; ask for a copy saved again as .xlsx"
"""The remedy for a file that no spreadsheet program writes by itself."""


def too_deep(part: str, limits: Limits) -> UnsafeFile:
    """The refusal of elements within elements without end."""
    return UnsafeFile("too-deep", f"elements nested at most {limits.depth} deep", f"more in {part}", DISTRUST)


def damaged(found: str) -> UnsafeFile:
    """The refusal of a file whose parts do not add up; `found` says where."""
    return UnsafeFile("damaged-file", "a whole .xlsx file", found, SAVE_ANEW)


def too_large(what: str, limit: str) -> UnsafeFile:
    """The refusal of a file over a limit: `what` was found, `limit` allowed."""
    return UnsafeFile("too-large", limit, what, DISTRUST)


def too_wide(expected: str, found: str) -> UnsafeFile:
    """The refusal of a sheet with cells far from all others."""
    return UnsafeFile(
        "too-wide", expected, found,
        "delete the stray cells far below or to the right, or all rows and columns after the last used",
    )  # fmt: skip
