"""The day that it is, where the user is."""

from __future__ import annotations

import os
from datetime import UTC, date, datetime


def today() -> date:
    """Today by the machine's clock and time zone."""
    return datetime.now().astimezone().date()


def day_of_build() -> date:
    """Today, or the day of SOURCE_DATE_EPOCH where a reproducible build sets it."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    return datetime.fromtimestamp(int(epoch), UTC).date() if epoch else today()
