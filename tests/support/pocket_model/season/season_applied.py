"""What each lawn has had."""

from __future__ import annotations

from typing import Any

from wbgen.model.tools.lines import at
from wbgen.model.tools.relations import sum_by

Value = Any
BLANK_UNLESS = ("lawn",)


def lawn(turn: Value, lawns: Value) -> Value:
    return at(lawns.name, turn + 1)


def area(turn: Value, lawns: Value) -> Value:
    return at(lawns.area, turn + 1)


def applied_nitrogen(lawn: Value, area: Value, diary: Value) -> Value:
    return sum_by(diary.lawn, lawn, diary.load_nitrogen) / area
