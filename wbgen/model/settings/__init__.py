"""The tables of the sheet Settings, a module each."""
