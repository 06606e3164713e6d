"""Levels, and the words that go with them."""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import is_word
from wbgen.model.types import Text


def level_of(trips: bool | np.bool_, level: float) -> float:
    """The level where it trips, else 0."""
    return level if bool(trips) else 0.0


def said(level: float, words: str) -> str:
    """The words where there is something to say."""
    return words if level > 0 else ""


def is_said(text: Text, word: str) -> bool:
    """Whether a form's text is a word, which is given in small letters."""
    return bool(is_word(text, word)[0])
