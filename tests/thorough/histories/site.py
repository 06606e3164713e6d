"""The planner that histories begin with: small, with something in every table."""

from __future__ import annotations

import random
from datetime import date
from typing import Final

from support.planners import VISITS, Built, built_once, diary_line
from support.shared import Shared
from wbgen.files import shipped
from wbgen.records.catalogue import load_catalogue
from wbgen.sheets.column import System

LINES: Final = 14
ROWS: Final = 20


def small_site() -> str:
    """Two lawns, three sprayers, a mix, a short diary; some notes begin like formulas."""
    draw = random.Random(14)  # noqa: S311 - the same lines every time
    products = [p for p in load_catalogue([shipped.product_catalogue()], []).products if p.spray or p.dry]
    lines = "".join(diary_line(draw, draw.choice(products), number) for number in range(LINES))
    return VISITS + "diary:\n" + lines


def small_planner(shared: Shared, system: System = "metric", built_on: date | None = None) -> Built:
    """A planner built today, since the programs of the histories calculate it today; or on another day. Once a run."""
    day = built_on or date.today()  # noqa: DTZ011 - the day of the programs' clock
    return built_once(shared, f"small-{day}", small_site(), system, diary_rows=ROWS, today=day)
