"""Whatever stands in a cell that somebody typed over, the model judges the cells that read it: no function raises.

Verify gives each function the engine's own figures (`witnesses._add_local_model`), so a function meets what no input
leads to: half a line, a number of no line, a day of no calendar.
"""

from __future__ import annotations

import random
from collections import defaultdict
from typing import Any, Final

import numpy as np
import pytest

from support.planners import Planners
from support.tier import TIER, others_thorough
from wbgen.sheets.column import System
from wbgen.units.quantity import FLOAT

SPOILS: Final = {"blank": np.nan, "less than nothing": -1.0, "huge": 1e9, "a half": 0.5, "nothing": 0.0}
SHARE: Final = 0.3
"""Of the records of a column, so many are spoilt."""
SAMPLE: Final = 1 if TIER.thorough else 8
"""One column in so many is spoilt."""


def spoilt(value: Any, how: str, draw: random.Random) -> Any:
    """A column, or a figure of a form, with other figures or texts here and there."""
    bare = value.magnitude if hasattr(value, "units") else value
    is_text = isinstance(bare, str) or np.asarray(bare).dtype.kind == "O"
    odd: Any = ("" if how == "blank" else "odd") if is_text else SPOILS[how]
    if np.ndim(bare) == 0:
        found: Any = odd
    else:
        found = np.array(bare, dtype=object if is_text else float)
        found[[draw.random() < SHARE for _ in found]] = odd
    return FLOAT.Quantity(found, value.units) if hasattr(value, "units") else found


@pytest.mark.parametrize("how", others_thorough(SPOILS, ("blank", "huge")))
@pytest.mark.parametrize("system", others_thorough(("metric", "us"), ("metric",)))
def test_no_function_raises_whatever_it_reads(planners: Planners, system: System, how: str) -> None:
    planner = planners.get("full", system)
    model = planner.design.model(planner.inputs)
    computed = {(table, key) for table, formulas in planner.book.formulas.items() for key in formulas}
    figures = {at: model.column(*at) for at in sorted(computed)}
    readers: dict[tuple[str, str], set[tuple[str, str]]] = defaultdict(set)
    for reader, read in model.reads.items():
        for at in read:
            readers[at].add(reader)
    draw = random.Random(f"{TIER.seed} {how}")  # noqa: S311 - the same figures every time
    raised = []
    for at in draw.sample(sorted(figures), len(figures) // SAMPLE):
        local = planner.design.model(planner.inputs, figures | {at: spoilt(figures[at], how, draw)})
        for reader in sorted(readers[at] & computed):
            try:
                with np.errstate(all="ignore"):  # as verify does
                    local.compute(*reader)
            except Exception as error:  # noqa: BLE001 - each is told, with what was spoilt
                raised.append(f"{'.'.join(reader)} of {'.'.join(at)}: {error!r}")
    assert not raised
