"""The tables of the sheet Due, a module each."""
