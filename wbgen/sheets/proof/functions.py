"""What each function that a formula may use makes of the types of its arguments."""

from __future__ import annotations

from collections.abc import Sequence

from wbgen.sheets.formula_tree import FormulaError, Node
from wbgen.sheets.proof.algebra import power
from wbgen.sheets.proof.prover import ADDS, BRANCHING, COMPARES, COMPARISONS, GIVES_EITHER, Prover, Rule, product
from wbgen.sheets.proof.types import (
    ANY,
    DATE,
    PLAIN,
    TEXT,
    TRUTH,
    ClashError,
    Type,
    is_plain_but_for_a_factor,
    same_figure,
)

DIGITS = tuple(float(number) for number in range(13))
"""Numbers of decimals, or ranks, that ROUND and the like may be given."""


def _taken(prover: Prover, node: Node, *kinds: str, only: Sequence[Node] | None = None) -> list[Type]:
    """The types of the arguments, each of one of `kinds` ("plain" is a quantity without a unit)."""
    types = []
    for child in node.children if only is None else only:
        found = prover.type(child)
        if found.kind not in (*kinds, "any") and not ("plain" in kinds and found.is_plain):
            raise ClashError(f"takes {node.value} of {{0}}", found)
        types.append(found)
    return types


def _figures(words: str, *kinds: str, sums: bool = False) -> Rule:
    """The arguments are figures of one kind and unit, and so is the result."""

    def rule(prover: Prover, node: Node) -> Type:
        for found in _taken(prover, node, *kinds):
            if sums and found.is_temperature:
                raise ClashError(f"takes {node.value} of {{0}}: temperatures may only be subtracted or compared", found)
        return prover.unify(node.children, words)

    return rule


def _counted(prover: Prover, node: Node) -> Type:
    """A figure, and a number of decimals or a rank."""
    figure, *numbers = node.children
    (found,) = _taken(prover, node, "quantity", only=[figure])
    for number in numbers:
        written = number.children[0] if number.kind == "prefix" else number
        if not (written.kind == "number" and written.value in DIGITS):
            _taken(prover, node, "plain", only=[number])
    return found


def _rounded(prover: Prover, node: Node) -> Type:
    """A figure to so many decimals. A plain number that still has a factor in its unit (g/kg) is not rounded: where
    it is brought to its column's unit, that comes after."""
    found = _counted(prover, node)
    if found.kind == "quantity" and is_plain_but_for_a_factor(found.unit):
        raise ClashError("rounds {0} before it is a plain number", found)
    return found


def _branches(prover: Prover, node: Node) -> Type:
    """One of several figures; what chooses is a truth value or a plain number."""
    first = BRANCHING[str(node.value)]
    for child in node.children[:first]:
        found = prover.type(child)
        if found.kind not in ("truth", "any") and not found.is_plain:
            raise ClashError(f"lets {{0}} choose in {node.value}", found)
    for child in node.children[first:]:
        prover.type(child)
    return prover.unify(node.children[first:], GIVES_EITHER)


def _gives(result: Type, *kinds: str) -> Rule:
    """Arguments of `kinds` (of any kind where none is named), and a result of its own."""

    def rule(prover: Prover, node: Node) -> Type:
        _taken(prover, node, *(kinds or ("quantity", "date", "text", "truth")))
        return result

    return rule


def _then_numbers(kind: str, result: Type, how_many: int = 1) -> Rule:
    """So many arguments of a kind, then plain numbers."""

    def rule(prover: Prover, node: Node) -> Type:
        _taken(prover, node, kind, only=node.children[:how_many])
        _taken(prover, node, "plain", only=node.children[how_many:])
        return result

    return rule


def _number_of(prover: Prover, node: Node) -> Type:
    """N: a figure as it is; a truth value counts 1 or 0."""
    (found,) = _taken(prover, node, "quantity", "date", "truth")
    return PLAIN if found.kind == "truth" else found


def _root(prover: Prover, node: Node) -> Type:
    (found,) = _taken(prover, node, "quantity")
    if found.is_temperature:
        raise ClashError("takes SQRT of {0}", found)
    return Type(found.kind, power(found.unit, 0.5))


