"""The tables of the sheet Start, a module each."""
