"""Text with a mark « where a finding is expected, so that a case shows its own place."""

from __future__ import annotations

from wbgen.files.diagnostics import Diagnostic

MARK = "«"


def unmarked(text: str) -> tuple[str, list[tuple[int, int]]]:
    """The text without its marks, and the line and column (from 1) at which each stood."""
    places = []
    for number, line in enumerate(text.split("\n"), 1):
        before = line.split(MARK)[:-1]
        places += [(number, len("".join(before[: n + 1])) + 1) for n in range(len(before))]
    return text.replace(MARK, ""), places


def places_of(findings: tuple[Diagnostic, ...]) -> list[tuple[int, int]]:
    """The line and column of each finding."""
    return [(finding.place.line, finding.place.column) for finding in findings]
