"""Workbook files spoilt at random: bytes of the container, or parts inside a container that is sound again.

Everything follows from a seed. `spoilt` gives one file and says in words what was done to it.
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Callable, Mapping
from datetime import date
from functools import cache
from random import Random
from typing import Final

import xlsxwriter

from support.hostile import zipped

Parts = dict[str, bytes]
HARM: Final = 3
"""Strokes that a file gets at the most."""


@cache
def whole() -> Mapping[str, bytes]:
    """The parts of a small workbook with something of everything that a planner has."""
    packed = io.BytesIO()
    with xlsxwriter.Workbook(packed, {"in_memory": True}) as book:
        day, money, locked = (book.add_format(look) for look in ({"num_format": "yyyy-mm-dd"},
                               {"num_format": "#,##0.00 [$€-407]", "bold": True}, {"locked": False}))  # fmt: skip
        mix, diary = book.add_worksheet("Mix"), book.add_worksheet("Bob's diary")
        mix.write_column(0, 0, ["Area", "Rate", "Wanted"])
        mix.write_column(0, 1, [240.5, 12], money)
        mix.write_formula(2, 1, '=IF(B1>0,B1*B2/1000,"none")', money, 2.886)
        mix.write_rich_string(4, 0, "grams ", money, "in all")
        mix.merge_range(6, 0, 7, 2, "merged")
        mix.data_validation(0, 1, 1, 1, {"validate": "decimal", "criteria": ">=", "value": 0})
        mix.conditional_format(0, 1, 2, 1, {"type": "cell", "criteria": "<", "value": 0, "format": money})
        mix.write_comment(0, 0, "measured twice")
        mix.protect()
        for row in range(12):
            diary.write_datetime(row, 0, date(2026, 6, 1 + row), day)
            diary.write(row, 1, f"Lawn {row % 3}", locked)
            diary.write_formula(row, 2, f"=SUMIFS(Mix!$B$1:$B$3,Mix!$A$1:$A$3,B{row + 1})", None, row / 7)
            diary.write_boolean(row, 3, row % 2 == 0)
        diary.write_formula(12, 2, "=1/0", None, "#DIV/0!")
        diary.autofilter(0, 0, 11, 3)
        diary.set_row(3, None, None, {"hidden": True})
        book.define_name("table_diary", "='Bob''s diary'!$A$1:$D$12")
    with zipfile.ZipFile(packed) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


NUMBERS: Final = (
    "",
    "-1",
    "0",
    "1",
    "4294967296",
    "99999999999999999999",
    "1e308",
    "1e999",
    "NaN",
    "-0",
    "0x10",
    " 7 ",
)
TEXTS: Final = (
    "A0", "XFE1", "A1048577", "A1:A1048576", "ZZZZ9", "Mix!A1", "#REF!", "#VALUE!", "../../etc/hostname",
    "xl/workbook.xml", "rId1", "rId999", "a" * 70_000, "\u202e", "ﬀ", "e\u0301", "&#0;", "&amp;amp;", "&undefined;",
    "<", "]]>", "'",
)  # fmt: skip
TAG: Final = re.compile(rb"<[^<>!?]*>")
VALUE: Final = re.compile(rb'="([^"]*)"')
SHOWN: Final = re.compile(rb">([^<>]+)<")


def _bytes_changed(content: bytes, random: Random) -> bytes:
    changed = bytearray(content)
    for _ in range(random.randint(1, 8)):
        changed[random.randrange(len(changed))] = random.randrange(256)
    return bytes(changed)


def _bytes_cut(content: bytes, random: Random) -> bytes:
    first = random.randrange(len(content))
    return content[:first] + content[first + random.randint(1, len(content)) :]


def _bytes_doubled(content: bytes, random: Random) -> bytes:
    first = random.randrange(len(content))
    return (
        content[:first] + content[first : first + random.randint(1, 400)] * random.choice((2, 3, 50)) + content[first:]
    )


def _noise(content: bytes, random: Random) -> bytes:
    first = random.randrange(len(content))
    return content[:first] + random.randbytes(random.randint(1, 60)) + content[first:]


def _at(
    pattern: re.Pattern[bytes], group: int, new: Callable[[bytes, Random], bytes]
) -> Callable[[bytes, Random], bytes]:
    """One match of a pattern with a group of it replaced; the content as it is where there is none."""

    def stroke(content: bytes, random: Random) -> bytes:
        found = list(pattern.finditer(content))
        if not found:
            return content
        first, last = random.choice(found).span(group)
        return content[:first] + new(content[first:last], random) + content[last:]

    return stroke


def _odd(_: bytes, random: Random) -> bytes:
    return random.choice(NUMBERS + TEXTS).encode()


def _tags_exchanged(content: bytes, random: Random) -> bytes:
    tags = [found.span() for found in TAG.finditer(content)]
    if len(tags) < 2:
        return content
    (first, end), (second, last) = sorted(random.sample(tags, 2))
    return content[:first] + content[second:last] + content[end:second] + content[first:end] + content[last:]


def _typed(content: bytes, random: Random) -> bytes:
    """With a document type, in one alphabet or another."""
    text = b"<!DOCTYPE a [<!ENTITY b 'c'>]>" + content.partition(b"?>")[2]
    return text if random.random() < 0.5 else text.decode("utf-8", "replace").encode("utf-16")


def _recoded(content: bytes, random: Random) -> bytes:
    return content.decode("utf-8", "replace").encode(
        random.choice(("utf-16", "utf-16-be", "latin-1", "cp037")), "replace"
    )


Stroke = Callable[[bytes, Random], bytes]
IN_BYTES: Final[dict[str, Stroke]] = {
    "bytes changed": _bytes_changed, "bytes cut out": _bytes_cut, "bytes doubled": _bytes_doubled, "noise": _noise,
}  # fmt: skip
IN_XML: Final[dict[str, Stroke]] = {
    "an attribute odd": _at(VALUE, 1, _odd),
    "an attribute gone": _at(re.compile(rb' [\w:]+="[^"]*"'), 0, lambda _old, _random: b""),
    "an attribute twice": _at(re.compile(rb' [\w:]+="[^"]*"'), 0, lambda old, _random: old * 2),
    "a text odd": _at(SHOWN, 1, _odd),
    "a tag gone": _at(TAG, 0, lambda _old, _random: b""),
    "a tag many times": _at(TAG, 0, lambda old, random: old * random.choice((2, 20, 2000))),
    "a tag of another name": _at(re.compile(rb"</?([\w:]+)"), 1, lambda _old, random: random.choice(
        (b"row", b"c", b"f", b"v", b"sheetData", b"worksheet", b"is", b"t", b"a:b", b"xf"))),
    "tags exchanged": _tags_exchanged,
    "a document type": _typed,
    "another alphabet": _recoded,
}  # fmt: skip


def _part_gone(parts: Parts, name: str, _: Random) -> None:
    del parts[name]


def _part_empty(parts: Parts, name: str, random: Random) -> None:
    parts[name] = random.choice((b"", b" ", b"\xef\xbb\xbf", b"<a/>"))


def _part_renamed(parts: Parts, name: str, random: Random) -> None:
    parts[random.choice((name.upper(), f"../{name}", f"{name} ", f"xl/{name}", "xl/vbaProject.bin"))] = parts.pop(name)


def _parts_exchanged(parts: Parts, name: str, random: Random) -> None:
    other = random.choice(sorted(parts))
    parts[name], parts[other] = parts[other], parts[name]


IN_PACKAGE: Final[dict[str, Callable[[Parts, str, Random], None]]] = {
    "a part gone": _part_gone, "a part empty": _part_empty, "a part renamed": _part_renamed,
    "parts exchanged": _parts_exchanged,
}  # fmt: skip


def spoilt(seed: str, sound: Mapping[str, bytes]) -> tuple[bytes, str]:
    """A file of the parts of a sound one, and what was done to it."""
    random = Random(seed)  # noqa: S311 - the same file for a seed
    if random.random() < 0.15:
        name = random.choice(sorted(IN_BYTES))
        return IN_BYTES[name](zipped(sound, random.choice((zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED))), random), name
    parts, done = dict(sound), []
    for _ in range(random.randint(1, HARM)):
        part = random.choice(sorted(parts))
        stroke = random.choice(sorted(IN_XML) * 2 + sorted(IN_BYTES) + sorted(IN_PACKAGE))
        if stroke in IN_PACKAGE:
            IN_PACKAGE[stroke](parts, part, random)
        elif parts[part]:
            parts[part] = (IN_XML | IN_BYTES)[stroke](parts[part], random)
        done.append(f"{stroke} ({part})")
    return zipped(parts), ", ".join(done)
