"""A small folder of templates that is sound, and ways to spoil it."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Final

START: Final = """\
name: Start
purpose: A trial
tables:
  - key: start
    title: Start
    direction: across
    columns:
      - {key: as_of, heading: As of, type: date, show: date}
      - {key: master_check, heading: Checks, type: text, formula: 'IF(COUNT(lawns.area)>0,"fine","no lawn")'}
"""
LAWNS: Final = """\
name: Lawns
purpose: What is fed
printed: 8
last_printed: lawns
charts:
  - {table: lawns, over: name, lines: [area], right: [mass], scale: [0, 9], title: Areas}
tables:
  - key: lawns
    title: Lawns
    records: lawns
    vanish: name
    blank_unless: [name]
    columns:
      - {key: name, heading: Name, type: text}
      - {key: kind, heading: Kind, type: text, choices: [front, back], default: front}
      - {key: strip, heading: Strip, type: text, choices: lawns.name}
      - {key: area, heading: Area, unit: {metric: m², us: ft²}, minimum: 0, maximum: 90000, digits: 1}
      - {key: rate, heading: Rate, unit: {metric: g/m², us: oz/1000 ft²}, default: {metric: 2 g/m², us: 1 oz/1000 ft²}}
      - key: mass
        heading: Mass
        unit: {metric: g, us: oz}
        digits: {metric: 0, us: 2}
        blank_unless: [area, rate]
        formula: >-
          rate
          *area
      - key: words
        heading: In words
        type: text
        formula: |
          ROUND(mass,0)&" [g|oz]"
  - key: days
    title: Days
    records: 2
    plain: true
    rows:
      - {day: Monday, length: 24 h}
      - {day: Tuesday, length: 24 h}
    columns:
      - {key: day, heading: Day, type: text, constant: true}
      - {key: length, heading: Length, unit: h, constant: true}
"""
MIX: Final = """\
name: Mix
purpose: What is weighed
tables:
  - mix
  - feeds
"""
MIX_MIX: Final = """\
title: This visit
direction: across
slots: {full: Each load, last: The part load}
columns:
  - {key: weigh_each, each: loads, slot: full, heading: "Weigh for {name}", unit: {metric: g, us: oz}, formula: SUM(lawns.mass)/4, literals: [4]}
  - {key: rest, slot: last, heading: Rest, unit: {metric: g, us: oz}, formula: SUM(lawns.mass)-weigh_full}
"""  # noqa: E501
MIX_FEEDS: Final = """\
title: Feeds
records: 3
columns:
  - {key: turn, heading: "No.", constant: true, running: true}
  - {key: content_each, each: nutrients, heading: "{printed}", unit: "g {symbol}/g"}
  - {key: dose_each, each: nutrients, beside: true, heading: "{printed} given", unit: "g {symbol}", formula: SUM(lawns.mass)*content_each}
  - {key: level_each, each: levels, heading: "{name} level"}
  - {key: highest, heading: Highest level, formula: MAX(level_every)}
"""  # noqa: E501
UNITS: Final = """\
name: Units
purpose: Factors
tables:
  - key: conversions
    title: Conversions
    records: conversions
    columns:
      - {key: conversion, heading: Conversion, type: text, constant: true}
      - {key: factor, heading: Factor, constant: true}
"""
SOUND: Final = {
    "sheet_order.yaml": "sheets: [start, lawns, mix, units]\n", "start.yaml": START, "lawns.yaml": LAWNS,
    "mix/sheet.yaml": MIX, "mix/mix.yaml": MIX_MIX, "mix/feeds.yaml": MIX_FEEDS, "units.yaml": UNITS,
}  # fmt: skip


def write(folder: Path, files: Mapping[str, str]) -> Path:
    """Write the files into a folder of templates."""
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


def spoiled(file: str, old: str, new: str) -> dict[str, str]:
    """The sound files with the one occurrence of `old` in one of them made `new`."""
    assert SOUND[file].count(old) == 1, f"{old!r} stands {SOUND[file].count(old)} times in {file}"
    return {**SOUND, file: SOUND[file].replace(old, new)}


def place_of(text: str, fragment: str) -> tuple[int, int]:
    """Line and column, from 1, of the only place at which a fragment stands."""
    assert text.count(fragment) == 1, f"{fragment!r} stands {text.count(fragment)} times"
    before = text[: text.index(fragment)]
    return before.count("\n") + 1, len(before.rpartition("\n")[2]) + 1
