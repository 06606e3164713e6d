"""Products: what is in each, what its label rates come to, what it does in a tank, and what is to be mended in it.

One record a product of the catalogue: shape (products,). Solids are measured by mass, liquids and brews by volume, and
their figures stand in columns of their own.
"""

BLANK_UNLESS = ("name",)
