"""A user's site: the records of one lawns.yaml, checked within themselves and, on request, against the catalogue."""

from __future__ import annotations

from collections.abc import Mapping as Keyed
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Final, TypeVar

from pydantic import Field

from wbgen.files.diagnostics import Place, Report
from wbgen.files.yaml.fields import Text
from wbgen.files.yaml.nodes import Entry, Listing, Mapping, Node
from wbgen.files.yaml.records import Record, items_of, known_keys, read_record
from wbgen.files.yaml.tree import load
from wbgen.records.catalogue import Catalogue, read_catalogue
from wbgen.records.fields import Name
from wbgen.records.site.brews import Brew, check_brews
from wbgen.records.site.details import Details, Setting, SettingOf
from wbgen.records.site.diary import Application, NotDone, check_application, check_diary_products
from wbgen.records.site.lawn import Lawn, check_lawn, check_strips
from wbgen.records.site.local_rules import PlaceRule
from wbgen.records.site.mix import Mix, check_mix, check_mix_products
from wbgen.records.site.months import Months, check_months
from wbgen.records.site.names import Names, check_names, check_people, known
from wbgen.records.site.programme import Line, check_line, check_lines
from wbgen.records.site.scores import Score, check_scores
from wbgen.records.site.shelf import Held, check_shelf
from wbgen.records.site.sprayer import Scale, Sprayer, check_scales, check_sprayer
from wbgen.records.site.synonyms import called_as_in, with_list
from wbgen.records.site.water import SiteWater, check_site_water

_KEYS: Final = (
    "site",
    "settings",
    "catalogue",
    "lawns",
    "sprayers",
    "scales",
    "people",
    "water",
    "mix",
    "months",
    "place",
    "programme",
    "shelf",
    "brews",
    "diary",
    "not done",
    "scores",
)

R = TypeVar("R", bound=Record)


