"""What must hold within a user's file, and between it and the catalogue."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from wbgen.files.accepted import as_read
from wbgen.files.diagnostics import Place, Report, did_you_mean, shown
from wbgen.files.yaml.tree import Listing, Mapping, Node, Scalar
from wbgen.records.catalogue import Catalogue
from wbgen.records.fields import Measure
from wbgen.records.product import Product
from wbgen.records.product_rules import Check, check_amount, check_own_rate
from wbgen.records.site.details import ALL, Application, Lawn, Mix, MixProduct, Scale, Sprayer, Weather
from wbgen.records.site.lawn_parts import check_part

LOWEST_TEMPERATURE, HIGHEST_TEMPERATURE = -30.0, 60.0
"""Temperatures that are believed, in °C."""
STRONGEST_WIND = 200.0
"""Wind that is believed, in km/h."""


def check_lawn(lawn: Lawn, report: Report) -> None:
    """One lawn: an area or parts, and parts that make an area."""
    if (lawn.area is None) == (lawn.parts is None):
        _tell(report, lawn.place, f"{lawn.name}: exactly one of area and parts must be given", expected="area: 240 m², "
              "or parts: ...", found="both" if lawn.area else "neither",
              remedy="keep one of the two" if lawn.area else "add one")  # fmt: skip
    if lawn.parts is None:
        return
    if all(part.cut_out and not part.add for part in lawn.parts):
        _tell(report, lawn.place_of("parts"), f"{lawn.name}: no part is added", expected="add: rectangle, ...",
              found="only cut outs" if lawn.parts else "no part", remedy="add one")  # fmt: skip
    _unique(((part.name, part.place_of("name")) for part in lawn.parts), "a part", report)
    for part in lawn.parts:
        check_part(part, report)


def check_strips(lawns: Sequence[Lawn], names: Names, report: Report) -> None:
    """The untreated strips are lawns of the file, and none is a strip of itself."""
    for lawn in lawns:
        if lawn.strip is None:
            continue
        known(lawn.strip, lawn.place_of("strip"), names.lawns, "lawn", report)
        if as_read(lawn.strip) == as_read(lawn.name):
            _tell(report, lawn.place_of("strip"), f"{lawn.name}: it is given as its own untreated strip",
                  expected="the name of another lawn", found=lawn.strip,
                  remedy="name the strip, or leave it out")  # fmt: skip


def check_sprayer(sprayer: Sprayer, report: Report) -> None:
    """One sprayer: its volumes, and what belongs to one kind alone."""
    name, unit = sprayer.name, sprayer.brim.unit
    if sprayer.working.to(unit) > sprayer.brim.magnitude:
        _tell(report, sprayer.working.place, f"{name}: the working capacity is above the brim",
              expected=f"{sprayer.brim.text} or less", found=sprayer.working.text,
              remedy="write the volume to which it is filled for work")  # fmt: skip
    if sprayer.remainder and sprayer.remainder.to(unit) >= sprayer.working.to(unit):
        _tell(report, sprayer.remainder.place, f"{name}: as much remains in the tank as it is filled with",
              expected=f"less than {sprayer.working.text}", found=sprayer.remainder.text,
              remedy="write what stays in the tank when it runs dry")  # fmt: skip
    if sprayer.jar and sprayer.kind != "hose-end":
        _tell(report, sprayer.jar.place, f"{name}: only a hose-end sprayer has a jar", expected="kind: hose-end",
              found=f"kind: {sprayer.kind}", remedy="delete the jar, or correct the kind")  # fmt: skip
    if sprayer.catch and not sprayer.catch.volumes:
        _tell(report, sprayer.catch.place_of("volumes"), f"{name}: no nozzle's volume is given",
              expected="one a nozzle, such as [610 mL, 598 mL]", remedy="add them, or leave catch out")  # fmt: skip


def check_scales(scales: Sequence[Scale], report: Report) -> None:
    """Scales and jugs: at most a fine and a coarse one each, with units that fit what they measure."""
    for measures, kind in (("weight", "mass"), ("volume", "volume")):
        of_kind = [scale for scale in scales if scale.measures == measures]
        for scale in of_kind[2:]:
            _tell(report, scale.place, f"{scale.name}: a third one for {measures}", expected="a fine and a coarse one",
                  found=", ".join(s.name for s in of_kind), remedy="keep the two that are used most")  # fmt: skip
        for scale in of_kind:
            odd = [measure for measure in (scale.step, scale.capacity) if measure.kind != kind]
            for measure in odd:
                _tell(report, measure.place, f"{scale.name}: this must be a {kind}", expected=f"a {kind}",
                      found=f"{measure.text}, which is a {measure.kind}", remedy="correct the unit")  # fmt: skip
            if not odd and scale.step.to(scale.capacity.unit) >= scale.capacity.magnitude:
                _tell(report, scale.step.place, f"{scale.name}: the step is not less than the capacity",
                      expected=f"less than {scale.capacity.text}", found=scale.step.text,
                      remedy="exchange the two, or correct one")  # fmt: skip


def check_mix(mix: Mix, names: Names, report: Report) -> None:
    """The mix: its names are known, each product is there once and has one rate."""
    for number, name in enumerate(mix.lawns or (), 1):
        if name != ALL:
            known(name, mix.place_of(f"lawns[{number}]"), names.lawns, "lawn", report)
    _unique(((name, mix.place_of(f"lawns[{number}]")) for number, name in enumerate(mix.lawns or (), 1)),
            "a lawn of the mix", report)  # fmt: skip
    if mix.sprayer:
        known(mix.sprayer, mix.place_of("sprayer"), names.sprayers, "sprayer", report)
    for row in mix.products or ():
        if row.rate and row.wanted:
            _tell(report, row.wanted.place, f"{row.product}: a rate and a wanted nutrient are given", expected="one of "
                  "rate and wanted, or none", found="both", remedy="delete one of the two")  # fmt: skip
    _unique(((row.product, row.place_of("product")) for row in mix.products or ()), "a product of the mix", report)
    if mix.overlap and mix.overlap.to("percent") >= 100:
        _tell(report, mix.overlap.place, "the overlap is the whole swath or more", expected="less than 100 %",
              found=mix.overlap.text, remedy="write the share of the swath that is sprayed twice")  # fmt: skip
    _believable_temperature(mix.water.temperature if mix.water else None, report)
    if mix.weather:
        _check_weather(mix.weather, report)


def _check_weather(weather: Weather, report: Report) -> None:
    _believable_temperature(weather.temperature, report)
    _believable_wind(weather.wind, report)
    if weather.humidity and weather.humidity.to("percent") > 100:
        _tell(report, weather.humidity.place, "the humidity is above 100 %", expected="from 0 to 100 %",
              found=weather.humidity.text, remedy="correct it")  # fmt: skip


def check_application(row: Application, names: Names, report: Report) -> None:
    """One row of the diary: its names are known, and its water fits its method."""
    known(row.lawn, row.place_of("lawn"), names.lawns, "lawn", report)
    if row.who:
        known(row.who, row.place_of("who"), names.people, "person", report)
    for key, measure in (("water", row.water), ("left over", row.left_over)):
        if measure and row.method == "dry":
            _tell(report, measure.place, f"a product that is spread dry has no {key!r}", expected="method: spray",
                  found="method: dry", remedy=f"delete {key}, or correct the method")  # fmt: skip
    if row.left_over and row.water is None:
        _tell(report, row.left_over.place, "what is left over needs the water that it was mixed in",
              expected="water: 14 L", remedy="add water")  # fmt: skip
    elif row.left_over and row.water and row.left_over.to(row.water.unit) > row.water.magnitude:
        _tell(report, row.left_over.place, "more is left over than was mixed", expected=f"{row.water.text} or less",
              found=row.left_over.text, remedy="correct one of the two")  # fmt: skip
    _believable_temperature(row.temperature, report)
    _believable_wind(row.wind, report)


class Names:
    """The names that others may refer to, taken from the file even where the rest of a record is wrong."""

    def __init__(self, lawns: Sequence[Node], sprayers: Sequence[Node], people: Node | None) -> None:
        self.lawns, self.sprayers = _texts(lawns, "name"), _texts(sprayers, "name")
        self.groups = _texts(lawns, "group")
        items = people.items if isinstance(people, Listing) else ()
        self.people = tuple(item.text for item in items if isinstance(item, Scalar))


def check_names(nodes: Sequence[Node], what: str, report: Report) -> None:
    """Every record's name is there once, ignoring case."""
    named = (node.get("name") for node in nodes if isinstance(node, Mapping))
    _unique(((name.text, name.place) for name in named if isinstance(name, Scalar)), what, report)


