"""From the templates as written to the sheets as they are laid out: families become columns, and every sheet but the
first has a form at its head that shows the state of the checks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from wbgen.sheets.read import TemplateError
from wbgen.sheets.template import STANDING, Column, Sheet, Table
from wbgen.trade.families import described, family, for_all, for_member

_NARROW = 10


def expand(sheets: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """The sheets with a column for every member of a family. Raises TemplateError with everything that fails."""
    problems: list[str] = []
    expanded: list[Sheet] = []
    for sheet in sheets:
        try:
            expanded.append(_expanded(sheet))
        except KeyError as error:
            problems.append(f"{sheet.name}: {error}")
            continue
        problems += [f"{sheet.name}: {twice}" for table in expanded[-1].tables for twice in _twice(table)]
    if problems:
        raise TemplateError(problems)
    return tuple(expanded)


def _standing(sheet: Sheet) -> tuple[Table, ...]:
    if any(table.key == "start" for table in sheet.tables):
        return ()
    column = Column(key="state", heading="Checks", type="text", formula='start.master_check&""')
    span = 2 if sheet.widths and sheet.widths[1] < _NARROW else 1
    key = STANDING + sheet.name.lower().replace(" ", "_")
    return (Table(key=key, title="", direction="across", plain=True, span=span, columns=(column,)),)


def _twice(table: Table) -> list[str]:
    """Keys and headings that two columns share: a column could not be found by them again in a file."""
    keys = [column.key for column in table.columns]
    seen: dict[tuple[str, str | None], str] = {}
    return [f"{table.key}: the key {key} stands twice" for key in dict.fromkeys(keys) if keys.count(key) > 1] + [
        f"{table.key}: {seen[column.heading, column.slot]} and {column.key} are both headed {column.heading!r}"
        for column in table.columns
        if seen.setdefault((column.heading, column.slot), column.key) != column.key
    ]


def _expanded(sheet: Sheet) -> Sheet:
    tables = list(_standing(sheet))
    for table in sheet.tables:
        families = {key: column.each for column in table.columns if column.each for key in _names(table, column)}
        columns = tuple(_in_order([(column, _members(column, families)) for column in table.columns]))
        tables.append(table.model_copy(update={"columns": columns}))
    return sheet.model_copy(update={"tables": tuple(tables)})


def _in_order(made: Sequence[tuple[Column, tuple[Column, ...]]]) -> Iterator[Column]:
    """The columns of a table, members of a family in turn with those of the columns that stand beside it."""
    abreast: list[tuple[Column, ...]] = []
    for column, members in made:
        if not column.beside:
            yield from _in_turn(abreast)
            abreast = []
        abreast.append(members)
    yield from _in_turn(abreast)


def _in_turn(abreast: Sequence[tuple[Column, ...]]) -> Iterator[Column]:
    return (column for turn in zip(*abreast, strict=True) for column in turn)


def _names(table: Table, column: Column) -> tuple[str, str]:
    return column.key, f"{table.key}.{column.key}"


def _members(column: Column, families: Mapping[str, str]) -> tuple[Column, ...]:
    if column.formula is not None:
        column = column.model_copy(update={"formula": for_all(column.formula, families)})
    if column.each is None:
        return (column,)
    made = []
    own_look = column.show == "each"
    for index, member in enumerate(family(column.each)):
        unit = column.unit and column.unit.model_copy(
            update={"metric": described(column.unit.metric, member), "us": described(column.unit.us, member)}
        )
        default = column.default
        made.append(
            column.model_copy(
                update={
                    "key": for_member(column.key, member),
                    "heading": described(column.heading, member),
                    "formula": for_member(described(column.formula, member), member)
                    if column.formula is not None
                    else None,
                    "unit": unit,
                    "note": described(column.note, member) if index == 0 or "{" in column.note else "",
                    "blank_unless": column.blank_unless
                    and tuple(for_member(key, member) for key in column.blank_unless),
                    "choices": tuple(described(text, member) for text in column.choices)
                    if isinstance(column.choices, tuple)
                    else column.choices,
                    "default": described(default, member) if isinstance(default, str) else default,
                    "group": column.group if index == 0 else None,
                    "page": column.page and index == 0,
                    **({"show": member.says["show"], "digits": int(member.says["digits"])} if own_look else {}),
                }
            )
        )
    return tuple(made)
