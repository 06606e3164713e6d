"""The round, line by line: lawns in walking order, and on each lawn the lines of the programme in their order.

One record a line of the round: shape (round_lines,).
"""

BLANK_UNLESS = ("spot",)
