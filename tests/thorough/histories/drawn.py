"""Histories drawn at random: lists of steps, each said in full when a test fails."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

from support.tier import TIER
from thorough.histories import steps
from thorough.histories.steps import Step

ANY: Final = st.integers(0, 997)
FEW: Final = st.integers(0, 40)
LONGEST: Final = 8


def drawn_step() -> st.SearchStrategy[Step]:
    """A step of any kind; those that write, and that move records, come oftenest."""
    growing, lessened = st.sampled_from(steps.GROWING), st.sampled_from(steps.LESSENED)
    named = st.sampled_from(("lawns", "products", "sprayers"))
    often: Sequence[st.SearchStrategy[Step]] = (
        st.builds(steps.TypeIn, ANY, FEW, FEW),
        st.builds(steps.WriteDiary, FEW, FEW, FEW, ANY, ANY),
        st.builds(steps.InsertRecord, growing, FEW, st.integers(1, 3)),
        st.builds(steps.DeleteRecord, lessened, FEW),
    )
    seldom: Sequence[st.SearchStrategy[Step]] = (
        st.builds(steps.Sort, FEW),
        st.builds(steps.Rename, named, FEW, FEW),
        st.builds(steps.InsertColumn, FEW, ANY),
        st.builds(steps.InsertRow, ANY, st.integers(1, 3)),
        st.builds(steps.RenameSheet, FEW, FEW),
        st.builds(steps.Hide, FEW, FEW, st.booleans()),
        st.builds(steps.OwnNote, FEW, FEW, FEW),
    )
    return st.one_of(*often, *often, *seldom)


def for_each_history(number: int, batch: int, check: Callable[[Sequence[Step]], None]) -> None:
    """Do `check` with `number` histories; each batch has others, and the same ones for a seed of the tier.

    Nothing is made smaller where one fails: that would take long, and `check` says which step it was.
    """

    @seed(f"{TIER.seed} {batch}")
    @settings(
        max_examples=number, deadline=None, database=None, phases=[Phase.generate],
        suppress_health_check=[HealthCheck.too_slow],
    )  # fmt: skip
    @given(st.lists(drawn_step(), min_size=1, max_size=LONGEST))
    def each(history: list[Step]) -> None:
        check(history)

    each()
