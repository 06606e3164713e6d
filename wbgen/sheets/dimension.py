"""Proof of the units of a formula.

`prove` walks the tree and gives the type of the whole: a quantity with its unit, a date, text or a truth
value. Where two quantities have one dimension but another scale, it asks for a conversion at that place;
where the dimensions differ, it refuses. Nutrients are dimensions of their own, so N is never added to P₂O₅.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from wbgen.sheets.algebra import Conversion, combine, conversion, power
from wbgen.sheets.tree import FormulaError, Node


@dataclass(frozen=True)
class Type:
    """`kind` is quantity, date, text, truth or any (the empty text, and zero, which go with everything)."""

    kind: str
    unit: str = ""

    def __str__(self) -> str:
        return (self.unit or "a plain number") if self.kind == "quantity" else self.kind


TEXT, DATE, TRUTH, ANY = Type("text"), Type("date"), Type("truth"), Type("any")
PLAIN = Type("quantity", "")


@dataclass(frozen=True)
class Edit:
    """A conversion to be put in round the text from `start` to `end`."""

    start: int
    end: int
    conversion: Conversion


@dataclass(frozen=True)
class Proof:
    type: Type
    edits: tuple[Edit, ...]


Lookup = Callable[[str], Type]

DIGITS = tuple(float(number) for number in range(13))
"""Numbers of decimals, or ranks, that ROUND and the like may be given."""

COMPARISONS = ("=", "<>", "<", ">", "<=", ">=")


def prove(tree: Node, lookup: Lookup, wanted: Type | None = None, literals: tuple[float, ...] = ()) -> Proof:
    """The type of `tree`, converted to `wanted` where that is given.

    `lookup` gives the type of a reference. `literals` are the numbers of the equation itself that may stand
    in the text besides 0, 1 and 2. Raises FormulaError naming both units and both dimensions.
    """
    prover = _Prover(lookup, (0.0, 1.0, 2.0, *literals))
    found = prover.type(tree)
    if wanted is not None:
        if wanted.kind == "quantity" and found.kind == "quantity":
            prover.convert(tree, wanted.unit)
            found = wanted
        elif wanted.kind != found.kind and found.kind != "any":
            raise FormulaError(f"gives {found}, and the column holds {wanted}")
    return Proof(found, tuple(prover.edits.values()))


class _Prover:
    def __init__(self, lookup: Lookup, literals: tuple[float, ...]) -> None:
        self.lookup = lookup
        self.literals = literals
        self.types: dict[int, Type] = {}
        self.written: dict[int, Type] = {}
        self.edits: dict[int, Edit] = {}

    def type(self, node: Node) -> Type:
        found = self._infer(node)
        self.types[id(node)] = self.written[id(node)] = found
        return found

    def _infer(self, node: Node) -> Type:
        match node.kind:
            case "reference":
                return self.lookup(str(node.value))
            case "number":
                if node.value not in self.literals:
                    raise FormulaError(f"has the number {node.value:g} in it: give it a cell with a heading and a unit")
                return ANY if node.value == 0 else PLAIN
            case "text":
                return ANY if node.value == "" else TEXT
            case "truth":
                return TRUTH
            case "prefix":
                return self.type(node.children[0])
            case "operator":
                return self._operator(node)
            case "function":
                rule = _RULES.get(str(node.value))
                if rule is None:
                    raise FormulaError(f"uses {node.value}, which is not in the set that all engines agree on")
                return rule(self, node)
        raise FormulaError(f"has a part of a kind that is not used here: {node.value}")

    def _operator(self, node: Node) -> Type:
        left, right = (self.type(child) for child in node.children)
        operator = str(node.value)
        if operator == "&":
            return right if node.children[0].value in COMPARISONS else self._joined(left, right)
        if operator in COMPARISONS:
            self.unify(node.children)
            return TRUTH
        if operator in ("*", "/"):
            sides = [PLAIN if side.kind in ("truth", "any") else side for side in (left, right)]
            if any(side.kind != "quantity" for side in sides):
                raise FormulaError(f"multiplies or divides {left} and {right}")
            return Type("quantity", combine(sides[0].unit, operator, sides[1].unit))
        if operator == "^":
            exponent = node.children[1]
            if exponent.kind == "number":
                return Type("quantity", power(left.unit, float(exponent.value)))
            if left.unit or right.unit:
                raise FormulaError("raises to a power that is not a plain number")
            return PLAIN
        return self._sum(node, left, right)

    def _sum(self, node: Node, left: Type, right: Type) -> Type:
        if left.kind == "date":
            if right.kind == "date" and node.value == "-":
                return Type("quantity", "day")
            if right.kind == "quantity":
                self.convert(node.children[1], "day") if right.unit else None
                return DATE
            if right.kind == "any":
                return DATE
        if "truth" in (left.kind, right.kind):
            return PLAIN
        for side in (left, right):
            if side.kind in ("text", "date"):
                raise FormulaError(f"adds or subtracts {left} and {right}")
        found = self.unify(node.children)
        if found.unit in ("degC", "degF"):
            if node.value != "-":
                raise FormulaError(f"adds temperatures in {found.unit}: they may only be subtracted or compared")
            return Type("quantity", "delta_" + found.unit)
        return found

    def _joined(self, left: Type, right: Type) -> Type:
        """Text joined of two parts. (A comparison sign joined to a figure is a criterion, of that figure's type.)"""
        for side in (left, right):
            if side.unit or side.kind == "date":
                raise FormulaError(f"writes {side} into text, where its unit is lost: use TEXT(…)")
        return TEXT

    def unify(self, nodes: tuple[Node, ...]) -> Type:
        """One type for all of `nodes`, with conversions into the unit of the first that has one."""
        types = [self.types[id(node)] for node in nodes]
        known = [found for found in types if found.kind != "any"]
        if not known:
            return ANY
        kinds = {found.kind for found in known}
        if len(kinds) > 1:
            raise FormulaError("puts together " + " and ".join(sorted(str(found) for found in set(known))))
        if known[0].kind != "quantity":
            return known[0]
        for node, found in zip(nodes, types, strict=True):
            if found.kind == "quantity":
                self.convert(node, known[0].unit)
        return known[0]

    def convert(self, node: Node, target: str) -> None:
        """Ask for the conversion of `node`, inside the branches of an IF since a branch may be empty text."""
        if self.types[id(node)].kind != "quantity":
            return
        if node.kind == "function" and node.value in ("IF", "IFERROR", "CHOOSE"):
            for branch in node.children[(0 if node.value == "IFERROR" else 1) :]:
                self.convert(branch, target)
        else:
            # A part that was brought to its neighbour's unit before is now brought straight from its own.
            wanted = conversion(self.written[id(node)].unit, target)
            self.edits.pop(id(node), None)
            if wanted is not None:
                self.edits[id(node)] = Edit(node.start, node.end, wanted)
        self.types[id(node)] = Type("quantity", target)


Rule = Callable[[_Prover, Node], Type]


def _each(prover: _Prover, node: Node) -> list[Type]:
    return [prover.type(child) for child in node.children]


def _gives(result: Type) -> Rule:
    def rule(prover: _Prover, node: Node) -> Type:
        _each(prover, node)
        return result

    return rule


def _dated(result: Type) -> Rule:
    """A function of dates and of plain numbers."""

    def rule(prover: _Prover, node: Node) -> Type:
        for found in _each(prover, node):
            if found.kind == "quantity" and found.unit:
                raise FormulaError(f"gives {node.value} a figure in {found.unit}")
        return result

    return rule


def _unified(*, first: int = 0, last: int | None = None) -> Rule:
    """The arguments from `first` to `last` are one figure, and so is the result; the others are plain."""

    def rule(prover: _Prover, node: Node) -> Type:
        for index, child in enumerate(node.children):
            digits = last is not None and index >= last
            kept, prover.literals = prover.literals, DIGITS if digits else prover.literals
            prover.type(child)
            prover.literals = kept
        return prover.unify(node.children[first:last])

    return rule


def _plain_only(result: Type) -> Rule:
    def rule(prover: _Prover, node: Node) -> Type:
        for found in _each(prover, node):
            if found.kind not in ("quantity", "any") or (found.unit and conversion(found.unit, "")):
                raise FormulaError(f"takes {node.value} of {found}")
        return result

    return rule


def _root(prover: _Prover, node: Node) -> Type:
    return Type("quantity", power(prover.type(node.children[0]).unit, 0.5))


def _text_of(prover: _Prover, node: Node) -> Type:
    prover.type(node.children[0])
    if node.children[1].kind != "text":
        raise FormulaError("gives TEXT a format that is not written out")
    return TEXT


def _part_of_text(prover: _Prover, node: Node) -> Type:
    for found in _each(prover, node):
        if found.kind in ("date", "truth") or found.unit:
            raise FormulaError(f"takes a part of {found} as text")
    return TEXT


def _match(prover: _Prover, node: Node) -> Type:
    _each(prover, node)
    prover.unify(node.children[:2])
    return PLAIN


def _index(prover: _Prover, node: Node) -> Type:
    whole, *places = _each(prover, node)
    if any(place.unit for place in places):
        raise FormulaError("has a place in INDEX that is not a plain number")
    return whole


def _criteria(prover: _Prover, node: Node, first: int) -> None:
    for index in range(first, len(node.children) - 1, 2):
        column, criterion = node.children[index], node.children[index + 1]
        ours, theirs = prover.type(column), prover.type(criterion)
        if theirs.kind == "text" and ours.kind != "text":
            raise FormulaError(f"compares a column of {ours} with text")
        if ours.kind == "text" and theirs.kind not in ("text", "any"):
            raise FormulaError(f"compares a column of text with {theirs}")
        if ours.kind != theirs.kind and "any" not in (ours.kind, theirs.kind):
            raise FormulaError(f"compares a column of {ours} with {theirs}")
        if ours.kind == theirs.kind == "quantity" and conversion(theirs.unit, ours.unit):
            raise FormulaError(f"compares a column in {ours} with a figure in {theirs}")


def _conditional(first: int) -> Rule:
    def rule(prover: _Prover, node: Node) -> Type:
        result = prover.type(node.children[0]) if first else PLAIN
        _criteria(prover, node, first)
        return result

    return rule


_RULES: dict[str, Rule] = {
    **dict.fromkeys(("SUM", "MIN", "MAX", "AVERAGE", "MEDIAN", "N", "ABS", "IFERROR"), _unified()),
    **dict.fromkeys(("LARGE", "SMALL"), _unified(last=1)),
    **dict.fromkeys(("ROUND", "ROUNDUP", "ROUNDDOWN"), _unified(last=1)),
    **dict.fromkeys(("CEILING", "MOD"), _unified()),
    **dict.fromkeys(("INT", "EXP", "LN"), _plain_only(PLAIN)),
    **dict.fromkeys(("IF", "CHOOSE"), _unified(first=1)),
    **dict.fromkeys(("AND", "OR", "NOT", "ISNUMBER", "ISBLANK", "ISTEXT"), _gives(TRUTH)),
    **dict.fromkeys(("COUNT", "COUNTA", "COUNTBLANK"), _gives(PLAIN)),
    **dict.fromkeys(("LEFT", "MID", "TRIM", "SUBSTITUTE"), _part_of_text),
    **dict.fromkeys(("SUMIFS", "AVERAGEIFS", "MAXIFS", "MINIFS"), _conditional(1)),
    **dict.fromkeys(("COUNTIFS", "COUNTIF"), _conditional(0)),
    **dict.fromkeys(("YEAR", "MONTH", "DAY", "WEEKDAY"), _dated(PLAIN)),
    **dict.fromkeys(("DATE", "EDATE", "EOMONTH", "TODAY"), _dated(DATE)),
    "SUMPRODUCT": _unified(),
    "SQRT": _root,
    "PI": _gives(PLAIN),
    "TEXT": _text_of,
    "MATCH": _match,
    "INDEX": _index,
}

FUNCTIONS = frozenset(_RULES)
"""The functions that formualizer, IronCalc and LibreOffice were measured to agree on."""