def check_people(people: Sequence[tuple[str, Place]], report: Report) -> None:
    """Every person is there once, ignoring case."""
    _unique(people, "a person", report)


def check_products(mix: Mix | None, diary: Sequence[Application], catalogue: Catalogue, report: Report) -> None:
    """The products of the mix and of the diary are in the catalogue, at rates and in units that they can have."""
    names = [product.name for product in catalogue.products]
    rows: list[MixProduct | Application] = [*(mix.products or () if mix else ()), *diary]
    for row in rows:
        product = catalogue.product(row.product)
        if product is None:
            known(row.product, row.place_of("product"), names, "product", report)
        else:
            _check_use(row, product, report)


def _check_use(row: MixProduct | Application, product: Product, report: Report) -> None:
    check = Check(product, report)
    if isinstance(row, MixProduct):
        for rate in (row.rate, row.wanted):
            if rate:
                check_own_rate(check, rate, "spray")
        if product.spray is None:
            check.tell(row.place_of("product"), "this product has no spray rate", expected="a product to spray",
                       found=row.product, remedy="choose another, or add spray to the product")  # fmt: skip
        return
    if row.planned_rate:
        check_own_rate(check, row.planned_rate, row.method)
    kind = row.measured.kind
    if kind == "volume":
        check_amount(check, row.measured)
    if kind == "mass" and product.is_liquid and product.density is None:
        check.tell(row.measured.place, "a liquid that was weighed needs its density", expected="a volume such as "
                   "200 mL", found=row.measured.text, remedy="write the volume, or add the density")  # fmt: skip
    if kind == "pack" and product.pack is None:
        check.tell(row.measured.place, "a number of packs needs the size of a pack", expected="a mass or a volume",
                   found=row.measured.text, remedy="add pack to the product")  # fmt: skip


