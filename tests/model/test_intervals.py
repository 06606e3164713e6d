"""Mix, Round, Programme and Diary say the same of the same interval: too soon, a little early, or nothing."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction
from functools import cache
from typing import Any, Final

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from support.tier import TIER
from thorough.omission_sheets import Sheets
from thorough.omission_sites import N, calm
from thorough.omissions import Changes, Scene
from wbgen.sheets.column import System

VISIT: Final = date(2026, 7, 1)
"""The day of the calm site's mix."""
SOON, EARLY, FINE = "too soon", "a little early", ""


def judged(days: int, least: Fraction, tolerance: Fraction | None, begins: Fraction | None) -> str:
    """What is to be said, all in days: the tolerance is for intervals from `begins` on, and nothing where empty."""
    let_pass = (tolerance or 0) if least >= (begins or 0) else 0
    return SOON if days < least - let_pass else EARLY if days < least else FINE


def changes(days: int, least: Fraction, tolerance: Fraction | None, begins: Fraction | None, method: str) -> Changes:
    """The family was on the Front so many days before the visit, in every sheet; the diary has the visit too."""
    first = VISIT - timedelta(days=days)
    stem = "dry_least_interval" if method == "dry" else "least_interval"
    visit: dict[str, Any] = {"lawn": "Front", "product": N, "method": method, "weighed": "100 g"}
    return {
        f"products.{stem}@{N}": f"{float(least)!r} day",
        "settings.interval_tolerance": None if tolerance is None else f"{float(tolerance)!r} day",
        "settings.interval_from": None if begins is None else f"{float(begins)!r} day",
        "diary.date": first,
        "diary.method": method,
        "diary.date@1": VISIT,
        **{f"diary.{key}@1": cell for key, cell in visit.items()},
        "programme.first": first,
        "programme.last": VISIT + timedelta(days=3 * days),
        "programme.every": f"{days} day",
        "programme.method": method,
        "round.begin": VISIT,
    }


def word(soon: str, early: str) -> str:
    return SOON if soon else EARLY if early else FINE


def said(texts: Any, place: int, method: str) -> dict[str, str]:
    """What each sheet says; `texts` gives the texts of a column."""
    found = {
        "programme": word(texts("programme.too_often")[0], texts("programme.early")[0]),
        "round": word(texts("round_lines.soon_words")[place], texts("round_lines.early_words")[place]),
        "diary": word(
            "too soon for" if "too soon" in texts("diary.flags")[1] else "",
            "early" if "a little early" in texts("diary.notes")[1] else "",
        ),
    }
    if method == "spray":  # the sheet Mix mixes sprays
        found["mix"] = word(texts("mix_products.soon_words")[0], texts("mix_products.early_words")[0])
    return found


def line_of_the_round(scene: Scene) -> int:
    lines = list(zip(scene.figures("round_lines.lawn"), scene.figures("round_lines.product"), strict=True))
    return lines.index(("Front", N))


DAYS: Final = st.integers(1, 60)
PARTS: Final = st.integers(1, 240).map(lambda tenths: Fraction(tenths, 4))
TOLERANCES: Final = st.none() | st.integers(0, 30).map(lambda tenths: Fraction(tenths, 10))
BEGINS: Final = st.none() | st.sampled_from([Fraction(0), Fraction(7), Fraction(14), Fraction(28)])


@st.composite
def cases(draw: st.DrawFn) -> tuple[int, Fraction, Fraction | None, Fraction | None]:
    """Many of them on the very edge: the days are the least interval, or the soonest."""
    days, tolerance = draw(DAYS), draw(TOLERANCES)
    near = draw(st.sampled_from([Fraction(0), tolerance or Fraction(0), Fraction(1, 10), Fraction(-1, 10), None]))
    least = draw(PARTS) if near is None else max(days + near, Fraction(1, 10))
    begins = draw(BEGINS | st.just(least))
    return days, least, tolerance, begins


@pytest.mark.parametrize("method", ["spray", "dry"])
@given(case=cases())
@settings(max_examples=TIER.examples // 2)
@example(case=(27, Fraction(28), Fraction(1), Fraction(7)))
@example(case=(26, Fraction(28), Fraction(1), Fraction(7)))
@example(case=(6, Fraction(7), Fraction(1), Fraction(7)))
@example(case=(5, Fraction(6), Fraction(1), Fraction(7)))
@example(case=(15, Fraction(161, 10), Fraction(11, 10), None))
def test_all_sheets_say_the_same_of_an_interval(
    method: str, case: tuple[int, Fraction, Fraction | None, Fraction | None]
) -> None:
    """In floats 16.1 less 1.1 is a hair more than 15: that is not too soon."""
    scene = calm("metric", changes(*case, method))
    found = said(scene.figures, line_of_the_round(scene), method)
    assert found == dict.fromkeys(found, judged(*case))
    assert len(found) == (4 if method == "spray" else 3)
    noted = judged(*case) == EARLY
    assert ("a little early" in scene.figures("round_lines.words")[line_of_the_round(scene)]) == noted
    assert ("a little often" in scene.figures("programme.line_verdict")[0]) == noted
    assert not (noted and "too soon" in scene.figures("diary.flags")[1])


@cache
def sheets(system: System) -> Sheets:
    return Sheets(calm(system))


@pytest.mark.parametrize(("days", "expected"), [(26, SOON), (27, EARLY), (28, FINE)])
@pytest.mark.parametrize("system", ["metric", "us"])
def test_and_so_do_their_formulas(days: int, expected: str, system: System) -> None:
    scene = calm(system, changes(days, Fraction(28), Fraction(1), Fraction(7), "spray"))
    texts = sheets(system).texts(scene)
    found = said(lambda name: texts[tuple(name.split("."))], line_of_the_round(scene), "spray")
    assert found == dict.fromkeys(found, expected)
