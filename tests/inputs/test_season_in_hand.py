"""The starter and the example are a season in hand, in one climate: nothing late, nothing over a limit by accident.

Growth is worked out here from its published formula, and not by the planner's.
"""

from __future__ import annotations

import math
from collections import Counter
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import yaml

from support.filled import filled
from tools.examples import DAY, DIARY_ROWS, EXAMPLES
from wbgen.files import shipped
from wbgen.files.dates import serial
from wbgen.model.binding import Model

SITES = {"starter": shipped.starter(), "example": EXAMPLES / "lawns.yaml"}
NITROGEN = ("Ammonium sulphate", "Liquid NPK 10-4-6")
GROWING = 0.5
"""The grass grows where it grows at least half as fast as it can. Common practice, no source."""


def said(site: str) -> dict[str, Any]:
    found: dict[str, Any] = yaml.safe_load(SITES[site].read_text("utf-8"))
    return found


def means(site: str) -> list[float]:
    return [float(one.removesuffix(" degC")) for one in said(site)["months"]["mean temperatures"]]


def growth(site: str) -> list[float]:
    """By month, of cool-season grass: M. Woods, A number between 0 and 1, 29 July 2014 (read): best at 20 °C, 5.5 K."""
    return [math.exp(-(((mean - 20) / 5.5) ** 2) / 2) for mean in means(site)]


def dates(line: dict[str, Any]) -> list[date]:
    """The days of a line of the programme."""
    first, last = line["first"], line["last"]
    if "times" in line:
        step = (last - first) / max(1, line["times"] - 1)
        return [first + step * number for number in range(line["times"])]
    step = timedelta(days=int(line["every"].removesuffix(" days")))
    return [first + step * number for number in range((last - first) // step + 1)]


@pytest.mark.parametrize("site", SITES)
def test_the_months_are_those_of_an_atlantic_place_and_are_called_invented(site: str) -> None:
    """Mild winters, cool summers, small steps. Met Éireann's stations run from about 5 to 16 °C, Brittany's to 18."""
    year = means(site)
    assert len(year) == 12
    assert 4 <= min(year) <= 9
    assert 14 <= max(year) <= 18.5
    assert max(year) - min(year) <= 13
    assert max(abs(one - year[month - 1]) for month, one in enumerate(year)) <= 4
    text = SITES[site].read_text("utf-8")
    assert "invented" in text.partition("# The months of the place")[2].partition("\nmonths:")[0]
    assert {lawn["grass"] for lawn in said(site)["lawns"]} == {"cool season"}  # a warm-season lawn hardly grows there


@pytest.mark.parametrize("site", SITES)
def test_there_is_nitrogen_wherever_the_grass_grows(site: str) -> None:
    growing = {month for month, one in enumerate(growth(site), 1) if one >= GROWING}
    assert 9 in growing
    fed: dict[str, set[int]] = {}
    for line in said(site)["programme"]:
        if line["product"] in NITROGEN:
            fed.setdefault(line.get("group") or line["lawn"], set()).update(day.month for day in dates(line))
    assert fed.keys() == {"fine turf", "South court"}
    assert {where: growing - months for where, months in fed.items() if growing - months} == {}


@pytest.mark.parametrize("site", SITES)
def test_compost_tea_goes_on_grass_that_grows(site: str) -> None:
    (tea,) = [line for line in said(site)["programme"] if line["product"] == "Compost tea"]
    assert min(growth(site)[day.month - 1] for day in dates(tea)) >= 0.25


@pytest.fixture(scope="module", params=SITES)
def model(request: pytest.FixtureRequest) -> tuple[str, Model]:
    return request.param, Model(filled(SITES[request.param], diary_rows=DIARY_ROWS, today=DAY))


def words(model: Model, table: str, key: str) -> Counter[str]:
    """What a column of texts says, and how often; blanks are left out."""
    return Counter(str(one) for one in np.atleast_1d(model.column(table, key)) if one)


def test_every_line_of_the_programme_is_as_planned(model: tuple[str, Model]) -> None:
    site, planner = model
    assert words(planner, "programme", "line_verdict") == {"nothing against it here": len(said(site)["programme"])}
    assert words(planner, "applications", "date_words") == {}


def test_the_diary_of_the_example_is_a_season_in_hand(model: tuple[str, Model]) -> None:
    site, planner = model
    if site == "starter":  # its diary is empty
        assert said(site)["diary"] == []
        return
    assert planner.column("start", "as_of") == serial(DAY)
    states = words(planner, "due", "state")
    assert states["overdue"] <= 3
    assert states["missed"] == 0
    assert states["done"] >= 5
    assert states["later"] >= 5
    assert words(planner, "diary", "flags") == {}
    assert words(planner, "start", "master_check") == {"all checks agree": 1}
    assert set(words(planner, "season_end", "words")) == {"on the target", "not planned"}


def test_what_the_example_uses_was_counted_or_is_brewed() -> None:
    site = said("example")
    used = {line["product"] for line in site["diary"]}
    assert used <= {line["product"] for line in site["shelf"]} | {brew["product"] for brew in site["brews"]}


def test_the_starters_commented_lines_can_be_read(tmp_path: Path) -> None:
    """Whoever takes a # away gets what the comment promises."""
    text = SITES["starter"].read_text("utf-8")
    lines = text.splitlines()
    first = lines.index("# scales:")
    for number in range(first, first + 5):
        lines[number] = lines[number].removeprefix("#").removeprefix(" ")
    (tmp_path / "lawns.yaml").write_text("\n".join(lines), encoding="utf-8")
    scales = filled(tmp_path / "lawns.yaml", today=DAY).values["scales"]
    assert [float(scales[f"{key}_step"][0]) for key in ("fine_scale", "coarse_scale", "coarse_jug")] == [1, 5, 10]
