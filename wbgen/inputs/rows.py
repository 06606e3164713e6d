"""One record of a table on its way into a workbook."""

from __future__ import annotations

from datetime import date

from wbgen.records.fields import Measure

Cell = Measure | float | str | date | None
Row = dict[str, Cell]
"""One record by column; a column that is not named stays blank."""
