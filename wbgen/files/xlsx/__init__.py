"""Workbook files, looked through for danger before any library sees them; standard library only.

In: the path of a stranger's file. Out: its cells, defined names and what is unusual about it (`workbook.read`), or
`UnsafeFile`. Every byte is read once and nothing in the file is followed: `archive` is the zip container, `markup` the
XML inside, `package` the reading of all parts, `sheet_cells` the cells, `hazards` what is said of the rest.

Open `workbook` first, then `package`.
"""
