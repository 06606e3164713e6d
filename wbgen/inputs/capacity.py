"""How many records each table of a planner has."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping
from datetime import date, timedelta
from typing import TYPE_CHECKING

from wbgen.files.diagnostics import Report, did_you_mean
from wbgen.inputs.rows import Row
from wbgen.sheets.book import Book
from wbgen.trade.families import AHEAD, MONTH_NAMES, PLACES, WEEKS_OF_A_YEAR

if TYPE_CHECKING:
    from wbgen.records.site.site import Site

SPARE = {"lawns": 4, "parts": 8, "points": 16, "products": 8, "sprayers": 2, "catches": 8, "programme": 12, "shelf": 24,
         "recipes": 3, "ingredients": 10, "scores": 60, "soil_tests": 8, "people": 6, "walks": 6}  # fmt: skip
"""Empty records that a fresh planner has beyond those of the files."""
MIX_PRODUCTS = len(PLACES)
FIXED = {"mix_products": MIX_PRODUCTS, "card_steps": MIX_PRODUCTS + 3, "into_tank": MIX_PRODUCTS + 1,
         "card_list": 2 * MIX_PRODUCTS + 7,
         "months": len(MONTH_NAMES),
         "weeks": WEEKS_OF_A_YEAR, "flagged_lines": 20, "round_products": 16,
         "fortnight": 5, "today_tanks": 7, "today_lawns": 10, "today_short": 4,
         "round_tanks": 12, "weekdays": 7,
         "response_mixes": 20, "order_lines": 12, "ahead": len(AHEAD), "report_lines": 14,
         "record_lines": 40}  # fmt: skip
"""Records that every planner has of a kind, whatever the files say."""
ROUND_LINES = (18, 30, 70, 150, 300)
"""The sizes that a round's sheet can have: the smallest is taken that holds every line on every lawn, or the last.
The first fits on a page with what stands above it."""


ANSWERS = 60
"""Lines of the diary with a score before and after that are still to come: as many as there is room for scores."""
ANSWERED_WITHIN = timedelta(days=60)
"""Longer than the settings' own times, which a person may change."""


def diary_lines(lawns: int, products: int) -> int:
    """The lines that a mix of so many products on so many lawns has to be copied to the diary."""
    return lawns * products


def lawn_choices(lawns: int) -> int:
    """What the box of the lawns of a mix may have to offer: all of them, each, and as many groups."""
    return 2 * lawns + 1


def capacities(
    book: Book, site: Site, rows: Mapping[str, tuple[Row, ...]], fixed: Mapping[str, tuple[Row, ...]], diary_rows: int,
    report: Report,
) -> dict[str, int]:  # fmt: skip
    """How many records a fresh planner has of each kind; a kind that a template names and that is none is reported.

    `rows` are those that the files give by table, `fixed` those that a build fills by itself, `diary_rows` the least
    number of lines that the diary has room for.
    """
    found = _of_season(site) | {name: len(rows.get(name, ())) + spare for name, spare in SPARE.items()}
    found |= FIXED | {"diary": max(diary_rows, len(rows.get("diary", ())) + 20)}
    found["diary_lines"] = diary_lines(found["lawns"], MIX_PRODUCTS)
    found["lawn_choices"] = lawn_choices(found["lawns"])
    for key, table in book.tables.items():
        if isinstance(table.records, str) and table.records not in found:
            if key not in fixed:
                report.add("unknown-capacity", table.written.of("records"), f"{table.records!r} is no capacity that a "
                           "build sets", expected="a whole number, or the name of a capacity", found=table.records,
                           remedy=did_you_mean(table.records, sorted(found)))  # fmt: skip
            found[table.records] = len(fixed.get(key, ("",)))
    return found


def _of_season(site: Site) -> dict[str, int]:
    """Room for the dates of the programme, for its lines on each lawn, and for a round of them.

    A quarter more than the files have, and some for a beginning.
    """
    groups = [(lawn.group or "").casefold() for lawn in site.lawns]
    dates = sum(line.dates for line in site.programme)
    pairs = sum(
        1 if line.lawn else groups.count(line.group.casefold()) if line.group else len(groups)
        for line in site.programme
    )
    held = [size for size in ROUND_LINES if size >= pairs]
    return {
        "applications": _roomy(dates),
        "pairs": _roomy(pairs),
        "answers": ANSWERS + _answered(site),
        "round_lines": held[0] if held else ROUND_LINES[-1],
    }


def _answered(site: Site) -> int:
    """The lines of the diary with a score within `ANSWERED_WITHIN` before them, and one after: as many as can have an
    answer, or more."""
    scored: dict[str, list[date]] = {}
    for score in sorted(site.scores, key=lambda score: score.date):
        scored.setdefault(score.lawn.casefold(), []).append(score.date)
    found = 0
    for line in site.diary:
        days = scored.get(line.lawn.casefold(), [])
        place = bisect_right(days, line.date)
        before, after = days[place - 1 : place], days[place:]
        found += bool(before and after and line.date - before[-1] <= ANSWERED_WITHIN >= after[0] - line.date)
    return found


def _roomy(number: int) -> int:
    return max(number + number // 4 + 12, 36)
