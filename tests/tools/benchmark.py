"""Measures what a build and a verification take, against plain uses of the libraries below them, in one run.

    python tests/tools/benchmark.py                   a diary of 10 000 lines
    python tests/tools/benchmark.py --lines 1000 --parts build doublings
    python tests/tools/benchmark.py --check           exit code 1 where a figure is above its limit
    python tests/tools/benchmark.py --side-by-side    the programs beside each other, as a table for DEVELOPERS.md
    python tests/tools/benchmark.py --large           a planner of many lawns, once, twice and four times, as a table

The site is the starter's with a diary that a seed makes. Figures are ratios of processor time, which other programs
on the machine disturb little, and peaks of memory; the seconds beside them are for reading alone. How long `verify`
keeps a person waiting is measured by the clock, since it works on two processors. Every task runs in a
process of its own (`benchmark_tasks`). This process imports nothing heavy: a child's peak of memory begins with what
its parent held.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from pathlib import Path
from subprocess import PIPE, Popen
from tempfile import TemporaryDirectory
from typing import Final

TESTS: Final = Path(__file__).resolve().parents[1]
MEGABYTE: Final = 1e6
STARTS: Final = 7
"""So often a program is started to see how long that takes; the shortest counts."""

TURNS: Final = 3
"""So often what is compared in one ratio is run, in turn; the quickest run of each counts."""

HEAVY: Final = "import openpyxl, xlsxwriter, pint, numpy"

LIMITS: Final = {
    "build": 1.0,
    "verify": 1.0,
    "office": 0.5,
    "memory": 600.0,
    "doublings": 2.2,
    "help": 0.4,
}
"""The most that a figure may be: `memory`, of a build, in megabytes, the others ratios."""


@dataclass(frozen=True)
class Run:
    """One process: seconds of the processor and of the clock, megabytes at the peak, and what the task counted."""

    processor: float
    clock: float
    peak: float
    told: dict[str, float]


@dataclass(frozen=True)
class Figure:
    """A line of the table; `most` is its limit, None where it has none. `seconds` are those that a ratio is of."""

    what: str
    value: float
    most: float | None
    seconds: tuple[float, ...] = ()

    @property
    def over(self) -> bool:
        return self.most is not None and self.value > self.most


def ratio(what: str, one: Run, other: Run, most: float | None = None) -> Figure:
    return Figure(what, one.processor / other.processor, most, (one.processor, other.processor))


def ratio_of_waiting(what: str, one: Run, other: Run, most: float) -> Figure:
    return Figure(f"{what}, by the clock", one.clock / other.clock, most, (one.clock, other.clock))


def started(command: Sequence[str]) -> Run:
    """Run a program to its end, with the checkout's own modules before any others; its whole time counts."""
    environment = os.environ | {"PYTHONPATH": os.pathsep.join([str(TESTS.parent), str(TESTS)])}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    with Popen(command, stdout=PIPE, env=environment) as process:
        said = process.stdout.read() if process.stdout else b""
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit(f"{' '.join(command)} ended with {process.returncode}")
    told = json.loads(said) if said.startswith(b"{") else {}
    scale = 1 if sys.platform == "darwin" else 1024
    seconds = used.ru_utime + used.ru_stime
    return Run(told.get("processor", seconds), told.get("clock", 0.0), used.ru_maxrss * scale / MEGABYTE, told)


def compile_modules() -> None:
    """Compile wbgen's modules, as an installation does once and has done for the libraries: no task waits for it."""
    started([sys.executable, "-m", "compileall", "-q", str(TESTS.parent / "wbgen"), str(TESTS)])


def quickest(*arguments: str) -> Run:
    return min((started([sys.executable, *arguments]) for _ in range(STARTS)), key=lambda run: run.processor)


