"""The model: every computed figure of a planner, in plain Python, from the inputs alone.

One module a table, <sheet>/<table>, or a package of submodules where a table is large; one small function a column,
named as the column's key; a name with an underscore is a helper. A parameter is a column of the same table, or another
table, whose columns are read as attributes. Figures are pint quantities where they have a unit, floats where they have
none, and arrays of either where a table has many records; text is str or an object array; a date is its serial number.
A figure that is not there is NaN, or the empty text. The annotations say which (`types`); `marks` say which family a
function serves or reads; `binding` finds the functions and computes a column when it is first asked for.

Open first: `lawns/`, the smallest sheet, then `tools/`, what all of them use.

Nothing here knows a formula, and nothing here may import `wbgen.sheets`.
"""
