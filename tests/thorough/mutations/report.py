"""All mutants in turn, and the table of the operators."""

from __future__ import annotations

from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from tempfile import TemporaryDirectory, mkdtemp

from support.shared import Shared
from thorough.mutations.batches import MOST, Batch, batches, scored
from thorough.mutations.scoring import Score, table

_places: list[tuple[Shared, Path]] = []


def _begin(parent: str) -> None:
    _places.append((Shared(Path(parent, "shared")), Path(mkdtemp(dir=parent))))


def _scored(batch: Batch) -> Score:
    return scored(batch, *_places[0])


def report() -> bool:
    """Print the table, every survivor and every cell blamed wrongly; true where there is none of these."""
    with (
        TemporaryDirectory(prefix="wbgen-mutants-") as parent,
        ProcessPoolExecutor(initializer=_begin, initargs=(parent,)) as pool,
    ):
        scores = list(pool.map(_scored, batches("formulas", "values", "mixed", spreads=MOST)))
    for one in scores:
        for line in one.faults():
            print(line)
    print(table(scores))
    return all(one.right for one in scores)
