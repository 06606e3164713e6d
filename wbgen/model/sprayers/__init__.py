"""The tables of the sheet Sprayers, a module each."""
