"""The verdict on the visit: go, ask first, or do not mix, and why."""

from __future__ import annotations

from typing import Any

import numpy as np

from wbgen.model.relations import blank, magnitude

Value = Any

_CHOSEN = "yes"


def ready(mix: Value, mix_products: Value) -> Value:
    """ "yes" where there is a number of loads and at least one known product; else what is to be chosen."""
    chosen = not blank(mix.loads) and not np.all(blank(mix_products.product_line))
    return _CHOSEN if chosen else "choose a lawn, a sprayer and a product"


def level(ready: Value, mix_checks: Value, mix_products: Value, mix_nitrogen: Value) -> Value:
    """0 go, 1 ask first, 2 do not mix: the worst of the checks, the products and the lawns; 2 where not ready."""
    if ready != _CHOSEN:
        return 2.0
    return max(map(_worst, (mix_checks.worst, mix_products.level, mix_nitrogen.nitrogen_level)))


def verdict(level: Value) -> Value:
    """The level in words; none for a level that is not there.

    >>> verdict(1.0)
    'Ask first'
    """
    return ("Go", "Ask first", "Do not mix")[int(level)] if 0 <= level < 3 else ""


def reason(ready: Value, mix_checks: Value, mix_products: Value, mix_nitrogen: Value) -> Value:
    """Why the verdict is so: the words of the checks, of the products, and of the lawns."""
    if ready != _CHOSEN:
        return ready
    products = str(mix_products.words_so_far[-1])
    nitrogen = _worst(mix_nitrogen.nitrogen_level) > 0
    lawns = "more nitrogen in the last weeks than the grass can use; " if nitrogen else ""
    return _trimmed(mix_checks.words + products + lawns)


def not_checked(mix: Value) -> Value:
    """What was left empty, and so is not known to be fine; heat needs the air's temperature and its humidity."""
    empty = {
        "wind; ": blank(mix.wind),
        "heat; ": blank(mix.air_temperature) or blank(mix.humidity),
        "rain; ": blank(mix.heavy_rain),
        "ground; ": blank(mix.wet_ground),
    }
    return _trimmed("".join(word for word, is_empty in empty.items() if is_empty))


def _worst(levels: Value) -> float:
    """The greatest of the levels; 0 where there is none."""
    return max((float(one) for one in np.ravel(magnitude(levels)) if not np.isnan(one)), default=0.0)


def _trimmed(text: str) -> str:
    """Without spaces at either end, and with one where there were several."""
    return " ".join(word for word in text.split(" ") if word)
