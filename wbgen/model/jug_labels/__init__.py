"""The tables of the sheet Jug labels, a module each."""
