"""What is due: one record a line of the programme and lawn; `number` counts the records from 1.

One record a line of the programme and lawn: shape (pairs,). Dates are serial numbers. What was done is what the diary
says, whatever day it was planned for; visits that were missed never stack.
"""

BLANK_UNLESS = ("programme_line",)
