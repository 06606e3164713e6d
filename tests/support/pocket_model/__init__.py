"""The pocket planner recomputed: a function for each column that its templates work out."""
