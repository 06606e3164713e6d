"""The tables of the sheet Lawn report, a module each."""
