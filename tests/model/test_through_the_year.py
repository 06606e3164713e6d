"""Two invented sites through a year, one of the south and one with a dormant winter, against their definitions.

What is expected is worked out in `support.through_the_year`, which uses nothing of wbgen.
"""

from __future__ import annotations

from datetime import date, timedelta
from functools import cache
from pathlib import Path
from typing import Final

import numpy as np
import pytest

from support.filled import filled
from support.tables import bare, is_close
from support.through_the_year import FEEDING, HARDLY, MONTH_NAMES, OWN_MONTHS, SITES, Lawn, Line, Site
from support.tier import others_thorough
from wbgen.files.dates import serial
from wbgen.model.binding import Model
from wbgen.model.inputs import Inputs

DAYS: Final = [
    *(("southern", date(2026 + (month > 12), (month - 1) % 12 + 1, 15)) for month in range(7, 19)),
    *(("southern", day) for day in (date(2026, 6, 30), date(2026, 7, 1), date(2026, 12, 31), date(2027, 1, 1))),
    *(("continental", date(2026 + (month > 12), (month - 1) % 12 + 1, 10)) for month in range(3, 15)),
    *(("continental", day) for day in (date(2026, 2, 28), date(2026, 3, 1), date(2026, 12, 31), date(2027, 2, 28))),
]
"""A day in each month of the second season, and the turns of season and year."""
QUICK: Final = [
    ("southern", date(2026, 7, 15)), ("southern", date(2027, 1, 1)), ("southern", date(2027, 5, 15)),
    ("continental", date(2026, 9, 10)), ("continental", date(2027, 2, 28)),
]  # fmt: skip
each_day = pytest.mark.parametrize(("site", "day"), others_thorough(DAYS, QUICK), ids=str)


@cache
def inputs_of(site: str) -> Inputs:
    """The inputs of a site's planner."""
    return filled(SITES[site], diary_rows=0, today=date(2026, 1, 1))


@cache
def model_of(site: str, day: date) -> Model:
    """The model of a site as it stands on a day."""
    inputs = inputs_of(site)
    inputs.values["weather"]["planner_date"][0] = serial(day)
    values = {key: dict(columns) for key, columns in inputs.values.items()}
    values["start"] = {key: column.copy() for key, column in values["start"].items()}
    return Model(Inputs(values, inputs.units, inputs.records, inputs.forms, inputs.today, inputs.misplaced))


def by_area(model: Model, table: str, column: str) -> list[float]:
    return list(bare(model.column(table, column), "g_N/m**2"))


def by_lawn(model: Model, site: Site, table: str, column: str) -> list[float]:
    """A column of nitrogen by lawn, of the lawns that there are."""
    return by_area(model, table, column)[: len(site.lawns)]


def shown_lawn(model: Model, site: Site) -> Lawn:
    (found,) = [lawn for lawn in site.lawns if lawn.name == model.column("season_view", "shown")]
    return found


@each_day
def test_the_season_and_what_it_has_brought(site: str, day: date) -> None:
    told, model = Site(site), model_of(site, day)
    assert model.column("settings", "season_start") == serial(told.starts(day))
    assert model.column("growth_view", "year_end") == serial(told.ends(day))
    start = told.starts(day).year
    assert list(model.column("calendar_weeks", "year")) == [f"{start}/{start + 1}"]
    applied = [told.applied(lawn, day) for lawn in told.lawns]
    assert sum(applied) > 0 or day < date(2026, 7, 2)
    assert is_close(by_lawn(model, told, "season_applied", "applied_nitrogen"), applied)
    assert is_close(
        by_lawn(model, told, "season_left", "left_nitrogen"),
        [lawn.target - had for lawn, had in zip(told.lawns, applied, strict=True)],
    )


@each_day
def test_nitrogen_month_by_month_in_the_order_of_the_season(site: str, day: date) -> None:
    told, model = Site(site), model_of(site, day)
    lawn, months = shown_lawn(model, told), told.months(day)
    names = [MONTH_NAMES[month - 1] for _, month in months]
    for table in ("season_months", "months_together", "growth_months", "budget_months", "budget_running"):
        assert list(model.column(table, "month")) == names
    had = [told.applied(lawn, day, month) for _, month in months]
    assert is_close(by_area(model, "season_months", "month_nitrogen"), had)
    assert is_close(by_area(model, "growth_months", "applied"), had)
    assert is_close(by_area(model, "budget_running", "running_nitrogen"), np.cumsum(had))
    assert is_close(by_area(model, "budget_months", "planned_nitrogen"), told.planned(lawn, day))
    assert is_close(by_area(model, "growth_months", "planned"), told.planned(lawn, day))
    growth = [told.growth(lawn.grass, month) for _, month in months]
    assert is_close(model.column("growth_months", "growth"), growth)
    should = by_area(model, "growth_months", "should")
    assert is_close(should, told.should(lawn, day))
    assert is_close(sum(should), lawn.target)
    closed = told.said["months"]["closed"]
    assert [one == 0 for one in should] == [month in closed for _, month in months]
    together = bare(model.column("months_together", "load_nitrogen"), "g_N")
    every = [sum(told.applied(one, day, month) * one.area for one in told.lawns) for _, month in months]
    assert is_close(together, every)
    assert model.column("start", "master_check") == "all checks agree"


