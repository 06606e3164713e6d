"""Verifies a planner: recomputes every cell of a workbook, says what disagrees and why, and explains any figure.

In goes a workbook file that wbgen built and anybody may have changed. Out comes a `Verification` (findings, notices,
counts), which `report` tells as lines, JSON or a workbook; or a tree of `Step`, which `explain` tells.

Open `verification` first: it calls all others in the order in which they are needed. `file_state`, `inventory` and
`display` look at what is no result; `recomputed` gathers the four `witnesses` of each formula cell (the text of the
formula, the `engine`, the model, the stored value), and `judge` and `causes` make findings of where they disagree.
Behind them: `compare` says what is the same, `missing_rows` and `changed_settings` what else there is to say, `labels`
where the words of the templates stand in the file, `unit_proof` what units its formulas have, `figure_text` how a
figure is printed, `provenance` from which line of the files an input came.
"""
