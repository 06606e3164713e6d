"""The tables of the sheet Stock, a module each."""