def test_growth_is_the_places_and_the_grass_s() -> None:
    for site in SITES:
        told, model = Site(site), model_of(site, DAYS[0][1])
        for grass, column in (("cool season", "growth_cool"), ("warm season", "growth_warm")):
            assert is_close(model.column("months", column), [told.growth(grass, month) for month in range(1, 13)])
    cool = {site: [Site(site).growth("cool season", month) for month in (1, 7)] for site in SITES}
    assert cool["southern"][0] > 0.8 > HARDLY > cool["southern"][1]
    assert cool["continental"][1] > 0.7 > HARDLY > cool["continental"][0]


def pairs(site: Site) -> list[tuple[Line, Lawn]]:
    return [(line, lawn) for line in site.programme for lawn in line.lawns]


@each_day
def test_what_is_due_and_where_the_season_will_end(site: str, day: date) -> None:
    told, model = Site(site), model_of(site, day)
    listed = pairs(told)
    assert list(model.column("due", "lawn"))[: len(listed)] == [lawn.name for _, lawn in listed]
    due = [told.next_due(line, lawn, day) for line, lawn in listed]
    assert is_close(model.column("due", "next_due")[: len(listed)], [serial(one) if one else np.nan for one in due])
    states = [told.state(line, lawn, day) for line, lawn in listed]
    assert list(model.column("due", "state"))[: len(listed)] == states
    coming = [float(told.to_come(line, lawn, day)) for line, lawn in listed]
    assert is_close(model.column("due", "season_to_come")[: len(listed)], coming)
    end = [told.end(lawn, day) for lawn in told.lawns]
    assert is_close(by_lawn(model, told, "season_forecast", "end_nitrogen"), end)


@each_day
def test_nitrogen_where_the_grass_hardly_grows(site: str, day: date) -> None:
    """On all sheets that say so: the programme and its dates, the round of the day, and a mix of the day."""
    told, model = Site(site), model_of(site, day)
    dates = [(line, on, told.slow(line, on)) for line in told.programme for on in line.days]
    words = []
    for line, _, slow in dates:
        part = "" if len(slow) == len(line.lawns) else f" on {len(slow)} of {len(line.lawns)} lawns"
        words.append(f"the grass hardly grows{part}" if slow else "")
    last = [one.rpartition("; ")[2] for one in model.column("applications", "date_words")][: len(dates)]
    assert [one if "grass" in one else "" for one in last] == words
    for place, line in enumerate(told.programme):
        found = [slow for of, _, slow in dates if of is line and slow]
        whole = all(len(slow) == len(line.lawns) for slow in found)
        said = f"{len(found)} date{'s' * (len(found) != 1)} when {'' if whole else 'some of '}the grass hardly grows"
        assert model.column("programme", "out_of_growth")[place] == (said if found else "")
    now = [(line, lawn) for line, lawn in pairs(told) if (due := told.next_due(line, lawn, day)) and due <= day]
    expected = sorted(
        (lawn.name, line.product, "" if line.nitrogen < FEEDING else "hardly any" if lawn.name in told.slow(line, day)
         else "enough")
        for line, lawn in now
    )  # fmt: skip
    columns = [list(model.column("round_lines", key))[: len(now)] for key in ("lawn", "product", "growth")]
    assert sorted(zip(*columns, strict=True)) == expected
    asked = [told.growth(lawn.grass, day.month) <= HARDLY for lawn in told.lawns]
    assert [bool(one) for one in model.column("visit_lawns", "growth_level")[: len(asked)]] == asked
    reason = model.column("verdict", "reason")
    assert ("hardly grows" in reason) is any(asked)
    for lawn, hardly in zip(told.lawns, asked, strict=True):
        assert (f"{lawn.name}, nitrogen while its grass hardly grows" in reason) is hardly


