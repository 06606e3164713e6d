"""The tables of the sheet Units, a module each."""
