"""Tells what verify found: as lines for a person, as JSON for a program, as a workbook.

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
from wbgen.files.findings import CellAddress, Finding, Kind
from wbgen.files.xlsx.refusal import UnsafeFile
from wbgen.verify.causes import row_and_column
from wbgen.verify.verification import WITNESSES, Verification
from wbgen.writer.findings_workbook import Content, Count, findings_workbook

FORMAT, VERSION = "wbgen-verify", 1
MOST_SHOWN: Final = 8
"""So many cells of one group are named in a line."""
MOST_GROUPS: Final = 50
"""So many groups of causes are told in lines; nobody reads more, and a planner of another version has thousands."""


def as_json(result: Verification) -> str:
    """One object: format, version, workbook, day, clean, cells, witnesses, findings, warnings, notices."""
    whole = {
        "format": FORMAT,
        "version": VERSION,
        "workbook": result.path.name,
        "today": day_text(result.today) if result.today else None,
        "clean": result.clean,
        "cells": dict(result.cells) | {"all": sum(result.cells.values())},
        "witnesses": dict(result.witnesses),
        "findings": [_object(finding) for finding in result.findings],
        "warnings": [_object(finding) for finding in result.warnings],
        "notices": [_object(finding) for finding in result.notices],
    }
    return json.dumps(_finite(whole), ensure_ascii=False, indent=2, allow_nan=False)


REASONS: Final = {
    **dict.fromkeys(("not-a-zip", "not-a-workbook", "old-or-encrypted", "not-a-planner"), "not a planner"),
    "other-templates": "other templates",
    **dict.fromkeys(("unreadable", "too-much"), "cannot be judged"),
}
"""Why a file was refused, by the code of the refusal; any other is "unsafe"."""


def refused_as_json(path: Path, refused: UnsafeFile) -> str:
    """One object: format, version, workbook, clean (false), and why there is no more to say."""
    why = {
        "reason": REASONS.get(refused.code, "unsafe"), "code": refused.code, "expected": refused.expected,
        "found": refused.found, "do": refused.remedy,
    }  # fmt: skip
    whole = {"format": FORMAT, "version": VERSION, "workbook": path.name, "clean": False, "refused": why}
    return json.dumps(whole, ensure_ascii=False, indent=2)


def _object(finding: Finding) -> dict[str, Any]:
    cause = finding.cause
    return {
        "sheet": finding.sheet, "cell": finding.cell, "heading": finding.heading, "kind": finding.kind,
        "found": finding.found, "expected": finding.expected, "message": finding.message, "units": finding.units,
        "cause": {"sheet": cause.sheet, "cell": cause.cell} if cause else None, "do": finding.kind.remedy,
    }  # fmt: skip


def _finite(value: Any) -> Any:
    """The same value, in which numbers that JSON does not have (NaN, infinity) are text."""
    if isinstance(value, dict):
        return {key: _finite(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_finite(item) for item in value]
    return str(value) if isinstance(value, float) and not math.isfinite(value) else value


def as_lines(result: Verification) -> Iterator[str]:
    """Each cause, what to do about it and what follows from it; then warnings, notices, and counts of all cells."""
    followers: dict[CellAddress, list[Finding]] = {}
    for finding in result.findings:
        if finding.cause is not None:
            followers.setdefault(finding.cause, []).append(finding)
    causes = [finding for finding in result.findings if finding.cause is None]
    groups = list(_groups(causes))
    for group in groups[:MOST_GROUPS]:
        yield from _group_lines(group, followers)
    if len(groups) > MOST_GROUPS:
        left = sum(map(len, groups[MOST_GROUPS:]))
        yield f"{left} more findings are not told here: --report and --json have all of them"
        yield "so much is not as this version writes it that another may have built it: verify it with that one"
    yield from _warning_lines(result)
    for group in _groups(result.notices):
        yield f"{_addresses(group)}: {group[0].kind}: {group[0].message}"
    cells = ", ".join(f"{number} {kind}" for kind, number in result.cells.items())
    yield f"{sum(result.cells.values())} cells: {cells}"
    number, active = sum(map(len, followers.values())), result.active_witnesses
    outcome = "no finding" if result.clean else f"{len(causes)} findings, {number} cells that follow from them"
    outcome += "".join(f", {number} {words}" for words, number in _told_of_facts(result) if number)
    formulas = max(result.witnesses.values())
    if not formulas:
        yield f"the formulas were not recomputed, since something is missing: {outcome}"
        yield from _of_another_version(result.built_by)
        return
    yield f"{formulas} formula cells, {len(active)} of {len(WITNESSES)} witnesses ({', '.join(active)}): {outcome}"
    if "cached" not in active:
        yield "the values stored in the file are no witness until a spreadsheet program has calculated and saved it"


def _warning_lines(result: Verification) -> Iterator[str]:
    """A line for each warning, and once what to do about those of a kind."""
    for kind, group in groupby(sorted(result.warnings, key=_kind), key=_kind):
        yield from (f"{_addresses([warning])}: {kind}: {warning.message}" for warning in group)
        yield f"  do: {kind.remedy}"
    if result.warnings and result.built_by:
        yield from _of_another_version(result.built_by)


def _kind(finding: Finding) -> Kind:
    return finding.kind


def _told_of_facts(result: Verification) -> Iterator[tuple[str, int]]:
    """How many facts are not the catalogue's, and how many products it does not have."""
    kinds = Counter(finding.kind for finding in (*result.warnings, *result.notices))
    changed = kinds[Kind.FACT_CHANGED] + kinds[Kind.DETAIL_CHANGED] + kinds[Kind.BASIS_CHANGED]
    strange = kinds[Kind.NOT_COMPARED]
    yield ("fact" if changed == 1 else "facts") + " changed", changed
    yield ("product" if strange == 1 else "products") + " not compared", strange


