"""The tables of the sheet Feeding, a module each."""
