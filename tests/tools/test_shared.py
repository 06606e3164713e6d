"""What is made once a run is made once, whoever asks, and tells its first failure only once."""

from __future__ import annotations

import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from support.shared import Shared
from support.tier import QUICK, THOROUGH, others_thorough, tier_of


def test_it_is_made_once_by_whoever_asks_first(tmp_path: Path) -> None:
    made: list[int] = []

    def make() -> list[int]:
        made.append(len(made))
        time.sleep(0.05)
        return [7]

    with ThreadPoolExecutor(4) as pool:
        found = list(pool.map(lambda _: Shared(tmp_path / "run").once("seven", make), range(8)))
    assert (found, made) == ([[7]] * 8, [0])


def test_what_failed_is_not_tried_again(tmp_path: Path) -> None:
    shared = Shared(tmp_path)

    def fail() -> int:
        raise OSError("no room")

    with pytest.raises(OSError, match="no room"):
        shared.once("it", fail)
    with pytest.raises(AssertionError, match="see the first failure"):
        shared.once("it", lambda: 1)


def test_the_thorough_tier_does_no_less() -> None:
    """In no number; its seed is the day's, or the one that is asked for."""
    for size in ("iron", "office"):
        less, more = (getattr(one, f"{size}_batches") * getattr(one, f"{size}_histories") for one in (QUICK, THOROUGH))
        assert less <= more
    assert THOROUGH.iron_batches * THOROUGH.iron_histories >= 500
    assert THOROUGH.hostile_batches * THOROUGH.hostile_files >= 5_000
    assert len(tier_of({"WBGEN_TIER": "thorough"}).seed) == len("2026-06-30")
    with pytest.raises(ValueError, match="there are quick, thorough"):
        tier_of({"WBGEN_TIER": "thorogh"})


def test_parameters_of_the_thorough_tier_are_marked() -> None:
    marked = others_thorough(["one", ("two", 2)], [("two", 2)])
    assert [(one.values, [mark.name for mark in one.marks]) for one in marked] == [
        (("one",), ["thorough"]),
        (("two", 2), []),
    ]
    with pytest.raises(AssertionError, match="none of the parameters"):
        others_thorough(["one"], ["won"])
