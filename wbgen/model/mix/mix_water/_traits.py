"""Whether a product of the mix has a property."""

from __future__ import annotations

from typing import Any

import numpy as np


def has(trait: Any) -> bool:
    """True where one product at least has it."""
    return bool(np.any(trait > 0))
