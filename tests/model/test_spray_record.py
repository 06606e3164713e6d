"""The record of what was put on, worked out by hand for the small site: the season started on 1 March 2024, and
totals count up to 15 May."""

from __future__ import annotations

from typing import Any

from support.small_programme import MEASURED, filled, on, shown, site
from support.tables import NO, is_close
from wbgen.model.binding import Model

DAY = [
    (on(5, 6), "Back", "Urea", 500.0, NO, 16.0),
    (on(5, 6), "Front", "Brew", NO, 300.0, 10.0, 1.0),
    (on(4, 1), "Front", "Iron salt", 50.0, NO, 8.0),
    (on(5, 20), "Front", "Urea", 200.0),
    (on(2, 20), "Front", "Urea", 100.0),
]
"""Out of order; one line is still to come and one is of the last season."""
PEOPLE: dict[str, Any] = {
    "people__name": ("text", ["Ann", "Ben"]),
    "people__licence": ("text", ["", "AB 12"]),
    "products__registration": ("text", ["", "No. 7"]),
}
WHOLE: dict[str, Any] = {
    "diary__who": ("text", ["Ben", "Ann", "Ben"]),
    "diary__method": ("text", ["spray", "spray", "spray"]),
    "diary__wind": ("km/h", [6.0, NO, 5.0]),
    "diary__air_temperature": ("degC", [12.0, 13.0, 14.0]),
    "diary__note": (
        "text",
        ["", "Start 9:10, end 10:05, wind from SW, batch 4, reason moss", "reason moss, wind from SW"],
    ),
}


def record(*lines: tuple[Any, ...], **more: Any) -> Model:
    rates: dict[str, Any] = {
        f"diary__planned_{kind}_rate": (unit, []) for kind, unit in (("mass", "g/m**2"), ("volume", "mL/m**2"))
    }
    noted: dict[str, Any] = {"diary__who": ("text", []), "diary__note": ("text", []), **rates, **PEOPLE, **more}
    return site(**{**filled("diary", MEASURED, list(lines)), **noted})


def test_lines_of_the_season_lawn_by_lawn_and_day_by_day() -> None:
    model = record(*DAY, **WHOLE)
    assert shown(model, "record_lines", "place") == ["Front", "Front", "Back"]
    assert shown(model, "record_lines", "date") == [on(4, 1), on(5, 6), on(5, 6)]
    assert shown(model, "record_lines", "product") == ["Iron salt", "Brew", "Urea"]
    assert shown(model, "record_lines", "who") == ["Ben, AB 12", "Ann", "Ben, AB 12"]
    assert shown(model, "record_lines", "registration") == ["No. 7"]
    assert shown(model, "record_lines", "amount") == ["50 g", "270 mL", "500 g"]
    assert shown(model, "record_lines", "rate") == ["0.5 g/m²", "2.7 mL/m²", "2.5 g/m²"]
    assert is_close(model.column("record_lines", "area").to("m**2").magnitude[:3], [100, 100, 200])
    assert is_close(model.column("record_lines", "water").to("L").magnitude[:3], [8, 10, 16])
    assert model.column("record", "lines") == "3 in the diary, all of them below"


def test_what_a_line_lacks_is_said_in_it() -> None:
    lacking = shown(record(*DAY, **WHOLE), "record_lines", "lacking")
    assert lacking == [
        "start and end, batch",
        "licence, registration no., wind",
        "registration no., wind direction, start and end, batch, reason",
    ]
    bare = shown(record((on(4, 1), "Strip", "Urea")), "record_lines", "lacking")
    assert bare == [
        "who, registration no., how, amount, area, water, wind, wind direction, air, start and end, batch, reason"
    ]
    dry = record((on(4, 1), "Front", "Urea", 900.0), diary__method=("text", ["dry"]))
    assert shown(dry, "record_lines", "lacking") == ["who, registration no., start and end, batch, reason"]


def test_a_span_of_ones_own_has_both_its_days() -> None:
    model = record(*DAY, record__begin=("date", on(2, 20)), record__until=("date", on(4, 1)))
    assert shown(model, "record_lines", "date") == [on(2, 20), on(4, 1)]
    none = record(*DAY, record__begin=("date", on(2, 21)), record__until=("date", on(3, 31)))
    assert none.column("record", "lines") == "none in the diary between these days"
    assert shown(none, "record_lines", "spot") == []


def test_more_lines_than_there_is_room_for() -> None:
    model = record(*((on(4, day), "Front", "Urea", 10.0 * day) for day in range(1, 7)))
    assert model.column("record", "lines") == (
        "6 in the diary: the first 4 below, 2 more do not stand here: choose a shorter time"
    )
    assert shown(model, "record_lines", "amount") == ["10 g", "20 g", "30 g", "40 g"]


def test_a_line_of_an_unknown_lawn_is_told_of() -> None:
    model = record((on(4, 1), "Frnt", "Urea", 5.0), (on(4, 2), "Back", "Urea", 5.0))
    assert shown(model, "record_lines", "place") == ["Back"]
    told = "1 in the diary, all of them below; 1 of an unknown lawn not among them: mend the diary"
    assert model.column("record", "lines") == told


def test_the_keys_of_each_lawn_begin_where_those_of_the_lawns_above_end() -> None:
    """Front has two lines of the span, behind one of February; Back has one, behind the four of the Front."""
    model = record(*DAY)
    assert is_close(model.column("record_lawns", "lines")[:2], [2, 1])
    assert is_close(model.column("record_lawns", "offset")[:2], [1, 4 - 2])
