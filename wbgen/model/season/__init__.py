"""The tables of the sheet Nutrients, a module each."""
