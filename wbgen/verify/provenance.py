"""Follows an input of a planner back to the line of lawns.yaml, or of the product catalogue, that filled it.

A record of the workbook is found in the files by its name, ignoring case; one that has none (a line of the diary, a
point) by what it is of, and among equals by its order. The files may have changed since, and so may the workbook:
each origin says whether the two still agree.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

from wbgen.files import shipped
from wbgen.files.diagnostics import Place, Report
from wbgen.files.yaml.records import Record
from wbgen.inputs.catalogue_constants import constants
from wbgen.inputs.constants import settings_tables
from wbgen.inputs.product_rows import product_row
from wbgen.inputs.rows import Cell, Row, cell_value, default_of
from wbgen.inputs.site_rows import rows_of
from wbgen.model.inputs import Inputs
from wbgen.records.catalogue import Catalogue, load_catalogue
from wbgen.records.fields import Measure
from wbgen.records.site.site import Site, load_site_and_catalogue
from wbgen.sheets.book import Book
from wbgen.units.quantity import UnitError
from wbgen.verify.compare import is_blank, same_result
from wbgen.verify.figure_text import display

IDENTITY: Mapping[str, tuple[str, ...]] = {
    "lawns": ("name",), "products": ("name",), "sprayers": ("name",), "parts": ("lawn", "part"),
    "points": ("lawn", "part"), "catches": ("sprayer", "nozzle"), "chosen_lawns": ("lawn",),
    "chosen_products": ("product",), "chosen_targets": (), "diary": ("date", "lawn", "product"),
    "programme": ("product", "lawn", "group", "first"), "months": (), "shelf": ("date", "product", "deed"),
    "scores": ("date", "lawn"), "soil_tests": ("date", "lawn", "method"),
    "recipes": ("product",), "ingredients": ("product", "ingredient"),
    "chosen": (), "chosen_more": (), "weather": (), "scales": (), "settings": (), "limits": (), "rules": (),
    "place": (), "water": (),
}  # fmt: skip
"""The columns that say which record is meant, for each table that the files fill; a form has one record."""

_KEYS = {
    "stated_": "analysis", "element_": "analysis", "analysis_per": "analysis", "spray_": "spray", "dry_": "dry",
    "least_carrier": "carrier", "usual_carrier": "carrier", "solubility_": "solubility", "trait_": "traits",
    "pack_": "pack", "months_suited": "months", "least_interval": "interval", "release_time": "release",
    "slow_nitrogen": "nitrogen", "ammonium_nitrogen": "nitrogen", "nitrate_nitrogen": "nitrogen",
    "urea_nitrogen": "nitrogen", "planner_date": "as of", "season_": "season starts", "loads_style": "loads",
    "target_": "targets", "typed_area": "area", "most_nitrogen_month": "most N a month", "weighed": "measured",
    "poured": "measured", "planned_": "planned rate", "sign": "add", "own_rate": "rate",
    "own_carrier": "carrier volume", "most_nitrogen": "most N a visit", "most_soluble": "most soluble N a visit",
    "mean_temperature": "mean temperatures", "brewing_time": "brewing", "wanted_ph": "wanted pH", "ph": "pH",
    "tested_phosphate": "P", "tested_potash": "K",
}  # fmt: skip
"""The key of the files that a column, or every column whose name begins so, is filled from, where it is another."""


@dataclass(frozen=True)
class Origin:
    """Where an input came from: the place in the file, what stands there now, and whether the workbook has the same.

    `text` is "" where the file says nothing of it.
    """

    place: Place
    text: str
    same: bool

    @property
    def where(self) -> str:
        """The file and the line; a file that came with wbgen from its folder's name on."""
        return f"{self.file}:{self.place.line}" if self.place.line else self.file

    @property
    def file(self) -> str:
        path, folder = Path(self.place.file), shipped.product_catalogue()
        return path.relative_to(folder.parent).as_posix() if path.is_relative_to(folder) else self.place.file


@dataclass(frozen=True)
class CatalogueRecord:
    """What a build fills into one record of a table from the catalogue, and where the catalogue has it.

    `values` has every column that has no formula, in the column's unit; a blank is None, NaN or the
    empty text.
    """

    values: Mapping[str, Any]
    _source: _Source

    def where(self, column: str) -> str:
        """The file and the line of a fact; "" where that is not known."""
        place = self._source.place_of(column)
        return Origin(place, "", True).where if place.file else ""


@dataclass(frozen=True)
class _Source:
    """A record of the input files: its columns, its place, and the places of its fields where they are known."""

    row: Row
    place: Place
    record: Record | None = None
    places: Mapping[str, Place] = field(default_factory=dict)

    def place_of(self, column: str) -> Place:
        """The line of the field, or of the record where the field has none of its own."""
        cell = self.row.get(column)
        if column in self.places:
            return self.places[column]
        if isinstance(cell, Measure):
            return cell.place
        key = next((key for start, key in _KEYS.items() if column.startswith(start)), column.replace("_", " "))
        return self.record.place_of(key) if self.record else self.place


