"""The tables of the sheet Programme, a module each."""
