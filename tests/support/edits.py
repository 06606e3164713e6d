"""Edits of single cells in a workbook file; everything else stays, stored values too."""

from __future__ import annotations

import zipfile
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path

from thorough.mutations.planting import Held, packed, workbook

Edit = Callable[[Held], Held]


def typed(new: float | str) -> Edit:
    """A value in the place of whatever stands there."""
    if isinstance(new, str):
        return lambda cell: Held(cell.style, None, "inlineStr", new)
    return lambda cell: Held(cell.style, None, "", repr(new))


def emptied(cell: Held) -> Held:
    return Held(cell.style)


def unstored(cell: Held) -> Held:
    """The same formula with no value stored for it."""
    return Held(cell.style, cell.formula)


def formula(change: Callable[[str], str]) -> Edit:
    """Another formula with the value that was stored for the old one."""
    return lambda cell: replace(cell, formula=change(cell.formula or ""))


def stored(new: float | str) -> Edit:
    """Another stored value for the same formula."""
    if isinstance(new, str):
        return lambda cell: Held(cell.style, cell.formula, "str", new)
    return lambda cell: Held(cell.style, cell.formula, "", repr(new))


def edited(path: Path, target: Path, edits: Mapping[tuple[str, str], Edit]) -> Path:
    """A copy of a workbook with the cells (sheet and A1 address) edited. Every one of them must be there."""
    known = workbook(path)
    return known.planted(target, {at: edit(known.cell(*at)) for at, edit in edits.items()})


def replaced(path: Path, target: Path, part: str, old: str, new: str) -> Path:
    """A copy of a workbook with a piece of one of its parts replaced."""
    with zipfile.ZipFile(path) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    text = parts[part].decode()
    assert old in text, f"{part} has no {old}"
    return packed(target, {**parts, part: text.replace(old, new, 1).encode()})
