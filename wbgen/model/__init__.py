"""The model: every computed figure of a planner, in plain Python, from the inputs alone.

One module a table, one small function a column, named as the column's key. A parameter is a column of the
same table, or another table, whose columns are read as attributes. Figures are pint quantities where they
have a unit, floats where they have none, and arrays of either where a table has many records; text is str
or an object array; a date is its serial number. A figure that is not there is NaN, or the empty text.

Nothing here knows a formula, and nothing here may import `wbgen.sheets`.
"""
