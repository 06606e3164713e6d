"""A planner's design: the templates that it is built from, and the model that recomputes it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from wbgen.model.binding import PLANNER, ColumnFunctions, Model
from wbgen.model.inputs import Column, Inputs
from wbgen.sheets.book import Templates, shipped_templates


@dataclass(frozen=True)
class Design:
    """Templates and model functions that belong together; those of wbgen's own planner unless others are given.

    Neither half knows the other: each column that the templates compute has a function of the same name in the model.
    """

    templates: Templates = field(default_factory=shipped_templates)
    functions: ColumnFunctions = PLANNER

    def model(self, inputs: Inputs, given: Mapping[tuple[str, str], Column] | None = None) -> Model:
        """The model over `inputs`; `given` columns are taken as they stand."""
        return Model(inputs, given, self.functions)
