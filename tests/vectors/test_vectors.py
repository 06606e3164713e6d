"""Published worked examples against the model and against a workbook that LibreOffice has calculated.

The examples stand in ``vectors/*.yaml``; `vectors.cases` says what their keys mean. A planner holds all that go into
it, so LibreOffice runs once for each of the three, in whichever process comes first. The quick tier has every example
by the model, and by LibreOffice those of the metric planner.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from functools import cache

import pytest

from support.shared import Shared
from support.tier import others_thorough
from vectors.cases import PLANNERS, STATUSES, Vector, vectors
from vectors.workbook import Readings, by_model, by_workbook

ALL = vectors()
WITNESSES = {"model": by_model, "workbook": by_workbook}
RUNS = [
    (witness, planner, vector)
    for witness in WITNESSES for planner in PLANNERS for vector in ALL if planner in vector.planners
]  # fmt: skip
QUICK = [run for run in RUNS if run[:2] not in (("workbook", "us"), ("workbook", "refill"))]
CONTRADICTED = [run for run in RUNS if run[2].setting]
ReadingsOf = Callable[[str, str], Readings]


def named(part: Vector | str) -> str:
    if isinstance(part, str):
        return part
    return f"{part.id}: {part.setting.both}" if part.setting else part.id


@pytest.fixture(scope="session")
def readings_of(shared: Shared) -> ReadingsOf:
    """What the model, or the workbook of a planner, says: read once a run."""

    @cache
    def of(witness: str, planner: str) -> Readings:
        chosen = [vector for vector in ALL if planner in vector.planners]
        name = f"vectors-{planner}-{witness}"
        return shared.once(name, lambda: WITNESSES[witness](planner, chosen, shared.folder / name))

    return of


@pytest.mark.parametrize(("witness", "planner", "vector"), others_thorough(RUNS, QUICK), ids=named)
def test_the_published_example_comes_out(witness: str, planner: str, vector: Vector, readings_of: ReadingsOf) -> None:
    found = readings_of(witness, planner)[vector.id]
    wrong = [cell.wrong(one, vector.trap) for cell, one in zip(vector.answers, found, strict=False)]
    assert not any(wrong), f"{vector.why}\n{vector.source}\n" + "\n".join(filter(None, wrong))


@pytest.mark.parametrize(
    ("witness", "planner", "vector"),
    others_thorough(CONTRADICTED, [run for run in CONTRADICTED if run in QUICK]),
    ids=named,
)
def test_the_setting_is_ours_where_a_publication_has_another(
    witness: str, planner: str, vector: Vector, readings_of: ReadingsOf
) -> None:
    assert vector.setting
    found = readings_of(witness, planner)[vector.id][-1]
    wrong = vector.setting.wrong(found, trap=True)
    assert not wrong, f"{vector.setting.both}: {vector.why}\n{vector.source}\n{wrong}"


def test_there_are_enough_examples_from_enough_publishers() -> None:
    publishers = Counter(v.source["publisher"] for v in ALL if v.status in ("seen", "secondary"))
    assert len(ALL) >= 75
    assert len(publishers) >= 30
    assert sum(v.trap for v in ALL) >= 10


@pytest.mark.parametrize("vector", ALL, ids=lambda vector: vector.id)
def test_a_vector_says_all_that_it_must(vector: Vector) -> None:
    assert vector.status in STATUSES
    assert vector.why
    assert vector.answers or vector.setting
    assert set(vector.planners) <= set(PLANNERS)
    assert {"publisher", "title", "where"} <= set(vector.source) <= {"author", "publisher", "title", "where"}
    assert all(vector.source.values())
    assert not vector.trap or any(answer.printed is not None for answer in vector.answers)


@pytest.mark.parametrize("vector", ALL, ids=lambda vector: vector.id)
def test_what_is_printed_is_the_exact_figure_or_a_trap(vector: Vector) -> None:
    printed = [answer for answer in vector.answers if answer.printed is not None]
    assert [answer for answer in printed if answer.agrees_in_print is vector.trap] == []


def test_no_two_vectors_share_an_id() -> None:
    assert [name for name, times in Counter(vector.id for vector in ALL).items() if times > 1] == []
