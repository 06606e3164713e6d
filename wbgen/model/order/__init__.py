"""The tables of the sheet Order, a module each."""
