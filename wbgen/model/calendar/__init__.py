"""The tables of the sheet Calendar, a module each."""
