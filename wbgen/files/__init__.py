"""What stands in a file and where; refuses what is unsafe; knows no planner.

In: paths. Out: trees and records of YAML files (`yaml`), cells of workbooks (`xlsx`), and what is wrong with either:
a `Diagnostic` of a text file (file:line:column), a `Finding` of a workbook (sheet and cell).

Open `diagnostics` first. Beside it: `findings` (every kind of finding with its remedy), `accepted` (what cells and
names may be), `dates` (serial numbers of days), `shipped` (the files that come with wbgen).
"""
