"""How each lawn stands with its nitrogen, worked out by hand for a small site on 15 May."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_budget import PLAN, year
from support.small_programme import line, on
from support.tables import NO, bare, is_close
from wbgen.model.binding import Model

PER_AREA = "g_N/m**2"


def of(model: Model, key: str, unit: str = PER_AREA) -> Any:
    found = model.column("feeding", key)
    return bare(found, unit) if unit else found.tolist()


def test_plan_by_now() -> None:
    """Urea of 0.92 g N/m² on all lawns on 1 May and on the day itself; that of 29 May is still to come.

    What goes on the group is for its two lawns, what goes on a lawn for it alone.
    """
    assert is_close(of(year(*PLAN[:5]), "plan"), [1.84, 1.84, NO, 1.84, 1.84])
    group = line(group="Greens", first=on(5, 2), last=on(5, 2), times=1.0)
    back = line(lawn="Back", first=on(4, 1), last=on(4, 2), every=1.0)
    assert is_close(of(year(group, back), "plan"), [0.92, 1.84, NO, 0.92, 0])
    last_season = line(first=on(2, 28), last=on(3, 1), times=2.0)
    assert is_close(of(year(last_season), "plan"), [0.92, 0.92, NO, 0.92, 0.92])


@pytest.mark.parametrize(
    ("grams", "words"),
    [(0, "behind"), (359, "behind"), (360, "on plan"), (400, "on plan"), (440, "on plan"), (441, "ahead")],
)
def test_against_plan(grams: float, words: str) -> None:
    """1.84 g N/m² are planned on 100 m²: 400 g of urea; a tenth is let pass, exactly a tenth too."""
    model = year(*PLAN[:5], diary=[(on(5, 2), "Front", "Urea", float(grams))])
    assert of(model, "plan_words", "")[0] == words


def test_against_no_plan() -> None:
    """Nothing is said where nothing is planned and nothing was put on; without an area neither is known."""
    model = year(diary=[(on(5, 2), "Back", "Urea", 1.0)])
    assert of(model, "plan_words", "") == ["", "ahead", "", "", ""]
    assert of(year(*PLAN[:5]), "plan_words", "") == ["behind", "behind", "", "behind", ""]


def test_rolling_window() -> None:
    """Of 30 days: from 16 April to 15 May; what was put on later, or on the day before, is none of it."""
    days = [on(4, 15), on(4, 16), on(5, 15), on(5, 16)]
    model = year(diary=[(day, "Front", "Urea", 10.0 * 2**place) for place, day in enumerate(days)])
    assert is_close(of(model, "rolling"), [(20 + 40) * 0.46 / 100, 0, NO, 0, NO])
    season = year(settings__rolling_time=("day", NO), diary=[(on(5, 15), "Front", "Urea", 10.0)])
    assert is_close(of(season, "rolling"), [0, 0, NO, 0, NO])


def test_a_lawn_against_its_target() -> None:
    """12 g N/m² for the Front: 600 g of urea bring it 2.76, 27.6 kg/ha."""
    model = year(*PLAN[:5], diary=[(on(5, 2), "Front", "Urea", 600.0)])
    assert is_close(of(model, "target"), [12, 8, NO, NO, NO])
    assert is_close(of(model, "had"), [2.76, 0, NO, 0, NO])
    assert is_close(of(model, "of_target", ""), [0.23, 0, NO, NO, NO])
    assert is_close(of(model, "remaining"), [9.24, 8, NO, NO, NO])
    assert is_close(of(model, "hectare", "kg_N/ha"), [27.6, 0, NO, 0, NO])
    assert of(model, "end_words", "") == ["under the target", "under the target", "", "not planned", "not planned"]


def so_far(model: Model, key: str) -> Any:
    return bare(model.column("progress", key), PER_AREA)


def test_plan_week_by_week() -> None:
    """The eleventh week of a season from 1 March on ends on 17 May; the last ends where the next season starts."""
    model = year(*PLAN[:5])
    assert is_close(so_far(model, "plan")[7:13], [0, 0.92, 0.92, 1.84, 1.84, 2.76])
    assert model.column("progress", "week_end")[-2:].tolist() == [on(3, 1) + 364, on(3, 1) + 365]
    assert is_close(so_far(year(*PLAN[:5], shown_lawn="Far"), "plan"), [NO] * 53)


def test_forecast_goes_on_in_the_steps_of_the_plan() -> None:
    """On 15 May the Front had 1 g N/m²; of the plan the dressing of the day is not done, and one is still to come."""
    fed = [(on(5, 2), "Front", "Urea", 100 / 0.46)]
    model = year(*PLAN[:5], diary=fed)
    end = float(of(model, "forecast")[0])
    assert end > 1
    assert is_close(so_far(model, "forecast")[9:14], [1, 1, 1, end, end])
    assert model.column("progress", "ahead")[9:11].tolist() == [on(5, 15), on(5, 17)]
    done = year(PLAN[2], diary=fed, shown_lawn="Front")  # nothing is planned of it from now on
    assert is_close(so_far(done, "forecast"), [1] * 53)
