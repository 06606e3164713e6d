"""A product catalogue and some lawns in, a feeding planner with live formulas out, and every cell of it proved."""

__version__ = "0.2.0"
