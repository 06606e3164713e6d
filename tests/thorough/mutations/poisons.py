"""Values stored for a formula that are not what it gives: what a program that calculated wrongly would leave."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from thorough.mutations.planting import Held

Poison = Callable[[Held], Held | None]
FARTHER: Final = 4000.0
"""Added to a number: as a day, years away."""


def is_number(held: Held) -> bool:
    return held.type in ("", "n") and bool(held.value)


def is_text(held: Held) -> bool:
    return held.type == "str" and bool(held.value)


def is_blank(held: Held) -> bool:
    return not held.value


def _number(change: Callable[[float], float]) -> Poison:
    """Another number; None where it is the same."""

    def poison(held: Held) -> Held | None:
        if not is_number(held):
            return None
        old = float(held.value or 0)
        new = change(old)
        return None if new == old else replace(held, type="n", value=repr(new))

    return poison


def _text(change: Callable[[str], str]) -> Poison:
    def poison(held: Held) -> Held | None:
        new = change(held.value or "")
        return None if not is_text(held) or new == held.value else replace(held, value=new)

    return poison


def _instead(applies: Callable[[Held], bool], kind: str, value: str | None) -> Poison:
    return lambda held: replace(held, type=kind, value=value) if applies(held) else None


def number_as_text(held: Held) -> Held | None:
    return replace(held, type="str") if is_number(held) else None


POISONS: Final[dict[str, Poison]] = {
    "stored: another number": _number(lambda old: old + FARTHER),
    "stored: a number beyond all dates": _number(lambda old: old + 1e12),
    "stored: ten times": _number(lambda old: old * 10),
    "stored: a millionth more": _number(lambda old: old * (1 + 1e-6)),
    "stored: other sign": _number(lambda old: -old),
    "stored: nought for a number": _number(lambda _: 0.0),
    "stored: text for a number": _instead(is_number, "str", "none"),
    "stored: number as text": number_as_text,
    "stored: error for a number": _instead(is_number, "e", "#DIV/0!"),
    "stored: nothing for a number": _instead(is_number, "", None),
    "stored: empty text for a number": _instead(is_number, "str", ""),
    "stored: truth for a number": _instead(is_number, "b", "1"),
    "stored: other text": _text(lambda old: old + "x"),
    "stored: capitals": _text(str.upper),
    "stored: a space behind": _text(lambda old: old + " "),
    "stored: number for text": _instead(is_text, "n", "7"),
    "stored: error for text": _instead(is_text, "e", "#N/A"),
    "stored: nothing for text": _instead(is_text, "", None),
    "stored: an error's name as text": _instead(is_text, "str", "#N/A"),
    "stored: nought for nothing": _instead(is_blank, "n", "0"),
    "stored: number for nothing": _instead(is_blank, "n", "7"),
    "stored: text for nothing": _instead(is_blank, "str", "x"),
    "stored: a space for nothing": _instead(is_blank, "str", " "),
    "stored: error for nothing": _instead(is_blank, "e", "#VALUE!"),
    "stored: truth for nothing": _instead(is_blank, "b", "0"),
}
"""Each gives the cell poisoned, or None where it does not apply."""
