"""What goes in, in short: one record a product of this visit, in the same order.

One record a product of this visit: shape (mix_products,).
"""

from __future__ import annotations

from wbgen.model.types import Each, Mass, MassPerArea, Table, Text, Volume, VolumePerArea

BLANK_UNLESS = ("product",)


def product(mix_products: Table) -> Each[Text]:
    """The product."""
    return mix_products.product


def rate_mass(mix_products: Table) -> Each[MassPerArea]:
    """The application rate of a solid."""
    return mix_products.rate_mass


def rate_volume(mix_products: Table) -> Each[VolumePerArea]:
    """The application rate of a liquid."""
    return mix_products.rate_volume


def weigh(mix_products: Table) -> Each[Mass]:
    """What is weighed for each load."""
    return mix_products.weigh_full


def pour(mix_products: Table) -> Each[Volume]:
    """What is poured for each load."""
    return mix_products.pour_full


def product_verdict(mix_products: Table) -> Each[Text]:
    """The verdict on the product."""
    return mix_products.product_verdict


def product_reason(mix_products: Table) -> Each[Text]:
    """What speaks against it."""
    return mix_products.product_reason
