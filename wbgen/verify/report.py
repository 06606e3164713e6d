"""What verify found, as lines for a person, as JSON for a program, and as a workbook.

The JSON is format "wbgen-verify", version 1. A later version 1 may add keys and kinds; it takes none away and
changes the meaning of none.
"""

from __future__ import annotations

import errno
import json
import math
import os
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from itertools import groupby
from pathlib import Path
from typing import Any, Final

from wbgen import __version__
from wbgen.files.dates import date_of, day_text
from wbgen.files.diagnostics import Diagnostic, InputError, Place
from wbgen.files.findings import CellAddress, Finding
from wbgen.verify.causes import row_and_column
from wbgen.verify.verification import WITNESSES, Verification
from wbgen.writer import findings_workbook as paper

FORMAT, VERSION = "wbgen-verify", 1
MOST_SHOWN: Final = 8
"""So many places of one kind are named in a line."""


def as_json(result: Verification) -> str:
    """One object: format, version, workbook, day, clean, cells, witnesses, findings, notices."""
    whole = {
        "format": FORMAT,
        "version": VERSION,
        "workbook": result.path.name,
        "today": day_text(result.today) if result.today else None,
        "clean": result.clean,
        "cells": dict(result.cells) | {"all": sum(result.cells.values())},
        "witnesses": dict(result.witnesses),
        "findings": [_object(finding) for finding in result.findings],
        "notices": [_object(finding) for finding in result.notices],
    }
    return json.dumps(_finite(whole), ensure_ascii=False, indent=2, allow_nan=False)


def _object(finding: Finding) -> dict[str, Any]:
    cause = finding.cause
    return {
        "sheet": finding.sheet, "cell": finding.cell, "heading": finding.heading, "kind": finding.kind,
        "found": finding.found, "expected": finding.expected, "message": finding.message, "units": finding.units,
        "cause": {"sheet": cause.sheet, "cell": cause.cell} if cause else None, "do": finding.remedy,
    }  # fmt: skip


def _finite(value: Any) -> Any:
    """The same with numbers that JSON has not as text."""
    if isinstance(value, dict):
        return {key: _finite(one) for key, one in value.items()}
    if isinstance(value, list):
        return [_finite(one) for one in value]
    return str(value) if isinstance(value, float) and not math.isfinite(value) else value


def as_lines(result: Verification) -> Iterator[str]:
    """Each cause with what it is, what to do, and what follows from it; then notices, and the account of all cells."""
    followers: dict[CellAddress, list[Finding]] = {}
    for finding in result.findings:
        if finding.cause is not None:
            followers.setdefault(finding.cause, []).append(finding)
    causes = [finding for finding in result.findings if finding.cause is None]
    for group in _together(causes):
        yield from _told(group, followers)
    for group in _together(result.notices):
        yield f"{_places(group)}: {group[0].kind}: {group[0].message}"
    cells = ", ".join(f"{number} {kind}" for kind, number in result.cells.items())
    yield f"{sum(result.cells.values())} cells: {cells}"
    number, heard = sum(map(len, followers.values())), result.heard
    told = "no finding" if result.clean else f"{len(causes)} findings, {number} cells that follow from them"
    formulas = max(result.witnesses.values())
    if not formulas:
        yield f"the formulas were not recomputed, since something is missing: {told}"
        yield from _of_another_version(result.built_by)
        return
    yield f"{formulas} formula cells, {len(heard)} of {len(WITNESSES)} witnesses ({', '.join(heard)}): {told}"
    if "cached" not in heard:
        yield "the values stored in the file are no witness until a spreadsheet program has calculated and saved it"


def _of_another_version(built_by: str) -> Iterator[str]:
    """What is to be said of a file in which something is missing, where it may be for its version."""
    here = f"wbgen {__version__}"
    if not built_by:
        yield f"its sheet Start does not say what it was built by: if that was not {here}, verify it with that version"
    elif built_by != here:
        yield f"it was built by {built_by}, and this is {here}: verify it with that version"


def _together(findings: Iterable[Finding]) -> Iterator[Sequence[Finding]]:
    """Findings that say the same of one column are told once, unless each has a text of its own to show."""
    ordered = sorted(findings, key=lambda finding: (finding.sheet, finding.kind, finding.heading))
    for (_, kind, _), group in groupby(ordered, key=lambda finding: (finding.sheet, finding.kind, finding.heading)):
        alike = list(group)
        if kind in ("stale result", "formula missing", "spare cell", "wrong result"):
            yield alike
        else:
            yield from ([one] for one in alike)


def _told(group: Sequence[Finding], followers: dict[CellAddress, list[Finding]]) -> Iterator[str]:
    first = group[0]
    yield f"{_places(group)}: {first.kind}: {first.message}" + (f" [{first.heading}]" if first.heading else "")
    if first.found is not None:
        yield f"  found: {first.found}"
    if first.expected is not None:
        yield f"  expected: {first.expected}"
    if first.units:
        yield f"  units: {first.units}"
    yield f"  do: {first.remedy}"
    follow = [finding for one in group for finding in followers.get(one.spot, ())]
    if follow:
        yield f"  {len(follow)} cells follow from it: {_places(follow)}"


