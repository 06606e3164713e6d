"""From the templates as written to the sheets as they are laid out: families become columns, and every sheet but the
first has a form at its head that shows the state of the checks."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields
from functools import cache
from typing import Any, Final, cast

from wbgen.files.diagnostics import Report, did_you_mean
from wbgen.files.yaml.records import Record
from wbgen.sheets.column import Accepts, Column, Defaults, Digits, Look, Meaning, Page, Show, Unit, Written
from wbgen.sheets.formula_tree import FormulaError
from wbgen.sheets.macros import for_members
from wbgen.sheets.read import SheetFile, TableFile, Unread
from wbgen.sheets.records import ChartKeys, ColumnKeys, SheetKeys
from wbgen.sheets.template import STANDING, Chart, Sheet, Table  # fmt: skip
from wbgen.trade.families import Member, described, family, for_all, for_member

_NARROW: Final = 10
_STATE: Final = ("start", "master_check")
"""The column that has the state of the checks."""


def expand(files: Sequence[SheetFile], unread: Unread, report: Report) -> tuple[Sheet, ...]:
    """The sheets with a column for every member of a family; what is wrong goes to the report.

    A table of which a family could not be expanded joins those that could not be read.
    """
    return tuple(_sheet(file, unread, report) for file in files)


def _sheet(file: SheetFile, unread: Unread, report: Report) -> Sheet:
    tables = tuple(_table(table, unread, report) for table in file.tables)
    keys = file.keys
    standing = () if any(table.key == _STATE[0] for table in tables) else (_standing(keys),)
    return Sheet(
        tables=standing + tables, charts=tuple(map(_chart, file.charts)), written=_written(keys),
        **_values(keys, Sheet),
    )  # fmt: skip


def _standing(sheet: SheetKeys) -> Table:
    formula = f'{".".join(_STATE)}&""'
    column = Column("state", "Checks", Meaning("text", formula=formula), written=_written(sheet))
    span = 2 if sheet.widths and sheet.widths[1:] and sheet.widths[1] < _NARROW else 1
    key = STANDING + sheet.name.lower().replace(" ", "_")
    return Table(key, "", (column,), "across", plain=True, span=span, written=_written(sheet))


def _chart(keys: ChartKeys) -> Chart:
    return Chart(written=_written(keys), **_values(keys, Chart))


def _table(file: TableFile, unread: Unread, report: Report) -> Table:
    families = {
        name: column.each for column in file.columns if column.each for name in (column.key, f"{file.key}.{column.key}")
    }
    made = []
    for column in file.columns:
        members = _members(column, families, report)
        if not members:
            unread.tables.add(file.key)
        made.append((column, members))
    written = _written(file.keys)
    return Table(
        key=file.key,
        columns=tuple(_in_order(made, unread, report, file.key)),
        slots={slot: Unit(words.metric, words.us) for slot, words in file.keys.slots.items()},
        written=Written(written.place, {**written.values, "key": file.place}),
        **_values(file.keys, Table, without=("key", "slots")),
    )


def _in_order(
    made: Sequence[tuple[ColumnKeys, tuple[Column, ...]]], unread: Unread, report: Report, table: str
) -> Iterator[Column]:
    """The columns of a table, members of a family in turn with those of the columns that stand beside it."""
    abreast: list[tuple[Column, ...]] = []
    for column, members in made:
        if column.beside and abreast and members and len(members) != len(abreast[0]):
            report.add("wrong-family", column.place_of("beside"), f"{column.key} has {len(members)} members, and the "
                       f"column that it stands beside has {len(abreast[0])}", expected="a family of as many members",
                       found=column.each or "no family", remedy="take the family of the column before, or leave out "
                       "beside")  # fmt: skip
            unread.tables.add(table)
            continue
        if not column.beside:
            yield from _in_turn(abreast)
            abreast = []
        if members:
            abreast.append(members)
    yield from _in_turn(abreast)


def _in_turn(abreast: Sequence[tuple[Column, ...]]) -> Iterator[Column]:
    return (column for turn in zip(*abreast, strict=True) for column in turn)


def _members(keys: ColumnKeys, families: Mapping[str, str], report: Report) -> tuple[Column, ...]:
    """The columns that one of a template stands for; none where its words are not those of its family."""
    members = family(keys.each) if keys.each else (None,)
    writers = [_Writer(keys, families, member, report) for member in members]
    made = [writer.column(first=index == 0) for index, writer in enumerate(writers)]
    return tuple(made) if not any(writer.failed for writer in writers) else ()


@dataclass
class _Writer:
    """Writes the column of one member, or the one column where there is no family."""

    keys: ColumnKeys
    families: Mapping[str, str]
    member: Member | None
    report: Report
    failed: bool = False

    def column(self, *, first: bool) -> Column:
        keys = self.keys
        return Column(
            self._names("key", keys.key),
            self._words("heading", keys.heading),
            Meaning(
                unit=self._unit(),
                formula=keys.formula and self._formula(keys.formula),
                blank_unless=None
                if keys.blank_unless is None
                else tuple(self._names("blank_unless", name) for name in keys.blank_unless),
                **_values(keys, Meaning, without=("unit", "formula", "blank_unless")),
            ),
            Accepts(
                default=self._defaults(),
                choices=keys.choices
                if isinstance(keys.choices, str)
                else tuple(self._words("choices", word) for word in keys.choices),
                example=Unit(keys.example.metric, keys.example.us) if keys.example else None,
                **_values(keys, Accepts, without=("default", "choices", "example")),
            ),
            self._look(),
            Page(
                note=self._words("note", keys.note) if first or "{" in keys.note else "",
                group=keys.group if first else None,
                outline=keys.outline if first else None,
                begins=keys.begins and first,
                **_values(keys, Page, without=("note", "group", "outline", "begins")),
            ),
            _written(keys),
        )

    def _words(self, key: str, text: str) -> str:
        member = self.member
        return self._made(key, lambda: described(text, member)) if member else text

    def _names(self, key: str, text: str) -> str:
        member = self.member
        return self._made(key, lambda: for_member(text, member)) if member else text

    def _formula(self, text: str) -> str:
        try:
            text = for_all(for_members(text), self.families)
        except FormulaError as error:
            self._fail("formula", str(error), error.found, error.remedy)
        except KeyError as error:
            name = str(error.args[0])
            self._fail("formula", f"names all members of {name}, which is no column of a family in this table", name,
                       did_you_mean(name, self.families) or "write such a column with each: and a family")  # fmt: skip
        return self._names("formula", self._words("formula", text))

    def _unit(self) -> Unit | None:
        unit = self.keys.unit
        return Unit(self._words("unit", unit.metric), self._words("unit", unit.us)) if unit else None

    def _defaults(self) -> Defaults:
        given = self.keys.default
        if given is None:
            return Defaults()
        metric, us = (self._words("default", one) if isinstance(one, str) else one for one in (given.metric, given.us))
        return Defaults(metric, us)

    def _look(self) -> Look:
        keys, digits = self.keys, self.keys.digits
        shown: Digits | int | None = None
        if digits:
            shown = digits.metric if digits.metric == digits.us else Digits(digits.metric, digits.us)
        show = keys.show
        if show == "each":
            says = self.member.says if self.member else {}
            if not {"show", "digits"} <= says.keys():
                self._fail("show", "takes the look of a family's member, which has none", keys.each or "no family",
                           "write how the figures are shown")  # fmt: skip
            show, shown = cast(Show, says.get("show", "plain")), int(says.get("digits", "0"))
        return Look(shown, show, **_values(keys, Look, without=("digits", "show")))

    def _made(self, key: str, make: Callable[[], str]) -> str:
        """What a member makes of a text; what it has no word for goes to the report."""
        try:
            return make()
        except KeyError as error:
            word, says = str(error.args[0]), ("name", "key", *(self.member.says if self.member else ()))
            self._fail(key, f"has a word that the family {self.keys.each} does not say", word, did_you_mean(word, says))
        except (ValueError, IndexError, AttributeError):
            self._fail(
                key, "has braces that are no word of the family's members", "{ or }", "write {name}, or no braces"
            )
        return ""

    def _fail(self, key: str, message: str, found: str, remedy: str) -> None:
        self.failed = True
        self.report.add(
            "wrong-family", self.keys.place_of(key), f"{self.keys.key} {message}", found=found, remedy=remedy
        )


def _written(record: Record) -> Written:
    return Written(record.place, record.places)


def _values(record: Record, into: Any, without: Sequence[str] = ()) -> dict[str, Any]:
    """The values of a record that `into` has fields for, by name."""
    return {name: getattr(record, name) for name in _shared(type(record), into) if name not in without}


@cache
def _shared(record: type[Record], into: Any) -> tuple[str, ...]:
    """The names of the fields that both have, but for what is read item by item."""
    names = {one.name for one in fields(into)} & record.model_fields.keys()
    return tuple(sorted(names - {"tables", "charts", "columns"}))
