"""The sprayers of the file with their calibrations, and the scales and jugs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Literal

from pydantic import BeforeValidator

from wbgen.files.diagnostics import Report
from wbgen.files.yaml.fields import Leaf, NumberLeaf, OneOf
from wbgen.files.yaml.nodes import Scalar
from wbgen.files.yaml.records import Record
from wbgen.records.fields import Area, Count, Length, Measure, Name, Of, Volume, VolumeRate
from wbgen.records.site.names import tell

Seconds = Annotated[float, NumberLeaf(0.1, 86_400)]


class KnownArea(Record):
    """A calibration: the area sprayed as usual, and what the refill took."""

    sprayed: Area
    used: Volume


class Catch(Record):
    """A calibration: what each nozzle gave in a number of seconds."""

    seconds: Seconds
    volumes: tuple[Volume, ...]


def _one_or_more(data: object) -> object:
    return (data,) if isinstance(data, Scalar) else data


class Walk(Record):
    """A calibration: how many seconds a distance took, in one walk or in several."""

    distance: Length
    seconds: Annotated[tuple[Seconds, ...], BeforeValidator(_one_or_more)]


class Jar(Record):
    """The jar of a hose-end sprayer: the litres of spray that one litre in it makes, and what it holds where that is
    not the sprayer's brim. It is filled to the sprayer's working capacity."""

    dilution: Annotated[float, NumberLeaf(1, 10_000)]
    capacity: Volume | None = None


class _NozzleLeaf(Leaf):
    expected = 'an ISO size such as "03"'

    def read(self, scalar: Scalar) -> str:
        if not (scalar.text.isascii() and scalar.text.isdigit() and 2 <= len(scalar.text) <= 3):
            raise self.refusal(scalar, remedy="write the two or three digits of the ISO size, in quotes")
        return scalar.text


SprayerKind = Literal["knapsack", "lance", "boom", "watering can", "hose-end"]


class Sprayer(Record):
    """One sprayer. `working` is the working capacity, to the mark to which it is filled.

    `carrier_volume` is what is wanted of it, where that is not what the products usually have.
    """

    name: Name
    kind: Annotated[SprayerKind, OneOf("knapsack", "lance", "boom", "watering can", "hose-end")]
    brim: Volume
    working: Volume
    passes: Count
    carrier_volume: VolumeRate | None = None
    remainder: Annotated[Measure, Of("volume", zero=True)] | None = None
    swath: Length | None = None
    known_area: KnownArea | None = None
    catch: Catch | None = None
    walk: Walk | None = None
    nozzle: Annotated[str, _NozzleLeaf()] | None = None
    pressure: Annotated[Measure, Of("pressure")] | None = None
    jar: Jar | None = None


class Scale(Record):
    """A scale or a jug: its step and the most it holds."""

    name: Name
    measures: Annotated[Literal["weight", "volume"], OneOf("weight", "volume")]
    step: Annotated[Measure, Of("mass", "volume")]
    capacity: Annotated[Measure, Of("mass", "volume")]


def check_sprayer(sprayer: Sprayer, report: Report) -> None:
    """One sprayer: its volumes, and what belongs to one kind alone."""
    name, unit = sprayer.name, sprayer.brim.unit
    if sprayer.working.to(unit) > sprayer.brim.magnitude:
        tell(report, sprayer.working.place, f"{name}: the working capacity is above the brim",
              expected=f"{sprayer.brim.text} or less", found=sprayer.working.text,
              remedy="write the volume to which it is filled for work")  # fmt: skip
    if sprayer.remainder and sprayer.remainder.to(unit) >= sprayer.working.to(unit):
        tell(report, sprayer.remainder.place, f"{name}: as much remains in the tank as it is filled with",
              expected=f"less than {sprayer.working.text}", found=sprayer.remainder.text,
              remedy="write what stays in the tank when it runs dry")  # fmt: skip
    if sprayer.jar and sprayer.kind != "hose-end":
        tell(report, sprayer.jar.place, f"{name}: only a hose-end sprayer has a jar", expected="kind: hose-end",
              found=f"kind: {sprayer.kind}", remedy="delete the jar, or correct the kind")  # fmt: skip
    held = sprayer.jar.capacity if sprayer.jar and sprayer.kind == "hose-end" else None
    if held and sprayer.working.to(unit) > held.to(unit):
        tell(report, sprayer.working.place, f"{name}: the working capacity is more than its jar holds",
              expected=f"{held.text} or less", found=sprayer.working.text,
              remedy="write to what mark the jar is filled: the dilution makes the spray of it")  # fmt: skip
    if sprayer.kind == "hose-end" and sprayer.jar is None:
        tell(report, sprayer.place, f"{name}: a hose-end sprayer needs its jar",
             expected="jar: {dilution: 20}, litres of spray from a litre in the jar",
             remedy="add the jar, with the dilution to which the sprayer is set")  # fmt: skip
    if sprayer.walk and not sprayer.walk.seconds:
        tell(report, sprayer.walk.place_of("seconds"), f"{name}: no walk's time is given",
             expected="seconds: 36, or one a walk, such as [36, 38, 37]",
             remedy="add them, or leave walk out")  # fmt: skip
    if sprayer.catch and not sprayer.catch.volumes:
        tell(report, sprayer.catch.place_of("volumes"), f"{name}: no nozzle's volume is given",
              expected="one a nozzle, such as [610 mL, 598 mL]", remedy="add them, or leave catch out")  # fmt: skip


def check_scales(scales: Sequence[Scale], report: Report) -> None:
    """Scales and jugs: at most a fine and a coarse one each, with units that fit what they measure."""
    for measures, kind in (("weight", "mass"), ("volume", "volume")):
        of_kind = [scale for scale in scales if scale.measures == measures]
        for scale in of_kind[2:]:
            tell(report, scale.place, f"{scale.name}: a third one for {measures}", expected="a fine and a coarse one",
                  found=", ".join(s.name for s in of_kind), remedy="keep the two that are used most")  # fmt: skip
        for scale in of_kind:
            odd = [measure for measure in (scale.step, scale.capacity) if measure.kind != kind]
            for measure in odd:
                tell(report, measure.place, f"{scale.name}: this must be a {kind}", expected=f"a {kind}",
                      found=f"{measure.text}, which is a {measure.kind}", remedy="correct the unit")  # fmt: skip
            if not odd and scale.step.to(scale.capacity.unit) >= scale.capacity.magnitude:
                tell(report, scale.step.place, f"{scale.name}: the step is not less than the capacity",
                      expected=f"less than {scale.capacity.text}", found=scale.step.text,
                      remedy="exchange the two, or correct one")  # fmt: skip
