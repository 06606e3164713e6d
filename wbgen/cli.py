"""The commands. No arithmetic here: arguments, exit codes, and how results are shown.

Exit codes: 0 clean, 1 findings, 2 cannot do it.
"""

from __future__ import annotations

import enum
import json
import math
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

if TYPE_CHECKING:
    from rich.tree import Tree

    from wbgen.explain import Step
    from wbgen.verify import Verification

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    help="From a product catalogue and your lawns to a feeding planner with live formulas, and back to prove it.",
)

FINDINGS, CANNOT = 1, 2
PIPED_WIDTH = 160
"""Characters of a line where the output is no terminal."""


class Units(enum.StrEnum):
    metric = "metric"
    us = "us"


class Format(enum.StrEnum):
    csv = "csv"
    json = "json"


@contextmanager
def _told() -> Iterator[None]:
    """Say what a person did wrong on the error stream, without a traceback, and end with exit code 2."""
    from wbgen.diagnostics import InputError
    from wbgen.openxml import UnsafeFile

    try:
        yield
    except InputError as error:
        for finding in error.findings:
            typer.echo(finding.render(), err=True)
        raise typer.Exit(CANNOT) from None
    except UnsafeFile as error:
        typer.echo(f"expected: {error.expected}\n  found: {error.found}\n  do: {error.remedy}", err=True)
        raise typer.Exit(CANNOT) from None
    except BrokenPipeError:
        raise typer.Exit from None
    except OSError as error:
        typer.echo(f"{error.filename or ''}: {error.strerror or error}", err=True)
        raise typer.Exit(CANNOT) from None


@app.command()
def new(folder: Annotated[Path, typer.Argument(help="The folder to write; made if need be.")]) -> None:
    """Write a folder with a commented lawns.yaml that builds as it stands."""
    from wbgen.starter import new as write_starter

    with _told():
        typer.echo(f"wrote {write_starter(folder)}")


@app.command()
def build(
    lawns: Annotated[Path, typer.Argument(help="The lawns.yaml to build from.")],
    output: Annotated[Path, typer.Option("-o", "--output", help="The workbook to write.")] = Path("planner.xlsx"),
    units: Annotated[
        Units | None, typer.Option(help="The units of the workbook; without it, those of lawns.yaml.")
    ] = None,
    diary_rows: Annotated[int, typer.Option(min=1, max=100_000, help="Room for so many lines in the diary.")] = 400,
    force: Annotated[
        bool, typer.Option("--force", help="Overwrite a workbook, unless its diary would be lost.")
    ] = False,
) -> None:
    """Write the planner of your lawns as a workbook."""
    from wbgen.build import build as build_planner

    with _told():
        made = build_planner(lawns, output, system=units.value if units else None, diary_rows=diary_rows, force=force)
        typer.echo(f"wrote {output}: {made.formula_cells} formula cells, {len(made.book.sheets)} sheets")


@app.command()
def verify(
    workbook: Annotated[Path, typer.Argument(help="The planner to verify.")],
    as_json: Annotated[bool, typer.Option("--json", help="Print one JSON object instead of lines.")] = False,
) -> None:
    """Recompute every formula cell and say, cell by cell, what disagrees and why."""
    from wbgen.verify import verify as verify_planner

    with _told():
        result = verify_planner(workbook)
        typer.echo(_as_json(result) if as_json else "\n".join(_lines(result)))
    if not result.clean:
        raise typer.Exit(FINDINGS)


def _as_json(result: Verification) -> str:
    findings = [
        {
            "sheet": f.sheet, "cell": f.cell, "kind": f.kind, "found": f.found, "expected": f.expected,
            "message": f.message, "cause": {"sheet": f.cause.sheet, "cell": f.cause.cell} if f.cause else None,
        }
        for f in result.findings
    ]  # fmt: skip
    whole = {"counts": dict(result.counts), "witnesses": list(result.witnesses), "findings": findings}
    return json.dumps(_finite(whole), ensure_ascii=False, indent=2, allow_nan=False)


