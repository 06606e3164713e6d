"""From the templates of a folder to proven formulas, and the place of every table on its sheet.

In goes a folder of YAML files; out comes a `Book` for one system of units: sheets, tables, columns, their units, and
for every computed column a formula whose units are proven. A mistake in the files is an `InputError` with all of them,
each with its line. `lay_out` gives the tables their places, `compile_book` the text of every formula's cells there.

Open `book` first: `Templates` shows the way. `read` makes records (`records`) of the files; `expand` makes the sheets
and tables of `template` and the columns of `column` of these, one for each member of a family; `check` holds names,
keys and units against each other; `compile` puts guards round the formulas (`macros` are written out) and cuts them at
their names, `formula_tree` parses them and `proof/` proves their units; `layout` and `labels` say where tables and
words stand.

Nothing here computes a figure of the trade, and nothing here may import `wbgen.model`.
"""
