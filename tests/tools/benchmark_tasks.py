"""What `benchmark.py` runs in processes of their own, one task each, so that time and memory are that task's alone.

    python tests/tools/benchmark_tasks.py TASK ARGUMENT...

prints one JSON object: the processor's and the clock's seconds of the task without what prepares it, and the number
of formula cells where a task counts them. Processor's seconds are those of the process and of the programs it starts.
"""

from __future__ import annotations

import json
import pickle
import random
import resource
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date, timedelta
from pathlib import Path
from typing import Any, Final

DAY: Final = date(2026, 6, 30)
SEED: Final = 20260630
YEARS: Final = 3
"""The diary's lines lie in so many years before `DAY`, whatever their number."""

Cell = tuple[int, int, str | None, str | float | None, int]
"""Row and column from 0, formula with its equals sign, value, number of the style."""
Told = dict[str, float]


@contextmanager
def timed() -> Iterator[Told]:
    """Fills in the seconds of what is done within."""
    told: Told = {}
    processor, clock = _processor(), time.perf_counter()
    yield told
    told |= {"processor": _processor() - processor, "clock": time.perf_counter() - clock}


def _processor() -> float:
    used = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return sum(one.ru_utime + one.ru_stime for one in used)


def scenario(target: str, lines: str) -> Told:
    """Write the starter's site with a diary of so many lines."""
    from wbgen.files import shipped
    from wbgen.records.site.site import load_site_and_catalogue

    starter = shipped.starter()
    site, catalogue = load_site_and_catalogue(starter, [shipped.product_catalogue()])
    products = [product for product in catalogue.products if product.spray or product.dry]
    draw = random.Random(SEED)  # noqa: S311 - the same lines every time
    with timed() as told, Path(target).open("w", encoding="utf-8") as file:
        file.write(starter.read_text("utf-8").rpartition("\ndiary:")[0] + "\ndiary:\n")
        days = sorted(draw.randrange(YEARS * 365) for _ in range(int(lines)))
        for before in reversed(days):
            product, lawn, who = draw.choice(products), draw.choice(site.lawns).name, draw.choice(site.people)
            file.write(_line(draw, DAY - timedelta(days=before), lawn, product, who))
        file.write(_scores(draw, [lawn.name for lawn in site.lawns], int(lines) // LINES_A_SCORE))
    return told


def large_scenario(target: str, lawns: str, programme: str, lines: str) -> Told:
    """Write a site of so many lawns, lines of the programme and of the diary, and the starter's sprayers and scales.

    A third of the programme is for all lawns, a third for a group of ten, a third for one lawn.
    """
    from wbgen.files import shipped
    from wbgen.records.catalogue import load_catalogue

    products = [p for p in load_catalogue([shipped.product_catalogue()]).products if p.spray]
    draw = random.Random(SEED)  # noqa: S311 - the same lines every time
    names = [f"Lawn {number}" for number in range(1, int(lawns) + 1)]
    starter = shipped.starter().read_text("utf-8")
    kept = starter.partition("\nsprayers:")[2].partition("\nmix:")[0]
    with timed() as told, Path(target).open("w", encoding="utf-8") as file:
        file.write("site: {name: Wide House, units: metric, currency: EUR, season starts: 1 January}\nlawns:\n")
        for number, name in enumerate(names):
            area = 150 + number % 90
            file.write(f"  - {{name: {name}, grass: cool season, group: group {number // 10}, area: {area} m²}}\n")
        file.write(f"sprayers:{kept}\nprogramme:\n")
        for number in range(int(programme)):
            where = ("", f"group: group {number % (len(names) // 10)}, ", f"lawn: {draw.choice(names)}, ")[number % 3]
            file.write(
                f"  - {{product: {draw.choice(products).name}, {where}first: 2026-0{2 + number % 3}-01, "
                f"last: 2026-09-30, every: {draw.choice((28, 42, 56))} days}}\n"
            )
        file.write("diary:\n")
        for before in sorted((draw.randrange(YEARS * 365) for _ in range(int(lines))), reverse=True):
            lawn, product = draw.choice(names), draw.choice(products)
            file.write(_line(draw, DAY - timedelta(days=before), lawn, product, "First helper"))
        file.write(_scores(draw, names, int(lines) // LINES_A_SCORE))
    return told


LINES_A_SCORE: Final = 5
"""For so many lines of the diary there is one score."""


def _scores(draw: random.Random, lawns: list[str], number: int) -> str:
    """So many scores on the days of the diary, fewer where a lawn and day is drawn twice."""
    drawn = {(draw.randrange(YEARS * 365), draw.choice(lawns)) for _ in range(number)}
    lines = [
        f"  - {{date: {DAY - timedelta(days=before)}, lawn: {lawn}, quality: {draw.randrange(2, 19) / 2}, "
        f"colour: {draw.randrange(2, 19) / 2}, clippings: {draw.randrange(40)} mL/m², moss: {draw.randrange(20)} %}}\n"
        for before, lawn in sorted(drawn, reverse=True)
    ]
    return "scores:\n" + "".join(lines) if lines else "scores: []\n"


def _line(draw: random.Random, day: date, lawn: str, product: Any, who: str) -> str:
    """A line with every field of the diary."""
    liquid = product.form in ("liquid", "brew")
    sprayed = f"water: {draw.randrange(10, 60)} L, left over: {draw.randrange(3)} L, " if product.spray else ""
    return (
        f"  - {{date: {day}, lawn: {lawn}, product: {product.name}, method: {'spray' if product.spray else 'dry'}, "
        f"measured: {draw.randrange(1, 2000)} {'mL' if liquid else 'g'}, {sprayed}"
        f"planned rate: {draw.randrange(5, 40)} {'L/ha' if liquid else 'kg/ha'}, "
        f"treated area: {draw.randrange(100, 240)} m², who: {who}, temperature: {draw.randrange(5, 30)} degC, "
        f"wind: {draw.randrange(12)} km/h, rain: 0 mm, "
        f"note: Visit {draw.randrange(1000)}}}\n"
    )


def build(lawns: str, target: str, rows: str) -> Told:
    """Build a planner, with all that is loaded for it."""
    with timed() as told:
        from wbgen.build import build as build_planner

        made = build_planner(Path(lawns), Path(target), diary_rows=int(rows), today=DAY)
    return told | {"formula cells": made.formula_cells}


def build_without(lawns: str, target: str, rows: str, *tables: str) -> Told:
    """Build a planner whose columns that look across the diary hold values: those of the diary, or of the others."""
    import wbgen.build as road
    from wbgen.sheets.book import compile_book

    def without(book: Any, placed: Any) -> Any:
        gone = {at for group in tables for at in across(book)[group]}
        patterns = compile_book(book, placed)
        return {t: {k: one for k, one in of.items() if (t, k) not in gone} for t, of in patterns.items()}

    setattr(road, "compile_book", without)  # noqa: B010 - mypy takes no assignment to a function of another module
    with timed() as told:
        road.build(Path(lawns), Path(target), diary_rows=int(rows), today=DAY)
    return told


def across(book: Any) -> dict[str, list[tuple[str, str]]]:
    """The computed columns that look at many lines of the diary at once, in the diary itself and in other tables."""
    found: dict[str, list[tuple[str, str]]] = {"diary": [], "others": []}
    for table, formulas in book.formulas.items():
        for key, proven in formulas.items():
            names = [str(node.value) for node in proven.tree.walk() if node.kind == "reference"]
            across_it = ("diary.", "so_far.", "from_here.") if table == "diary" else ("diary.",)
            if any(name.startswith(across_it) for name in names):
                found["diary" if table == "diary" else "others"].append((table, key))
    return found


def columns_across() -> Told:
    """How many columns look across the diary, in the diary itself and in other tables."""
    from wbgen.sheets.book import shipped_templates

    found = across(shipped_templates().book("metric"))
    return {group: float(len(columns)) for group, columns in found.items()}


def cells(planner: str, target: str) -> Told:
    """Note every cell of a planner, for `bare`."""
    from openpyxl import load_workbook
    from openpyxl.utils.datetime import to_excel

    def number(value: Any) -> Any:
        return to_excel(value) if isinstance(value, date) else value

    formulas, values = load_workbook(planner), load_workbook(planner, data_only=True)
    found: dict[str, list[Cell]] = {}
    with timed() as told:
        for sheet in formulas.worksheets:
            stored = values[sheet.title]
            found[sheet.title] = [
                (
                    cell.row - 1,
                    cell.column - 1,
                    cell.value if cell.data_type == "f" else None,
                    number(stored.cell(cell.row, cell.column).value if cell.data_type == "f" else cell.value),
                    cell.style_id,
                )
                for line in sheet.iter_rows()
                for cell in line
                if cell.value is not None or cell.has_style
            ]
        with Path(target).open("wb") as file:
            pickle.dump(found, file)
    return told


def bare(noted: str, target: str) -> Told:
    """Write the same cells with nothing but xlsxwriter, which is loaded for it."""
    with Path(noted).open("rb") as file:
        found: dict[str, list[Cell]] = pickle.load(file)  # noqa: S301 - the benchmark wrote it itself
    number = sum(formula is not None for sheet in found.values() for _, _, formula, _, _ in sheet)
    with timed() as told:
        import xlsxwriter

        with xlsxwriter.Workbook(target) as workbook:
            looks: dict[int, Any] = {}
            for name, sheet in found.items():
                worksheet = workbook.add_worksheet(name)
                for row, column, formula, value, look in sheet:
                    style = looks.get(look) or looks.setdefault(look, workbook.add_format({"font_size": 8 + look}))
                    if formula is not None:
                        worksheet.write_formula(row, column, formula, style, "" if value is None else value)
                    elif isinstance(value, str):
                        worksheet.write_string(row, column, value, style)
                    elif value is None:
                        worksheet.write_blank(row, column, None, style)
                    else:
                        worksheet.write_number(row, column, value, style)
    return told | {"formula cells": number}


def loads(planner: str) -> Told:
    """Load a planner twice with openpyxl, once for the formulas and once for the values."""
    with timed() as told:
        from openpyxl import load_workbook

        both = load_workbook(planner), load_workbook(planner, data_only=True)
    return told | {"sheets": float(sum(len(one.worksheets) for one in both))}


def verify(planner: str) -> Told:
    """Verify a planner, with all that is loaded for it. Raises AssertionError where it has a finding."""
    with timed() as told:
        from wbgen.verify.verification import verify as verify_planner

        result = verify_planner(Path(planner))
    if result.findings:
        raise AssertionError(f"{len(result.findings)} findings, the first: {result.findings[0]}")
    return told


def recalculate(planner: str, folder: str) -> Told:
    """Recalculate a planner with LibreOffice, every formula, and save it."""
    from support import office

    with timed() as told:
        office.recalculate(Path(planner), Path(folder), timeout=3600)
    return told


def evaluate(planner: str) -> Told:
    """Evaluate every formula of a planner with the engine that verify uses."""
    from wbgen.files.dates import serial
    from wbgen.verify.engine.evaluate import evaluate as evaluate_all
    from wbgen.verify.engine.evaluate import loaded

    with timed() as told:
        evaluate_all(loaded(Path(planner)), serial(DAY))
    return told


def evaluate_by_ironcalc(planner: str) -> Told:
    """Load a planner with IronCalc and evaluate every formula."""
    import ironcalc

    with timed() as told:
        ironcalc.load_from_xlsx(planner, "en", "UTC", "en").evaluate()
    return told


TASKS: Final[dict[str, Callable[..., Told]]] = {
    task.__name__: task
    for task in (
        scenario, large_scenario, build, build_without, columns_across, cells, bare, loads, verify, recalculate,
        evaluate, evaluate_by_ironcalc,
    )
}  # fmt: skip

if __name__ == "__main__":
    print(json.dumps(TASKS[sys.argv[1]](*sys.argv[2:])))
