"""The tables of the sheet Lawns, a module each."""