def _texts(nodes: Iterable[Node], key: str) -> tuple[str, ...]:
    found = (node.get(key) for node in nodes if isinstance(node, Mapping))
    return tuple(one.text for one in found if isinstance(one, Scalar))


def known(name: str, place: Place, names: Sequence[str], what: str, report: Report) -> None:
    """A name must be one of those that are known, without regard to case."""
    if name.casefold() in {one.casefold() for one in names}:
        return
    report.add(f"unknown-{what}", place, f"there is no {what} {shown(name)}", expected=f"the name of a {what}",
               found=shown(name), remedy=did_you_mean(name, names) or f"add the {what}")  # fmt: skip


def _unique(named: Iterable[tuple[str, Place]], what: str, report: Report) -> None:
    first: dict[str, Place] = {}
    for name, place in named:
        earlier = first.setdefault(as_read(name), place)
        if earlier is not place:
            report.add("duplicate-name", place, f"{what} {shown(name)} is there already", found=f"also at {earlier}",
                       expected="a name once, ignoring case", remedy="choose another name, or delete one")  # fmt: skip


def _believable_temperature(measure: Measure | None, report: Report) -> None:
    if measure and not LOWEST_TEMPERATURE <= measure.to("degC") <= HIGHEST_TEMPERATURE:
        _tell(report, measure.place, "this temperature cannot be right", found=measure.text,
              expected=f"from {LOWEST_TEMPERATURE:g} to {HIGHEST_TEMPERATURE:g} °C", remedy="correct it")  # fmt: skip


def _believable_wind(measure: Measure | None, report: Report) -> None:
    if measure and measure.to("km/h") > STRONGEST_WIND:
        _tell(report, measure.place, "this wind cannot be right", found=measure.text,
              expected=f"at most {STRONGEST_WIND:g} km/h", remedy="correct it")  # fmt: skip


def _tell(report: Report, place: Place, message: str, *, expected: str = "", found: str = "", remedy: str = "") -> None:
    report.add("site-rule", place, message, expected=expected, found=found, remedy=remedy)
