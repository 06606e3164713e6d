"""What verify said of planted mutants: which it named, which survived, and what it blamed wrongly."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from thorough.mutations.drawing import Mutant
from wbgen.files.findings import Finding
from wbgen.verify.verification import Verification


@dataclass(frozen=True)
class Score:
    """Of the mutants in one file: all, those not named rightly, cells blamed wrongly, and those that others follow."""

    planted: tuple[Mutant, ...]
    survivors: tuple[Mutant, ...]
    blamed: tuple[Finding, ...]
    followed: frozenset[tuple[str, str]]

    @property
    def right(self) -> bool:
        return not self.survivors and not self.blamed

    def faults(self) -> list[str]:
        """A line for each survivor and each cell blamed wrongly."""
        blamed = (
            f"blamed: {one.sheet}!{one.cell} {one.heading} | {one.kind} | found {one.found!r} expected {one.expected!r}"
            for one in self.blamed
        )
        return [*(f"survived: {one}" for one in self.survivors), *blamed]

    def told(self) -> str:
        return "\n".join(["", table([self]), *self.faults()])


def score(planted: Sequence[Mutant], result: Verification) -> Score:
    """A mutant is named by a finding of its own kind at its own cell, that follows from no other.

    Blamed wrongly is a cell without a mutant that follows from nothing, or from a cell without one.
    """
    own = {mutant.spot for mutant in planted}
    named: dict[tuple[str, str], set[str]] = {}
    for one in result.findings:
        if one.cause is None:
            named.setdefault((one.sheet, one.cell), set()).add(one.kind)
    survivors = tuple(mutant for mutant in planted if not named.get(mutant.spot, set()) & mutant.kinds)
    blamed = tuple(one for one in result.findings if _origin(one) not in own)
    followed = frozenset(_origin(one) for one in result.findings if one.cause is not None)
    return Score(tuple(planted), survivors, blamed, followed)


def _origin(finding: Finding) -> tuple[str, str]:
    spot = finding.cause or finding
    return spot.sheet, spot.cell


def table(scores: Iterable[Score]) -> str:
    """The numbers by operator: planted, found, survived, and how many had cells that follow from them."""
    planted: Counter[str] = Counter()
    survived: Counter[str] = Counter()
    followed: Counter[str] = Counter()
    blamed = 0
    for one in scores:
        planted.update(mutant.operator for mutant in one.planted)
        survived.update(mutant.operator for mutant in one.survivors)
        followed.update(mutant.operator for mutant in one.planted if mutant.spot in one.followed)
        blamed += len(one.blamed)
    width = max(map(len, [*planted, "operator"]))
    head = f"{'operator':<{width}}  planted  found  survived  followed"
    lines = [
        f"{name:<{width}}  {planted[name]:>7}  {planted[name] - survived[name]:>5}  {survived[name]:>8}"
        f"  {followed[name]:>8}"
        for name in sorted(planted)
    ]
    total, gone = planted.total(), survived.total()
    last = f"{'all':<{width}}  {total:>7}  {total - gone:>5}  {gone:>8}  {followed.total():>8}"
    return "\n".join([head, *lines, last, f"blamed wrongly: {blamed}"])
