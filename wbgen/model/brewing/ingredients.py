"""The ingredients: one record a brew and what goes into it; how much for all of the brew, and for each batch."""

from __future__ import annotations

from typing import Any

from wbgen.model.tools.lines import at, match
from wbgen.model.tools.relations import as_number, blank, ratio, where
from wbgen.model.tools.words import listed

Value = Any

BLANK_UNLESS = ("product",)


def recipe_line(product: Value, recipes: Value) -> Value:
    """The line of the brew among the recipes, their heading row being line 1; blank for one without a recipe."""
    return match(product, recipes.product)


def share(recipe_line: Value, recipes: Value) -> Value:
    """How many times the recipe is wanted; blank where its batch is not known."""
    return as_number(ratio(at(recipes.wanted, recipe_line), at(recipes.batch, recipe_line)))


def mass_all(mass: Value, share: Value) -> Value:
    """The mass (g) for all batches."""
    return mass * share


def volume_all(volume: Value, share: Value) -> Value:
    """The volume (mL) for all batches."""
    return volume * share


def mass_batch(mass_all: Value, recipe_line: Value, recipes: Value) -> Value:
    """The mass (g) for one of them; blank where there are none."""
    return ratio(mass_all, at(recipes.batches, recipe_line))


def volume_batch(volume_all: Value, recipe_line: Value, recipes: Value) -> Value:
    """The volume (mL) for one of them, likewise."""
    return ratio(volume_all, at(recipes.batches, recipe_line))


def _times_to_come(recipe_line: Value, recipes: Value) -> Any:
    """How many times the recipe is wanted for the rest of the programme; blank where its batch is not known."""
    return as_number(ratio(at(recipes.coming, recipe_line), at(recipes.batch, recipe_line)))


def coming_mass(mass: Value, recipe_line: Value, recipes: Value) -> Value:
    """The mass (kg) for all brews to come."""
    return (mass * _times_to_come(recipe_line, recipes)).to("kg")


def coming_volume(volume: Value, recipe_line: Value, recipes: Value) -> Value:
    """The volume (L) for all brews to come."""
    return (volume * _times_to_come(recipe_line, recipes)).to("L")


def ingredient_state(
    recipe_line: Value, ingredient: Value, mass: Value, volume: Value, misplaced_mass: Value, misplaced_volume: Value
) -> Value:
    """What is to be mended in the record, all that holds."""
    return listed(
        where(blank(recipe_line), "; no recipe for it", "")
        + where(blank(ingredient), "; name the ingredient", "")
        + where(blank(mass) & blank(volume), "; nothing given", "")
        + where(misplaced_mass | misplaced_volume, "; a text stands where a number belongs", "")
    )
