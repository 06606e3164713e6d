"""The diary: what each line came to, what is to be said of it, what it cost, and how the grass answered."""

BLANK_UNLESS = ("counted",)
NEVER_BLANK = ("incomplete", "non_numeric", "flag_record", "flags", "flag_line")
