"""A product catalogue and some lawns in, a feeding planner with live formulas out, and every cell of it proved.

The two roads, a package a station::

    build    lawns.yaml, catalogue -> files.yaml -> records -> inputs -> model -> writer -> planner.xlsx
    verify   planner.xlsx          -> files.xlsx -> inputs  -> model, engine  -> verify -> findings
                                                      ^          ^
    both     templates -> sheets (proven formulas and the places of tables, never seen by the model)

Imports go down only: `cli`; `build`, `export`; `verify`, `overwrite`; `inputs`, `writer`; `records`, `sheets`, `model`;
`units`; `files`, `trade`.
"""

__version__ = "0.3.0"
