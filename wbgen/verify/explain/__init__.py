"""Explains one figure of a planner down to what was typed, and to the line of the file that it was filled from.

In go a workbook and an address such as "Mix!D53"; out comes a tree of `Step`, which `text` tells as lines or JSON.
Open `explain` first. `position` reads the address, `precedents` finds what a formula refers to, `figure` tells what
each figure is and what its witnesses say of it.
"""
