"""A formula as tokens, and the references among them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import formualizer
from openpyxl.utils import column_index_from_string, get_column_letter

OPERANDS = ("Range", "Number", "Text", "Logical")
_END = r"(\$?)([A-Z]{1,3})(\$?)([0-9]+)"
_REFERENCE = re.compile(rf"((?:'(?:[^']|'')+'|[A-Za-z_]+)!)?{_END}(?::{_END})?")


@dataclass(frozen=True)
class Token:
    """One token: `kind` is that of the operand, or the token's type; `inside` is the function it is an argument of."""

    kind: str
    text: str
    inside: str = ""


@lru_cache(maxsize=8192)
def tokens(formula: str) -> tuple[Token, ...]:
    """The tokens of a formula, given without its equals sign; put together again they are the formula.

    >>> [(token.kind, token.text, token.inside) for token in tokens('SUM(A1,2)&"m²"')]
    [('Func', 'SUM(', ''), ('Range', 'A1', 'SUM'), ('Sep', ',', 'SUM'), ('Number', '2', 'SUM'), ('Func', ')', ''),
     ('OpInfix', '&', ''), ('Text', '"m²"', '')]
    """
    text = f"={formula}".encode()
    found: list[Token] = []
    within: list[str] = [""]
    for raw in formualizer.tokenize(f"={formula}"):
        if raw is None:
            continue
        kind, of, part = str(raw.token_type), str(raw.subtype), text[raw.start : raw.end].decode()
        if of == "Close":
            within.pop()
        found.append(Token(of if kind == "Operand" else kind, part, within[-1]))
        if of == "Open":
            within.append(function_name(part) if kind == "Func" else within[-1])
    assert joined(found) == formula
    return tuple(found)


def joined(parts: Sequence[Token]) -> str:
    return "".join(part.text for part in parts)


def put(parts: Sequence[Token], place: int, text: str, length: int = 1) -> str:
    """The formula with `length` tokens from `place` on replaced by `text`."""
    return joined(parts[:place]) + text + joined(parts[place + length :])


@lru_cache(maxsize=65_536)
def function_name(text: str) -> str:
    """The name of a function without the bracket and the prefix that files store for the newer ones."""
    return text.rstrip("(").upper().removeprefix("_XLFN.")


def alike(one: str, other: str) -> bool:
    """Whether two formulas are the same but for what programs rewrite: white space, case of functions, quotes, prefix.

    >>> alike("sum( A1:B2 )", "SUM(A1:B2)"), alike("A1", "A$1")
    (True, False)
    """
    return _bare(one) == _bare(other)


@lru_cache(maxsize=8192)
def _bare(formula: str) -> list[str]:
    parts = [token for token in tokens(formula) if token.kind != "Whitespace"]
    return [
        function_name(token.text) if token.kind == "Func"
        else re.sub(r"^'([A-Za-z_]+)'!", r"\1!", token.text) if token.kind == "Range"
        else token.text
        for token in parts
    ]  # fmt: skip


@dataclass(frozen=True)
class End:
    """One corner of a reference, column and row from 1, each of them fixed (with $) or not."""

    fixed_column: bool
    column: int
    fixed_row: bool
    row: int

    def __str__(self) -> str:
        return f"{'$' * self.fixed_column}{get_column_letter(self.column)}{'$' * self.fixed_row}{self.row}"

    def moved(self, rows: int, columns: int) -> End:
        """The corner some rows and columns away, on the other side where that would leave the sheet."""
        row, column = self.row + rows, self.column + columns
        return replace(
            self, row=row if row > 0 else self.row - rows, column=column if column > 0 else self.column - columns
        )


@dataclass(frozen=True)
class Reference:
    """A reference to one cell (one corner) or a range (two); `sheet` is as it stands, with its mark."""

    sheet: str
    ends: tuple[End, ...]

    def __str__(self) -> str:
        return self.sheet + ":".join(map(str, self.ends))

    def moved(self, rows: int, columns: int) -> Reference:
        return replace(self, ends=tuple(end.moved(rows, columns) for end in self.ends))


@lru_cache(maxsize=65_536)
def reference(text: str) -> Reference | None:
    """The reference that an operand is; None for a name.

    >>> str(reference("'a b'!A$1:$B2").moved(1, 1))
    "'a b'!B$2:$C3"
    """
    found = _REFERENCE.fullmatch(text)
    if found is None:
        return None
    sheet, *ends = found.groups()
    corners = [ends[:4]] + ([ends[4:]] if ends[4] is not None else [])
    return Reference(sheet or "", tuple(_end(*corner) for corner in corners))


def _end(fixed_column: str, column: str, fixed_row: str, row: str) -> End:
    return End(bool(fixed_column), column_index_from_string(column), bool(fixed_row), int(row))
