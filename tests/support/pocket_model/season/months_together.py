"""What each month has had."""

from __future__ import annotations

from typing import Any

from wbgen.model.tools.relations import count_by, sum_by

Value = Any


def lines(number: Value, diary: Value) -> Value:
    return count_by(diary.month, number)


def load_nitrogen(number: Value, diary: Value) -> Value:
    return sum_by(diary.month, number, diary.load_nitrogen)
