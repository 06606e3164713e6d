"""The tables of the sheet Next year, a module each."""
