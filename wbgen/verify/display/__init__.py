"""Finds cells that show something else than they hold.

In go the number formats and the conditional formats of a workbook's cells; out come findings where one of them lets a
figure or a word be taken for another, or vanish. Open `cells` first, then `conditional`.
"""
