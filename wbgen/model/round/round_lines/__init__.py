"""The round, line by line: lawns in walking order, and on each lawn the lines of the programme in their order."""

BLANK_UNLESS = ("spot",)
