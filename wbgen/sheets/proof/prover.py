"""Infers the types of the parts of a formula from its leaves up, and what its operators make of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from wbgen.files.diagnostics import did_you_mean
from wbgen.sheets.formula_tree import FormulaError, Node
from wbgen.sheets.proof.algebra import Conversion, combine, conversion, power
from wbgen.sheets.proof.types import (
    ANY,
    DATE,
    PLAIN,
    TEXT,
    TRUTH,
    ClashError,
    Type,
)
from wbgen.units.quantity import label
from wbgen.units.spelling import UnitError


@dataclass(frozen=True)
class Edit:
    """A conversion to be put in round the text from `start` to `end`."""

    start: int
    end: int
    conversion: Conversion


Lookup = Callable[[str], Type]
COMPARISONS = ("=", "<>", "<", ">", "<=", ">=")
BRANCHING = {"IF": 1, "CHOOSE": 1, "IFERROR": 0}
"""Functions that give one of their arguments, with the place of the first of these."""
ADDS, TAKES, COMPARES = "adds {1} and {0}", "takes {0} from {1}", "compares {1} with {0}"
MULTIPLIES = "multiplies or divides {1} and {0}"
GIVES_EITHER = "gives {1} or {0}"


def _says(words: str, unit: str) -> bool:
    """Whether words after a figure begin with its unit, as a sheet prints it.

    >>> _says(" g N/m², at most ", "g_N/m**2"), _says(" g/m²", "g_N/m**2"), _says(" g N/m² a day", "g_N/m**2")
    (True, False, False)
    """
    try:
        printed = " " + label(unit)
    except UnitError:  # no sheet prints such a unit, as of a root: no words can say it
        return False
    return words.startswith(printed) and words.removeprefix(printed)[:1] in ("", ",", ";")


class Prover:
    """Infers types from the leaves up. `strict` refuses a conversion instead of asking for it."""

    def __init__(self, lookup: Lookup, literals: tuple[float, ...], rules: Mapping[str, Rule], strict: bool) -> None:
        self.lookup = lookup
        self.literals = literals
        self.rules = rules
        self.strict = strict
        self.types: dict[int, Type] = {}
        self.written: dict[int, Type] = {}
        self.edits: dict[int, Edit] = {}
        self.words_after: dict[int, str] = {}

    def type(self, node: Node) -> Type:
        found = self._infer(node)
        self.types[id(node)] = self.written[id(node)] = found
        return found

    def _infer(self, node: Node) -> Type:
        match node.kind:
            case "reference":
                return self.lookup(str(node.value))
            case "number":
                return self._number(float(node.value))
            case "text":
                return ANY if node.value == "" else TEXT
            case "truth":
                return TRUTH
            case "prefix":
                return self._prefix(node)
            case "operator":
                return self._operator(node)
            case "function" if node.value in self.rules:
                return self.rules[str(node.value)](self, node)
            case "function":
                raise FormulaError(
                    f"uses {node.value}, which is not in the set that all engines agree on", code="unknown-function",
                    expected="a function that all engines agree on", found=str(node.value),
                    remedy=did_you_mean(str(node.value), self.rules),
                )  # fmt: skip
        raise FormulaError("has a percent sign in it: a hundredth without a heading and a unit")

    def _number(self, value: float) -> Type:
        if value not in self.literals:
            raise FormulaError(
                f"has the number {value:.12g} in it: a number without a heading and a unit", code="stray-number",
                expected="0, 1, 2 or a number that the column names under literals", found=f"{value:.12g}",
                remedy="give it a column of its own, or name it under literals if the trade's own equation has it",
            )  # fmt: skip
        return ANY if value == 0 else PLAIN

    def _prefix(self, node: Node) -> Type:
        found = self.type(node.children[0])
        if node.value in ("+", "@"):  # @ takes the figure of the formula's own record from a column
            return found
        if node.value != "-":
            raise FormulaError(f"has a sign that is not used here: {node.value}")
        if found.kind in ("text", "date") or found.is_temperature:
            raise ClashError("takes {0} from nothing", found)
        return PLAIN if found.kind == "truth" else found

    def _operator(self, node: Node) -> Type:
        if node.value == "&":
            self._hear(*node.children)
        left, right = (self.type(child) for child in node.children)
        match node.value:
            case "&":
                return self._joined(node, left, right)
            case "*" | "/":
                return product(left, str(node.value), right)
            case "^":
                return self._power(node, left, right)
            case "+" | "-":
                return self._sum(node, left, right)
            case _ if node.value in COMPARISONS:
                self.unify(node.children, COMPARES)
                return TRUTH
        raise FormulaError(f"has an operator that is not used here: {node.value}")

    def _power(self, node: Node, left: Type, right: Type) -> Type:
        if left.kind not in ("quantity", "any") or left.is_temperature:
            raise ClashError("raises {0} to a power", left)
        if not (right.is_plain or right == ANY):
            raise ClashError("raises to the power of {0}", right)
        exponent = _literal(node.children[1])
        if exponent is not None:
            return Type(left.kind, power(left.unit, exponent))
        if not (left.is_plain or left == ANY):
            raise ClashError("raises {0} to a power that is not written out", left)
        return PLAIN

    def _sum(self, node: Node, left: Type, right: Type) -> Type:
        words = ADDS if node.value == "+" else TAKES
        kinds = {left.kind, right.kind}
        if left.kind == "date":
            return self._days(node, right, words)
        if kinds & {"text", "date"}:
            raise ClashError(words, right, left)
        if "truth" in kinds:
            for side in (left, right):
                if side.kind == "quantity" and not side.is_plain:
                    raise ClashError(words, right, left)
            return PLAIN
        if left.is_temperature or right.is_temperature:
            return _temperature(str(node.value), left, right)
        return self.unify(node.children, words)

    def _days(self, node: Node, right: Type, words: str) -> Type:
        if right.kind == "date" and node.value == "-":
            return Type("quantity", "day")
        if right.kind not in ("quantity", "any"):
            raise ClashError(words, right, DATE)
        if right.kind == "quantity" and not right.is_plain:
            self.convert(
                node.children[1], "day", "adds {0} to a date" if node.value == "+" else "takes {0} from a date"
            )
        return DATE

    def _hear(self, left: Node, right: Node) -> None:
        """Keep the words that come straight after a figure: they may say its unit."""
        if right.kind == "text":
            joins = left.kind == "operator" and left.value == "&"
            self.words_after[id(left.children[1] if joins else left)] = str(right.value)

    def _joined(self, node: Node, left: Type, right: Type) -> Type:
        for child, side in zip(node.children, (left, right), strict=True):
            if side.kind == "date" or (side.unit and not _says(self.words_after.get(id(child), ""), side.unit)):
                raise ClashError("writes {0} into text, where its unit is lost: use TEXT(…)", side)
        return TEXT

    def unify(self, nodes: Sequence[Node], words: str) -> Type:
        """One type for all of `nodes`, with conversions into the unit of the first that has one."""
        types = [self.types[id(node)] for node in nodes]
        known = [found for found in types if found.kind != "any"]
        if not known:
            return ANY
        for found in known:
            if found.kind != known[0].kind:
                raise ClashError(words, found, known[0])
        if known[0].kind == "quantity":
            for node in nodes:
                self.convert(node, known[0].unit, words)
        return known[0]

    def convert(self, node: Node, target: str, words: str) -> None:
        """Ask for the conversion of `node`, inside the branches of an IF since a branch may be empty text.

        Raises ClashError where there is none, or where it had to stand in the formula already.
        """
        if self.types[id(node)].kind != "quantity":
            return
        if node.kind == "function" and node.value in BRANCHING:
            for branch in node.children[BRANCHING[str(node.value)] :]:
                self.convert(branch, target, words)
        else:
            # A part that was brought to its neighbour's unit before is now brought straight from its own.
            source = self.written[id(node)].unit
            self.edits.pop(id(node), None)
            try:
                wanted = conversion(source, target)
            except FormulaError as error:
                raise ClashError(
                    words, Type("quantity", source), Type("quantity", target), because=str(error)
                ) from error
            if wanted is not None and self.strict:
                raise ClashError(words, Type("quantity", source), Type("quantity", target))
            if wanted is not None:
                self.edits[id(node)] = Edit(node.start, node.end, wanted)
        self.types[id(node)] = Type("quantity", target)


Rule = Callable[[Prover, Node], Type]


def product(left: Type, operator: str, right: Type) -> Type:
    """The type of a product or a quotient. A truth value takes the other figure or nothing of it."""
    sides = [PLAIN if side.kind == "truth" else side for side in (left, right)]
    if any(side.kind not in ("quantity", "any") or side.is_temperature for side in sides):
        raise ClashError(MULTIPLIES, right, left)
    if ANY in sides:
        return ANY
    return Type("quantity", combine(sides[0].unit, operator, sides[1].unit))


def _temperature(operator: str, left: Type, right: Type) -> Type:
    """A temperature less another is a difference; a temperature and a difference are a temperature."""
    if ANY in (left, right):
        return right if left == ANY else left
    if operator == "-" and left == right:
        return Type("quantity", "delta_" + left.unit)
    if right.unit == "delta_" + left.unit or (operator == "+" and left.unit == "delta_" + right.unit):
        return left if left.is_temperature else right
    words = ADDS if operator == "+" else TAKES
    raise ClashError(words + ": temperatures may only be subtracted or compared, on one scale", right, left)


def _literal(node: Node) -> float | None:
    """The number that is written out here, with its sign."""
    if node.kind == "prefix" and node.children[0].kind == "number":
        return float(node.children[0].value) * (-1 if node.value == "-" else 1)
    return float(node.value) if node.kind == "number" else None
