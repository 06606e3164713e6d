"""The tables of the sheet Checks, a module each."""