class Provenance:
    """The origins of a planner's inputs."""

    def __init__(self, book: Book, inputs: Inputs, sources: Mapping[str, Sequence[_Source]]) -> None:
        self._book, self._inputs, self._sources = book, inputs, sources
        self._matched: dict[str, dict[int, _Source]] = {}

    def of(self, table: str, column: str, record: int) -> Origin | None:
        """The origin of one input; None where the files have no such record, or say nothing where nothing stands."""
        if table not in self._sources:
            return None
        if table not in self._matched:
            self._matched[table] = dict(self._match(table))
        source = self._matched[table].get(record)
        if source is None:
            return None
        found = self._inputs.values[table][column][record]
        unit = self._book.units[table][column]
        cell = source.row.get(column)
        if cell is None:
            form = not IDENTITY[table]
            return None if form or is_blank(found) else Origin(source.place, "", False)
        return Origin(source.place_of(column), _text(cell, unit), _same(cell, found, unit))

    def _match(self, table: str) -> Iterator[tuple[int, _Source]]:
        """Records of the workbook and what they were filled from: the nth of an identity is the nth there."""
        columns = IDENTITY[table]
        units = self._book.units[table]
        known: dict[tuple[Any, ...], list[_Source]] = {}
        for source in self._sources[table]:
            identity = tuple(_folded(_value(source.row.get(key), units[key])) for key in columns)
            known.setdefault(identity, []).append(source)
        seen: Counter[tuple[Any, ...]] = Counter()
        values = self._inputs.values[table]
        for record in range(self._inputs.records[table]):
            identity = tuple(_folded(values[key][record]) for key in columns)
            if len(known.get(identity, ())) > seen[identity]:
                yield record, known[identity][seen[identity]]
            seen[identity] += 1


def provenance(book: Book, inputs: Inputs, lawns: Path | None = None) -> Provenance:
    """The origins in `lawns` and in the catalogue that belongs to it; without it, in the shipped catalogue alone.

    Raises InputError where the files have a mistake, OSError where they cannot be read.
    """
    if lawns is None:
        return Provenance(book, inputs, {"products": _products(_shipped())})
    site, catalogue = load_site_and_catalogue(lawns, [shipped.product_catalogue()])
    report = Report()
    rows = rows_of(site, catalogue, report)
    report.raise_any()
    records = _records(site)
    sources: dict[str, Sequence[_Source]] = {
        table: tuple(
            _Source(row, place, records.get(str(place)) or records.get(table))
            for row, place in zip(found, rows.places[table], strict=True)
        )
        for table, found in rows.tables.items()
    }
    day = {"planner_date": site.details.place_of("as of")}  # it stands with the site, beside the weather of the mix
    sources["weather"] = tuple(replace(source, places=day) for source in sources["weather"])
    return Provenance(book, inputs, sources | {"products": _products(catalogue)} | _settings(site, book, sources))


def catalogue_records(book: Book, lawns: Path | None = None) -> Mapping[str, Sequence[CatalogueRecord]]:
    """What a build fills in from the shipped catalogue, or with `lawns` from that and what the file adds to it.

    By table. Raises as `provenance` does.
    """
    catalogue = _shipped() if lawns is None else load_site_and_catalogue(lawns, [shipped.product_catalogue()])[1]
    filled = constants(book, catalogue, date.min)
    sources = {"products": _products(catalogue)} | {
        table: tuple(_Source(row, Place("")) for row in filled[table]) for table in ("facts", "sources")
    }
    return {
        table: tuple(CatalogueRecord(_filled(book, table, source.row), source) for source in of)
        for table, of in sources.items()
        if table in book.tables
    }


@cache
def _shipped() -> Catalogue:
    return load_catalogue([shipped.product_catalogue()])


def _filled(book: Book, table: str, row: Row) -> dict[str, Any]:
    values: dict[str, Any] = {}
    for column in book.tables[table].columns:
        if column.role != "formula":
            unit, cell = book.units[table][column.key], row.get(column.key)
            cell = default_of(column, book) if cell is None else cell
            values[column.key] = None if cell is None else cell_value(cell, unit)
    return values


def _products(catalogue: Catalogue) -> tuple[_Source, ...]:
    return tuple(_Source(product_row(product), product.place, product) for product in catalogue.products)


def _records(site: Site) -> dict[str, Record]:
    """The records by their places; the site's details by the tables that have figures of them."""
    parts = [part for lawn in site.lawns for part in lawn.parts or ()]
    own: list[Record] = [*site.lawns, *parts, *site.sprayers, *site.diary, *site.not_done, *site.programme, *site.shelf]
    own += [*site.scores, *(test for lawn in site.lawns for test in lawn.soil_tests or ())]
    own += [record for brew in site.brews for record in (brew, *brew.ingredients)]
    own += [record for record in (site.months, site.place, site.water) if record]
    if site.mix:
        own += [site.mix, *(site.mix.products or ())]
    return {str(record.place): record for record in own} | {"settings": site.details}


def _settings(site: Site, book: Book, sources: Mapping[str, Sequence[_Source]]) -> dict[str, Sequence[_Source]]:
    """The user's own settings, which come before what the site as a whole says."""
    found: dict[str, Sequence[_Source]] = {}
    for form in settings_tables(book):
        table, keys = form.key, {column.key.replace("_", " "): column.key for column in form.columns}
        own = {
            keys[known]: setting
            for name, setting in site.settings.items()
            if (known := name.replace("_", " ").casefold()) in keys
        }
        base = sources[table][0] if table in sources else _Source({}, Place(str(site.file)))
        row = base.row | {key: setting.measure or setting.text for key, setting in own.items()}
        found[table] = (replace(base, row=row, places={key: setting.place for key, setting in own.items()}),)
    return found


def _value(cell: Cell, unit: str) -> Any:
    return cell_value("" if cell is None else cell, unit)


def _folded(value: Any) -> Any:
    """A value by which records are compared: text ignoring case, a blank as itself."""
    return "" if is_blank(value) else value.casefold() if isinstance(value, str) else value


def _same(cell: Cell, found: Any, unit: str) -> bool:
    """Whether the workbook has what the file has; each may have been converted from another unit."""
    try:
        return same_result(_value(cell, unit), found)
    except UnitError:
        return False


def _text(cell: Cell, unit: str) -> str:
    if isinstance(cell, Measure | str):
        return cell if isinstance(cell, str) else cell.text
    return cell.isoformat() if isinstance(cell, date) else display(cell, unit)