@dataclass(frozen=True, kw_only=True)
class Rows:
    """The records of a file, without the site as a whole. `catalogue` are the user's own product files."""

    lawns: tuple[Lawn, ...] = ()
    sprayers: tuple[Sprayer, ...] = ()
    scales: tuple[Scale, ...] = ()
    people: tuple[str, ...] = ()
    water: SiteWater | None = None
    mix: Mix | None = None
    months: Months | None = None
    place: PlaceRule | None = None
    programme: tuple[Line, ...] = ()
    shelf: tuple[Held, ...] = ()
    brews: tuple[Brew, ...] = ()
    diary: tuple[Application, ...] = ()
    not_done: tuple[NotDone, ...] = ()
    scores: tuple[Score, ...] = ()
    settings: Keyed[str, Setting] = field(default_factory=dict)
    catalogue: tuple[Path, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Site(Rows):
    """Everything of one lawns.yaml."""

    file: Path
    details: Details


def load_site_and_catalogue(path: Path, catalogue: Sequence[Path]) -> tuple[Site, Catalogue]:
    """Read a user's file, the catalogue and the user's own additions to it, and check the one against the other.

    Raises InputError with every finding of all the files.
    """
    report = Report()
    rows, details = _read_site(path, report)
    read = read_catalogue(catalogue, rows.catalogue, report)
    rows = _called_as_in(read, rows)
    if rows.mix:
        check_mix_products(rows.mix, read, report)
    check_diary_products(rows.diary, read, report)
    check_lines(rows.programme, read, report)
    check_shelf(rows.shelf, read, report)
    check_brews(rows.brews, read, report)
    return _site(path, rows, details, report), read


def _called_as_in(catalogue: Catalogue, rows: Rows) -> Rows:
    """The rows with every product by its own name, so that no synonym goes further than the file."""
    mix = rows.mix and with_list(rows.mix, "products", called_as_in(catalogue, rows.mix.products or ()))
    brews = [with_list(brew, "ingredients", called_as_in(catalogue, brew.ingredients, "name")) for brew in rows.brews]
    return replace(
        rows,
        mix=mix,
        programme=called_as_in(catalogue, rows.programme),
        shelf=called_as_in(catalogue, rows.shelf),
        brews=called_as_in(catalogue, brews),
        diary=called_as_in(catalogue, rows.diary),
    )


def _site(path: Path, rows: Rows, details: Details | None, report: Report) -> Site:
    report.raise_any()
    if details is None:
        raise AssertionError("a site without its details has a finding")
    return Site(file=path, details=details, **vars(rows))


def _read_site(path: Path, report: Report) -> tuple[Rows, Details | None]:
    node = load(path, report)
    top = known_keys(node, _KEYS, report) if node else {}
    for key in ("site", "lawns"):
        if node and top and key not in top:
            report.add("missing-key", node.place, f"the key {key!r} is missing", remedy=f"add {key}: ...")
    details = read_record(Details, top["site"], report) if "site" in top else None
    return _rows(path, top, report), details


class _Lists(Record):
    people: tuple[Name, ...] = ()
    catalogue: tuple[Text, ...] = ()
    settings: dict[str, SettingOf] = Field(default_factory=dict)


def _rows(path: Path, top: dict[str, Node], report: Report) -> Rows:
    lawns = items_of(top.get("lawns"), "lawns", report)
    sprayers = items_of(top.get("sprayers"), "sprayers", report)
    scales = items_of(top.get("scales"), "scales and jugs", report)
    for nodes, what in ((lawns, "a lawn"), (sprayers, "a sprayer"), (scales, "a scale or jug")):
        check_names(nodes, what, report)
    if isinstance(node := top.get("lawns"), Listing) and not node.items:
        report.add("missing-key", node.place, "there is no lawn", expected="one lawn or more", remedy="add one")
    lists = _lists(top, report)
    rows = Rows(
        lawns=_records(Lawn, lawns, report),
        sprayers=_records(Sprayer, sprayers, report),
        scales=_records(Scale, scales, report),
        people=lists.people if lists else (),
        water=read_record(SiteWater, top["water"], report) if "water" in top else None,
        mix=read_record(Mix, top["mix"], report) if "mix" in top else None,
        months=read_record(Months, top["months"], report) if "months" in top else None,
        place=read_record(PlaceRule, top["place"], report) if "place" in top else None,
        programme=_records(Line, items_of(top.get("programme"), "lines of the programme", report), report),
        shelf=_records(Held, items_of(top.get("shelf"), "counts and purchases", report), report),
        brews=_records(Brew, items_of(top.get("brews"), "recipes", report), report),
        diary=_records(Application, items_of(top.get("diary"), "applications", report), report),
        not_done=_records(NotDone, items_of(top.get("not done"), "visits that were not done", report), report),
        scores=_records(Score, items_of(top.get("scores"), "scores", report), report),
        settings=lists.settings if lists else {},
        catalogue=tuple(path.parent / name for name in lists.catalogue) if lists else (),
    )
    _check(rows, Names(lawns, sprayers, top.get("people")), report)
    return rows


def _lists(top: dict[str, Node], report: Report) -> _Lists | None:
    entries = tuple(Entry(key, top[key].place, top[key]) for key in _Lists.file_keys() if key in top)
    lists = read_record(_Lists, Mapping(Place(""), entries), report)
    if lists:
        check_people([(name, lists.place_of(f"people[{n}]")) for n, name in enumerate(lists.people, 1)], report)
    return lists


def _records(model: type[R], nodes: Sequence[Node], report: Report) -> tuple[R, ...]:
    return tuple(record for node in nodes if (record := read_record(model, node, report)))


def _check(rows: Rows, names: Names, report: Report) -> None:
    for lawn in rows.lawns:
        check_lawn(lawn, report)
    check_strips(rows.lawns, names, report)
    for sprayer in rows.sprayers:
        check_sprayer(sprayer, report)
    check_scales(rows.scales, report)
    if rows.months:
        check_months(rows.months, report)
    if rows.water:
        check_site_water(rows.water, report)
    if rows.mix:
        check_mix(rows.mix, names, report)
    for line in rows.programme:
        check_line(line, names, report)
    for row in rows.diary:
        check_application(row, names, report)
    for visit in rows.not_done:
        known(visit.lawn, visit.place_of("lawn"), names.lawns, "lawn", report)
    check_scores(rows.scores, names, report)
