"""The single values of a record: text, words from a list, whole numbers, numbers, true or false.

Each leaf stands in an `Annotated` beside the Python type that it gives, and refuses anything else with what it
expected.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Annotated, Any, ClassVar, Final

from pydantic_core import PydanticCustomError, core_schema

from wbgen.files.accepted_values import LONGEST_TEXT
from wbgen.files.diagnostics import did_you_mean, shown
from wbgen.files.yaml.look_alikes import without_comma
from wbgen.files.yaml.nodes import Scalar
from wbgen.files.yaml.plain_scalars import Trap, read_plain
from wbgen.files.yaml.records import found_text, wrong

_NO_LIMIT: Final = 1e9


class Leaf:
    """Reads one single value. `expected` says in a few words what it takes."""

    expected: ClassVar[str] = "a value"

    def read(self, scalar: Scalar) -> object:
        """The value; raises what `refusal` gives where it is not one."""
        raise NotImplementedError

    def refusal(self, scalar: Scalar, message: str = "", remedy: str = "") -> PydanticCustomError:
        """The error for a value that this leaf does not take."""
        said = message or f"this must be {self.expected}"
        return wrong("wrong-value", said, expected=self.expected, found=found_text(scalar), remedy=remedy)

    def __get_pydantic_core_schema__(self, source: object, handler: object) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(self._read)

    def _read(self, data: Any) -> object:
        if not isinstance(data, Scalar):
            raise wrong("wrong-shape", f"this must be {self.expected}", expected=self.expected, found=found_text(data))
        return self.read(data)


@dataclass(frozen=True)
class TextLeaf(Leaf):
    """Any text; a number or a date is taken as its text. Text that begins with = + - or @ stays text.

    It may not be empty unless `empty` says so, nor be longer than `longest` characters.
    """

    expected = "text"
    longest: int = LONGEST_TEXT
    empty: bool = False

    def read(self, scalar: Scalar) -> str:
        text = scalar.text.strip()
        if not text and not self.empty:
            raise self.refusal(scalar, "this must not be empty", "write a text, or leave the key out")
        if len(text) > self.longest:
            said = f"this text is too long: {len(text)} characters, at most {self.longest}"
            raise self.refusal(scalar, said, "shorten it")
        return text


@dataclass(frozen=True)
class OneOf(Leaf):
    """One word of a list."""

    words: tuple[str, ...]

    def __init__(self, *words: str) -> None:
        object.__setattr__(self, "words", words)

    def read(self, scalar: Scalar) -> str:
        if scalar.text in self.words:
            return scalar.text
        raise wrong("unknown-word", f"{shown(scalar.text)} is not one of the words for this",
                    expected="one of: " + ", ".join(map(_as_written, self.words)), found=shown(scalar.text),
                    remedy=self.remedy(scalar.text))  # fmt: skip

    def remedy(self, written: str) -> str:
        """What to do about another word."""
        return did_you_mean(written, map(_as_written, self.words))


@dataclass(frozen=True)
class NumberLeaf(Leaf):
    """A plain number without a unit, from `least` on to `most`; `whole` numbers only, if so said."""

    least: float
    most: float = _NO_LIMIT
    whole: bool = False

    def read(self, scalar: Scalar) -> float:
        value = scalar.value
        number = isinstance(value, int if self.whole else int | float) and not isinstance(value, bool)
        if isinstance(value, int | float) and number and self.least <= value <= self.most:
            return value
        kind = "a whole number" if self.whole else "a number"
        limit = f"{self.least:g} or more" if self.most >= _NO_LIMIT else f"from {self.least:g} to {self.most:g}"
        remedy = f"write at most {self.most:g}" if number else self.remedy(scalar.text)
        raise wrong("wrong-value", f"this must be {kind}, {limit}", expected=f"{kind}, {limit}",
                    found=found_text(scalar), remedy=remedy)  # fmt: skip

    def remedy(self, written: str) -> str:
        """What to do about a text that is no number."""
        return _number_alone(written)


def _as_written(word: str) -> str:
    """A word as it stands in a file: in quotes where it needs them."""
    return f'"{word}"' if isinstance(read_plain(word), Trap) else word


def _number_alone(text: str) -> str:
    """What to do about a text for a number: the number that stands in it."""
    numbers = re.findall(r"[0-9]+(?:[.,][0-9]+)*", text)
    if isinstance(read_plain(text), int | float):
        return f"write {text} without quotes"
    if len(numbers) != 1:
        return "write the number in digits, without a unit and without quotes"
    return without_comma(numbers[0]) + ("" if text == numbers[0] else ", the number alone")


class FlagLeaf(Leaf):
    """True or false."""

    expected = "true or false"

    def read(self, scalar: Scalar) -> bool:
        if not isinstance(scalar.value, bool):
            raise self.refusal(scalar)
        return scalar.value


Text = Annotated[str, TextLeaf()]
Flag = Annotated[bool, FlagLeaf()]
