"""Lines of the diary of the file, as records of the table."""

from __future__ import annotations

from wbgen.files.diagnostics import Report
from wbgen.inputs.rows import Row, rate_cell
from wbgen.records.catalogue import Catalogue
from wbgen.records.fields import Measure
from wbgen.records.product import Product
from wbgen.records.site.diary import Application, NotDone


def diary_row(line: Application, catalogue: Catalogue, report: Report) -> Row:
    """One line of the diary."""
    product = catalogue.product(line.product)
    row: Row = {
        "date": line.date,
        "lawn": line.lawn,
        "product": product.name if product else line.product,
        "method": line.method,
        "water": line.water,
        "left_over": line.left_over,
        "treated_area": line.treated_area,
        "who": line.who,
        "air_temperature": line.temperature,
        "wind": line.wind,
        "rain": line.rain,
        "note": line.note,
    }
    row |= _measured(line.measured, product)
    if line.planned_rate is not None:
        row |= rate_cell(line.planned_rate, "planned_mass_rate", "planned_volume_rate", report)
    return row


def not_done_row(visit: NotDone) -> Row:
    """A line of the diary without a product: a visit that was skipped or put off."""
    return {"date": visit.date, "lawn": visit.lawn, "method": visit.how, "note": visit.why}


def _measured(measured: Measure, product: Product | None) -> Row:
    """What was weighed or poured: solids by mass, liquids by volume, through the density where they were weighed."""
    number: float = 1
    if measured.kind == "pack" and product and product.pack:
        number, measured = measured.magnitude, product.pack.value
    if measured.kind == "mass" and product and product.is_liquid and product.density:
        return {"poured": f"{number * measured.to('g') / product.density.value.to('g/mL')!r} mL"}
    column = "weighed" if measured.kind == "mass" else "poured"
    return {column: measured if number == 1 else f"{number * measured.magnitude!r} {measured.quantity.printed}"}
