"""The tables of the sheet Brewing, a module each."""
