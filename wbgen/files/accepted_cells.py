"""What input cells accept, apart from the bounds of their columns."""

from __future__ import annotations

from datetime import date

FIRST_DAY, LAST_DAY = date(2000, 1, 1), date(2100, 12, 31)
LONGEST_TEXT = 2000
NAMES = ("name", "part", "group")
"""Columns whose text other cells look up: signs that spreadsheets read as patterns are refused there."""
