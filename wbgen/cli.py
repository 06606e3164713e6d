"""The commands. No arithmetic here: arguments, exit codes, and how results are shown.

Exit codes: 0 clean (there may be warnings and notices), 1 findings, 2 cannot do it; 3 is a fault, see `__main__`.
"""

from __future__ import annotations

import enum
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from wbgen import __version__

if TYPE_CHECKING:
    from rich.tree import Tree

    from wbgen.verify.explain.explain import Step

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,  # importing rich takes longer than all else that --help does
)

FINDINGS, CANNOT = 1, 2
PIPED_WIDTH, NARROWEST, INDENT = 100, 60, 4
"""Characters of a line where the output is no terminal, those left to the deepest step, and those of one indent."""


class Units(enum.StrEnum):
    metric = "metric"
    us = "us"


class Format(enum.StrEnum):
    csv = "csv"
    json = "json"


def _seen(text: str) -> str:
    """A text from a file as it may be shown: what cannot be seen, and would move the cursor or turn the line around,
    is written out."""
    return "".join(one if one.isprintable() or one == "\n" else ascii(one)[1:-1] for one in text)


@contextmanager
def _told() -> Iterator[None]:
    """Say what a person did wrong on the error stream, without a traceback, and end with exit code 2."""
    from wbgen.files.diagnostics import InputError
    from wbgen.files.xlsx.refusal import UnsafeFile

    try:
        yield
    except InputError as error:
        for finding in error.diagnostics:
            typer.echo(_seen(finding.render()), err=True)
        raise typer.Exit(CANNOT) from None
    except UnsafeFile as error:
        typer.echo(_seen(f"expected: {error.expected}\n  found: {error.found}\n  do: {error.remedy}"), err=True)
        raise typer.Exit(CANNOT) from None
    except BrokenPipeError:
        raise typer.Exit from None
    except OSError as error:
        typer.echo(f"{error.filename or ''}: {error.strerror or error}", err=True)
        raise typer.Exit(CANNOT) from None


