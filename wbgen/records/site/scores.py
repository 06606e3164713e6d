"""What a user's file says of how the lawns looked: scores, one record a lawn a day."""

from __future__ import annotations

from typing import Annotated

from wbgen.files.accepted_values import as_read
from wbgen.files.diagnostics import Report
from wbgen.files.yaml.fields import NumberLeaf, Text
from wbgen.files.yaml.records import Record
from wbgen.records.fields import Day, Measure, Of, Share
from wbgen.records.site.names import Names, known

_OneToNine = Annotated[float, NumberLeaf(1, 9)]


class Score(Record):
    """How a lawn looked on a day: quality and colour from 1 to 9, clippings by volume and area, moss as a share."""

    date: Day
    lawn: Text
    quality: _OneToNine | None = None
    colour: _OneToNine | None = None
    clippings: Annotated[Measure, Of("volume rate", zero=True)] | None = None
    moss: Share | None = None
    note: Text | None = None


def check_scores(scores: tuple[Score, ...], names: Names, report: Report) -> None:
    """The lawns are known, each has one record a day, and something was looked at."""
    seen: dict[tuple[str, object], Score] = {}
    for score in scores:
        known(score.lawn, score.place_of("lawn"), names.lawns, "lawn", report)
        if all(figure is None for figure in (score.quality, score.colour, score.clippings, score.moss)):
            report.add("score-line", score.place, f"{score.lawn}: nothing was scored",
                       expected="quality, colour, clippings or moss", found="none of them",
                       remedy="add what was looked at, or delete the line")  # fmt: skip
        first = seen.setdefault((as_read(score.lawn), score.date), score)
        if first is not score:
            report.add("score-line", score.place, f"{score.lawn} was scored on {score.date} already",
                       expected="one line a lawn a day", found=f"another in line {first.place.line}",
                       remedy="put the two into one")  # fmt: skip
