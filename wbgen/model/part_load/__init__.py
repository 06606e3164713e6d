"""The tables of the sheet Part load, a module each."""
