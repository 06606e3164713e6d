"""The tables of the sheet Diary, a module each."""
