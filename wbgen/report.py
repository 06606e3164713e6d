"""What verify found, as lines for a person and as JSON for a program.

The JSON is format "wbgen-verify", version 1. A later version 1 may add keys and kinds; it takes none away and
changes the meaning of none.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from typing import Any, Final

from wbgen.causes import row_and_column
from wbgen.finding import Disagreement, Spot
from wbgen.rows import date_of
from wbgen.verify import WITNESSES, Verification

FORMAT, VERSION = "wbgen-verify", 1
MOST_SHOWN: Final = 8
"""So many places of one kind are named in a line."""


def as_json(result: Verification) -> str:
    """One object: format, version, workbook, day, clean, cells, witnesses, findings, notices."""
    whole = {
        "format": FORMAT,
        "version": VERSION,
        "workbook": result.path.name,
        "today": date_of(result.today).isoformat() if result.today else None,
        "clean": result.clean,
        "cells": dict(result.cells) | {"all": sum(result.cells.values())},
        "witnesses": dict(result.witnesses),
        "findings": [_object(finding) for finding in result.findings],
        "notices": [_object(finding) for finding in result.notices],
    }
    return json.dumps(_finite(whole), ensure_ascii=False, indent=2, allow_nan=False)


def _object(finding: Disagreement) -> dict[str, Any]:
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
    followers: dict[Spot, list[Disagreement]] = {}
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
        return
    yield f"{formulas} formula cells, {len(heard)} of {len(WITNESSES)} witnesses ({', '.join(heard)}): {told}"
    if "cached" not in heard:
        yield "the values stored in the file are wbgen's own until a spreadsheet program has calculated and saved it"


def _together(findings: Iterable[Disagreement]) -> Iterator[Sequence[Disagreement]]:
    """Findings that say the same of one column are told once, unless each has a text of its own to show."""
    ordered = sorted(findings, key=lambda finding: (finding.sheet, finding.kind, finding.heading))
    for (_, kind, _), group in groupby(ordered, key=lambda finding: (finding.sheet, finding.kind, finding.heading)):
        alike = list(group)
        if kind in ("stale result", "formula missing", "spare cell", "wrong result"):
            yield alike
        else:
            yield from ([one] for one in alike)


def _told(group: Sequence[Disagreement], followers: dict[Spot, list[Disagreement]]) -> Iterator[str]:
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


def _places(findings: Sequence[Disagreement]) -> str:
    ordered = sorted(findings, key=lambda finding: (finding.sheet, *row_and_column(finding.cell)[::-1]))
    places = [f"{finding.sheet}!{finding.cell}" if finding.cell else finding.sheet for finding in ordered]
    more = f" … ({len(places)} cells)" if len(places) > MOST_SHOWN else ""
    return ", ".join(places[:MOST_SHOWN]) + more
