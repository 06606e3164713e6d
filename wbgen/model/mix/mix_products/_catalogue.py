"""What the catalogue says of the product on a line."""

from __future__ import annotations

from wbgen.model.tools.relations import folded, pick
from wbgen.model.types import Each, Mask, Number, T, Text

HEADING_AND_ONE = 2
"""The line of the first product: the heading row is line 1."""


def of_product(product_line: Each[Number], column: Each[T]) -> Each[T]:
    """What the catalogue has in `column` for the product on each line; blank without a line."""
    return pick(column, product_line - HEADING_AND_ONE)


def is_word(text: Each[Text], word: str) -> Mask:
    """Where a text is a word, whatever its case."""
    return folded(text) == word
