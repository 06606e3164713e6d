"""The tables of the sheet Areas, a module each."""
