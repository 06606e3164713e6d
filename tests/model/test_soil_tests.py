"""Soil tests, worked out by hand: what they are called, what they ask for in a year, and which of them counts.

150 kg of soil a square metre; the nitrogen target of the Front is 8 g/m², so that grass may use 1 g P and 4 g K of it.
"""

from __future__ import annotations

from typing import Any

import pytest

from support.tables import NO, Table, bare, changed, is_close, planner
from wbgen.files import shipped
from wbgen.model.binding import Model
from wbgen.sheets.book import Templates
from wbgen.trade.nutrients import oxide_factor
from wbgen.trade.soil import METHODS

P, K = (float(oxide_factor(symbol)) for symbol in ("P2O5", "K2O"))
AS_OF = 46000.0
RECORDS = {"lawns": 4, "soil_tests": 5, "soil_methods": 4, "season_target": 4}
BOUNDS = {"low": (10.0, 20.0), "medium": (20.0, 40.0), "high": (30.0, 70.0), "excess": (60.0, 130.0)}
METHODS_KNOWN: Table = {
    "method": ("text", ["Mehlich-3", "Olsen", "Morgan"]),
    "amounts": ("text", ["worked out", "not stated"]),
    "enough_phosphate": ("mg_P/kg", [21.0, 18.0]),
    "enough_potash": ("mg_K/kg", [37.0]),
    **{f"{word}_phosphate": ("mg_P/kg", [bounds[0]]) for word, bounds in BOUNDS.items()},
    **{f"{word}_potash": ("mg_K/kg", [bounds[1]]) for word, bounds in BOUNDS.items()},
}


def asked(*rows: tuple[Any, ...], misplaced: tuple[str, ...] = (), **more: tuple[str, Any]) -> Model:
    """The model of tests, each (days before the as-of date, lawn, method, P, K)."""
    days, lawns, methods, found, potassium = zip(*rows, strict=True)
    tables: dict[str, Table] = {
        "start": {"as_of": ("date", AS_OF)},
        "ones": {"key_step": ("", 100000.0), "key_day": ("date", 36526.0)},
        "oxides": {"element_in_phosphate": ("g_P/g_P2O5", P), "element_in_potash": ("g_K/g_K2O", K)},
        "settings": {
            "use_phosphate": ("g_P/g_N", 0.125),
            "use_potash": ("g_K/g_N", 0.5),
            "root_depth": ("cm", 10.0),
            "soil_density": ("kg/L", 1.5),
            "test_life": ("day", 1096.0),
        },
        "place": {"no_phosphorus": ("text", "")},
        "lawns": {
            "name": ("text", ["Front", "Back", "Strip"]),
            "grass": ("text", []),
            "target_nitrogen": ("g_N/m**2", [8.0, 8.0]),
            "target_phosphate": ("g_P2O5/m**2", [NO, 2.5]),
            "target_potash": ("g_K2O/m**2", []),
        },
        "soil_methods": METHODS_KNOWN,
        "soil_tests": {
            "date": ("date", [AS_OF - day for day in days]),
            "lawn": ("text", list(lawns)),
            "method": ("text", list(methods)),
            "tested_phosphate": ("mg_P/kg", list(found)),
            "tested_potash": ("mg_K/kg", list(potassium)),
        },
        "season_target": {"turn": ("", [1.0, 2.0, 3.0, 4.0])},
    }
    return planner(changed(tables, **more), RECORDS, misplaced=misplaced)


def of(model: Model, key: str, unit: str = "") -> Any:
    return bare(model.column("soil_tests", key), unit)


@pytest.mark.parametrize(
    ("found", "word"),
    [(0.0, "very low"), (9.9, "very low"), (10.0, "low"), (19.9, "low"), (20.0, "medium"), (30.0, "high"),
     (59.9, "high"), (60.0, "very high")],
)  # fmt: skip
def test_a_level_begins_at_its_edge(found: float, word: str) -> None:
    assert of(asked((1, "Front", "Mehlich-3", found, NO)), "level_phosphate")[0] == word
    assert of(asked((1, "Front", "Mehlich-3", found, NO)), "level_potash")[0] == ""


def test_a_method_takes_no_figures_of_another() -> None:
    model = asked(
        (1, "Front", "Olsen", 18.0, 90.0), (2, "Front", "Olsen", 17.9, NO), (3, "Front", "Morgan", 90.0, 5.0),
        (4, "Front", "Mehlich", 9.0, 9.0),
    )  # fmt: skip
    none = "no table for this method"
    assert of(model, "level_phosphate") == ["enough", "below enough", none, "", ""]
    assert of(model, "level_potash") == [none, "", none, "", ""]
    assert is_close(of(model, "need_phosphate", "g_P2O5/m**2"), [0.0, NO, NO, NO, NO])
    assert is_close(of(model, "need_potash", "g_K2O/m**2"), [NO] * 5)
    assert of(model, "stands_phosphate")[0] == "this test's"
    assert of(model, "stands_potash")[0] == "none: no amount stated"
    assert of(model, "soil_state")[3] == "unknown method"


