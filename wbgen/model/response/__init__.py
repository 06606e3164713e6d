"""The tables of the sheet Response, a module each."""
