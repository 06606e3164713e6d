"""The tables of the sheet Feeding workings, a module each."""
