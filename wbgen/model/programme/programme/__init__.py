"""The programme: one line a product, where it goes, how much of it, and when.

One record a line of the programme: shape (programme,). Dates are serial numbers. A line without a product has no
figures, but for the counts that the dates and the pairs of lawn and line are dealt out by.
"""

BLANK_UNLESS = ("product",)
NEVER_BLANK = ("lawns_counted", "warm_lawns", "times_planned", "dates_up_to", "pairs_up_to")
