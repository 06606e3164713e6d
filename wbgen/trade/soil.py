"""Soil tests: the methods that a laboratory may name, and the nutrients that a test may ask for."""

from __future__ import annotations

from typing import Final

METHODS: Final = (
    "Mehlich-3", "Bray P1", "Olsen", "Mehlich-1", "Morgan", "modified Morgan", "ammonium acetate", "other",
)  # fmt: skip
"""What phosphorus or potassium is dissolved with; the sheet Soil tests says what is known of each."""
SOIL_FED: Final = {"phosphate": "0.125 g P/g N", "potash": "0.5 g K/g N"}
"""The nutrients that a soil test may ask for, each with the most of its element that grass uses, of its nitrogen."""
FORBIDDEN: Final = {"phosphate": 'place.no_phosphorus="yes"'}
"""The part of a formula that says that the place forbids the nutrient."""


def target_of(key: str) -> str:
    """The part of a formula that is a lawn's target by its soil test; nothing where no test can ask for it."""
    if key not in SOIL_FED:
        return '""'
    need = f'IFERROR(INDEX(soil_tests.need_{key},INDEX(lawns.soil_line_{key},turn+1)),"")'
    return f'IF({FORBIDDEN[key]},"",{need})' if key in FORBIDDEN else need


def said_of(key: str) -> str:
    """The part of a formula that says whether a test that counts sets the target."""
    own = '"this test\'s"'
    return f'IF({FORBIDDEN[key]},"none: not allowed here",{own})' if key in FORBIDDEN else own
