"""The page for a lawn's owner, worked out by hand for the Front of the small site: 100 m², on 15 May 2024.

The season started on 1 March. Urea has 46 % N, the brew 20 g N/L.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from support.small_programme import AS_OF, MEASURED, filled, line, on, shown, site
from support.tables import NO, is_close
from wbgen.model.binding import Model
from wbgen.model.feeding_workings.report_workings import words
from wbgen.model.tools.elementwise import with_unit

SCORES = {"date": "date", "lawn": "text", "quality": "", "colour": "", "clippings": "mL/m**2", "moss": ""}
TARGETS: dict[str, Any] = {
    "lawns__target_nitrogen": ("g_N/m**2", [6.0, NO, NO, NO, 3.0]),
    "lawns__target_phosphate": ("g_P2O5/m**2", []),
    "lawns__target_potash": ("g_K2O/m**2", []),
    "lawns__target_iron": ("g_Fe/m**2", []),
}
DAY = [
    (on(2, 20), "Front", "Urea", 100.0),
    (on(4, 1), "Front", "Urea", 200.0),
    (on(5, 6), "Back", "Urea", 500.0),
    (on(5, 6), "Front", "Brew", NO, 300.0, 10.0, 1.0),
    (on(5, 6), "Front", "Urea", 200.0, NO, 10.0, 1.0),
    (on(5, 20), "Front", "Urea", 200.0),
]
"""A line of the last season, one of another lawn and one that is still to come are among those of the Front."""


def page(*lines: tuple[Any, ...], lawn: str = "Front", scores: Any = (), programme: Any = (), **more: Any) -> Model:
    noted: dict[str, Any] = {"diary__note": ("text", []), "report_choice__lawn": ("text", lawn), **TARGETS, **more}
    diary = filled("diary", MEASURED, list(lines))
    rates: dict[str, Any] = {
        f"diary__planned_{kind}_rate": (unit, []) for kind, unit in (("mass", "g/m**2"), ("volume", "mL/m**2"))
    }
    return site(*programme, **{**diary, **rates, **filled("scores", SCORES, list(scores)), **noted})


def test_what_went_on_the_latest_first() -> None:
    model = page(*DAY, diary__method=("text", ["", "dry"]), diary__note=("text", ["", "", "", "", "before rain"]))
    assert shown(model, "report_lines", "spot") == [6, 5, 3]
    assert shown(model, "report_lines", "date") == [on(5, 6), on(5, 6), on(4, 1)]
    assert shown(model, "report_lines", "product") == ["Urea", "Brew", "Urea"]
    assert shown(model, "report_lines", "amount") == ["180 g", "270 mL", "200 g"]
    assert shown(model, "report_lines", "rate") == ["1.8 g/m²", "2.7 mL/m²", "2 g/m²"]
    assert shown(model, "report_lines", "note") == ["before rain", "", "spread dry"]
    assert model.column("report", "went_on") == "3 lines of the diary, all of them below"
    assert model.column("report", "season") == "from 1 March 2024, counted up to 15 May 2024"
    assert model.column("report", "ground") == "100 m²"
    assert model.column("report", "not_known") == "how the grass looked"


def test_lines_out_of_order_come_by_their_days() -> None:
    """The diary asks for its lines to be sorted; until they are, the page is right all the same."""
    model = page(*reversed(DAY))
    assert shown(model, "report_lines", "date") == [on(5, 6), on(5, 6), on(4, 1)]
    assert shown(model, "report_lines", "product") == ["Brew", "Urea", "Urea"]


def test_an_empty_box_takes_the_first_lawn() -> None:
    assert page(*DAY, lawn="").column("report", "shown") == "Front"
    assert shown(page(*DAY, lawn="back"), "report_lines", "amount") == ["500 g"]


def test_nutrients_against_their_targets() -> None:
    """(180 + 200) × 0.46 + 270 × 0.02 = 180.2 g N on 100 m²."""
    model = page(*DAY)
    for key, figure in (("had", 1.802), ("target", 6.0), ("left", 4.198)):
        assert is_close(model.column("report_nutrients", f"{key}_nitrogen").to("g_N/m**2").magnitude, figure)
    assert model.column("report_nutrients", "stands_nitrogen") == ""
    assert model.column("report_nutrients", "stands_iron") == "no target set"
    over = page((on(4, 1), "Front", "Urea", 1305.0))
    assert over.column("report_nutrients", "stands_nitrogen") == "over the target"


def test_nitrogen_by_month() -> None:
    """92 g in April and 88.2 g in May; the programme brings 2 × 0.46 g/m² on each of 5 Wednesdays of May."""
    model = page(*DAY, programme=[line()])
    assert list(model.column("report_months", "month")[:3]) == ["Mar", "Apr", "May"]
    assert is_close(model.column("report_months", "had").to("g_N/m**2").magnitude[:4], [0, 0.92, 0.882, 0])
    assert is_close(model.column("report_months", "planned").to("g_N/m**2").magnitude[:4], [0, 0, 4.6, 0])


def test_more_lines_than_the_page_holds() -> None:
    model = page(*((on(4, day), "Front", "Urea", 10.0 * day) for day in range(1, 8)))
    assert shown(model, "report_lines", "amount") == ["70 g", "60 g", "50 g", "40 g"]
    assert model.column("report", "went_on") == "7 lines of the diary: the latest 4 below, 3 more went on before them"


@pytest.mark.parametrize(
    ("lawn", "lines", "said"),
    [
        ("Front", [(on(4, 1), "Front", "Urea")], "the amount of 1 line, not counted; how the grass looked"),
        (
            "Front",
            [(on(4, 1), "Front", "Guano", 5.0), (on(4, 2), "Front", "Guano", 5.0)],
            "what is in the product of 2 lines, not counted; how the grass looked",
        ),
        (
            "Front",
            [(on(4, 1), "Frnt", "Urea", 5.0)],
            "how the grass looked; the lawn of 1 line of the diary, not counted",
        ),
        ("Strip", [], "the area of the lawn, so that nothing is said by area; how the grass looked"),
        ("Nowhere", [], "there is no such lawn"),
    ],
)
def test_what_is_not_known_is_said(lawn: str, lines: list[Any], said: str) -> None:
    model = page(*lines, lawn=lawn)
    assert model.column("report", "not_known") == said
    own = [one for one in lines if one[1] == lawn]
    assert (model.column("report", "went_on") == "nothing stands in the diary for this season") == (not own)
    if lawn == "Strip":
        assert model.column("report_nutrients", "stands_nitrogen") == "not known"
        assert model.column("report", "ground") == "area not known"


def test_what_is_counted_may_be_any_sort_of_number() -> None:
    """A figure out of an engine is a number of numpy's."""
    one, two, none = np.float64(1.0), np.float64(2.0), np.float64(0.0)
    said = words(np.float64(2.0), with_unit(9.0, "m**2"), one, two, one, none)
    assert said == "the amount of 1 line, not counted; what is in the product of 2 lines, not counted"


