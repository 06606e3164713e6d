"""Mutants of a planner's formulas and of its stored values, planted in its file by the hundred.

The operators are the suite published for spreadsheets by R. Abraham and M. Erwig, "Mutation Operators for
Spreadsheets", IEEE Transactions on Software Engineering 35(1), 2009, pp. 94-108, doi 10.1109/TSE.2008.73 (their
abbreviations are from memory), to which come slips of the trade and values stored wrongly.
"""
