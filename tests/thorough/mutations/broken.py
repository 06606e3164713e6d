"""Formulas that no engine can evaluate, or that none should: verify names their cells and goes on."""

from __future__ import annotations

from typing import Final

BROKEN: Final = (
    "", " ", "=", "1+", "(", ")", "SUM(", "SUM(,)", "IF(", "IF()", "IF(1,2,3,4,5)", "ROUND(1)", "NOSUCH(1)",
    "nosuchname", "#REF!", "#REF!+1", "1/0", "NA()", "1 2", "1,5", "1;2", "SUM(A1;B1)", "1^^2", "1%%%", "TODAY",
    "\"abc", "'abc", "{1,2", "{1,2;3,4}", "A0", "XFE1", "A1048577", "A1:", "A1::B2", "A1..B2", "R1C1", "RC[-1]",
    "Nosheet!A1", "Start:Mix!A1", "Table1[Area]", "A1#", "A1 B1", "(A1,B2)", "LAMBDA(x,x)(1)",
    "\U0001f331", "\uff11+\uff11", "SUM(A1:XFD1048576)", "CELL(\"filename\")", "REPT(\"x\",1E9)", "1E400",
    "(" * 5000 + "1" + ")" * 5000, "-" * 5000 + "1", "IF(1," * 5000 + "1" + ")" * 5000, "1" + "+1" * 5000,
)  # fmt: skip
