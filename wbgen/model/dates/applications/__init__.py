"""The dates of the programme: one record a line and date, line after line; `number` counts the records from 1.

One record a line and date: shape (applications,).
"""

BLANK_UNLESS = ("programme_line",)
