"""The diary: what each line came to, what is to be said of it, what it cost, and how the grass answered.

One record a line of the diary: shape (diary,).
"""

BLANK_UNLESS = ("line_key",)
NEVER_BLANK = ("not_done_key", "flag_record", "flags", "flag_line")
