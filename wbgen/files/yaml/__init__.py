"""YAML files as trees that know their lines, and as frozen records that check themselves.

In: the path of a file and a `Report`. Out: a tree (`tree`, of `nodes`), single values read as every reader of YAML
reads them (`plain_scalars`), records (`records`, of the values in `fields`). Nothing here raises for what a person
wrote: it goes to the report.

Open `tree` first, then `records`.
"""
