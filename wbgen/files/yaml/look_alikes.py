"""Signs that look like others: dashes and blanks at the beginning of a line, a comma in a number, curly quotes."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from wbgen.files.diagnostics import Place, Report, shown

UNREADABLE: Final = re.compile(r"[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
CURLY: Final = "“”„‟‘’‚"
"""Quotes that word processors write; to YAML they are letters."""
DASHES: Final = "–—−•"
"""Signs that stand before the items of a list elsewhere; to YAML they are letters."""
_BLANK: Final = re.compile(r" *(?P<blank>[\u00a0\u2000-\u200b\u202f\u205f\u3000]+)\s*(?:- |[^\s#][^:]*:(?: |$))")
_DASH: Final = re.compile(rf" *(?P<dash>-(?=\w)|[{DASHES}])(?P<rest> *[^:]+:(?: |$).*)")
MOST_LINES: Final = 20
"""How many lines with one mistake are told."""


@dataclass(frozen=True)
class Told:
    """One mistake; `line` and `column` from 0."""

    line: int
    column: int
    message: str
    expected: str
    found: str
    remedy: str


def refuse_characters(lines: list[str], file: str, report: Report) -> bool:
    """Tell of each line with a character that no file of YAML may have; whether any has."""
    wrong = [(number, match) for number, line in enumerate(lines, 1) if (match := UNREADABLE.search(line))]
    for number, match in wrong[:MOST_LINES]:
        report.add("unreadable-character", Place(file, number, match.start() + 1), "a control character stands here",
                   found=f"U+{ord(match.group()):04X}", remedy="delete it")  # fmt: skip
    return bool(wrong)


def odd_beginning(word: str) -> bool:
    """Whether a key begins with a sign that no key of a file has."""
    return bool(word) and not (word[0].isalnum() or word[0] in "?_")


def tell_beginnings(lines: list[str], file: str, report: Report) -> bool:
    """Tell of each line that begins with what only looks like the sign of a list or like spaces; whether any does."""
    told = [one for number, line in enumerate(lines) for one in (*dash(number, line), *blank(number, line))]
    for one in told[:MOST_LINES]:
        report.add("wrong-beginning", Place(file, one.line + 1, one.column + 1), one.message, expected=one.expected,
                   found=one.found, remedy=one.remedy)  # fmt: skip
    return bool(told)


def split_number(before: str, after: str) -> tuple[str, str] | None:
    """The number that a comma parted, as it was written and what to do, where the two stand round a comma in brackets.

    >>> split_number("{N: 2", "5 %"), split_number("[3", "4"), split_number("[5 m", "4 m")
    (('2,5 %', 'write 2.5 %'), ('3,4', 'write 3.4'), None)
    """
    number = re.search(r"(?:^|[\s\[{:,])(-?[0-9]+)$", before)
    if number is None or not re.match(r"[0-9]+(?![0-9.])", after):
        return None
    return f"{number[1]},{after}", without_comma(f"{number[1]},{after}")


def without_comma(text: str) -> str:
    """What to write for a number with a comma in it.

    >>> without_comma("2,5 g/m²"), without_comma("1,000 m²")
    ('write 2.5 g/m²', 'write 1000 m² if the comma parts thousands, 1.000 m² if it is a decimal comma')
    """
    point = re.sub(r"(?<=[0-9]),(?=[0-9])", ".", text, count=1)
    if re.match(r"[0-9]{1,3},[0-9]{3}(?![0-9])", text):
        return f"write {text.replace(',', '', 1)} if the comma parts thousands, {point} if it is a decimal comma"
    return f"write {point}"


def dash(number: int, line: str) -> Iterator[Told]:
    """The mistake of a line that begins with another sign than the one of a list, if it is that."""
    if match := _DASH.fullmatch(line):
        said = "a space is missing after the -" if match["dash"] == "-" else (
            f"{match['dash']} does not begin an item of a list")  # fmt: skip
        yield Told(number, match.start("dash"), said, "- and a space", shown(match[0].strip()),
                    f"write - {match['rest'].strip()}")  # fmt: skip


def blank(number: int, line: str) -> Iterator[Told]:
    """The mistake of a line that begins with a sign that only looks like a space, if it is that."""
    if match := _BLANK.match(line):
        yield Told(number, match.start("blank"), "this line begins with a sign that only looks like a space",
                    "spaces", f"U+{ord(match['blank'][0]):04X}, as copied from a web page",
                    "delete it and press the space bar instead")  # fmt: skip