def _sum_of_products(prover: Prover, node: Node) -> Type:
    """The product of all arguments. (A truth value by itself counts nothing there; multiplied, it counts.)"""
    whole, *others = _taken(prover, node, "quantity")
    for found in others:
        whole = product(whole, "*", found)
    return product(whole, "*", PLAIN)


def _text_of(prover: Prover, node: Node) -> Type:
    prover.type(node.children[0])
    if node.children[1].kind != "text":
        raise FormulaError("gives TEXT a format that is not written out")
    return TEXT


def _match(prover: Prover, node: Node) -> Type:
    """What is sought is brought to the unit of the column, never the column to it."""
    sought, column, *how = node.children
    prover.type(sought)
    prover.type(column)
    prover.unify((column, sought), "seeks {0} among {1}")
    _taken(prover, node, "plain", only=how)
    return PLAIN


def _index(prover: Prover, node: Node) -> Type:
    whole = prover.type(node.children[0])
    for place in node.children[1:]:
        found = prover.type(place)
        if not (found.is_plain or found == ANY):
            raise ClashError("has {0} as a place in INDEX, where a plain number belongs", found)
    return whole


def _leads(prover: Prover, node: Node) -> Type:
    """Words that lead to a line of a column, or from there to one of another column. A template has no other link, so
    that none leads out of the workbook."""
    words, *places = node.children
    _taken(prover, node, "text", only=[words])
    _taken(prover, node, "plain", only=places[1::2])
    if len(places) % 2 or any(column.kind != "reference" for column in places[::2]):
        raise FormulaError("gives LEADS other than words and then a column and the number of a line, once or twice")
    for column in places[::2]:
        prover.type(column)
    return TEXT


def _link(prover: Prover, node: Node) -> Type:
    """What LEADS is written out as, in a file; where it leads is no figure."""
    if not prover.strict:
        raise FormulaError("uses HYPERLINK, which may lead out of the workbook", expected="LEADS", found="HYPERLINK")
    _taken(prover, node, "text", only=node.children[1:])
    return TEXT


def _place(prover: Prover, node: Node) -> Type:
    """Where something stands, of which a link is made; a row's number is no figure of the trade."""
    if not prover.strict:
        raise FormulaError(f"uses {node.value}, which counts rows and columns of a sheet")
    return TEXT if node.value == "ADDRESS" else PLAIN


def _criterion(prover: Prover, node: Node) -> Type:
    """The type of what a criterion compares with: a comparison sign may stand before it, joined or written out."""
    if node.kind == "operator" and node.value == "&":
        sign, figure = node.children
        if sign.value in COMPARISONS:
            return prover.type(figure)
    if node.kind == "text":
        figure_text = str(node.value).lstrip("<>=")
        if not figure_text:
            return ANY
        try:
            number = float(figure_text)
        except ValueError:
            return TEXT
        return prover.type(Node("number", number, (), node.start, node.end))
    return prover.type(node)


def _criteria(prover: Prover, pairs: Sequence[Node]) -> None:
    for column, criterion in zip(pairs[::2], pairs[1::2], strict=True):
        ours, theirs = prover.type(column), _criterion(prover, criterion)
        if ANY in (ours, theirs):
            continue
        if ours.kind != theirs.kind or not same_figure(theirs.unit, ours.unit):
            both = ours.unit and theirs.unit
            words = "compares a column in {1} with a figure in {0}" if both else "compares a column of {1} with {0}"
            raise ClashError(words, theirs, ours)


def _conditional(*kinds: str) -> Rule:
    """The figures of a column (one of `kinds`) where others meet criteria; a count where none is named."""

    def rule(prover: Prover, node: Node) -> Type:
        first = 1 if kinds else 0
        if (len(node.children) - first) % 2:
            raise FormulaError(f"gives {node.value} a column without its criterion")
        found = _taken(prover, node, *kinds, only=node.children[:first])
        if node.value == "SUMIFS" and found[0].is_temperature:
            raise ClashError("takes SUMIFS of {0}: temperatures may only be subtracted or compared", found[0])
        _criteria(prover, node.children[first:])
        return found[0] if found else PLAIN

    return rule


