"""Corners drawn at random, in whole centimetres, and what a library of geometry says of them."""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from shapely.geometry import LinearRing

Corners = Sequence[tuple[int, int]]
KINDS = ("convex", "concave", "shuffled", "grid", "notched")


def drawn(draw: random.Random, kind: str) -> list[tuple[int, int]]:
    """Corners of one kind, up to 40 m across: round a convex edge, round a concave one, either of them out of order, on
    a coarse grid (where edges touch and lie on one line), and with a notch whose edges share a line with others."""
    number = draw.randint(3, 12)
    if kind == "grid":
        return [(100 * draw.randint(0, 4), 100 * draw.randint(0, 4)) for _ in range(draw.randint(3, 7))]
    if kind == "notched":
        depth = draw.choice((0, 100, 300, 500, 700))
        return [(0, 0), (900, 0), (900, 500), (600, 500), (600, 500 - depth), (300, 500 - depth), (300, 500), (0, 500)]
    angles = sorted(draw.sample(range(0, 3600, 25), number))
    edge = [2000 if kind == "convex" else draw.randint(300, 2000) for _ in angles]
    corners = [(round(far * math.cos(math.radians(angle / 10))), round(far * math.sin(math.radians(angle / 10))))
               for angle, far in zip(angles, edge, strict=True)]  # fmt: skip
    if kind == "shuffled":
        draw.shuffle(corners)
    return corners


def is_simple(corners: Corners) -> bool:
    """Whether the edges meet nowhere but at the corners that neighbours share, by shapely; it passes over a corner that
    is given twice running, which is no edge here."""
    ring = [*corners, corners[0]]
    return all(one != other for one, other in pairwise(ring)) and bool(LinearRing(corners).is_simple)


CROSS: Final = "the edges cross or touch: go round in order"
NO_AREA: Final = "no area yet: give the lengths this shape needs"


def to_mend(corners: Corners) -> str:
    """What a sheet should say of these corners. Three have no edges that are not neighbours."""
    if is_simple(corners):
        return ""
    return NO_AREA if len(corners) == 3 else CROSS
