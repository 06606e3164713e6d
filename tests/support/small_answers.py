"""The small site with scores and a diary, to see how the grass answered. Figures are invented.

Front has an untreated strip, Strip. It is 15 May 2024, the season started on 1 March; a score before may be 14 days
old, one after is of 3 to 21 days later, and a mean is of two at least.
"""

from __future__ import annotations

from typing import Any

from support.small_programme import MEASURED, PRICE, filled, on, site
from support.tables import NO
from wbgen.model.binding import Model

SCORES = {
    "date": "date", "lawn": "text", "quality": "", "colour": "", "clippings": "mL/m**2", "moss": "", "note": "text",
}  # fmt: skip
ANSWERS: dict[str, Any] = {
    **PRICE,
    "lawns__strip": ("text", ["strip", "", "", "", ""]),
    "settings__before_time": ("day", 14.0),
    "settings__after_least": ("day", 3.0),
    "settings__after_time": ("day", 21.0),
    "settings__least_observations": ("", 2.0),
}
SCORED = [
    (on(4, 1), "Front", 4.0, 4.0, 10.0, 0.2),
    (on(4, 10), "FRONT", 6.0, NO, 12.0, 0.25),
    (on(4, 10), "Strip", 4.0, NO, 8.0),
    (on(4, 20), "front", 7.0, 6.0, 20.0, 0.1),
    (on(4, 20), "Front", 1.0),
    (on(4, 20), "Strip", 4.0),
    (on(4, 12), "Back", 5.0, 7.0),
    (on(4, 30), "Back", 7.0, 6.0),
    (on(5, 16), "Front", 9.0, 9.0),
    (NO, "Front", 3.0),
    (on(5, 1), "Nowhere", 8.0),
    (on(2, 10), "Front", 8.0, 8.0),
    (on(5, 2), "Side"),
]
"""On lines 2 to 14. The second of the Front's on 20 April is one too many; the Side was not scored at all."""
FED = [
    (on(4, 10), "Front", "Urea", 100.0),
    (on(4, 10), "front", "Iron salt", 50.0),
    (on(4, 10), "Front", "urea", 100.0),
    (on(4, 18), "Front", "Urea", 100.0),
    (on(4, 15), "Back", "Brew", NO, 400.0),
    (on(4, 26), "Back", "Urea", 200.0),
    (on(4, 27), "Back", "Urea", 200.0),
    (on(4, 9), "Back", "Iron salt", 20.0),
    (on(5, 12), "Nowhere", "Urea", 10.0),
    (on(2, 5), "Front", "Urea", 10.0),
    (on(4, 26), "Back", "Gypsum", 5.0),
    (on(4, 1), "Front", "Urea", 100.0),
]
"""Urea holds 460 g N in a kilogram, the brew 20 g N in a litre. Gypsum is not in the catalogue."""


def answered(
    scores: list[tuple[Any, ...]] | None = None, diary: list[tuple[Any, ...]] | None = None, **more: Any
) -> Model:
    """The model of the site with these scores and lines, those above unless others are given."""
    forms: dict[str, Any] = {"season_view__lawn": ("text", "front"), "response_room__none": ("", NO)}
    told = filled("scores", SCORES, SCORED if scores is None else scores)
    lines = filled("diary", MEASURED, FED if diary is None else diary)
    return site(**{**ANSWERS, **forms, "year__none": ("", NO), **told, **lines, **more})