def test_september_is_no_month_to_ask_about_in_the_north_nor_january_in_the_south() -> None:
    """The main dressing of cool-season grass in a continental autumn, and that of a southern summer."""
    told, model = Site("continental"), model_of("continental", date(2026, 9, 10))
    (sulphate,) = [line for line in told.programme if line.days[0] == date(2026, 9, 8)]
    assert (sulphate.product, sulphate.lawns[0].name) == ("Ammonium sulphate", "Front")
    assert model.column("programme", "line_verdict")[told.programme.index(sulphate)] == "nothing against it here"
    said = dict(zip(model.column("applications", "date"), model.column("applications", "date_words"), strict=True))
    september = [said[serial(on)] for line in told.programme for on in line.days
                 if (on.year, on.month) == (2026, 9)]  # fmt: skip
    assert len(september) == 4
    assert not any(september)
    south = model_of("southern", date(2027, 1, 1))
    reason = south.column("verdict", "reason")
    assert "hardly grows" not in reason


def test_july_is_asked_about_in_the_south() -> None:
    """Urea on the rink, in a month that is closed besides."""
    told, model = Site("southern"), model_of("southern", date(2026, 7, 15))
    (urea,) = [line for line in told.programme if line.days[0] == date(2026, 7, 15)]
    place = told.programme.index(urea)
    verdict = "2 dates when the grass hardly grows; 2 dates in a closed month"
    assert model.column("programme", "line_verdict")[place] == verdict
    iron = [place for place, line in enumerate(told.programme) if line.product.startswith("Ferrous")]
    assert [model.column("programme", "out_of_growth")[place] for place in iron] == [""]


def test_two_lawns_side_by_side_are_asked_about_by_their_own_grass() -> None:
    """In October, and in May, the warm-season lawn hardly grows and the one beside it does; in June both do."""
    for day, slow in ((date(2026, 5, 10), True), (date(2026, 6, 10), False), (date(2026, 10, 10), True)):
        reason = model_of("continental", day).column("verdict", "reason")
        assert ("Back, nitrogen while its grass hardly grows" in reason) is slow
        assert "Front, nitrogen while" not in reason


def test_a_site_s_own_months_of_a_product_are_said_beside_its_growth(tmp_path: Path) -> None:
    """A known product by a common name: its other facts stay. Months that are not the site's are said in the programme,
    on the day, in the round and in the mix, and what growth says is said as before."""
    own = "as of: 2027-05-26}\ncatalogue: [own.yaml]"
    text = SITES["southern"].read_text("utf-8").replace("as of: 2027-06-30}", own)
    (tmp_path / "lawns.yaml").write_text(text, encoding="utf-8")
    (tmp_path / "own.yaml").write_text(OWN_MONTHS, encoding="utf-8")
    model, told = Model(filled(tmp_path / "lawns.yaml")), Site("southern")
    names = list(model.column("products", "name"))
    assert model.column("products", "months_suited")[names.index("Ammonium sulphate")] == "JFMA----SOND"
    assert is_close(bare(model.column("products", "spray_mass_usual"), "kg/ha")[names.index("Ammonium sulphate")], 25)
    verdicts = list(model.column("programme", "line_verdict"))
    assert verdicts[0] == "5 dates when some of the grass hardly grows"
    assert verdicts[3] == "8 dates out of its months; 6 dates when the grass hardly grows; 2 dates in a closed month"
    assert verdicts[5] == "every 1 days, at least 14; 1 date out of its months"
    of_june = [on for line in told.programme for on in line.days].index(date(2027, 6, 9))
    assert model.column("applications", "date_words")[of_june] == "out of its months; the grass hardly grows"
    columns = [model.column("round_lines", key) for key in ("lawn", "product", "words")]
    words = {one[:2]: one[2] for one in zip(*columns, strict=True)}
    assert words["Verge", "Ammonium sulphate"] == "ask first: out of its months"
    assert "Ammonium sulphate, out of its months" in model.column("verdict", "reason")


def test_a_line_over_the_turn_of_the_year_is_one_line() -> None:
    """28 days after 30 December is 27 January; the calendar of a season from July has both in its weeks."""
    told, model = Site("southern"), model_of("southern", date(2026, 12, 31))
    (iron,) = [line for line in told.programme if line.product.startswith("Ferrous")]
    assert iron.days[:2] == (date(2026, 12, 30), date(2027, 1, 27))
    place = told.programme.index(iron)
    weeks = [model.column("calendar", f"count_{chr(97 + week // 26)}{chr(97 + week % 26)}") for week in range(53)]
    counted = [float(np.nan_to_num(week[place])) for week in weeks]
    expected = [0.0] * 53
    for on in iron.days:
        week = (on - told.starts(date(2026, 12, 31))) // timedelta(days=7)
        if week < 53:
            expected[week] += 1
    assert counted == expected
    assert sum(counted) == 7
