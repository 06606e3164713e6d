"""The tables of the sheet Round, a module each."""
