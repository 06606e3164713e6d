"""The tables of the sheet Today, a module each."""
