"""The season's tables, the control totals and the checks, worked out by hand for a small diary."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from support.small_diary import EMPTY, LINES, NO, line, on, planner
from wbgen.trade.families import family
from wbgen.units.quantity import FLOAT

Value = Any


def column(table: str, key: str, unit: str = "", **more: Value) -> Value:
    """A column of the small planner, in a unit."""
    found = planner(**more).column(table, key)
    bare = found.to(unit).magnitude if unit else found
    return bare.tolist() if isinstance(bare, np.ndarray) else bare


def is_close(found: Value, expected: Value) -> bool:
    alike = np.ndim(expected) == 0 or np.shape(found) == np.shape(expected)
    return alike and bool(np.allclose(found, expected, rtol=1e-12, atol=1e-15, equal_nan=True))


def test_what_each_lawn_has_had() -> None:
    """Front: 20 + 16 + 3 g Fe and 1 + 414 g N on 100 m²; Back: 40 g Fe on 200 m². February and July are left out."""
    assert column("season_applied", "lawn") == ["Front", "Back", ""]
    assert is_close(column("season_applied", "area", "m**2"), [100, 200, NO])
    assert is_close(column("season_applied", "applied_iron", "g_Fe/m**2"), [0.39, 0.2, NO])
    assert is_close(column("season_applied", "applied_nitrogen", "g_N/m**2"), [4.15, 0, NO])
    assert is_close(column("season_hectare", "hectare_iron", "kg_Fe/ha"), [3.9, 2, NO])
    assert is_close(column("season_hectare", "visits"), [4, 1, NO])
    assert is_close(column("season_grams", "load_iron", "g_Fe"), [39, 40, NO])
    assert is_close(column("season_grams", "last_visit"), [on(5, 5), on(4, 11), NO])


@given(
    st.lists(
        st.tuples(st.integers(1, 500), st.sampled_from(["Front", "Back", "Nowhere"]), st.integers(1, 900)), max_size=8
    ),
    st.integers(1, 120),
    st.sampled_from([0.0, 0.1, 0.46]),
)
def test_nitrogen_available_so_far(visits: list[tuple[int, str, int]], release: int, slow: float) -> None:
    """By lawn, of this season's lines: what is not slow, and of the rest as many days' part as have gone by."""
    lines = [line(on(6, 30) - ago, lawn, "Urea", weighed=float(grams)) for ago, lawn, grams in visits]
    told: dict[str, Value] = {
        "products__slow_nitrogen": FLOAT.Quantity(np.array([NO, NO, slow]), "g_N/g"),
        "products__release_time": FLOAT.Quantity(np.array([NO, NO, float(release)]), "day"),
    }
    expected = []
    for name, area in (("Front", 100), ("Back", 200)):
        own = [(ago, grams) for ago, lawn, grams in visits if lawn == name and on(6, 30) - ago >= on(3, 1)]
        come = sum(grams * (0.46 - slow + slow * min(1, ago / release)) for ago, grams in own)
        expected.append(come / area)
    found = column("season_applied", "available", "g_N/m**2", lines=[*lines, EMPTY], **told)
    assert found[:2] == pytest.approx(expected, rel=1e-9, abs=1e-12)
    assert np.isnan(found[2])


def test_what_is_left_of_the_target() -> None:
    assert column("season_target", "grass") == ["cool season", "warm season", ""]
    assert is_close(column("season_target", "target_nitrogen", "g_N/m**2"), [4.14, NO, NO])
    assert is_close(column("season_left", "left_iron", "g_Fe/m**2"), [0.11, 0, NO])
    assert is_close(column("season_left", "left_nitrogen", "g_N/m**2"), [-0.01, NO, NO])
    assert column("season_left", "words") == ["on the target", "not planned", ""]
    assert is_close(column("season_share", "share_iron"), [0.78, 1, NO])
    assert is_close(column("season_share", "share_nitrogen"), [4.15 / 4.14, NO, NO])
    assert column("season_share", "state") == ["typed", "measured", ""]


def test_a_tenth_over_or_under_is_on_the_target() -> None:
    """Urea of 0.1, 0.2 and 0.3 kg with 46 % N on 100 m²: 2.76 g/m², but for the last digit of a float."""
    lines = [line(on(4, day), "Front", "Urea", weighed=day * 100.0) for day in (1, 2, 3)]

    def words(target: float, let_pass: float = 0.1) -> str:
        wanted = FLOAT.Quantity(np.array([target, 1.0, NO]), "g_N/m**2")
        season: dict[str, Value] = {"lawns__target_nitrogen": wanted, "settings__target_tolerance": let_pass}
        return str(column("season_left", "words", lines=lines, **season)[0])

    assert words(np.nextafter(2.76, 0), 0.0) == words(2.76, NO) == "on the target"
    assert (words(2.75, 0.0), words(2.77, 0.0)) == ("over the target", "under the target")
    assert words(2.4) == "over the target"
    assert words(2.76 / 1.1) == words(2.76 / 0.9) == "on the target"
    assert words(3.1) == "under the target"


def test_lawn_without_an_area_has_no_words_on_its_target() -> None:
    area = FLOAT.Quantity(np.array([NO, 200.0, NO]), "m**2")
    assert column("season_left", "words", lawns__area=area) == ["", "not planned", ""]
    assert is_close(column("season_applied", "applied_iron", "g_Fe/m**2", lawns__area=area), [NO, 0.2, NO])


def test_target_of_nothing_has_no_share() -> None:
    nothing = FLOAT.Quantity(np.array([0.0, 0.2, NO]), "g_Fe/m**2")
    assert is_close(column("season_share", "share_iron", lawns__target_iron=nothing), [NO, 1, NO])


def test_by_month() -> None:
    """In the order of the season, which starts on 1 March."""
    iron = [0, 79, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]
    assert is_close(column("months_together", "load_iron", "g_Fe"), iron)
    assert is_close(column("months_together", "visits"), [0, 4, 2, 0, 0, 0, 0, 0, 0, 0, 0, 0])
    front = [0, 0.01, 4.14, 0, 0, 0, 0, 0, 0, 0, 0, 0]
    assert is_close(column("season_months", "month_nitrogen", "g_N/m**2"), front)
    assert is_close(column("season_months", "visits"), [0, 3, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0])
    assert is_close(column("season_months", "visits", shown="BACK"), [0, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0])
    assert column("months_together", "month")[:2] == column("season_months", "month")[:2] == ["March", "April"]
    assert column("season_months", "month_number") == [*range(3, 13), 1, 2]


@pytest.mark.parametrize(
    ("shown", "name", "area", "target"),
    [("", "Front", 100, 4.14), ("back", "back", 200, NO), ("Side", "Side", NO, NO)],
)
def test_lawn_shown(shown: str, name: str, area: float, target: float) -> None:
    assert column("season_view", "shown", shown=shown) == name
    assert is_close(column("season_view", "area", "m**2", shown=shown), area)
    assert is_close(column("season_view", "target", "g_N/m**2", shown=shown), target)
    assert is_close(column("progress", "target", "g_N/m**2", shown=shown), [target] * 4)


def test_progress_goes_by_weeks_to_the_as_of_date() -> None:
    """From 1 March, six weeks are 12 April and ten 10 May."""
    assert column("progress", "until") == [on(3, 1), on(4, 12), on(5, 10), on(6, 30)]
    assert is_close(column("progress", "nitrogen", "g_N/m**2"), [0, 0.01, 4.15, 4.15])
    assert is_close(column("progress", "nitrogen", "g_N/m**2", shown="Side"), [NO] * 4)
    on_the_day = [line(on(4, 12), "Front", "Urea", weighed=100.0), line(on(2, 1), "Front", "Urea", weighed=100.0)]
    assert is_close(column("progress", "nitrogen", "g_N/m**2", lines=on_the_day), [0, 0.46, 0.46, 0.46])


def test_by_product() -> None:
    assert column("season_products", "product") == ["Iron salt", "Iron brew", "Urea"]
    assert is_close(column("season_products", "lines"), [3, 1, 1])
    assert is_close(column("season_products", "load_iron", "g_Fe"), [76, 3, 0])


def test_four_totals_agree() -> None:
    """Nothing is lost: the line of the unknown lawn has an unknown product too."""
    for way in ("diary", "lawns", "products", "months"):
        assert is_close(column("control", f"{way}_iron", "g_Fe"), 79)
        assert is_close(column("control", f"{way}_nitrogen", "g_N"), 415)
    for nutrient in family("nutrients"):
        assert column("control", f"agree_{nutrient.key}") == "yes"


def test_line_on_an_unknown_lawn_breaks_the_total_by_lawn() -> None:
    lines = [*LINES, line(on(5, 8), "Side", "Urea", weighed=100.0)]
    assert is_close(column("control", "diary_nitrogen", "g_N", lines=lines), 461)
    assert is_close(column("control", "lawns_nitrogen", "g_N", lines=lines), 415)
    assert column("control", "agree_nitrogen", lines=lines) == "no"
    assert column("control", "agree_iron", lines=lines) == "yes"
    assert column("checks", "found_totals", **RIGHT, lines=lines) == 1


@pytest.mark.parametrize(("off", "word"), [(4e-7, "yes"), (6e-7, "no"), (-6e-7, "no")])
def test_totals_agree_to_six_decimals(off: float, word: str) -> None:
    grams = FLOAT.Quantity(79.0 + off, "g_Fe")
    assert column("control", "agree_iron", control__months_iron=grams) == word


AREA = FLOAT.Quantity(np.array([120.0, -20.0, 200.0, NO]), "m**2")

RIGHT: dict[str, Value] = {
    "parts__signed_area": AREA,
    "parts__corners": np.array([3.0, NO, 4.0, NO]),
    "parts__part_state": np.array(["", "no area yet", "odd", ""], dtype=object),
    "points__lawn": np.array(["a"] * 7 + ["", "a"], dtype=object),
    "points__part": np.array(["b"] * 7 + ["b", ""], dtype=object),
    "points__point_state": np.array([""] * 9, dtype=object),
    "sprayers__sprayer_state": np.array(["", "no jar dilution"], dtype=object),
    "programme__line_state": np.array(["", "no rate", "say spray or dry"], dtype=object),
    "shelf__shelf_state": np.array(["", "give the date"], dtype=object),
    "scores__score_state": np.array(["nothing scored", "", "give the date", "unknown lawn"], dtype=object),
    "soil_tests__soil_state": np.array(["", "give the date", "unknown lawn"], dtype=object),
    "recipes__recipe_state": np.array(["", "unknown product"], dtype=object),
    "ingredients__ingredient_state": np.array(["", "no recipe for it", "nothing given"], dtype=object),
    "response_room__beyond": 2.0,
    "response_room__answers_beyond": 7.0,
    "year__beyond": 5.0,
    "plan__dates_left": 3.0,
    "plan__pairs_left": -4.0,
}
"""What the checks read of the parts and the points: 300 m² in all; seven points. The programme has no room for 4."""

FOUND = {
    "totals": 0,
    "lawn_names": 1,
    "product_names": 1,
    "incomplete_lines": 1,
    "diary_texts": 0,
    "diary_duplicates": 0,
    "diary_full": 0,
    "lawn_states": 1,
    "part_states": 2,
    "parts_lost": 0,
    "point_states": 0,
    "points_lost": 0,
    "product_states": 1,
    "sprayer_states": 1,
    "line_states": 2,
    "shelf_states": 1,
    "score_states": 3,
    "soil_states": 2,
    "brew_states": 3,
    "mixes_beyond": 2,
    "answers_beyond": 7,
    "dates_beyond": 0,
    "pairs_beyond": 4,
    "lawns_unseen": 0,
    "products_unseen": 0,
}


def test_checks_find_what_is_there_and_say_what_to_do() -> None:
    model = planner(**RIGHT)
    assert {member.key: model.column("checks", f"found_{member.key}") for member in family("checks")} == FOUND
    for member in family("checks"):
        failed = model.column("checks", f"failed_{member.key}")
        assert failed == (FOUND[member.key] != 0)
        assert model.column("checks", f"advice_{member.key}") == (member.says["advice"] if failed else "")
    assert model.column("checks", "failed") == 15


@pytest.mark.parametrize(
    ("half", "found"),
    [
        (EMPTY, 0),
        (line(NO, "", "", "spray"), 0),
        (line(NO, "", "", "", poured=1.0), 1),
        (line(NO, "", "", "", weighed=0.0), 1),
        (line(on(4, 1), "", "", ""), 1),
        (line(NO, "Front", "Urea"), 1),
        (line(on(4, 1), "Front", "Urea"), 0),
    ],
)
def test_incomplete_lines(half: list[Value], found: int) -> None:
    assert column("checks", "found_incomplete_lines", lines=[half, EMPTY]) == found


@pytest.mark.parametrize(("dated", "full"), [(8, 0), (9, 0), (10, 1)])
def test_diary_is_full_past_the_share_of_the_settings(dated: int, full: int) -> None:
    lines = [line(on(4, 1), "Front", "Urea")] * dated + [EMPTY] * (10 - dated)
    assert column("checks", "found_diary_full", lines=lines) == full


def test_checks_see_what_is_lost() -> None:
    lost = {**RIGHT, "parts__signed_area": AREA + FLOAT.Quantity(1e-5, "m**2")}
    assert column("checks", "found_parts_lost", **lost) == 1
    near = {**RIGHT, "parts__signed_area": AREA + FLOAT.Quantity(1e-8, "m**2")}
    assert column("checks", "found_parts_lost", **near) == 0
    assert column("checks", "found_points_lost", **{**RIGHT, "parts__corners": np.array([3.0, NO, NO, NO])}) == 1
    names = np.array(["Front", "Back", "", "Far", "Near"], dtype=object)
    area = FLOAT.Quantity(np.array([100.0, 200.0, NO, 1.0, 1.0]), "m**2")
    assert column("checks", "found_lawns_unseen", lawns__name=names, lawns__area=area) == 2
    assert column("checks", "found_products_unseen", products__name=names) == 2


def test_what_the_diary_holds() -> None:
    facts = {key: column("facts_now", key) for key in ("lines", "in_season", "out_of_season", "flagged", "room")}
    assert facts == {"lines": 8, "in_season": 6, "out_of_season": 2, "flagged": 9, "room": 1}


def test_empty_diary_has_nothing_and_agrees() -> None:
    model = planner([EMPTY] * 4)
    assert is_close(model.column("season_applied", "applied_iron").to("g_Fe/m**2").magnitude, [0, 0, NO])
    assert is_close(model.column("season_grams", "last_visit"), [NO, NO, NO])
    assert is_close(model.column("progress", "nitrogen").to("g_N/m**2").magnitude, [0, 0, 0, 0])
    assert model.column("control", "agree_nitrogen") == "yes"
    assert model.column("facts_now", "room") == 4
