"""The products of this visit: label and rate, what is weighed and poured, and what speaks against it.

One record a product of this visit: shape (mix_products,). A record without a product has no figures, nor has one whose
product is not in the catalogue, but for its verdict.
"""

BLANK_UNLESS = ("product_line",)
NEVER_BLANK = (
    "round_line",
    "kept",
    "kept_turn",
    "box_free",
    "tank_place",
    "product",
    "level",
    "product_verdict",
    "product_reason",
    "product_words",
    "note_words",
    "stop_words",
    "ask_words",
)
