"""The brews that are to be started, beside what is bought.

One record a recipe: shape (recipes,). Dates are serial numbers, the time of day being their fraction.
"""

from __future__ import annotations

from wbgen.model.types import Date, Each, Number, Table, Text, Volume

BLANK_UNLESS = ("product",)


def product(recipes: Table) -> Each[Text]:
    """The brew."""
    return recipes.product


def wanted(recipes: Table) -> Each[Volume]:
    """The volume to brew for the round."""
    return recipes.wanted


def batches(recipes: Table) -> Each[Number]:
    """In how many batches."""
    return recipes.batches


def goes_on(recipes: Table) -> Each[Date]:
    """The day on which it goes on."""
    return recipes.goes_on


def each_batch(recipes: Table) -> Each[Volume]:
    """The volume of each batch."""
    return recipes.each_batch


def begin(recipes: Table) -> Each[Date]:
    """When to begin."""
    return recipes.begin


def use_by(recipes: Table) -> Each[Date]:
    """Until when it is used."""
    return recipes.use_by


def words(recipes: Table) -> Each[Text]:
    """Whether there is time for it, in words."""
    return recipes.start_words
