"""Writes workbooks: the only place that knows xlsxwriter.

In: a `Book` with its layout and compiled formulas, and the figures of every column, in the column's unit. Out: a
planner, the same bytes for the same arguments. `findings_workbook` stands apart: in go the lines of a report, out
comes a workbook that lists them.

Open `workbook` first: it goes through the sheets. `canvas` is one sheet while it is written; `headings`, `cells` and
`overlays` write onto it, and every figure goes through `cells.shown`. `worksheet` has what is stored otherwise than
by xlsxwriter. `data_validation` says what an input takes, `print_setup` how a sheet prints, `styles` and `widths` how
it looks.
"""
