"""The two doors to `Inputs`: from the YAML files, and from a workbook that comes back.

In: a site and a catalogue (`from_site`), or a workbook file (`from_workbook`). Out: the same
`wbgen.model.inputs.Inputs` either way, and what is wrong with what was given.

Open `from_site` for a build: `site_rows` gathers the records of every table from `lawn_rows`, `diary_rows` and the
rest, `rows` brings a record's cells into the unit of their column, `capacity` says how many records each table has.
Open `from_workbook` for verify: `locate` finds the tables, `entry_checks` says what is wrong with what was typed.
`constants` and `catalogue_constants` are what a build fills in by itself; `design` is the pair of templates and model
that every command begins with.
"""
