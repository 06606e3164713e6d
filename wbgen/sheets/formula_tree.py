"""A formula as a tree whose nodes know their place in the text.

The parsing is formualizer's; this adds only what it leaves out: the span of each node, so that a name can
be replaced, or a conversion put in, without printing the formula anew.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

import formualizer

from wbgen.files.diagnostics import shown


class FormulaError(ValueError):
    """The text is not a formula, or not one that every spreadsheet program reads alike.

    `code`, `expected`, `found` and `remedy` are those of a diagnostic; the latter are empty where the message says it.
    """

    def __init__(
        self, message: str, *, code: str = "wrong-formula", expected: str = "", found: str = "", remedy: str = ""
    ) -> None:
        super().__init__(message)
        self.code, self.expected, self.found, self.remedy = code, expected, found, remedy


@dataclass(slots=True, eq=False)  # not frozen: thirty thousand of them are made before a workbook is
class Node:
    """One node, never changed: `kind` is reference, number, text, truth, operator, prefix, percent or function."""

    kind: str
    value: str | float | bool
    children: tuple[Node, ...]
    start: int
    end: int

    def walk(self) -> Iterator[Node]:
        yield self
        for child in self.children:
            yield from child.walk()

    @property
    def depth(self) -> int:
        """How deep IF stands within IF."""
        deepest = max((child.depth for child in self.children), default=0)
        return deepest + (self.kind == "function" and self.value == "IF")


def parse(formula: str) -> Node:
    """The tree of `formula`, given without its equals sign. Spans count from the start of that text.

    >>> tree = parse("rate * (area + edge)")
    >>> tree.kind, tree.value, [(child.value, child.start, child.end) for child in tree.children]
    ('operator', '*', [('rate', 0, 4), ('+', 8, 19)])
    """
    try:
        root = formualizer.parse("=" + formula)
        tokens = [token for token in formualizer.tokenize("=" + formula) if token is not None]
    except (formualizer.ParserError, formualizer.TokenizerError) as error:
        said = re.sub(r"^\w+( at position \d+)?: ", "", str(error))
        remedy = "check its brackets, commas, quotes and operators"
        raise FormulaError(f"cannot be read as a formula: {said}", found=shown(formula), remedy=remedy) from error
    built = _Builder([token for token in tokens if str(token.token_type) != "Whitespace"]).build(root)
    return built if formula.isascii() else _by_characters(built, formula)


def _literal(value: object) -> tuple[str, str | float | bool]:
    if isinstance(value, bool):
        return "truth", value
    if isinstance(value, (int, float)):
        return "number", float(value)
    return "text", str(value)


def _by_characters(node: Node, formula: str) -> Node:
    """The tree with spans in characters: the parser counts the bytes of UTF-8."""
    at = {0: 0}
    length = 0
    for place, character in enumerate(formula, 1):
        length += len(character.encode())
        at[length] = place

    def moved(one: Node) -> Node:
        return Node(one.kind, one.value, tuple(map(moved, one.children)), at[one.start], at[one.end])

    return moved(node)


class _Builder:
    """Builds the nodes of one formula. Where brackets open and close is known by their places in the text."""

    def __init__(self, tokens: list[formualizer.Token]) -> None:
        self.starts = {token.start: index for index, token in enumerate(tokens)}
        self.ends = {token.end: index for index, token in enumerate(tokens)}
        self.places = [(token.start, token.end) for token in tokens]
        self.partner: dict[int, int] = {}
        self.brackets: set[int] = set()
        stack: list[int] = []
        for index, token in enumerate(tokens):
            if str(token.subtype) == "Open":
                stack.append(index)
            elif str(token.subtype) == "Close":
                self.partner[stack.pop()] = index
            if str(token.token_type) == "Paren":
                self.brackets.add(index)

    def build(self, raw: formualizer.ASTNode) -> Node:
        token = raw.get_source_token()
        if token is None:
            raise FormulaError("has a part that cannot be placed")
        children = tuple(self.build(child) for child in raw.children())
        start, end = token.start, token.end
        value: str | float | bool = token.value
        match raw.node_type():
            case "Function":
                kind, value = "function", token.value[:-1].upper().removeprefix("_XLFN.")
                end = self.places[self.partner[self.starts[start]]][1]
            case "BinaryOp":
                kind = "operator"
                start, end = self._around(children[0])[0], self._around(children[1])[1]
            case "UnaryOp":
                kind = "percent" if value == "%" else "prefix"
                inner = self._around(children[0])
                start, end = min(start, inner[0]), max(end, inner[1])
            case "Reference":
                kind = "reference"
            case "Literal":
                kind, value = _literal(raw.get_literal_value())
            case other:
                raise FormulaError(f"has a part of a kind that is not used here: {other} {value}")
        return Node(kind, value, children, start - 1, end - 1)

    def _around(self, node: Node) -> tuple[int, int]:
        """The span of `node` with the brackets round it, in the text with its equals sign."""
        start, end = node.start + 1, node.end + 1
        while True:
            before, after = self.starts[start] - 1, self.ends[end] + 1
            if not (before in self.brackets and self.partner.get(before) == after):
                return start, end
            start, end = self.places[before][0], self.places[after][1]
