"""The tables of the sheet Products, a module each."""
