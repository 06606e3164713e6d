"""What is spread dry on a lawn in a day is one dressing, whatever products it is of; worked out by hand."""

from __future__ import annotations

from typing import Any

import pytest

from support.small_diary import LIMITS, NO, SPRAYED_ON, column_of, flags_of, line, on, planner
from wbgen.units.quantity import FLOAT

NITROGEN, MUCH, TOO_MUCH = (
    "more soluble nitrogen than one dry dressing should bring",
    "much iron in one dry dressing",
    "too much iron in one dry dressing",
)


def spread(product: str = "Iron salt", lawn: str = "Front", day: float = SPRAYED_ON, **more: Any) -> list[Any]:
    """One line of what was spread dry on the Front's 100 m², or the Back's 200 m²."""
    return line(day, lawn, product, "Dry", **more)


def dressing(*lines: list[Any], **more: Any) -> list[str]:
    """What is said of dressings alone: sprays are held to no limit here."""
    none: dict[str, Any] = {
        f"limits__{which}_{risk}": FLOAT.Quantity(NO, unit)
        for risk, (unit, *_) in LIMITS.items() for which in ("ask", "stop")
    }  # fmt: skip
    return column_of(planner(list(lines), **none, **more), "flag_visit")


def test_all_that_is_spread_on_a_lawn_and_day_is_one_dressing() -> None:
    """600 g of urea on 100 m² are 2.76 g N/m², twice that 5.52: over 5. Back, spray and other days are others."""
    lines = [
        spread("Urea", weighed=600.0),
        line(SPRAYED_ON, "Front", "Urea", "spray", weighed=600.0),
        spread("Urea", lawn="Back", weighed=600.0),
        spread("Urea", weighed=600.0, note="a second load"),
        spread("Urea", day=on(4, 2), weighed=600.0),
        spread(weighed=100.0),
    ]
    model = planner(lines)
    nitrogen = column_of(model, "visit_nitrogen", "g_N/m**2")
    assert nitrogen == pytest.approx([2.76, 2.76, 1.38, 5.52, 2.76, 5.52])
    assert column_of(model, "visit_iron", "g_Fe/m**2") == pytest.approx([0, 0, 0, 0, 0, 0.2])
    assert dressing(*lines) == ["", "", "", f"; {NITROGEN}", "", f"; {NITROGEN}"]


@pytest.mark.parametrize(
    ("grams", "said"), [(1000.0, ""), (1000.001, f"; {MUCH}"), (1999.99, f"; {MUCH}"), (2000.0, f"; {TOO_MUCH}")]
)
def test_iron_of_a_dressing_has_two_limits(grams: float, said: str) -> None:
    """A fifth is iron: 1000 g on 100 m² are 2 g Fe/m², still allowed; 4 are too much."""
    assert dressing(spread(weighed=grams)) == [said]
    assert dressing(spread(weighed=grams / 2), spread(weighed=grams / 2, note="again")) == ["", said]
    assert dressing(line(SPRAYED_ON, "Front", "Iron salt", "spray", weighed=grams)) == [""]


def test_ferrous_sulphate_as_against_moss_is_flagged() -> None:
    """35 g/m² of it are 7 g Fe/m²."""
    assert TOO_MUCH in flags_of(spread(weighed=3500.0))[0]


@pytest.mark.parametrize(
    ("limit", "left"), [("dry_iron", TOO_MUCH), ("dry_iron_stop", MUCH), ("dry_nitrogen", TOO_MUCH)]
)
def test_a_limit_that_is_taken_out_does_not_count(limit: str, left: str) -> None:
    unit = "g_N/m**2" if limit == "dry_nitrogen" else "g_Fe/m**2"
    none: dict[str, Any] = {f"settings__{limit}": FLOAT.Quantity(NO, unit)}
    said = dressing(spread("Urea", weighed=1200.0), spread(weighed=2500.0), **none)[1]
    assert (NITROGEN in said) == (limit != "dry_nitrogen")
    assert said.endswith(f"; {left}")


def test_a_line_that_treated_no_known_area_does_not_hide_the_others() -> None:
    """Its own part is not known; what is known is over the limit."""
    first = spread(weighed=10.0, treated_area=0.0)
    assert dressing(first, spread(weighed=2000.0)) == ["", f"; {TOO_MUCH}"]
