"""How wide a text is, by the advance widths of the planner's font.

The widths are those of Arial in thousandths of its size, as in the metric-compatible Liberation Sans 2.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from wbgen.writer.styles import SIZE

PIXELS: Final = 96 / 72
"""Pixels of a point."""
CHARACTER, PADDING = 7, 5
"""Pixels that a column has for each character of its width, and those it has besides: the least that programs draw."""
INDENTED: Final = 11
"""Pixels of a cell that no text takes: the indent of a text, and what is left free at its sides."""
_USUAL: Final = 556
_REGULAR: Final = {
    191: "'", 222: "ijl", 260: "|", 278: " !,./:;I[\\]ft·", 333: "()-`r²³", 334: "{}", 355: '"', 365: "₂₃₅",
    389: "*", 400: "°", 469: "^", 500: "Jcksvxyz", 584: "+<=>~×", 604: "●○", 611: "FTZß", 667: "&ABEKPSVXYÄ",
    722: "CDHNRUwÜ", 778: "GOQÖ", 833: "Mm", 834: "½", 889: "%", 944: "W", 990: "▲", 1000: "—", 1015: "@",
}  # fmt: skip
_BOLD: Final = {
    238: "'", 278: " ,./I\\ijl·", 280: "|", 333: "!()-:;[]`ft²³", 365: "₂₃₅", 389: "*r{}", 400: "°", 474: '"',
    500: "z", 584: "+<=>^~×", 604: "●○", 611: "?FLTZbdghnopquöüß", 667: "EPSVXY", 722: "&ABCDHKNRUÄÜ",
    778: "GOQwÖ", 833: "M", 834: "½", 889: "%m", 944: "W", 975: "@", 990: "▲", 1000: "—",
}  # fmt: skip


def _by_letter(widths: Mapping[int, str]) -> dict[str, int]:
    return {letter: width for width, letters in widths.items() for letter in letters}


_WIDTHS: Final = {False: _by_letter(_REGULAR), True: _by_letter(_BOLD)}


def text_width(text: str, size: float = SIZE, *, bold: bool = False) -> float:
    """The width of a line of text in pixels.

    >>> round(text_width("0000000000")), round(text_width("Because", 9, bold=True))
    (74, 49)
    """
    widths = _WIDTHS[bold]
    return sum(widths.get(letter, _USUAL) for letter in text) * size * PIXELS / 1000


def column_pixels(width: float) -> float:
    """The pixels of a column that is so many characters wide, in a program that draws it narrow."""
    return CHARACTER * width + PADDING


def lines_in(text: str, pixels: float, size: float = SIZE, *, bold: bool = False) -> int:
    """How many lines a text takes that wraps between words, or within one that is too long.

    >>> lines_in("one two", 30), lines_in("one two", 60), lines_in("", 30), lines_in("abcdefghij", 30)
    (2, 1, 1, 3)
    """
    space = text_width(" ", size, bold=bold)
    lines, used = 1, 0.0
    for word in text.split(" "):
        long = text_width(word, size, bold=bold)
        if used and used + space + long > pixels:
            lines, used = lines + 1, 0.0
        used += long + (space if used else 0.0)
        while used > pixels:
            lines, used = lines + 1, used - pixels
    return lines
