"""What the catalogue says of the product on a line."""

from __future__ import annotations

from typing import Any

from wbgen.model.tools.relations import folded, pick

Value = Any

HEADING_AND_ONE = 2
"""The line of the first product: the heading row is line 1."""


def of_product(product_line: Value, column: Value) -> Value:
    """What the catalogue has in `column` for the product on each line; blank without a line."""
    return pick(column, product_line - HEADING_AND_ONE)


def is_word(text: Value, word: str) -> Any:
    """Where a text is a word, whatever its case."""
    return folded(text) == word
