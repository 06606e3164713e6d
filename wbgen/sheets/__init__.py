"""The sheets: what the templates say, as formula text for every cell.

One way through: `template` reads a YAML file into frozen records, `family` expands ``each`` columns,
`dimension` proves the units of each formula and names the conversions it needs, `layout` gives every
table its place, `formula` turns names into A1 references.

Nothing here computes a figure of the trade, and nothing here may import `wbgen.model`.
"""
