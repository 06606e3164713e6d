"""What the sheet Mix answers: the verdict with its first reasons, how much, and what to do.

A form: each figure is a scalar.
"""

from __future__ import annotations

from wbgen.model.tools.elementwise import blank
from wbgen.model.tools.words import amount, counts
from wbgen.model.types import Table, Text


def shown_verdict(verdict: Table) -> Text:
    """The verdict, in words."""
    return verdict.verdict


def to_mix(mix: Table) -> Text:
    """The area, the spray, and to what each tank is filled; empty where there is nothing to make."""
    if blank(mix.loads):
        return ""
    litres = mix.remainder.units
    begun = f"{amount(mix.treated_area, mix.treated_area.units, 1)}, {amount(mix.spray_volume, litres, 2)}, "
    full = amount(mix.fill_full, litres, 2)
    if mix.part_load == "yes":
        last = amount(mix.fill_last, litres, 2)
        return f"{begun}{counts(mix.full_loads)} full to {full}, then the last part tank to {last}"
    if mix.loads == 1:
        return f"{begun}one tank fill, to {full}"
    return f"{begun}{counts(mix.loads)} equal tank fills, each to {full}"


def because(verdict: Table) -> Text:
    """The first reason."""
    return verdict.first_reason


def also(verdict: Table) -> Text:
    """The second reason."""
    return verdict.second_reason


def further(verdict: Table) -> Text:
    """The third reason."""
    return verdict.third_reason


def not_checked(verdict: Table) -> Text:
    """What was not checked, for want of a figure."""
    return verdict.not_checked


def into_tank(mix: Table) -> Text:
    """The order of the work at the tank."""
    if blank(mix.loads):
        return ""
    water = amount(mix.first_fill_full, mix.remainder.units, 2)
    return f"{water}, clean water; then what the list says, in its order; then water to the mark"


def onto_lawns(visit_lawns: Table) -> Text:
    """The lawns in walking order, each with its spray."""
    return "".join(visit_lawns.spray_said).removeprefix(", ")


def care(mix_products: Table) -> Text:
    """The hazards of each product by name, then what else is said of each."""
    words = "".join([*mix_products.hazard_words, *mix_products.caution_words]).replace("•", " • ")
    told = "Gloves and goggles; the labels come before this sheet. " + words
    return " ".join(word for word in told.split(" ") if word)
