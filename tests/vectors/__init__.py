"""Worked examples from published literature, run through the model and through a workbook."""
