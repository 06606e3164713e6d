"""The tables of the sheet Log, a module each."""
