"""How many different mixes were scored, and how many the sheet shows.

A form: each figure is a scalar.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import blank
from wbgen.model.types import Number, Table


def mixes(answers: Table) -> Number:
    """The number of different mixes that were scored before and after."""
    return float(np.sum(~blank(answers.mix_once)))


def room(response_mixes: Table) -> Number:
    """How many of them there is room for."""
    return float(np.sum(~blank(response_mixes.turn)))


def beyond(mixes: Number, room: Number) -> Number:
    """How many there is no room for."""
    return max(mixes - room, 0.0)


def answered(diary: Table) -> Number:
    """The number of lines of the diary whose lawn was scored before and after."""
    return float(np.sum(~blank(diary.answered)))


def answers_room(answers: Table) -> Number:
    """How many of them there is room for."""
    return float(np.sum(~blank(answers.turn)))


def answers_beyond(answered: Number, answers_room: Number) -> Number:
    """How many there is no room for: the oldest."""
    return max(answered - answers_room, 0.0)
