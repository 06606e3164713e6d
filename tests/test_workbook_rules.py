"""What is asked of every formula of a planner, over planners as they are built."""

from __future__ import annotations

import re
from graphlib import TopologicalSorter
from typing import Final

import pytest

from formulas import PLACE, areas, calls, literals, relative, tree_of
from planners import SYSTEMS, Built, Planners
from wbgen.families import FAMILY_WORDS, family
from wbgen.sheets.dimension import FUNCTIONS
from wbgen.sheets.layout import Placed
from wbgen.sheets.template import Column, System
from wbgen.units import label

pytest_plugins = ["planners"]

LONGEST: Final = 600
DEEPEST: Final = 4
FORBIDDEN: Final = frozenset(
    "OFFSET INDIRECT XLOOKUP XMATCH LET LAMBDA FILTER SORT UNIQUE SEQUENCE LOOKUP HLOOKUP RAND NOW CELL INFO".split()
)
WHOLE_FIRST: Final = ("INT", "ROUNDUP", "ROUNDDOWN")
"""Functions that jump at a whole number: their argument is rounded first."""
