"""The tables of the sheet Card, a module each."""
