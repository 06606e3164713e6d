"""The tables of the sheet Visit, a module each."""
