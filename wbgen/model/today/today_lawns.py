"""The lawns whose nitrogen is furthest from the plan.

One record a lawn: shape (today_lawns,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import as_number, magnitude, ratio, where
from wbgen.model.tools.relations import lookup
from wbgen.model.types import Each, NitrogenPerArea, Number, T, Table, Text, each

BLANK_UNLESS = ("lawn",)


def _shown(turn: Each[Number], season_share: Table, values: Each[T]) -> Each[T]:
    """The values of the lawns in the order of their ranks."""
    return lookup(turn, season_share.away_rank, values)


def lawn(turn: Each[Number], season_share: Table, feeding: Table) -> Each[Text]:
    """The lawn."""
    return _shown(turn, season_share, feeding.lawn)


def had(turn: Each[Number], season_share: Table, feeding: Table) -> Each[NitrogenPerArea]:
    """The nitrogen (g N/m²) that it had this season."""
    return _shown(turn, season_share, feeding.had)


def target(turn: Each[Number], season_share: Table, feeding: Table) -> Each[NitrogenPerArea]:
    """Its target (g N/m²)."""
    return _shown(turn, season_share, feeding.target)


def bar(had: Each[NitrogenPerArea], target: Each[NitrogenPerArea]) -> Each[Number]:
    """The share of the target that it had, from 0 to 1."""
    share = as_number(ratio(had, where(magnitude(target) > 0, target, np.nan)))
    return each(np.clip(share, 0.0, 1.0))


def plan_words(turn: Each[Number], season_share: Table, feeding: Table) -> Each[Text]:
    """Whether it is ahead of the plan or behind it."""
    return _shown(turn, season_share, feeding.plan_words)
