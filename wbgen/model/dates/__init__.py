"""The tables of the sheet Dates, a module each."""
