"""The mutants of both planners, spread over files."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Final

from support.office import recalculate
from support.shared import Shared
from support.tier import TIER
from thorough.mutations.drawing import Drawn, cover
from thorough.mutations.planner import Subject, subject
from thorough.mutations.scoring import Score, score
from wbgen.sheets.column import System
from wbgen.verify.verification import verify


@dataclass(frozen=True)
class Spread:
    """Every `step`-th mutant over so many `files`: more than a column has mutants, so that none covers another.

    A step of 0 is one file with one mutant of each column, every operator among them.
    """

    step: int
    files: int


Spreads = Mapping[tuple[System, str], Spread]
COVER: Final = Spread(0, 1)
QUICK: Final[Spreads] = {("metric", kind): COVER for kind in ("formulas", "values", "mixed")}
THOROUGH: Final[Spreads] = {
    ("metric", "formulas"): Spread(3, 20),
    ("us", "formulas"): Spread(3, 20),
    ("metric", "values"): Spread(3, 10),
    ("us", "values"): Spread(3, 10),
    ("metric", "mixed"): Spread(14, 5),
    ("us", "mixed"): Spread(14, 5),
}
"""Some twenty thousand mutants, every column among them."""
SPREADS: Final = THOROUGH if TIER.mutants == "spread" else QUICK
MOST: Final[Spreads] = {
    **THOROUGH,
    ("metric", "formulas"): Spread(1, 60),
    ("metric", "values"): Spread(1, 24),
    ("metric", "mixed"): Spread(7, 9),
}
"""Of the table that is printed on request: every mutant of the metric planner."""


@dataclass(frozen=True)
class Batch:
    """The mutants of one file: `kind` is formulas, values, or mixed: both in one cell."""

    system: System
    kind: str
    number: int
    spread: Spread

    def __str__(self) -> str:
        return f"{self.system}-{self.kind}-{self.number}"

    def of(self, planner: Subject) -> Drawn:
        if self.kind == "mixed":
            drawn = planner.mixed
        else:
            drawn = planner.mutants if self.kind == "formulas" else planner.poisoned
        if not self.spread.step:
            return cover(drawn)
        own = drawn[:: self.spread.step][self.number :: self.spread.files]
        twice = [spot for spot, number in Counter(mutant.spot for mutant in own).items() if number > 1]
        assert not twice, f"two mutants in one cell: {twice}"
        return own


def batches(*kinds: str, spreads: Spreads = SPREADS) -> list[Batch]:
    """The batches of these kinds."""
    return [
        Batch(system, kind, number, spread)
        for (system, kind), spread in spreads.items()
        if kind in kinds
        for number in range(spread.files)
    ]


@cache
def planner(shared: Shared, system: System) -> Subject:
    """The planner of one system; a process draws its mutants once."""
    return subject(shared, system)


def scored(batch: Batch, shared: Shared, folder: Path, calculated: bool = False) -> Score:
    """What verify says of the file of one batch, planted in `folder` and taken away again.

    `calculated` has LibreOffice calculate the mutants and save the file in between.
    """
    known = planner(shared, batch.system)
    mutants = batch.of(known)
    planted = known.stored.planted(folder / f"{batch}.xlsx", {mutant.spot: mutant.held for mutant in mutants})
    path = recalculate(planted, folder / "mutants calculated") if calculated else planted
    result = verify(path)
    for file in {planted, path}:
        file.unlink()
    return score(mutants, result)