class Bench:
    """The tasks for one size of diary. A task runs when it is first asked for, and once."""

    def __init__(self, folder: Path, lines: int) -> None:
        self.folder, self.lines = folder, lines
        self.run = cache(self._run)
        self.in_turn = cache(self._in_turn)

    def _run(self, task: str, *arguments: object) -> Run:
        return started([sys.executable, str(TESTS / "tools" / "benchmark_tasks.py"), task, *map(str, arguments)])

    def _in_turn(self, *tasks: tuple[object, ...]) -> list[Run]:
        """The quickest run of each task: a machine changes its pace, and two single runs would show that alone."""
        turns = [[self._run(str(task), *arguments) for task, *arguments in tasks] for _ in range(TURNS)]
        return [min(runs, key=lambda run: run.processor) for runs in zip(*turns, strict=True)]

    def site(self, lines: int) -> Path:
        path = self.folder / f"site_{lines}.yaml"
        self.run("scenario", path, lines)
        return path

    def full(self, lines: int) -> tuple[Path, Run]:
        """The planner of a full diary."""
        path = self.folder / f"full_{lines}.xlsx"
        return path, self.run("build", self.site(lines), path, lines)

    def empty(self) -> tuple[Path, Run]:
        """The planner of an empty diary with as much room."""
        path = self.folder / "empty.xlsx"
        return path, self.run("build", self.site(0), path, self.lines)

    def without(self, *tables: str) -> Path:
        """The planner of the full diary with values in the columns that look across it."""
        path = self.folder / f"without_{'_'.join(tables)}.xlsx"
        self.run("build_without", self.site(self.lines), path, self.lines, *tables)
        return path

    @property
    def office(self) -> Path:
        """Where LibreOffice saves."""
        return self.folder / "office"

    def large(self, lawns: int, programme: int, lines: int) -> tuple[Path, Run]:
        """The planner of many lawns."""
        site, planner = (self.folder / f"large_{lawns}{end}" for end in (".yaml", ".xlsx"))
        self.run("large_scenario", site, lawns, programme, lines)
        return planner, self.run("build", site, planner, lines)

    def sizes(self) -> list[int]:
        """A tenth of the lines, and on by doubling."""
        return [size for power in range(4) if (size := max(1, self.lines // 10) * 2**power) <= self.lines]


def of_build(bench: Bench) -> Iterator[Figure]:
    for name, (planner, run) in (("empty", bench.empty()), ("full", bench.full(bench.lines))):
        noted = planner.with_suffix(".cells")
        bench.run("cells", planner, noted)
        plain = bench.run("bare", noted, planner.with_suffix(".bare.xlsx"))
        cells = f"{run.told['formula cells']:.0f} formula cells"
        if plain.told["formula cells"] != run.told["formula cells"]:
            raise SystemExit(f"the bare loop wrote {plain.told['formula cells']:.0f}, the build {cells}")
        yield ratio(f"build, {name} diary, {cells} / bare loop", run, plain, LIMITS["build"])
        yield Figure(f"build, {name} diary: MB at the peak", run.peak, LIMITS["memory"])
        yield Figure(f"bare loop, {name} diary: MB at the peak", plain.peak, None)


def of_verify(bench: Bench) -> Iterator[Figure]:
    for name, (planner, _) in (("empty", bench.empty()), ("full", bench.full(bench.lines))):
        run, plain = bench.in_turn(("verify", planner), ("loads", planner))
        what = f"verify, {name} diary / two loads by openpyxl"
        yield ratio_of_waiting(what, run, plain, LIMITS["verify"])
        yield ratio(what, run, plain)
        yield Figure(f"verify, {name} diary: MB at the peak", run.peak, LIMITS["memory"])
        yield Figure(f"two loads, {name} diary: MB at the peak", plain.peak, None)


def of_office(bench: Bench) -> Iterator[Figure]:
    for name, (planner, _) in (("empty", bench.empty()), ("full", bench.full(bench.lines))):
        run, plain = bench.in_turn(("verify", planner), ("recalculate", planner, bench.office))
        yield ratio(f"verify, {name} diary / LibreOffice recalculates", run, plain, LIMITS["office"])


def of_doublings(bench: Bench) -> Iterator[Figure]:
    for less, more in pairwise(bench.sizes()):
        (_, one), (_, other) = bench.full(less), bench.full(more)
        yield ratio(f"build, {less} → {more} lines", other, one, LIMITS["doublings"])


def of_verify_doublings(bench: Bench) -> Iterator[Figure]:
    for less, more in pairwise(bench.sizes()):
        one, other = (bench.run("verify", bench.full(lines)[0]) for lines in (less, more))
        yield ratio(f"verify, {less} → {more} lines", other, one, LIMITS["doublings"])


def of_across(bench: Bench) -> Iterator[Figure]:
    """What the columns that look at many lines of the diary at once add to the engine's work."""
    number = bench.run("columns_across").told
    whole = bench.run("evaluate", bench.full(bench.lines)[0])
    for groups, words in (
        (("diary",), f"{number['diary']:.0f} of the diary"),
        (("others",), f"{number['others']:.0f} of other tables"),
        (("diary", "others"), "both"),
    ):
        some = bench.run("evaluate", bench.without(*groups))
        yield ratio(f"engine, all / without the columns across: {words}", whole, some)
    for less, more in pairwise(bench.sizes()):
        one, other = (bench.run("evaluate", bench.full(lines)[0]) for lines in (less, more))
        yield ratio(f"engine, all, {less} → {more} lines", other, one)


def of_help(_: Bench) -> Iterator[Figure]:
    yield ratio("--help / heavy imports", quickest("-m", "wbgen", "--help"), quickest("-c", HEAVY), LIMITS["help"])


PARTS: Final[dict[str, Callable[[Bench], Iterator[Figure]]]] = {
    "help": of_help,
    "build": of_build,
    "doublings": of_doublings,
    "verify": of_verify,
    "verify-doublings": of_verify_doublings,
    "across": of_across,
    "office": of_office,
}


def side_by_side(bench: Bench) -> Iterator[str]:
    """Lines of Markdown: what each program needs for the planner of a full diary."""
    planner, built = bench.full(bench.lines)
    noted = planner.with_suffix(".cells")
    bench.run("cells", planner, noted)
    counted = f"A diary of {spaced(bench.lines)} lines, {spaced(built.told['formula cells'])} formula cells"
    yield f"| {counted} | processor, s | clock, s | peak, MB |"
    yield "|---|---|---|---|"
    tasks: tuple[tuple[str, Sequence[object]], ...] = (
        ("xlsxwriter: the same cells in a bare loop", ("bare", noted, planner.with_suffix(".bare.xlsx"))),
        ("wbgen: verify, four witnesses", ("verify", planner)),
        ("openpyxl: load twice, formulas and values", ("loads", planner)),
        ("formualizer: load and evaluate", ("evaluate", planner)),
        ("LibreOffice: load, recalculate all, save", ("recalculate", planner, bench.office)),
        ("IronCalc: load and evaluate", ("evaluate_by_ironcalc", planner)),
    )
    yield beside("wbgen: build", built)
    for what, (task, *arguments) in tasks:
        yield beside(what, bench.run(task, *arguments))


LARGE: Final = {"lawns": 50, "lines of the programme": 15, "lines of the diary": 1250}
"""The sizes that `--large` begins with; four times that is a planner for a greenkeeper of 200 lawns."""
TIMES: Final = (1, 2, 4)


def large(bench: Bench, sizes: Sequence[int]) -> Iterator[str]:
    """Lines of Markdown: what a planner of many lawns takes at these sizes, once, twice and four times."""
    heads = " | ".join(
        f"{times}×: {', '.join(f'{spaced(times * size)} {what}' for what, size in zip(LARGE, sizes, strict=True))}"
        for times in TIMES
    )
    yield f"| | {heads} |"
    yield "|---|" + "---|" * len(TIMES)
    planners = [bench.large(*(times * size for size in sizes)) for times in TIMES]
    yield "| formula cells | " + " | ".join(spaced(built.told["formula cells"]) for _, built in planners) + " |"
    tasks: tuple[tuple[str, Callable[[Path, Run], Run]], ...] = (
        ("wbgen: build", lambda _, built: built),
        ("wbgen: verify, four witnesses", lambda planner, _: bench.run("verify", planner)),
        (
            "LibreOffice: load, recalculate all, save",
            lambda planner, _: bench.run("recalculate", planner, bench.office),
        ),
    )
    for what, task in tasks:
        runs = [task(*planner) for planner in planners]
        yield f"| {what}, s | " + " | ".join(f"{run.processor:.1f}" for run in runs) + " |"
        yield f"| {what}, MB | " + " | ".join(f"{run.peak:.0f}" for run in runs) + " |"


def beside(what: str, run: Run) -> str:
    """A program's line of that table: seconds of the processor and of the clock, megabytes."""
    return f"| {what} | {run.processor:.1f} | {run.clock:.1f} | {run.peak:.0f} |"


def spaced(count: float) -> str:
    """A count with a space between its thousands."""
    return f"{count:,.0f}".replace(",", " ")


def row(figure: Figure) -> str:
    most = "" if figure.most is None else f"{figure.most:.4g}"
    seconds = " / ".join(f"{one:.2f}" for one in figure.seconds)
    return f"{figure.what:<74}{figure.value:>8.4g}{most:>9}  {'over' if figure.over else '':<6}{seconds}"


def main(arguments: Sequence[str]) -> int:
    parser = argparse.ArgumentParser(description="What a build and a verification take, as ratios.")
    parser.add_argument("--lines", type=int, default=10_000, help="lines of the diary")
    parser.add_argument("--parts", nargs="+", choices=PARTS, default=list(PARTS), help="what to measure")
    parser.add_argument("--check", action="store_true", help="exit code 1 where a figure is above its limit")
    parser.add_argument("--side-by-side", action="store_true", help="a table of programs instead")
    parser.add_argument(
        "--large", nargs="*", type=int, metavar="N", help="a planner of many lawns: lawns, programme, diary at once"
    )
    asked = parser.parse_args(arguments)
    compile_modules()
    if asked.large is not None:
        with TemporaryDirectory(prefix="wbgen-benchmark-") as folder:
            for line in large(Bench(Path(folder), asked.lines), asked.large or list(LARGE.values())):
                print(line, flush=True)
        return 0
    if asked.side_by_side:
        with TemporaryDirectory(prefix="wbgen-benchmark-") as folder:
            for line in side_by_side(Bench(Path(folder), asked.lines)):
                print(line, flush=True)
        return 0
    print(f"{'figure':<74}{'value':>8}{'at most':>9}  {'':<6}seconds", flush=True)
    over = False
    with TemporaryDirectory(prefix="wbgen-benchmark-") as folder:
        bench = Bench(Path(folder), asked.lines)
        for part in asked.parts:
            for figure in PARTS[part](bench):
                print(row(figure), flush=True)
                over |= figure.over
    return int(over and asked.check)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
