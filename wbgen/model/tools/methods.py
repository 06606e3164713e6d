"""How a product is put on: sprayed, or spread dry. Each method has limits of its own."""

from __future__ import annotations

from typing import Any, cast

from wbgen.model.tools.elementwise import as_number, is_word, or_zero, ratio, where
from wbgen.model.tools.lines import at
from wbgen.model.types import Each, Mask, Number, Table, Text, VolumePerArea
from wbgen.model.values import T


def is_dry(method: Each[Text]) -> Mask:
    """True where it is spread dry; all else counts as sprayed, also where nobody said."""
    return is_word(method, "dry")


def is_not_done(method: Each[Text]) -> Mask:
    """True where the line says that the visit was skipped or put off."""
    return is_word(method, "skipped") | is_word(method, "put off")


def way(method: Each[Text]) -> Each[Text]:
    """The method in one word, as groups are told apart by it.

    >>> import numpy as np
    >>> way(np.array(["Dry", "spray", ""], dtype=object))
    array(['dry', 'spray', 'spray'], dtype=object)
    """
    return where(is_dry(method), "dry", "spray")


def by_method(method: Each[Text], product_line: Each[Number], sprayed: Each[T], dry: Each[T]) -> Each[T]:
    """Of what the catalogue states for spraying and for spreading dry, that of each line's product and method.

    Neither stands in for the other: blank where that of the line's own method is not stated.
    """
    of_spray: Any = at(sprayed, product_line)
    of_dressing: Any = at(dry, product_line)
    chosen: Any = where(is_dry(method), of_dressing, of_spray)
    return cast(Each[T], chosen)


def soluble_share(product_line: Each[Number], products: Table) -> Each[Number]:
    """The part of a product's nitrogen that is not of slow release: 1 − slow (g/g) ÷ all of it (g/g); 0 without any.

    Common practice, no source.

    >>> import numpy as np
    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> slow, share = (FLOAT.Quantity(np.array([number]), "g_N/g") for number in (0.05, 0.2))
    >>> soluble_share(np.array([2.0]), SimpleNamespace(slow_nitrogen=slow, share_nitrogen=share))
    array([0.75])
    """
    slow = or_zero(at(products.slow_nitrogen, product_line))
    return or_zero(1 - as_number(ratio(slow, at(products.share_nitrogen, product_line))))


def less_tolerance(least_carrier: Each[VolumePerArea], settings: Table) -> Each[VolumePerArea]:
    """The spray (L/ha) below which there is too little of it: the least carrier volume less the tolerance (a share).

    Common practice, no source.
    """
    return least_carrier * (1 - or_zero(as_number(settings.volume_tolerance)))


def is_of_the_diarys_height(height: Text, diary_wind: Text) -> bool:
    """Whether a wind that is typed for a visit is of the height that the diary's winds are of."""
    forecast = "forecast at 10 m"
    return bool(is_word(height, forecast) == is_word(diary_wind, forecast))
