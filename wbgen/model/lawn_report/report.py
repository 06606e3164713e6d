"""The head of the page that a lawn's owner is given.

A form: each figure is a scalar.
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank, only, or_zero
from wbgen.model.tools.words import amount, counts, in_words
from wbgen.model.types import Table, Text


def shown(report_workings: Table) -> Text:
    """The lawn."""
    return report_workings.lawn


def ground(report_workings: Table, season_applied: Table) -> Text:
    """Its area and its grass, in words."""
    area = report_workings.area
    size = "area not known" if blank(area) else amount(area, season_applied.area.units, 0)
    return size + (f", {report_workings.grass} grass" if report_workings.grass else "")


def season(settings: Table, start: Table, months: Table) -> Text:
    """From when to when is counted, in words."""
    first, last = in_words(only(settings.season_start), months), in_words(only(start.as_of), months)
    return f"from {first}, counted up to {last}"


def went_on(report_workings: Table, report_lines: Table) -> Text:
    """How many lines the diary has for it this season, and how many of them the page has no room for."""
    lines, room = float(or_zero(report_workings.lines)), float(len(report_lines.turn))
    if lines == 0:
        return "nothing stands in the diary for this season"
    more = f": the latest {counts(room)} below, {counts(lines - room)} more went on before them"
    return (
        counts(lines)
        + (" line" if lines == 1 else " lines")
        + " of the diary"
        + (more if lines > room else ", all of them below")
    )


def not_known(report_workings: Table) -> Text:
    """What the page cannot say, in words."""
    return report_workings.words or "nothing that was asked for is missing"
