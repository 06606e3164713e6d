"""The card."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.tools.elementwise import only, where

Value = Any


def shown_verdict(verdict: Value) -> Value:
    return only(verdict.verdict)


def date(mix: Value) -> Value:
    return only(mix.date)


def spray(mix: Value, verdict: Value) -> Value:
    return where(only(verdict.level) == 2, np.nan, only(mix.spray_volume))