def _finite(value: Any) -> Any:
    """The same with numbers that JSON has not as text."""
    if isinstance(value, dict):
        return {key: _finite(one) for key, one in value.items()}
    if isinstance(value, list):
        return [_finite(one) for one in value]
    return str(value) if isinstance(value, float) and not math.isfinite(value) else value


def _lines(result: Verification) -> Iterator[str]:
    causes = [finding for finding in result.findings if finding.cause is None]
    followers = [finding for finding in result.findings if finding.cause is not None]
    for finding in causes:
        place = f"{finding.sheet}!{finding.cell}" if finding.cell else finding.sheet
        yield f"{place}: {finding.kind}: {finding.message}" + (f" [{finding.heading}]" if finding.heading else "")
        if finding.found is not None:
            yield f"  found: {finding.found}"
        if finding.expected is not None:
            yield f"  expected: {finding.expected}"
        follow = [f for f in followers if f.cause and (f.cause.sheet, f.cause.cell) == (finding.sheet, finding.cell)]
        if follow:
            some = ", ".join(f"{f.sheet}!{f.cell}" for f in follow[:8])
            yield f"  {len(follow)} cells follow from it: {some}" + (" …" if len(follow) > 8 else "")
    number = result.counts["formula cells"]
    heard = len(result.witnesses)
    yield (
        f"{number} formula cells, {heard} of 4 witnesses ({', '.join(result.witnesses)}): "
        + ("no finding" if result.clean else f"{len(causes)} findings, {len(followers)} cells that follow from them")
    )
    if heard == 3:
        yield "the values stored in the file are wbgen's own until a spreadsheet program has calculated and saved it"


@app.command()
def explain(
    workbook: Annotated[Path, typer.Argument(help="The planner.")],
    place: Annotated[str, typer.Argument(help="Sheet and cell, such as 'Mix!D12'.")],
    depth: Annotated[int, typer.Option(min=1, max=20, help="How many steps to go down.")] = 4,
) -> None:
    """Show where a figure comes from, step by step."""
    from rich.console import Console

    from wbgen.explain import explain as explain_figure

    with _told():
        step = explain_figure(workbook, place, depth)
        piped = not Console().is_terminal
        Console(highlight=False, markup=False, width=PIPED_WIDTH if piped else None).print(_tree(step))


def _tree(step: Step) -> Tree:
    from rich.text import Text
    from rich.tree import Tree

    said = f"{step.place}  {step.heading} = {step.value}"
    if step.formula:
        said += f"\n  {step.formula}" + (f"   ({step.witnesses})" if step.witnesses else "")
    tree = Tree(Text(said))
    for part in step.parts:
        tree.children.append(_tree(part))
    return tree


@app.command()
def export(
    workbook: Annotated[Path, typer.Argument(help="The planner.")],
    table: Annotated[str, typer.Argument(help="The table, such as diary or season_applied.")],
    kind: Annotated[
        Format, typer.Option("--format", help="csv: a line of keys, a line of units, then the rows.")
    ] = Format.csv,
) -> None:
    """Give a table's rows with keys, units and values, for other programs."""
    from wbgen.export import as_csv
    from wbgen.export import as_json as rows_as_json
    from wbgen.export import export as export_table

    with _told():
        exported = export_table(workbook, table)
        typer.echo(as_csv(exported) if kind is Format.csv else rows_as_json(exported), nl=kind is Format.json)


@app.command()
def catalogue(
    own: Annotated[
        list[Path] | None, typer.Argument(help="Your own catalogue files, checked with the shipped one.")
    ] = None,
) -> None:
    """List the products of the catalogue and check every fact of it."""
    from wbgen import places
    from wbgen.catalogue import load_catalogue

    with _told():
        found = load_catalogue([places.product_catalogue()], own or [])
        for product in found.products:
            rate = product.spray or product.dry
            contents = product.analysis.contents if product.analysis else {}
            analysis = ", ".join(f"{symbol} {share.text}" for symbol, share in contents.items())
            shown = rate.usual.text if rate else "no rate"
            typer.echo(f"{product.name}: {product.form}, {product.family}; {shown}; {analysis or 'no analysis stated'}")
        typer.echo(f"{len(found.products)} products, {len(found.sources)} sources, no finding")