def _places(findings: Sequence[Finding]) -> str:
    ordered = sorted(findings, key=lambda finding: (finding.sheet, *row_and_column(finding.cell)[::-1]))
    places = [f"{finding.sheet}!{finding.cell}" if finding.cell else finding.sheet for finding in ordered]
    more = f" … ({len(places)} cells)" if len(places) > MOST_SHOWN else ""
    return ", ".join(places[:MOST_SHOWN]) + more


def refuse_report(path: Path) -> None:
    """Raise InputError where something stands at `path` already, OSError where its folder is not there."""
    if not path.parent.is_dir():
        raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), str(path.parent))
    if os.path.lexists(path):
        what, remedy = "a file stands there already, and a report overwrites none", "give another name"
        raise InputError([Diagnostic("there-already", Place(str(path)), "", "", remedy, what)])


def write_report(result: Verification, path: Path) -> None:
    """Write a workbook of what was found: causes first, then what follows from them, notices, and counts.

    The same result gives the same bytes. Raises as `refuse_report`, and OSError where the file cannot be written.
    """
    refuse_report(path)
    content = paper.findings_workbook(_told_on_paper(result, path))
    path.touch(exist_ok=False)
    try:
        path.write_bytes(content)
    except OSError:
        path.unlink()
        raise


def _told_on_paper(result: Verification, path: Path) -> paper.Told:
    causes = sorted((one for one in result.findings if one.cause is None), key=_stands)
    rank = {finding.spot: number for number, finding in reversed(list(enumerate(causes)))}
    follow = sorted(
        (one for one in result.findings if one.cause is not None),
        key=lambda one: (rank.get(one.cause or one.spot, len(rank)), _stands(one)),
    )
    name = result.path.name
    words = f"No finding in {name}."
    if result.findings:
        words = (
            f"{len(causes)} causes first, then {len(follow)} cells that follow from them. "
            f"Places are links into {name} while both files stay where they are."
        )
    said = f"{len(result.notices)} things that are not wrong, but should be known." if result.notices else "Nothing."
    return paper.Told(
        _way(path, result.path), _day(result),
        [_line(one) for one in (*causes, *follow)], words + _unlisted(len(result.findings)),
        [_line(one) for one in sorted(result.notices, key=_stands)], said + _unlisted(len(result.notices)),
        _counts(result, len(causes), len(follow)),
    )  # fmt: skip


def _stands(finding: Finding) -> tuple[str, int, int, str, str]:
    return finding.sheet, *row_and_column(finding.cell), finding.kind, finding.message


def _unlisted(number: int) -> str:
    more = number - paper.MOST_LISTED
    return f" Only the first {paper.MOST_LISTED} are listed: {more} more are counted, not listed." if more > 0 else ""


def _way(report: Path, planner: Path) -> str:
    """The way from the report's folder to the planner; the whole path where there is no such way (another drive)."""
    whole = planner.resolve()
    try:
        return Path(os.path.relpath(whole, report.parent.resolve())).as_posix()
    except ValueError:
        return whole.as_posix()


def _day(result: Verification) -> date | None:
    """The day for which the file was recomputed; None where it was not, or no calendar has that day."""
    try:
        return date_of(result.today) if result.today else None
    except OverflowError:
        return None


def _line(one: Finding) -> paper.Line:
    cause = paper.CellAddress(one.cause.sheet, one.cause.cell) if one.cause else None
    return paper.Line(
        paper.CellAddress(one.sheet, one.cell), one.heading, one.kind, one.message, _plain(one.found),
        _plain(one.expected), one.units, cause, one.remedy,
    )  # fmt: skip


def _plain(value: Any) -> paper.Plain:
    """A value as a cell holds it: numbers that a cell cannot hold, and all else, as text."""
    if value is None or isinstance(value, str | bool):
        return value
    return float(value) if isinstance(value, int | float) and math.isfinite(value) else str(value)


def _counts(result: Verification, causes: int, follow: int) -> Mapping[str, Sequence[tuple[str, paper.Plain, str]]]:
    day = _day(result)
    unheard = "" if any(result.witnesses.values()) else "the formulas were not recomputed: something is missing"
    remarks = {"cached": unheard or "no spreadsheet program has calculated and saved the file yet"}
    return {
        "File": [
            ("planner", result.path.name, ""),
            ("recomputed for the day", day.isoformat() if day else "", "" if day else "none"),
            ("version of wbgen", __version__, ""),
            ("findings that are causes", causes, ""),
            ("cells that follow from them", follow, ""),
            ("notices", len(result.notices), ""),
        ],
        "Cells that are not empty": [
            *((kind, number, "") for kind, number in result.cells.items()),
            ("all", sum(result.cells.values()), ""),
        ],
        "Formula cells that each witness spoke of": [
            (name, number, "" if number else remarks.get(name, unheard)) for name, number in result.witnesses.items()
        ],
        "Findings by kind": _by_kind(result.findings),
        "Notices by kind": _by_kind(result.notices),
    }


def _by_kind(findings: Iterable[Finding]) -> list[tuple[str, paper.Plain, str]]:
    return [(kind, number, "") for kind, number in sorted(Counter(one.kind for one in findings).items())]
