"""The stock: one record a product, as the catalogue lists them.

One record a product of the catalogue: shape (products,).
"""

BLANK_UNLESS = ("product",)
