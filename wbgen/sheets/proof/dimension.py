"""Proof of the units of a formula.

`prove` walks the tree and gives the type of the whole: a quantity with its unit, a date, text or a truth
value. Where two quantities have one dimension but another scale, it asks for a conversion at that place;
where the dimensions differ, it refuses. Nutrients are dimensions of their own, so N is never added to P₂O₅.
"""

from __future__ import annotations

from dataclasses import dataclass

from wbgen.sheets.formula_tree import Node
from wbgen.sheets.proof.functions import RULES
from wbgen.sheets.proof.prover import Edit, Lookup, Prover
from wbgen.sheets.proof.types import ClashError, Type

GIVES = "gives {0} where {1} belongs"


@dataclass(frozen=True)
class Proof:
    type: Type
    edits: tuple[Edit, ...]


def prove(
    tree: Node, lookup: Lookup, wanted: Type | None = None, literals: tuple[float, ...] = (), *, strict: bool = False
) -> Proof:
    """The type of `tree`, converted to `wanted` where that is given.

    `lookup` gives the type of a reference. `literals` are the numbers of the equation itself that may stand
    in the text besides 0, 1 and 2. Raises FormulaError naming both units and both dimensions; with `strict` also
    where a conversion would have to be put in.
    """
    prover = Prover(lookup, (0.0, 1.0, 2.0, *literals), RULES, strict)
    found = prover.type(tree)
    if wanted is not None:
        if wanted.kind == "quantity" and found.kind == "quantity":
            prover.convert(tree, wanted.unit, GIVES)
            found = wanted
        elif wanted.kind != found.kind and found.kind != "any":
            raise ClashError(GIVES, found, wanted)
    return Proof(found, tuple(prover.edits.values()))
