"""Whole numbers in the attributes of a stranger's file."""

from __future__ import annotations

import re
from typing import Final

from wbgen.files.xlsx.refusal import damaged

_WHOLE: Final = re.compile(r"[ \t\r\n]*\+?([0-9]{1,10})[ \t\r\n]*")
"""W3C XML Schema part 2, 3.3.22: unsignedInt, with the blanks round it that 4.3.6 takes away."""
MOST: Final = 2**32 - 1


def whole(text: str | None, part: str, what: str, least: int = 0, most: int = MOST) -> int:
    """The whole number that an attribute holds. Raises UnsafeFile for what is none, or not from `least` to `most`.

    >>> whole("12", "xl/styles.xml", "a number format")
    12
    """
    found = _WHOLE.fullmatch(text or "")
    number = int(found[1]) if found else -1
    if not least <= number <= most:
        raise damaged(f"{part} with {what} {'without a number' if text is None else repr(text[:20])}")
    return number
