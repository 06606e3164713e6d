"""What the records of the templates cannot see by themselves: that keys, headings and names go together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Final

from wbgen.files.diagnostics import Place, Report, did_you_mean, shown
from wbgen.sheets.check_front import check_chart, check_examples, check_front
from wbgen.sheets.circles import circles
from wbgen.sheets.column import BARS, Column, System
from wbgen.sheets.compile import UnknownNameError, needs_of, resolve
from wbgen.sheets.read import ORDER, Unread
from wbgen.sheets.template import Chart, Sheet, Table
from wbgen.units.quantity import UnitError, parse_quantity, parse_unit, same_dimension

Columns = Mapping[str, Mapping[str, Column]]
SYSTEMS: Final[tuple[System, ...]] = ("metric", "us")
_NEEDED: Final = {
    ("conversions", "factor"): "the formulas multiply by the factors of conversions",
    ("start", "master_check"): "every sheet shows at its head the state of the checks",
}
"""Columns that the sheets themselves refer to, with the reason."""


def check(sheets: Sequence[Sheet], folder: Path, unread: Unread, report: Report) -> None:
    """Put into the report what does not go together in the sheets, each at its place."""
    checker = _Checker(columns_of(sheets), {t.key: t for s in sheets for t in s.tables}, unread, report)
    checker.unique(((sheet.name, sheet.written.of("name")) for sheet in sheets), "the sheet", fold=True)
    checker.unique(((t.key, t.written.of("key")) for s in sheets for t in s.tables if not t.standing), "the table")
    checker.needed(Place(str(folder / ORDER)))
    check_front(sheets, unread, report)
    check_examples(sheets, report)
    for sheet in sheets:
        checker.sheet(sheet)
        for table in sheet.tables:
            checker.table(table)
            for column in table.columns:
                checker.column(table, column)


def columns_of(sheets: Sequence[Sheet]) -> Columns:
    """The columns of every table by key; those of two tables of one key together."""
    columns: dict[str, dict[str, Column]] = {}
    for sheet in sheets:
        for table in sheet.tables:
            columns.setdefault(table.key, {}).update((column.key, column) for column in table.columns)
    return columns


def is_lost(table: str, columns: Columns, unread: Unread) -> bool:
    """Whether what is not found in a table may be what could not be read."""
    return table in unread.tables if table in columns else unread.may_be(table)


class _Checker:
    def __init__(self, columns: Columns, tables: Mapping[str, Table], unread: Unread, report: Report) -> None:
        self.columns, self.tables, self.unread, self.report = columns, tables, unread, report
        self.told: set[tuple[str, Place]] = set()

    def _tell(self, code: str, place: Place, message: str, **facts: str) -> None:
        """Report a mistake; one that all members of a family share is told of the first."""
        if (code, place) not in self.told:
            self.told.add((code, place))
            self.report.add(code, place, message, **facts)

    def lost(self, table: str) -> bool:
        return is_lost(table, self.columns, self.unread)

    def unique(self, found: Iterable[tuple[str, Place]], what: str, *, fold: bool = False) -> None:
        """Names that must stand once."""
        seen: dict[str, Place] = {}
        for name, place in found:
            word = name.casefold() if fold else name
            first = seen.get(word)
            if first is None:
                seen[word] = place
            else:
                self._tell("twice", place, f"{what} {shown(name)} is there twice", expected="each name once",
                                found=f"also at {first}", remedy="choose another name for one of the two")  # fmt: skip

    def needed(self, place: Place) -> None:
        for (table, key), reason in _NEEDED.items():
            if key in self.columns.get(table, ()) or self.lost(table):
                continue
            if table == "start" and not any(one.standing for one in self.tables.values()):
                continue
            self._tell("missing-column", place, f"no template has the column {table}.{key}: {reason}",
                            expected=f"a table {table} with a column {key}", remedy="write it")  # fmt: skip

    def sheet(self, sheet: Sheet) -> None:
        if sheet.last_printed:
            keys = [table.key for table in sheet.tables if not table.standing]
            place, what = sheet.written.of("last_printed"), f"a table of the sheet {sheet.name}"
            self._one_of(sheet.last_printed, keys, place, what, sheet.last_printed)
        for chart in sheet.charts:
            self.chart(chart)

    def chart(self, chart: Chart) -> None:
        if not self._one_of(chart.table, self.columns, chart.written.of("table"), "a table", chart.table):
            return
        table = self.tables[chart.table]
        self._runs_down(table, chart.written.of("table"), "a chart")
        for key in ("over", "lines", "right", "along", "bars"):
            value = getattr(chart, key)
            for number, name in enumerate((value,) if isinstance(value, str) else value, 1):
                place = chart.written.values.get(f"{key}[{number}]", chart.written.of(key))
                self._one_of(name, self.columns[table.key], place, f"a column of {table.key}", table.key)
        check_chart(chart, self.report)

    def table(self, table: Table) -> None:
        self.unique(((column.key, column.written.of("key")) for column in table.columns), f"{table.key}: the key")
        self._headings(table)
        if table.vanish:
            self._one_of(table.vanish, self.columns[table.key], table.written.of("vanish"), f"a column of {table.key}",
                         table.key)  # fmt: skip
        self._names(table.blank_unless, table, table.written.values, table.written.of("blank_unless"))
        form = table.direction == "across" and table.records == 1
        if table.slots and not form:
            self._tell("wrong-value", table.written.of("slots"), "only a form has slots",
                            expected="direction: across, and one record", remedy="leave the slots out")  # fmt: skip
        used = {column.page.slot for column in table.columns}
        for slot in table.slots:
            if slot not in used and not self.lost(table.key):
                self._tell("unused-slot", table.written.of("slots"), f"no column stands in the slot {slot}",
                                expected=f"a column with slot: {slot}", remedy="leave the slot out")  # fmt: skip
        needs = {column.key: needs_of(table, column) for column in table.columns}
        for circle in circles(needs):
            self.unread.endless.add(table.key)
            first = self.columns[table.key][circle[0]]
            tell_circle([f"{table.key}.{key}" for key in circle], first.written.of("blank_unless"), self.report)
        self._rows(table)

    def _headings(self, table: Table) -> None:
        """A column could not be found again in a file by a heading that another has."""
        seen: dict[tuple[str, str | None], Column] = {}
        for column in table.columns:
            first = seen.setdefault((column.heading, column.page.slot), column)
            if first is column or first.key == column.key:
                continue
            place, other = column.written.of("heading"), first.written.of("heading")
            who = f"{first.key} and {column.key} are both" if other != place else "all members of the family are"
            self._tell("twice", place, f"{table.key}: {who} headed {column.heading!r}",
                            expected="each heading once in a table", found=f"also at {other}",
                            remedy="choose another heading for one of them")  # fmt: skip

    def _rows(self, table: Table) -> None:
        known = self.columns[table.key]
        for number, row in enumerate(table.rows, 1):
            place = table.written.of(f"rows[{number}]")
            for key, value in row.items():
                if self._one_of(key, known, place, f"a column of {table.key}", table.key):
                    all(self._fits(value, known[key], system, place) for system in SYSTEMS)

    def column(self, table: Table, column: Column) -> None:
        meaning, accepts, at = column.meaning, column.accepts, column.written
        self._roles(column)
        if column.look.style in BARS:
            self._bar(table, column)
        if column.page.slot is not None:
            self._one_of(column.page.slot, table.slots, at.of("slot"), f"a slot of {table.key}")
        self._names(meaning.blank_unless or (), table, at.values, at.of("blank_unless"))
        self._unit(column)
        if isinstance(accepts.choices, str):
            self._choices(accepts.choices, at.of("choices"))
        low, high = accepts.minimum, accepts.maximum
        if low is not None and high is not None and low > high:
            self._tell("wrong-value", at.of("maximum"), "the most is less than the least",
                            expected=f"{low:g} or more", found=f"{high:g}", remedy="exchange the two")  # fmt: skip
        for system in SYSTEMS:
            default = accepts.default_in(system)
            if default in (None, ""):
                continue
            if isinstance(accepts.choices, tuple) and accepts.choices:
                self._one_of(str(default), accepts.choices, at.of("default"), "one of the choices")
            if not self._fits(default, column, system, at.of("default")):
                break

    def _bar(self, table: Table, column: Column) -> None:
        """A bar has no number: the figure that it is drawn from stands left of it, for whoever sees no bar."""
        before = table.columns[: table.columns.index(column)]
        numbers = [one for one in before if one.meaning.type == "number" and one.look.style not in BARS]
        share = column.role == "formula" and column.meaning.type == "number" and column.meaning.unit is None
        if not share or not any(one.heading == column.heading or table.direction == "down" for one in numbers):
            self._tell("wrong-value", column.written.of("style"), f"{column.key} cannot be a bar",
                            expected="a formula without a unit, from 0 to 1, right of the figure that it is drawn from",
                            found=f"a {column.role} of {column.meaning.type}s",
                            remedy="write the figure before it, or leave the style out")  # fmt: skip

    def _roles(self, column: Column) -> None:
        meaning, at = column.meaning, column.written
        if meaning.formula is not None and meaning.constant:
            self._tell("two-roles", at.of("constant"), "a column is a formula or a constant, not both",
                            remedy="leave one of the two out")  # fmt: skip
        if meaning.running and not meaning.constant:
            self._tell("two-roles", at.of("running"), "only a constant counts the records",
                            expected="constant: true", remedy="add constant: true, or leave running out")  # fmt: skip
        if meaning.type != "number" and meaning.unit is not None:
            self._tell("wrong-unit", at.of("unit"), "only a number has a unit", expected="type: number",
                            found=f"type: {meaning.type}", remedy="leave one of the two out")  # fmt: skip

    def _unit(self, column: Column) -> None:
        unit = column.meaning.unit
        if unit is None:
            return
        place = column.written.of("unit")
        try:
            for text in {unit.metric, unit.us} - {""}:
                parse_unit(text)
        except UnitError as error:
            self._tell("wrong-unit", place, f"{shown(text)} is not a unit", expected=error.expected,
                            found=shown(text), remedy=error.advice)  # fmt: skip
            return
        if bool(unit.metric) != bool(unit.us) or (unit.us and not same_dimension(unit.metric, unit.us)):
            self._tell("unit-clash", place, "the units of the two systems are not of one dimension",
                            expected=f"a unit like {unit.metric}", found=unit.us)  # fmt: skip

    def _choices(self, name: str, place: Place) -> None:
        table, _, key = name.partition(".")
        if not self._one_of(table, self.columns, place, "a table", table):
            return
        self._runs_down(self.tables[table], place, "a list of choices")
        self._one_of(key, self.columns[table], place, f"a column of {table}", table)

    def _runs_down(self, table: Table, place: Place, what: str) -> None:
        if table.direction != "down":
            self._tell("wrong-value", place, f"{what} takes the columns of a table that runs down",
                            expected="a table with direction: down", found=table.key)  # fmt: skip

    def _names(self, names: Sequence[str], table: Table, places: Mapping[str, Place], whole: Place) -> None:
        for number, name in enumerate(names, 1):
            try:
                resolve(name, table.key, self.columns)
            except UnknownNameError as error:
                if not self.lost(error.table):
                    place = places.get(f"blank_unless[{number}]", whole)
                    self._tell(error.code, place, f"blank_unless {error}", expected=error.expected,
                                    found=error.found, remedy=error.remedy)  # fmt: skip

    def _one_of(self, name: str, known: Iterable[str], place: Place, what: str, table: str = "") -> bool:
        """Whether a name is known; if not, it is reported."""
        names = list(known)
        if name in names:
            return True
        if not (table and self.lost(table)):
            self._tell("unknown-name", place, f"{shown(name)} is not {what}", expected=what, found=shown(name),
                            remedy=did_you_mean(name, names))  # fmt: skip
        return False

    def _fits(self, value: str | float, column: Column, system: System, place: Place) -> bool:
        """Whether a value that is written in a template is one of its column; if not, it is reported."""
        meaning = column.meaning
        unit = getattr(meaning.unit, system) if meaning.unit else ""
        expected = {"number": f"a figure in {unit}" if unit else "a plain number", "date": "a number"}.get(meaning.type)
        if expected is None or value == "":
            return True
        try:
            if meaning.type == "date":
                float(value)
            elif isinstance(value, str):
                parse_quantity(value).figure_in(parse_unit(unit) if unit else "")
        except (UnitError, ValueError) as error:
            self._tell("wrong-value", place, f"{column.key}: {shown(value)} does not fit: {error}",
                            expected=expected, found=shown(value))  # fmt: skip
            return False
        return True


def tell_circle(names: Sequence[str], place: Place, report: Report) -> None:
    """Columns that need each other can none of them be worked out."""
    said = " needs ".join([*names, names[0]])
    report.add("circle", place, said, expected="no column that needs itself", found=f"{len(names)} in a circle",
               remedy="work one of them out from others")  # fmt: skip


def lost_names(table: Table, column: Column, columns: Columns) -> Iterator[str]:
    """The names in its guards that no template has: `check` tells of them where they are written."""
    for name in (*table.blank_unless, *(column.meaning.blank_unless or ())):
        try:
            resolve(name, table.key, columns)
        except UnknownNameError:
            yield name
