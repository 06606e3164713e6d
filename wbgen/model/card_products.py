"""What the card says of the products of the visit."""

from __future__ import annotations

from typing import Any

Value = Any


def cautions(mix_products: Value) -> str:
    """The cautions of each product, by name, one after the other."""
    words = "".join(mix_products.caution_words).replace("•", " • ")
    return " ".join(word for word in words.split(" ") if word)
