"""The tables of the sheet Cost, a module each."""
