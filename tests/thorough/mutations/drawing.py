"""Which cells get which mutant: every operator that applies, on a record of every formula column drawn at random."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from random import Random
from typing import Final

from thorough.mutations.operators import PUBLISHED, Operator
from thorough.mutations.planting import Held, Workbook
from thorough.mutations.poisons import POISONS, is_blank, is_number
from thorough.mutations.slips import COVERS, SLIPS
from thorough.mutations.tokens import alike, tokens
from wbgen.model.inputs import DATE, TEXT

CHANGED: Final = frozenset({"formula changed"})
STALE: Final = frozenset({"stale result"})
CLOCK_STALE: Final = STALE | {"date of calculation"}
"""Of the clock, whose stored value is the day for which the file is recomputed."""
CLOCK: Final = ("Start", "today")


@dataclass(frozen=True)
class Field:
    """A formula column: its table and key, its unit, its sheet and the A1 addresses of its records."""

    table: str
    key: str
    unit: str
    sheet: str
    places: tuple[str, ...]

    @property
    def quantity(self) -> bool:
        return self.unit not in (TEXT, DATE)


@dataclass(frozen=True)
class Mutant:
    """One cell to be exchanged, and the kinds of finding that name it rightly."""

    operator: str
    column: str
    sheet: str
    place: str
    held: Held
    was: Held
    kinds: frozenset[str]

    @property
    def spot(self) -> tuple[str, str]:
        return self.sheet, self.place

    def __str__(self) -> str:
        return f"{self.operator} | {self.column} {self.sheet}!{self.place} | {_told(self.was)} -> {_told(self.held)}"


Drawn = list[Mutant]


def _told(held: Held) -> str:
    formula = "" if held.formula is None else f"={held.formula} "
    return f"{formula}<{held.type or 'n'}> {held.value!r}"


def mutants(stored: Workbook, fields: Sequence[Field], seed: str) -> Drawn:
    """Every operator once on every column to which it applies, column by column, in an order drawn for each."""
    random = Random(seed)  # noqa: S311 - the same mutants every time
    found: Drawn = []
    before: _Cells | None = None
    for field in fields:
        cells = _Cells(stored, field)
        near = before if before and before.field.sheet == field.sheet else None
        own = [
            *_formula_mutants(cells, random), *_formulas_gone(cells, random), *_formulas_of_others(cells, near, random),
        ]  # fmt: skip
        random.shuffle(own)
        found += own
        before = cells
    return found


def poisoned(stored: Workbook, fields: Sequence[Field], seed: str) -> Drawn:
    """Every poison once on every column that has a value to which it applies."""
    random = Random(seed)  # noqa: S311 - the same mutants every time
    found: Drawn = []
    for field in fields:
        cells = _Cells(stored, field)
        own = list(_poisons(cells, random))
        random.shuffle(own)
        found += own
    return found


def cover(drawn: Drawn) -> Drawn:
    """One mutant of each column, and every operator among them: the rarest operators choose their columns first."""
    number = Counter(mutant.operator for mutant in drawn)
    found: dict[str, Mutant] = {}
    for operator in sorted(number, key=lambda one: (number[one], one)):
        if operator not in {mutant.operator for mutant in found.values()}:
            free = (mutant for mutant in drawn if mutant.operator == operator and mutant.column not in found)
            found |= {mutant.column: mutant for mutant in [next(free)]}
    return list(({mutant.column: mutant for mutant in reversed(drawn)} | found).values())


def with_other_values(drawn: Drawn, seed: str) -> Drawn:
    """Each mutant whose formula is another, with another value stored too, as who covers a change would leave it."""
    random = Random(seed)  # noqa: S311 - the same mutants every time
    found: Drawn = []
    for mutant in drawn:
        made = [new for poison in POISONS.values() if (new := poison(mutant.was)) is not None]
        if mutant.kinds == CHANGED and made:
            held = replace(random.choice(made), formula=mutant.held.formula)
            found.append(replace(mutant, operator=f"{mutant.operator}, with its value", held=held))
    return found


class _Cells:
    """The cells of one column."""

    def __init__(self, stored: Workbook, field: Field) -> None:
        self.field = field
        self.held = {place: stored.cell(field.sheet, place) for place in field.places}
        self.filled = [place for place, held in self.held.items() if not is_blank(held)]

    def draw(self, random: Random) -> str:
        """A record, three times out of four one that shows something, if there is any."""
        places: Sequence[str] = self.filled if self.filled and random.random() < 0.75 else self.field.places
        return random.choice(places)

    def mutant(self, operator: str, place: str, held: Held, kinds: frozenset[str]) -> Mutant:
        column = f"{self.field.table}.{self.field.key}"
        return Mutant(operator, column, self.field.sheet, place, held, self.held[place], kinds)


def _formula_mutants(cells: _Cells, random: Random) -> Iterator[Mutant]:
    operators: Mapping[str, Operator] = PUBLISHED | COVERS | (SLIPS if cells.field.quantity else {})
    for name, operator in operators.items():
        place = cells.draw(random)
        was = cells.held[place]
        assert was.formula is not None, f"{cells.field} has no formula at {place}"
        made = operator(tokens(was.formula), random)
        if made is not None and not alike(made, was.formula):
            yield cells.mutant(name, place, replace(was, formula=made), CHANGED)


def _formulas_gone(cells: _Cells, random: Random) -> Iterator[Mutant]:
    """FDL and FRC: nothing, the very value that the formula gave, or another one, in the place of a formula."""
    place = cells.draw(random)
    was = cells.held[place]
    yield cells.mutant("FDL formula deleted", place, Held(was.style), frozenset({"formula missing"}))
    typed = frozenset({"typed over"})
    if cells.filled:
        place = random.choice(cells.filled)
        was = cells.held[place]
        kind = "inlineStr" if was.type == "str" else was.type
        yield cells.mutant("FRC formula replaced by its value", place, replace(was, formula=None, type=kind), typed)
    place = cells.draw(random)
    was = cells.held[place]
    number = repr(float(was.value or 0) * 1.1 + 1) if is_number(was) else "7"
    yield cells.mutant("FRC formula replaced by a number", place, Held(was.style, None, "n", number), typed)
    place = cells.draw(random)
    text = Held(cells.held[place].style, None, "inlineStr", "x")
    yield cells.mutant("FRC formula replaced by text", place, text, typed)


def _formulas_of_others(cells: _Cells, before: _Cells | None, random: Random) -> Iterator[Mutant]:
    """A formula that was pasted without moving along: the next record's, or that of the column before."""
    for name, other, step in (("paste: of the next record", cells, 1), ("paste: of the column before", before, 0)):
        if other is None:
            continue
        places, others = cells.field.places, other.field.places
        record = random.randrange(min(len(places), len(others)))
        was, pasted = cells.held[places[record]], other.held[others[(record + step) % len(others)]]
        assert was.formula is not None
        assert pasted.formula is not None
        if not alike(was.formula, pasted.formula):
            yield cells.mutant(name, places[record], replace(was, formula=pasted.formula), CHANGED)


def _poisons(cells: _Cells, random: Random) -> Iterator[Mutant]:
    clock = (cells.field.sheet, cells.field.key) == CLOCK
    for name, poison in POISONS.items():
        made = [(place, new) for place, held in cells.held.items() if (new := poison(held)) is not None]
        if made:
            place, held = random.choice(made)
            yield cells.mutant(name, place, held, CLOCK_STALE if clock else STALE)
