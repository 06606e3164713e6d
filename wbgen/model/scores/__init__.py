"""The tables of the sheet Scores, a module each."""