def _of_another_version(built_by: str) -> Iterator[str]:
    """A line for a file in which something is missing, where its version may be why; one that says another version was
    refused."""
    here = f"wbgen {__version__}"
    if not built_by:
        yield f"its sheet Start does not say what it was built by: if that was not {here}, verify it with that version"


def _groups(findings: Iterable[Finding]) -> Iterator[Sequence[Finding]]:
    """Findings of one kind in one column together, where the kind is grouped; each other one by itself."""

    def column(finding: Finding) -> tuple[str, Kind, str]:
        return finding.sheet, finding.kind, finding.heading

    for (_, kind, _), group in groupby(sorted(findings, key=column), key=column):
        if kind.grouped:
            yield list(group)
        else:
            yield from ([finding] for finding in group)


def _group_lines(group: Sequence[Finding], followers: dict[CellAddress, list[Finding]]) -> Iterator[str]:
    first = group[0]
    yield f"{_addresses(group)}: {first.kind}: {first.message}" + (f" [{first.heading}]" if first.heading else "")
    if first.found is not None:
        yield f"  found: {first.found}"
    if first.expected is not None:
        yield f"  expected: {first.expected}"
    if first.units:
        yield f"  units: {first.units}"
    yield f"  do: {first.kind.remedy}"
    follow = [follower for finding in group for follower in followers.get(finding.address, ())]
    if follow:
        yield f"  {len(follow)} cells follow from it: {_addresses(follow)}"


def _addresses(findings: Sequence[Finding]) -> str:
    ordered = sorted(findings, key=lambda finding: (finding.sheet, *row_and_column(finding.cell)[::-1]))
    addresses = [f"{finding.sheet}!{finding.cell}" if finding.cell else finding.sheet for finding in ordered]
    more = f" … ({len(addresses)} cells)" if len(addresses) > MOST_SHOWN else ""
    return ", ".join(addresses[:MOST_SHOWN]) + more


def refuse_report(path: Path) -> None:
    """Raise InputError where something stands at `path` already, OSError where its folder is not there."""
    if not path.parent.is_dir():
        raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), str(path.parent))
    if os.path.lexists(path):
        what, remedy = "a file stands there already, and a report overwrites none", "give another name"
        raise InputError([Diagnostic("there-already", Place(str(path)), "", "", remedy, what)])


def write_report(result: Verification, path: Path) -> None:
    """Write a workbook of what was found: causes first, then what follows from them, warnings, notices, and counts.

    The same result gives the same bytes. Raises as `refuse_report`, and OSError where the file cannot be written.
    """
    refuse_report(path)
    file = findings_workbook(_content(result, path))
    path.touch(exist_ok=False)
    try:
        path.write_bytes(file)
    except OSError:
        path.unlink()
        raise


def _content(result: Verification, path: Path) -> Content:
    causes = sorted((finding for finding in result.findings if finding.cause is None), key=_by_position)
    rank = {finding.address: number for number, finding in reversed(list(enumerate(causes)))}
    follow = sorted(
        (finding for finding in result.findings if finding.cause is not None),
        key=lambda finding: (rank.get(finding.cause or finding.address, len(rank)), _by_position(finding)),
    )
    name = result.path.name
    summary = f"No finding in {name}."
    if result.findings:
        summary = (
            f"{len(causes)} causes first, then {len(follow)} cells that follow from them. "
            f"Places are links into {name} while both files stay where they are."
        )
    if result.warnings:
        summary += f" {len(result.warnings)} warnings stand on the sheet Warnings."
    warned = "Nothing."
    if result.warnings:
        warned = (
            "What is weighed, limited or cautioned may not be what the catalogue says: somebody must have meant it."
        )
    known = f"{len(result.notices)} things that are not wrong, but should be known." if result.notices else "Nothing."
    return Content(
        _path_to(result.path, path), _day(result),
        (*causes, *follow), summary,
        result.warnings, warned,
        sorted(result.notices, key=_by_position), known,
        _counts(result, len(causes), len(follow)),
    )  # fmt: skip


def _by_position(finding: Finding) -> tuple[str, int, int, str, str]:
    return finding.sheet, *row_and_column(finding.cell), finding.kind, finding.message


def _path_to(planner: Path, report: Path) -> str:
    """The path from the report's folder to the planner; the absolute one where there is no other (another drive)."""
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


def _counts(result: Verification, causes: int, follow: int) -> Mapping[str, Sequence[Count]]:
    day = _day(result)
    recomputed = any(result.witnesses.values())
    not_recomputed = "" if recomputed else "the formulas were not recomputed: something is missing"
    remarks = {"cached": not_recomputed or "no spreadsheet program has calculated and saved the file yet"}
    return {
        "File": [
            ("planner", result.path.name, ""),
            ("recomputed for the day", day.isoformat() if day else "", "" if day else "none"),
            ("version of wbgen", __version__, ""),
            ("findings that are causes", causes, ""),
            ("cells that follow from them", follow, ""),
            ("warnings", len(result.warnings), ""),
            ("notices", len(result.notices), ""),
        ],
        "Cells that are not empty": [
            *((kind, number, "") for kind, number in result.cells.items()),
            ("all", sum(result.cells.values()), ""),
        ],
        "Formula cells that each witness spoke of": [
            (name, number, "" if number else remarks.get(name, not_recomputed))
            for name, number in result.witnesses.items()
        ],
        "Findings by kind": _by_kind(result.findings),
        "Warnings by kind": _by_kind(result.warnings),
        "Notices by kind": _by_kind(result.notices),
    }


def _by_kind(findings: Iterable[Finding]) -> list[Count]:
    return [(kind, number, "") for kind, number in sorted(Counter(finding.kind for finding in findings).items())]
