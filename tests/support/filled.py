"""The inputs of a planner that nobody needs as a file: what a build fills in, without the layout and the writing."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from support.planners import DIARY_ROWS, TODAY
from wbgen.files import shipped
from wbgen.files.diagnostics import Report
from wbgen.inputs.from_site import fill
from wbgen.model.inputs import Inputs
from wbgen.records.site.site import load_site_and_catalogue
from wbgen.sheets.book import shipped_templates


def filled(lawns: Path, *, diary_rows: int = DIARY_ROWS, today: date = TODAY) -> Inputs:
    """The inputs of the planner of a lawns.yaml, in the site's own units. Raises InputError as a build does."""
    site, catalogue = load_site_and_catalogue(lawns, (shipped.product_catalogue(),))
    report = Report()
    found = fill(shipped_templates().book(site.details.units), site, catalogue, diary_rows, today, report)
    report.raise_any()
    return found.inputs
