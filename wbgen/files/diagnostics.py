"""Diagnostics: what is wrong in an input file, where, what was expected, what was found, and what to do about it.

A mistake in a file is a value, never an exception on its own: every reader adds its diagnostics to a `Report` and
goes on, so that a person learns of all of them at once. Only the end of a reading raises, one `InputError` for all.
"""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Final

LONGEST_SHOWN: Final = 60
"""How much of somebody's text a message repeats, in characters."""

MOST_DIAGNOSTICS: Final = 500
"""How many diagnostics a report keeps; the rest is counted."""
MOST_LISTED: Final = 15
"""How many names a message offers at most."""


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A place in an input file: a file, a line and a column (both from 1; 0 is the file as a whole), and the key.

    The key is the path through the file, items counted from 1: `products[3].spray.low`.
    """

    file: str
    line: int = 0
    column: int = 0
    key: str = ""

    def __str__(self) -> str:
        """
        >>> str(Place("lawns.yaml", 3, 9, "site.name")), str(Place("lawns.yaml"))
        ('lawns.yaml:3:9', 'lawns.yaml')
        """
        return f"{self.file}:{self.line}:{self.column}" if self.line else self.file


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """One mistake. `code` is a stable short name for it; `message` says what is wrong in a sentence without a stop.

    `expected`, `found` and `remedy` may be empty where the message says it all.
    """

    code: str
    place: Place
    expected: str
    found: str
    remedy: str
    message: str

    def render(self) -> str:
        """The diagnostic for a person, one fact a line.

        >>> print(Diagnostic("unknown-key", Place("a.yaml", 2, 3, "site.nme"), "name", "nme", "write name", "no such key").render())
        a.yaml:2:3: site.nme: no such key
          expected: name
          found: nme
          do: write name
        """  # noqa: E501
        key = f" {self.place.key}:" if self.place.key else ""
        facts = (("expected", self.expected), ("found", self.found), ("do", self.remedy))
        return "\n".join([f"{self.place}:{key} {self.message}", *(f"  {name}: {text}" for name, text in facts if text)])


class InputError(Exception):
    """What a person gave cannot be used; `diagnostics` (at least one) say why, in the order of the files."""

    def __init__(self, diagnostics: Iterable[Diagnostic]) -> None:
        self.diagnostics = tuple(diagnostics)
        super().__init__("\n".join(diagnostic.render() for diagnostic in self.diagnostics))


@dataclass(slots=True)
class Report:
    """Collects diagnostics. It is handed down to every reader and checker of one run."""

    _diagnostics: dict[Diagnostic, None] = field(default_factory=dict)
    _left_out: int = 0

    def add(
        self, code: str, place: Place, message: str, *, expected: str = "", found: str = "", remedy: str = ""
    ) -> None:
        """Take one diagnostic. One that is already there is not taken twice, and beyond `MOST_DIAGNOSTICS` none is."""
        if len(self._diagnostics) < MOST_DIAGNOSTICS:
            self._diagnostics[Diagnostic(code, place, expected, found, remedy, message)] = None
        else:
            self._left_out += 1

    @property
    def diagnostics(self) -> tuple[Diagnostic, ...]:
        """The diagnostics by file, line and column; the files in the order in which they were first found at fault.

        The last one says how many were left out, if any were.
        """
        files: dict[str, int] = {}
        for diagnostic in self._diagnostics:
            files.setdefault(diagnostic.place.file, len(files))
        kept = sorted(self._diagnostics, key=lambda one: (files[one.place.file], one.place.line, one.place.column))
        if self._left_out:
            message = f"{self._left_out} more findings are left out"
            last = Place(kept[-1].place.file)
            kept.append(Diagnostic("more-findings", last, "", "", "correct these first", message))
        return tuple(kept)

    def __bool__(self) -> bool:
        return bool(self._diagnostics)

    def raise_any(self) -> None:
        """Raise InputError with every diagnostic; do nothing where there is none."""
        if self._diagnostics:
            raise InputError(self.diagnostics)


def nearest(name: str, names: Iterable[str]) -> str:
    """The one of `names` that looks most like `name`, ignoring case, or "" where none does.

    >>> nearest("Amonium sulfate", ["Urea", "Ammonium sulphate"]), nearest("x", ["Urea"])
    ('Ammonium sulphate', '')
    """
    by_fold = {known.casefold(): known for known in names}
    close = difflib.get_close_matches(name.casefold()[:200], by_fold, n=1, cutoff=0.6)
    return by_fold[close[0]] if close else ""


def did_you_mean(name: str, names: Iterable[str]) -> str:
    """What to do about an unknown name: the nearest one, or else the list of them.

    >>> did_you_mean("spay", ["spray", "dry"]), did_you_mean("x", ["spray", "dry"])
    ('did you mean spray?', 'use one of: spray, dry')
    """
    known = list(names)
    near = nearest(name, known)
    if near:
        return f"did you mean {near}?"
    more = ", ..." if len(known) > MOST_LISTED else ""
    return f"use one of: {', '.join(known[:MOST_LISTED])}{more}" if known else ""


def shown(text: object) -> str:
    """Somebody's text as a message may repeat it: quoted, on one line, control characters escaped, not too long.

    >>> shown("a\\x1b[2J"), shown("x" * 100) == "'" + "x" * 60 + "…'"
    ("'a\\\\x1b[2J'", True)
    """
    whole = str(text)
    return repr(whole[:LONGEST_SHOWN] + "…" if len(whole) > LONGEST_SHOWN else whole)


Steps = Callable[[str], None]
"""Called with the name of each step of a command before the step begins."""


def silent(_: str) -> None:
    """Ignore the steps: for callers that show no progress."""
