"""The tables of the sheet Mix, a module each."""
