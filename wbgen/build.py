"""The road from YAML to a workbook."""

from __future__ import annotations

import errno
import os
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path

from wbgen.files import shipped
from wbgen.files.dates import day_of_build
from wbgen.files.diagnostics import Diagnostic, InputError, Place, Report, Steps, silent
from wbgen.files.xlsx.refusal import DEFAULT_LIMITS
from wbgen.inputs.design import Design
from wbgen.inputs.from_site import fill
from wbgen.model.figures import all_figures
from wbgen.model.inputs import NOT_YET, Inputs
from wbgen.overwrite import refuse_loss
from wbgen.records.catalogue import Catalogue
from wbgen.records.site.site import Site, load_site_and_catalogue
from wbgen.sheets.book import Book, compile_book
from wbgen.sheets.column import System
from wbgen.sheets.layout import Layout, lay_out
from wbgen.writer.workbook import write

DIARY_ROWS = 400
STEPS = ("reading", "computing", "writing")


@dataclass(frozen=True)
class Planner:
    """What a build made: enough to say so in one line."""

    book: Book
    layout: Layout
    inputs: Inputs

    @property
    def formula_cells(self) -> int:
        return formula_cells(self.book, self.inputs)


def formula_cells(book: Book, inputs: Inputs) -> int:
    """How many formula cells a planner has."""
    return sum(len(formulas) * inputs.records[table] for table, formulas in book.formulas.items())


def build(
    lawns: Path,
    target: Path,
    *,
    system: System | None = None,
    diary_rows: int = DIARY_ROWS,
    catalogue: Sequence[Path] = (),
    today: date | None = None,
    force: bool = False,
    step: Steps = silent,
    design: Design | None = None,
) -> Planner:
    """Build the planner of `lawns` into `target`, written beside it and moved into place.

    `system` None takes the site's own, `design` None wbgen's own planner. Raises InputError with every finding in the
    files, OSError where the target cannot be written.
    """
    step("reading")
    site, products = load_site_and_catalogue(lawns, catalogue or (shipped.product_catalogue(),))
    return build_site(site, products, target, system or site.details.units, diary_rows, today, force, step, design)


def build_site(
    site: Site, products: Catalogue, target: Path, system: System, diary_rows: int,
    today: date | None = None, force: bool = False, step: Steps = silent, design: Design | None = None,
) -> Planner:  # fmt: skip
    """Build the planner of a site that was read. Raises as `build` does."""
    built_on, design = today or day_of_build(), design or Design()
    if not target.parent.is_dir():
        raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), str(target.parent))
    report = Report()
    book = design.book(system)
    filled = fill(book, site, products, diary_rows, built_on, report)
    report.raise_any()
    refuse_loss(target, filled.inputs, force, design)
    _refuse_giants(target, formula_cells(book, filled.inputs))
    layout = lay_out(book.sheets, filled.capacities)
    step("computing")
    figures = all_figures(design.model(filled.inputs), book.formulas)
    figures["start"]["recalculated"] = figures["start"]["recalculated"].copy()
    figures["start"]["recalculated"][0] = NOT_YET
    compiled = compile_book(book, layout.placed)
    step("writing")
    handle, name = tempfile.mkstemp(suffix=".xlsx", prefix=".wbgen-", dir=target.parent)
    os.close(handle)
    beside = Path(name)
    try:
        created = datetime(built_on.year, built_on.month, built_on.day, tzinfo=UTC).replace(tzinfo=None)
        write(beside, book, layout, compiled, figures, site.details.currency, created, design.templates.mark)
        beside.chmod(0o644)
        beside.replace(target)
    finally:
        beside.unlink(missing_ok=True)
    return Planner(book, layout, filled.inputs)


def _refuse_giants(target: Path, cells: int) -> None:
    """Raise InputError for a planner that is larger than what is opened again."""
    most = DEFAULT_LIMITS.formulas
    if cells > most:
        raise InputError([Diagnostic(
            "too-large", Place(str(target)), f"at most {most:,} formula cells, which can be verified", f"{cells:,}",
            "make room for fewer lines of the diary (--diary-rows), or split the lawns among planners",
            "this planner would be too large",
        )])  # fmt: skip


def new(folder: Path) -> Path:
    """Write the starter files into a new folder and return the path of its lawns.yaml.

    Raises InputError where the folder holds a lawns.yaml already, OSError where it cannot be written.
    """
    target = folder / "lawns.yaml"
    if target.exists():
        finding = Diagnostic(
            "there-already", Place(str(target)), "", "", "give another folder", "this file stands there already"
        )
        raise InputError([finding])
    folder.mkdir(parents=True, exist_ok=True)
    target.write_bytes(shipped.starter().read_bytes())
    return target
