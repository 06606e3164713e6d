"""The tables of the sheet Spray record, a module each."""
