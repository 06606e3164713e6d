"""The published operators: each makes one change to a formula's tokens, or None where it does not apply."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from random import Random
from typing import Final, TypeVar

from thorough.mutations.tokens import OPERANDS, End, Reference, Token, function_name, put, reference

Parts = Sequence[Token]
Operator = Callable[[Parts, Random], str | None]
T = TypeVar("T")

ARITHMETIC: Final = ("+", "-", "*", "/", "^", "&")
RELATIONAL: Final = ("=", "<>", "<", ">", "<=", ">=")
KINDRED: Final = (
    ("SUM", "AVERAGE", "MIN", "MAX", "COUNT", "COUNTA", "PRODUCT", "SUMSQ"),
    ("SUMIFS", "AVERAGEIFS", "MAXIFS", "MINIFS"),
    ("COUNTIF", "SUMIF", "AVERAGEIF"),
    ("ROUND", "ROUNDUP", "ROUNDDOWN"),
    ("ABS", "N", "INT", "SQRT", "EXP", "LN"),
    ("YEAR", "MONTH", "DAY", "WEEKDAY"),
    ("LEFT", "RIGHT"),
    ("IFERROR", "IFNA"),
    ("MOD", "POWER"),
    ("UPPER", "LOWER", "TRIM"),
    ("COUNTIFS", "SUMIFS"),
    ("SUMPRODUCT", "SUM"),
    ("PI", "RAND"),
)  # fmt: skip
"""Functions that are taken for one another."""
PREFIXED: Final = ("MAXIFS", "MINIFS")
GATHERING: Final = ("SUM", "AVERAGE", "MIN", "MAX", "COUNT", "COUNTA", "AND", "OR", "SUMPRODUCT")
SHEETS: Final = ("Start!", "Lawns!", "Products!", "Mix!", "Diary!", "Feeding!", "Units!", "Settings!")


def draw(random: Random, places: Sequence[T]) -> T | None:
    return random.choice(places) if places else None


def of_kind(parts: Parts, *kinds: str) -> list[int]:
    return [place for place, part in enumerate(parts) if part.kind in kinds]


def references(parts: Parts, corners: int) -> list[tuple[int, Reference]]:
    """The places of the references to single cells (1 corner) or to ranges (2)."""
    found = ((place, reference(parts[place].text)) for place in of_kind(parts, "Range"))
    return [(place, one) for place, one in found if one is not None and len(one.ends) == corners]


def absolute_value(parts: Parts, random: Random) -> str | None:
    place = draw(random, of_kind(parts, "Range", "Number"))
    return None if place is None else put(parts, place, f"ABS({parts[place].text})")


def unary(parts: Parts, random: Random) -> str | None:
    place = draw(random, of_kind(parts, "Range", "Number"))
    return None if place is None else put(parts, place, random.choice(("-{}", "+{}", "{}%")).format(parts[place].text))


def _exchanged(signs: Sequence[str]) -> Operator:
    def operator(parts: Parts, random: Random) -> str | None:
        place = draw(random, [one for one in of_kind(parts, "OpInfix") if parts[one].text in signs])
        if place is None:
            return None
        return put(parts, place, random.choice([sign for sign in signs if sign != parts[place].text]))

    return operator


def connector(parts: Parts, random: Random) -> str | None:
    place = draw(random, [one for one in of_kind(parts, "Func") if parts[one].text in ("AND(", "OR(")])
    return None if place is None else put(parts, place, "OR(" if parts[place].text == "AND(" else "AND(")


def number_changed(parts: Parts, random: Random) -> str | None:
    place = draw(random, of_kind(parts, "Number"))
    if place is None:
        return None
    old = float(parts[place].text)
    return put(parts, place, f"{random.choice([one for one in (old + 1, old * 10, 0.0, old - 1) if one != old]):.12g}")


def text_changed(parts: Parts, random: Random) -> str | None:
    """Another text, the same in capitals, or with white space more or less: only a close look tells these."""
    place = draw(random, of_kind(parts, "Text"))
    if place is None:
        return None
    old = parts[place].text[1:-1]
    ways = {"x", old.upper(), old.lower(), f"{old} ", f" {old}", old.replace(" ", ""), old.replace(" ", "  "), old[:-1]}
    return put(parts, place, f'"{random.choice(sorted(ways - {old}))}"')


def constant_for_reference(parts: Parts, random: Random) -> str | None:
    place = draw(random, of_kind(parts, "Range"))
    return None if place is None else put(parts, place, random.choice(("0", "1", "12.5", '"x"', '""', "TRUE")))


def reference_for_constant(parts: Parts, random: Random) -> str | None:
    place = draw(random, of_kind(parts, "Number", "Text"))
    known = references(parts, 1)
    near = str(random.choice(known)[1].moved(random.choice((-1, 1)), 0)) if known else "$B$2"
    return None if place is None else put(parts, place, near)


def _shifted(corners: int, rows: Sequence[int], columns: Sequence[int]) -> Operator:
    def operator(parts: Parts, random: Random) -> str | None:
        chosen = draw(random, references(parts, corners))
        if chosen is None:
            return None
        return put(parts, chosen[0], str(chosen[1].moved(random.choice(rows), random.choice(columns))))

    return operator


def reference_exchanged(parts: Parts, random: Random) -> str | None:
    """Another reference that stands in the same formula."""
    chosen = draw(random, references(parts, 1))
    if chosen is None:
        return None
    others = sorted({str(one) for _, one in references(parts, 1)} - {str(chosen[1])})
    return put(parts, chosen[0], random.choice(others)) if others else None


def reference_to_another_sheet(parts: Parts, random: Random) -> str | None:
    place = draw(random, of_kind(parts, "Range"))
    known = reference(parts[place].text) if place is not None else None
    if place is None or known is None:
        return None
    sheet = random.choice([one for one in SHEETS if one != known.sheet])
    return put(parts, place, str(replace(known, sheet=sheet)))


def fixed_or_not(parts: Parts, random: Random) -> str | None:
    """A $ more or less: the value stays, until the formula is copied."""
    chosen = draw(random, references(parts, 1) + references(parts, 2))
    if chosen is None:
        return None
    place, known = chosen
    at = random.randrange(len(known.ends))
    end = known.ends[at]
    changed = (
        replace(end, fixed_row=not end.fixed_row)
        if random.random() < 0.5
        else replace(end, fixed_column=not end.fixed_column)
    )
    ends = (*known.ends[:at], changed, *known.ends[at + 1 :])
    return put(parts, place, str(replace(known, ends=ends)))


def _resized(step: int) -> Operator:
    """A range with a row or a column more (step 1) or less (-1) at one of its ends; it keeps at least one cell."""

    def operator(parts: Parts, random: Random) -> str | None:
        chosen = draw(random, references(parts, 2))
        if chosen is None:
            return None
        place, known = chosen
        ways = list(_sizes(known.ends[0], known.ends[1], step))
        return put(parts, place, str(replace(known, ends=random.choice(ways)))) if ways else None

    return operator


def _sizes(first: End, last: End, step: int) -> Iterator[tuple[End, End]]:
    if last.row + step >= first.row:
        yield first, last.moved(step, 0)
        if first.row - step > 0:
            yield first.moved(-step, 0), last
    if last.column + step >= first.column:
        yield first, last.moved(0, step)
        if first.column - step > 0:
            yield first.moved(0, -step), last


def argument_added(parts: Parts, random: Random) -> str | None:
    """One reference more among those that a function gathers: the neighbour of one that is there."""
    chosen = draw(random, [one for one in references(parts, 1) + references(parts, 2) if _gathered(parts, one[0])])
    if chosen is None:
        return None
    place, known = chosen
    return put(parts, place, f"{known},{known.moved(random.choice((-1, 1)), 0)}")


def argument_removed(parts: Parts, random: Random) -> str | None:
    """One reference less among several that a function gathers."""
    place = draw(random, [one for one in of_kind(parts, "Sep") if _gathered(parts, one) and _whole(parts, one + 1)])
    return None if place is None else put(parts, place, "", 2)


def _gathered(parts: Parts, place: int) -> bool:
    return parts[place].inside in GATHERING


def _whole(parts: Parts, place: int) -> bool:
    """Whether an operand is a whole argument, but not the first."""
    ends = parts[place + 1].kind == "Sep" or parts[place + 1].text == ")"
    return parts[place].kind in OPERANDS and parts[place - 1].kind == "Sep" and ends


def arguments_exchanged(parts: Parts, random: Random) -> str | None:
    """Two arguments that stand next to each other in the other order."""
    places = [one for one in of_kind(parts, "Sep") if _whole(parts, one + 1) and parts[one - 1].kind in OPERANDS]
    place = draw(random, [one for one in places if parts[one - 2].text in (",",) or parts[one - 2].text.endswith("(")])
    if place is None:
        return None
    return put(parts, place - 1, f"{parts[place + 1].text},{parts[place - 1].text}", 3)


def function_exchanged(parts: Parts, random: Random) -> str | None:
    found = []
    for place in of_kind(parts, "Func"):
        name = function_name(parts[place].text)
        kin = [other for group in KINDRED if name in group for other in group if other != name]
        if kin:
            found.append((place, kin))
    chosen = draw(random, found)
    if chosen is None:
        return None
    name = random.choice(chosen[1])
    return put(parts, chosen[0], ("_xlfn." if name in PREFIXED else "") + name + "(")


PUBLISHED: Final[dict[str, Operator]] = {
    "ABS absolute value put in": absolute_value,
    "AOR arithmetic operator replaced": _exchanged(ARITHMETIC),
    "CRP constant replaced: number": number_changed,
    "CRP constant replaced: text": text_changed,
    "CRR constant for reference": constant_for_reference,
    "LCR logical connector replaced": connector,
    "RCR reference for constant": reference_for_constant,
    "ROR relational operator replaced": _exchanged(RELATIONAL),
    "RFR reference a row away": _shifted(1, (-1, 1), (0,)),
    "RFR reference a column away": _shifted(1, (0,), (-1, 1)),
    "RFR reference of the same formula": reference_exchanged,
    "RFR reference to another sheet": reference_to_another_sheet,
    "UOI unary operator put in": unary,
    "CRE contiguous range expanded": _resized(1),
    "CRS contiguous range shrunk": _resized(-1),
    "NRE non-contiguous range expanded": argument_added,
    "NRS non-contiguous range shrunk": argument_removed,
    "RRR range reference replaced": _shifted(2, (-1, 0, 1), (-1, 1)),
    "FFR formula function replaced": function_exchanged,
    "absolute for relative reference": fixed_or_not,
    "arguments in the other order": arguments_exchanged,
}
"""The suite but for FDL and FRC, which leave no formula; the last two are not in it."""
