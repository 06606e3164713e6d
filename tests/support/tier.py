"""How much of each mechanism a run tries: a little in the quick tier, all of it in the thorough one.

The environment says which: `WBGEN_TIER=thorough`, as `bash tests/run_all.sh thorough` sets it. All that is drawn at
random begins with the tier's seed: the same one every time in the quick tier, the day's in the thorough one, and
`WBGEN_SEED` where that is set.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any, Final

import pytest


@dataclass(frozen=True)
class Tier:
    """The sizes of one tier: numbers of what is drawn, and the seed of the drawing.

    Histories come in batches, a test each; `mutants` is "cover" for one file of each kind with every column and every
    operator among its mutants, or "spread" for all files. `examples` are those of a property.
    """

    name: str
    seed: str
    iron_batches: int
    iron_histories: int
    office_batches: int
    office_histories: int
    mutants: str
    fuzz_cases: int
    hostile_batches: int
    hostile_files: int
    hostile_planner_batches: int
    hostile_planners: int
    examples: int
    outlines: int

    @property
    def thorough(self) -> bool:
        return self.name == "thorough"


QUICK: Final = Tier(
    name="quick", seed="20260630", iron_batches=1, iron_histories=1, office_batches=1, office_histories=1,
    mutants="cover", fuzz_cases=2, hostile_batches=2, hostile_files=50,
    hostile_planner_batches=1, hostile_planners=20, examples=40, outlines=14,
)  # fmt: skip
THOROUGH: Final = Tier(
    name="thorough", seed="", iron_batches=20, iron_histories=25, office_batches=5, office_histories=6,
    mutants="spread", fuzz_cases=50, hostile_batches=20, hostile_files=250,
    hostile_planner_batches=20, hostile_planners=100, examples=500, outlines=40,
)  # fmt: skip


def tier_of(environment: Mapping[str, str]) -> Tier:
    """The tier that the environment asks for.

    >>> tier_of({}).name, tier_of({"WBGEN_TIER": "thorough", "WBGEN_SEED": "7"}).seed
    ('quick', '7')
    """
    name = environment.get("WBGEN_TIER", QUICK.name)
    tiers = {QUICK.name: QUICK, THOROUGH.name: replace(THOROUGH, seed=date.today().isoformat())}  # noqa: DTZ011
    if name not in tiers:
        raise ValueError(f"WBGEN_TIER is {name!r}, and there are {', '.join(tiers)}")
    return replace(tiers[name], seed=environment.get("WBGEN_SEED") or tiers[name].seed)


TIER: Final = tier_of(os.environ)
Recorder = Callable[[str, object], None]
"""`record_property`: a test tells by it how many of what it tried, for the line at the end of a run."""


def others_thorough(values: Iterable[Any], quick: Collection[Any], *, whole: bool = False) -> list[Any]:
    """The parameters of a test: those of `quick` in every run, the others in the thorough tier alone.

    A tuple has the values of several arguments, unless it is one value, `whole`.
    """
    values = list(values)
    strange = [one for one in quick if one not in values]
    assert not strange, f"none of the parameters: {strange}"
    return [
        pytest.param(
            *(one if isinstance(one, tuple) and not whole else (one,)),
            marks=() if one in quick else pytest.mark.thorough,
        )
        for one in values
    ]


def every(nth: int, values: Iterable[Any]) -> list[Any]:
    """The parameters of a test: every nth of them in every run, the others in the thorough tier alone."""
    values = list(values)
    return others_thorough(values, values[::nth])
