"""What a build may put in the place of: nothing that holds work it would lose."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from wbgen.diagnostics import Finding, InputError, Place
from wbgen.inputs import Inputs
from wbgen.openxml import UnsafeFile
from wbgen.reader import read
from wbgen.returned import inputs_of, tables_in
from wbgen.verify import book_of

KEPT = ("date", "lawn", "product")


def refuse_loss(target: Path, fresh: Inputs, force: bool) -> None:
    """Raise InputError where `target` exists and may not be overwritten by a planner filled with `fresh`.

    Without `force` nothing is overwritten; with it, nothing whose diary has lines that `fresh` has not.
    """
    if not target.exists():
        return
    if not force:
        raise _refusal(target, "there-already", "a file stands there already", "give another name, or add --force")
    try:
        file = read(target)
        book = book_of(file)
        found = tables_in(file, book)
        if "diary" not in found.placed:
            raise UnsafeFile("not-a-planner", "a planner", "no diary", "")
        old = _lines(inputs_of(file, book, found).inputs)
    except UnsafeFile as error:
        raise _refusal(
            target, "unreadable", f"what stands there cannot be looked through ({error.found}), so it may hold work",
            "move it away yourself, or give another name",
        ) from error  # fmt: skip
    lost = old - _lines(fresh)
    if lost:
        number = sum(lost.values())
        raise _refusal(
            target, "would-lose-work", f"its diary has {number} lines that this build would lose",
            "give another name, or bring the lines into lawns.yaml first",
        )  # fmt: skip


def _lines(inputs: Inputs) -> Counter[tuple[str, ...]]:
    diary = inputs.values["diary"]
    rows = zip(*(diary[key] for key in KEPT), strict=True)
    return Counter(tuple(str(one) for one in row) for row in rows if row[1] or row[2] or row[0] == row[0])


def _refusal(target: Path, code: str, message: str, remedy: str) -> InputError:
    return InputError([Finding(code, Place(str(target)), "", "", remedy, message)])