def test_what_a_year_needs() -> None:
    """Of phosphorus 1 + (21 - 15) × 0.15 = 1.9 g, of potassium 4 + (37 - 50) × 0.15 = 2.05 g; then more than enough."""
    model = asked((1, "Front", "Mehlich-3", 15.0, 50.0), (2, "Front", "mehlich-3", 27.6, 63.7))
    assert is_close(of(model, "need_phosphate", "g_P2O5/m**2")[:2], [1.9 / P, 0.01 / P])
    assert is_close(of(model, "need_potash", "g_K2O/m**2")[:2], [2.05 / K, 0.0])
    assert of(asked((1, "Strip", "Mehlich-3", 15.0, NO)), "stands_phosphate")[0] == "none: type its N target"


def test_the_latest_test_of_each_element_counts() -> None:
    model = asked(
        (400, "Front", "Mehlich-3", 15.0, 50.0), (30, "Front", "Mehlich-3", 30.0, NO),
        (-1, "Front", "Mehlich-3", 9.0, 9.0), (30, "Front", "Olsen", 20.0, NO), (5, "Nowhere", "Mehlich-3", 20.0, NO),
    )  # fmt: skip
    assert of(model, "stands_phosphate") == ["another test counts", "this test's", "", "another test counts", ""]
    assert of(model, "stands_potash") == ["this test's", "", "", "", ""]
    assert of(model, "soil_state") == [
        "", "", "after the as-of date, not counted yet", "twice that day, the first line counts", "unknown lawn",
    ]  # fmt: skip
    assert is_close(model.column("lawns", "soil_line_phosphate"), [3.0, NO, NO, NO])
    assert is_close(model.column("lawns", "soil_line_potash"), [2.0, NO, NO, NO])


def test_an_old_test_stands_and_says_so() -> None:
    model = asked((1096, "Front", "Mehlich-3", 15.0, NO), (1097, "Strip", "Olsen", 19.0, NO))
    assert of(model, "stands_phosphate")[:2] == ["this test's", "this test's; old, test again"]
    for_ever = asked((1097, "Front", "Mehlich-3", 15.0, NO), settings__test_life=("day", NO))
    assert of(for_ever, "stands_phosphate")[0] == "this test's"


def target(model: Model, key: str, unit: str) -> Any:
    return bare(model.column("season_target", f"target_{key}"), unit)


def test_a_typed_target_wins_and_none_is_made_of_nothing() -> None:
    rows = [(1, "Front", "Mehlich-3", 15.0, 50.0), (1, "Back", "Mehlich-3", 15.0, NO)]
    model = asked(*rows)
    assert of(model, "stands_phosphate")[:2] == ["this test's", "typed on Lawns"]
    assert is_close(target(model, "phosphate", "g_P2O5/m**2"), [1.9 / P, 2.5, NO, NO])
    assert is_close(target(model, "potash", "g_K2O/m**2"), [2.05 / K, NO, NO, NO])
    assert is_close(target(model, "nitrogen", "g_N/m**2"), [8.0, 8.0, NO, NO])
    said = bare(model.column("lawns", "soil_words"))
    assert said == ["4.35 g P₂O₅/m²; 2.47 g K₂O/m²", "", "", ""]


def test_where_phosphorus_is_forbidden_no_test_asks_for_it() -> None:
    model = asked((1, "Front", "Mehlich-3", 15.0, 50.0), place__no_phosphorus=("text", "Yes"))
    assert of(model, "stands_phosphate")[0] == "none: not allowed here"
    assert of(model, "stands_potash")[0] == "this test's"
    assert is_close(target(model, "phosphate", "g_P2O5/m**2"), [NO, 2.5, NO, NO])
    assert is_close(target(model, "potash", "g_K2O/m**2"), [2.05 / K, NO, NO, NO])


def test_what_is_missing_is_said() -> None:
    model = asked(
        (NO, "Front", "", 15.0, NO), (1, "Front", "Olsen", NO, NO), (1, "Front", "Olsen", 7.0, NO),
        misplaced=("soil_tests.tested_phosphate@1",),
    )  # fmt: skip
    assert of(model, "soil_state")[:3] == [
        "give the date; name the method", "nothing found; a text stands where a number belongs", "",
    ]  # fmt: skip


def test_the_file_knows_the_methods_of_the_sheet() -> None:
    table = Templates(shipped.templates()).book("metric").tables["soil_methods"]
    assert tuple(row["method"] for row in table.rows) == METHODS
