"""Sprayers, catch tests, scales and jugs of the file, as records of the tables."""

from __future__ import annotations

from collections.abc import Iterator

from wbgen.inputs.rows import Row
from wbgen.records.site.site import Site
from wbgen.records.site.sprayer import Sprayer


def sprayer_row(sprayer: Sprayer) -> Row:
    """One sprayer."""
    return {
        "name": sprayer.name,
        "kind": sprayer.kind,
        "brim": sprayer.brim,
        "working": sprayer.working,
        "remainder": sprayer.remainder,
        "wanted_carrier": sprayer.carrier_volume,
        "jar_dilution": sprayer.jar.dilution if sprayer.jar else None,
        "passes": float(sprayer.passes),
        "tested_area": sprayer.known_area.sprayed if sprayer.known_area else None,
        "tested_water": sprayer.known_area.used if sprayer.known_area else None,
        "swath": sprayer.swath,
        "walk_distance": sprayer.walk.distance if sprayer.walk else None,
        "walk_time": sprayer.walk.seconds[0] if sprayer.walk and len(sprayer.walk.seconds) == 1 else None,
        "nozzle_size": sprayer.nozzle,
        "pressure": sprayer.pressure,
    }


def catch_rows(sprayer: Sprayer) -> Iterator[Row]:
    """What each nozzle gave, a record each."""
    if sprayer.catch:
        for number, volume in enumerate(sprayer.catch.volumes, 1):
            yield {
                "sprayer": sprayer.name,
                "nozzle": str(number),
                "caught": volume,
                "catch_time": sprayer.catch.seconds,
            }


def walk_rows(sprayer: Sprayer) -> Iterator[Row]:
    """How long each walk took, a record each, where there were several."""
    if sprayer.walk and len(sprayer.walk.seconds) > 1:
        for seconds in sprayer.walk.seconds:
            yield {"sprayer": sprayer.name, "time": seconds}


def scales_row(site: Site) -> Row:
    """Two scales and two jugs: the one with the smaller step is the fine one, used as far as its capacity goes."""
    row: Row = {}
    for measures, word in (("weight", "scale"), ("volume", "jug")):
        own = sorted((s for s in site.scales if s.measures == measures), key=lambda s: s.step.quantity.exact)
        for grade, scale in zip(("fine", "coarse"), (own * 2)[:2] if len(own) == 1 else own, strict=False):
            row[f"{grade}_{word}_step"] = scale.step
            if grade == "fine":
                row[f"fine_{word}_capacity"] = scale.capacity
    return row