def test_an_amount_that_is_not_noted() -> None:
    model = page((on(4, 1), "Front", "Urea"))
    assert shown(model, "report_lines", "amount") == ["not noted"]
    assert shown(model, "report_lines", "rate") == ["not known"]


def test_next_visits_the_soonest_first_those_of_a_day_in_their_order() -> None:
    """Urea was last on on 6 May, the iron salt is due for the first time on the same 20 May; the nitrate is late."""
    programme = [
        line(first=on(5, 6), last=on(6, 26), every=14.0),
        line("Iron salt", lawn="Front", first=on(5, 20), last=on(6, 26), every=14.0),
        line("Calcium nitrate", group="Greens", first=on(5, 8), last=on(6, 26), every=14.0),
        line("Brew", lawn="Back", first=on(5, 9), last=on(6, 26), every=14.0),
    ]
    model = page(*DAY, programme=programme)
    assert shown(model, "report_next", "date") == [on(5, 8), on(5, 20), on(5, 20)]
    assert shown(model, "report_next", "product") == ["Calcium nitrate, overdue", "Urea", "Iron salt"]


def test_the_last_scores_and_what_changed() -> None:
    """The first of a day counts; those of other lawns and those to come do not."""
    model = page(
        scores=[
            (on(4, 1), "Front", 6.0, 5.0, 20.0, 0.1),
            (on(5, 1), "Front", 7.0, 6.5, NO, 0.05),
            (on(5, 1), "Front", 2.0, 2.0, 2.0, 0.2),
            (on(5, 2), "Back", 9.0, 9.0, 9.0, 0.0),
            (AS_OF + 1, "Front", 8.0, 8.0, 8.0, 0.0),
        ]
    )
    assert model.column("report_scores", "latest_date") == on(5, 1)
    assert model.column("report_scores", "before_date") == on(4, 1)
    assert is_close(model.column("report_scores", "change_colour"), 1.5)
    assert is_close(model.column("report_scores", "change_moss"), -0.05)
    assert is_close(model.column("report_scores", "change_clippings").magnitude, NO)
    assert model.column("report", "not_known") == "nothing that was asked for is missing"