def _with(least: int, most: int, rule: Rule) -> Rule:
    """The rule, for `least` to `most` arguments."""

    def counted(prover: Prover, node: Node) -> Type:
        if not least <= len(node.children) <= most:
            raise FormulaError(f"gives {node.value} {len(node.children)} arguments")
        return rule(prover, node)

    return counted


MANY = 255
_RULES: tuple[tuple[str, int, int, Rule], ...] = (
    ("SUM", 1, MANY, _figures(ADDS, "quantity", sums=True)),
    ("MIN MAX", 1, MANY, _figures(COMPARES, "quantity", "date")),
    ("AVERAGE MEDIAN", 1, MANY, _figures("averages {1} and {0}", "quantity")),
    ("ABS", 1, 1, _figures("", "quantity", sums=True)),
    ("N", 1, 1, _number_of),
    ("LARGE SMALL", 2, 2, _counted),
    ("ROUND ROUNDUP ROUNDDOWN", 2, 2, _rounded),
    ("CEILING", 2, 2, _figures("rounds {1} to steps of {0}", "quantity")),
    ("MOD", 2, 2, _figures("divides {1} by {0}", "quantity", sums=True)),
    ("INT EXP LN", 1, 1, _gives(PLAIN, "plain")),
    ("IF", 2, 3, _branches),
    ("CHOOSE", 2, MANY, _branches),
    ("IFERROR", 2, 2, _branches),
    ("AND OR", 1, MANY, _gives(TRUTH, "truth")),
    ("NOT", 1, 1, _gives(TRUTH, "truth")),
    ("ISNUMBER ISBLANK ISTEXT", 1, 1, _gives(TRUTH)),
    ("COUNT COUNTA", 1, MANY, _gives(PLAIN)),
    ("COUNTBLANK", 1, 1, _gives(PLAIN)),
    ("ROWS", 1, 1, _gives(PLAIN)),
    ("CONCAT", 1, 1, _gives(TEXT, "text")),
    ("LEFT", 1, 2, _then_numbers("text", TEXT)),
    ("MID", 3, 3, _then_numbers("text", TEXT)),
    ("SEARCH", 2, 2, _gives(PLAIN, "text")),
    ("TRIM", 1, 1, _gives(TEXT, "text")),
    ("VALUE", 1, 1, _gives(PLAIN, "text")),
    ("SUBSTITUTE", 3, 4, _then_numbers("text", TEXT, 3)),
    ("SUMIFS AVERAGEIFS", 3, MANY, _conditional("quantity")),
    ("MAXIFS MINIFS", 3, MANY, _conditional("quantity", "date")),
    ("COUNTIFS", 2, MANY, _conditional()),
    ("COUNTIF", 2, 2, _conditional()),
    ("YEAR MONTH DAY", 1, 1, _then_numbers("date", PLAIN)),
    ("WEEKDAY", 1, 2, _then_numbers("date", PLAIN)),
    ("EDATE EOMONTH", 2, 2, _then_numbers("date", DATE)),
    ("DATE", 3, 3, _gives(DATE, "plain")),
    ("TODAY", 0, 0, _gives(DATE)),
    ("SUMPRODUCT", 1, MANY, _sum_of_products),
    ("SQRT", 1, 1, _root),
    ("PI", 0, 0, _gives(PLAIN)),
    ("TEXT", 2, 2, _text_of),
    ("MATCH", 2, 3, _match),
    ("INDEX", 2, 3, _index),
    ("LEADS", 3, 5, _leads),
    ("HYPERLINK", 2, 2, _link),
    ("ROW COLUMN", 1, 1, _place),
    ("ADDRESS", 2, 2, _place),
)
RULES: dict[str, Rule] = {
    name: _with(least, most, rule) for names, least, most, rule in _RULES for name in names.split()
}
"""The rule of each function that formualizer, IronCalc and LibreOffice agree on; others are refused."""