@contextmanager
def _progress(steps: Sequence[str]) -> Iterator[Callable[[str], None]]:
    """A bar on the error stream while `steps` are gone through in order, gone at the end; none without a terminal."""
    if not (sys.stdout.isatty() and sys.stderr.isatty()):
        yield lambda _: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn

    columns = BarColumn(20), TextColumn("{task.description}", markup=False)
    with Progress(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("", total=len(steps))
        yield lambda said: bar.update(task, description=said, completed=steps.index(said), refresh=True)


def _version(asked: bool) -> None:
    if asked:
        typer.echo(f"wbgen {__version__}")
        raise typer.Exit


@app.callback()
def _wbgen(
    version: Annotated[
        bool, typer.Option("--version", help="Say which version this is.", callback=_version, is_eager=True)
    ] = False,
) -> None:
    """From a product catalogue and your lawns to a feeding planner with live formulas, and back to prove it."""


@app.command(short_help="Write a folder with a lawns.yaml that builds as it stands.")
def new(folder: Annotated[Path, typer.Argument(help="The folder to write; made if need be.")]) -> None:
    """Write a folder with a commented lawns.yaml that builds as it stands."""
    from wbgen.build import new as write_starter

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
    from wbgen.build import STEPS
    from wbgen.build import build as build_planner

    with _told():
        with _progress(STEPS) as step:
            made = build_planner(
                lawns, output, system=units.value if units else None, diary_rows=diary_rows, force=force, step=step
            )
        typer.echo(f"wrote {output}: {made.formula_cells} formula cells, {len(made.book.sheets)} sheets")


@app.command(short_help="Recompute every formula cell and say what disagrees and why.")
def verify(
    workbook: Annotated[Path, typer.Argument(help="The planner to verify.")],
    as_json: Annotated[bool, typer.Option("--json", help="Print one JSON object instead of lines.")] = False,
    report: Annotated[
        Path | None, typer.Option("--report", help="Write what was found as a workbook too, in a new file.")
    ] = None,
    lawns: Annotated[
        Path | None,
        typer.Option(
            "--lawns", help="The lawns.yaml it was built from: facts are compared with its catalogue files too."
        ),
    ] = None,
    strict: Annotated[
        bool, typer.Option("--strict", help="End with exit code 1 where there are warnings too.")
    ] = False,
) -> None:
    """Recompute every formula cell and say, cell by cell, what disagrees and why."""
    from wbgen.files.xlsx.refusal import UnsafeFile
    from wbgen.verify.report import as_json as told_as_json
    from wbgen.verify.report import as_lines, refuse_report, refused_as_json, write_report
    from wbgen.verify.verification import STEPS
    from wbgen.verify.verification import verify as verify_planner

    with _told():
        if report:
            refuse_report(report)
        try:
            with _progress(STEPS) as step:
                result = verify_planner(workbook, step, lawns=lawns)
        except UnsafeFile as refused:
            if as_json:
                typer.echo(refused_as_json(workbook, refused))
            raise
        if report:
            write_report(result, report)
        typer.echo(told_as_json(result) if as_json else _seen("\n".join(as_lines(result))))
        if strict and result.warnings:
            typer.echo(f"strict: {len(result.warnings)} warnings count as findings", err=True)
    if not result.clean or (strict and result.warnings):
        raise typer.Exit(FINDINGS)


@app.command()
def explain(
    workbook: Annotated[Path, typer.Argument(help="The planner.")],
    place: Annotated[str, typer.Argument(help="Sheet and cell, such as 'Mix!D12'.")],
    depth: Annotated[int, typer.Option(min=1, max=20, help="How many steps to go down.")] = 4,
    lawns: Annotated[
        Path | None, typer.Option("--lawns", help="The lawns.yaml it was built from: inputs are followed to its lines.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print one JSON object instead of a tree.")] = False,
) -> None:
    """Show where a figure comes from, step by step, and what its witnesses say."""
    from wbgen.verify.explain.explain import explain as explain_figure
    from wbgen.verify.explain.text import as_json as told_as_json

    with _told():
        with _progress(("recomputing",)) as say:
            say("recomputing")
            step = explain_figure(workbook, place, depth, lawns)
        if as_json:
            typer.echo(told_as_json(step, workbook))
        else:
            _draw(step)


def _draw(step: Step) -> None:
    """Print a tree; where the output is no terminal, with room for its deepest step."""
    from rich.console import Console

    terminal = Console()
    if terminal.is_terminal:
        terminal.print(_tree(step), highlight=False)
        return
    room = max(PIPED_WIDTH, NARROWEST + INDENT * _depth(step))
    console = Console(highlight=False, markup=False, emoji=False, width=room, color_system=None)
    with console.capture() as drawn:
        console.print(_tree(step))
    typer.echo("\n".join(line.rstrip() for line in drawn.get().splitlines()))


def _depth(step: Step) -> int:
    return 1 + max(map(_depth, step.parts), default=0)


def _tree(step: Step) -> Tree:
    from rich.console import Group
    from rich.padding import Padding
    from rich.text import Text
    from rich.tree import Tree

    from wbgen.verify.explain.text import as_lines

    first, *more = (Text(_seen(line), overflow="fold") for line in as_lines(step))
    tree = Tree(Group(first, *(Padding(line, (0, 0, 0, 2), expand=False) for line in more)))
    for part in step.parts:
        tree.children.append(_tree(part))
    return tree


@app.command(short_help="Give a table's rows with keys, units and values.")
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
        list[Path] | None,
        typer.Argument(help="Your own catalogue files, as under catalogue: in lawns.yaml; plain values will do."),
    ] = None,
) -> None:
    """List the products of the catalogue with their other names, and check every fact of it and of your own files."""
    from wbgen.files import shipped
    from wbgen.records.catalogue import load_catalogue

    with _told():
        found = load_catalogue([shipped.product_catalogue()], own or [])
        for product in found.products:
            rate = product.spray or product.dry
            contents = product.analysis.contents if product.analysis else {}
            analysis = ", ".join(f"{symbol} {share.text}" for symbol, share in contents.items())
            shown = rate.usual.text if rate else "no rate"
            also = f"; also {', '.join(product.synonyms)}" if product.synonyms else ""
            said = f"{product.form}, {product.family}; {shown}; {analysis or 'no analysis stated'}{also}"
            typer.echo(_seen(f"{product.name}: {said}"))
        typer.echo(f"{len(found.products)} products, {len(found.sources)} sources, no finding")
