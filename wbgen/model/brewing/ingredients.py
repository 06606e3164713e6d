"""The ingredients: one record a brew and what goes into it; how much for all of the brew, and for each batch.

One record a brew and what goes into it: shape (ingredients,).
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import as_number, blank, folded, ratio, where
from wbgen.model.tools.lines import at, match
from wbgen.model.tools.words import listed
from wbgen.model.types import Each, Mask, Mass, Number, Table, Text, Volume

BLANK_UNLESS = ("product",)


def recipe_line(product: Each[Text], recipes: Table) -> Each[Number]:
    """The line of the brew among the recipes, their heading row being line 1; blank for one without a recipe."""
    return match(product, recipes.product)


def share(recipe_line: Each[Number], recipes: Table) -> Each[Number]:
    """How many times the recipe is wanted; blank where its batch is not known."""
    return as_number(ratio(at(recipes.wanted, recipe_line), at(recipes.batch, recipe_line)))


def mass_all(mass: Each[Mass], share: Each[Number]) -> Each[Mass]:
    """The mass (g) for all batches."""
    return mass * share


def volume_all(volume: Each[Volume], share: Each[Number]) -> Each[Volume]:
    """The volume (mL) for all batches."""
    return volume * share


def mass_batch(mass_all: Each[Mass], recipe_line: Each[Number], recipes: Table) -> Each[Mass]:
    """The mass (g) for one of them; blank where there are none."""
    return ratio(mass_all, at(recipes.batches, recipe_line))


def volume_batch(volume_all: Each[Volume], recipe_line: Each[Number], recipes: Table) -> Each[Volume]:
    """The volume (mL) for one of them, likewise."""
    return ratio(volume_all, at(recipes.batches, recipe_line))


def _times_to_come(recipe_line: Each[Number], recipes: Table) -> Each[Number]:
    """How many times the recipe is wanted for the rest of the programme; blank where its batch is not known."""
    return as_number(ratio(at(recipes.coming, recipe_line), at(recipes.batch, recipe_line)))


def coming_mass(mass: Each[Mass], recipe_line: Each[Number], recipes: Table) -> Each[Mass]:
    """The mass (kg) for all brews to come."""
    return (mass * _times_to_come(recipe_line, recipes)).to("kg")


def coming_volume(volume: Each[Volume], recipe_line: Each[Number], recipes: Table) -> Each[Volume]:
    """The volume (L) for all brews to come."""
    return (volume * _times_to_come(recipe_line, recipes)).to("L")


SUGARS, MANURES = ("molasses", "treacle", "sugar", "syrup"), ("manure", "dung", "droppings", "slurry")
"""What no brew is made of: with molasses germs of disease grew again (Duffy and others, read); raw manure carries them
(common practice, no source)."""


def _named(ingredient: Each[Text], words: tuple[str, ...]) -> Mask:
    return np.array([any(word in name for word in words) for name in folded(ingredient)], dtype=bool)


def ingredient_state(
    recipe_line: Each[Number],
    ingredient: Each[Text],
    mass: Each[Mass],
    volume: Each[Volume],
    misplaced_mass: Mask,
    misplaced_volume: Mask,
) -> Each[Text]:
    """What is to be mended in the record, all that holds."""
    return listed(
        where(blank(recipe_line), "; no recipe for it", "")
        + where(blank(ingredient), "; name the ingredient", "")
        + where(blank(mass) & blank(volume), "; nothing given", "")
        + where(misplaced_mass | misplaced_volume, "; a text stands where a number belongs", "")
        + where(_named(ingredient, SUGARS), "; sugar lets germs grow again: do not", "")
        + where(_named(ingredient, MANURES), "; manure carries germs: do not", "")
    )
