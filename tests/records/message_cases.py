"""Mistakes that people make in lawns.yaml and in a catalogue file of their own, each as a change of a sound file."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Final

import yaml

LAWNS: Final = """\
site:
  name: Tarn House
  units: metric
  currency: EUR
  season starts: 1 January
  as of: 2026-06-30
catalogue: [own.yaml]
lawns:
  - name: Terrace
    grass: cool season
    area: 240 m²
    targets: {N: 12 g/m², Fe: 0.5 g/m²}
    notes: Seen from the house
  - name: Bank
    grass: warm season
    area: 90 m²
sprayers:
  - name: Boom
    kind: boom
    brim: 60 L
    working: 55 L
    passes: 1
    nozzle: "04"
    pressure: 2 bar
    catch: {seconds: 60, volumes: [1290 mL, 1310 mL]}
people: [Ann, Ben]
mix:
  lawns: [Terrace]
  sprayer: Boom
  watered in: "no"
  carrier volume: 600 L/ha
  products:
    - {product: Ammonium sulphate, rate: 2.5 g/m²}
months:
  mean temperatures: [4 degC, 5 degC, 8 degC, 12 degC, 16 °C, 20 °C, 22 °C, 22 °C, 18 °C, 13 °C, 8 °C, 5 °C]
  closed: [12, 1]
diary:
  - {date: 2026-03-14, lawn: Terrace, product: Urea, method: spray, measured: 600 g, wind: 6 km/h}
"""
OWN: Final = """\
basis: label
products:
  - name: My feed
    form: liquid
    family: my feeds
    analysis: {per: w/v, N: 21 %, K2O: 6 %}
    density: 1.2 kg/L
    spray: 30 L/ha
    interval: 14 days
    months: [4, 5, 6]
    traits: [potassium]
    cautions: [Shake the can]
    pack: 5 L
    price: 9.50
"""


@dataclass(frozen=True)
class Mistake:
    """`old` in a file made `new`, and what is said of it: exactly, but for the folder of the file."""

    file: str
    old: str
    new: str
    said: str


def mistakes() -> dict[str, Mistake]:
    """The mistakes of messages.yaml by what each is called."""
    rows = yaml.safe_load((Path(__file__).parent / "messages.yaml").read_text("utf-8"))
    return {row.pop("mistake"): Mistake(**row) for row in rows}


def made(mistake: Mistake) -> dict[str, str]:
    """The two files with the mistake in one of them."""
    files = {"lawns.yaml": LAWNS, "own.yaml": OWN}
    if files[mistake.file].count(mistake.old) != 1:
        raise AssertionError(f"{mistake.old!r} is not there once")
    return {**files, mistake.file: files[mistake.file].replace(mistake.old, mistake.new)}
