"""The tables of the sheet Diary lines, a module each."""
