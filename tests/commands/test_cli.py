"""The commands: what they print, with what code they end, and that a person's mistake is never a traceback."""

from __future__ import annotations

import csv
import io
import json
import os
import re
import subprocess
import sys
from inspect import signature
from pathlib import Path
from typing import Any, Final

import openpyxl
import pytest
import typer
from typer.core import TyperGroup
from typer.testing import CliRunner

from support.command import CANNOT, CLEAN, FINDINGS, ROOT, run
from support.edits import edited, formula, typed
from support.planners import Built, Planners
from support.tier import others_thorough
from wbgen import __version__
from wbgen import cli as commands
from wbgen.build import DIARY_ROWS
from wbgen.cli import app
from wbgen.files import shipped
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.package import inspect

COMMANDS: Final = ("new", "build", "verify", "explain", "export", "catalogue")
STARTER: Final = shipped.starter()
HEAVY: Final = ("pint", "numpy", "openpyxl", "xlsxwriter", "formualizer", "pydantic", "yaml")


@pytest.fixture(params=others_thorough(["pocket", "full"], ["pocket"]))
def built(request: pytest.FixtureRequest, planners: Planners) -> Built:
    """A planner that the commands take for their own."""
    if request.param == "pocket":
        request.getfixturevalue("pocket_by_default")
    return planners.get(request.param, "metric")


def by_process(*arguments: object, cwd: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "wbgen", *map(str, arguments)],
        cwd=cwd, env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, check=False, timeout=120,
    )  # fmt: skip


def test_a_newcomer_comes_from_nothing_to_a_verified_planner(tmp_path: Path) -> None:
    """Three processes in an empty folder, as the first lines of the manual have it."""
    made = by_process("new", "mine", cwd=tmp_path)
    assert (made.returncode, made.stderr) == (CLEAN, "")
    assert (tmp_path / "mine" / "lawns.yaml").read_bytes() == STARTER.read_bytes()
    wrote = by_process("build", "mine/lawns.yaml", "-o", "planner.xlsx", cwd=tmp_path)
    assert (wrote.returncode, wrote.stderr) == (CLEAN, "")
    assert wrote.stdout.startswith("wrote planner.xlsx: ")
    assert re.search(r": \d{5} formula cells, \d\d sheets$", wrote.stdout.rstrip())
    checked = by_process("verify", "planner.xlsx", cwd=tmp_path)
    assert (checked.returncode, checked.stderr) == (CLEAN, "")
    assert "3 of 4 witnesses (text, engine, model): no finding" in checked.stdout
    assert sorted(path.name for path in tmp_path.iterdir()) == ["mine", "planner.xlsx"]


def test_help_is_quick_because_it_loads_nothing_heavy(tmp_path: Path) -> None:
    seen = by_process("--help", cwd=tmp_path)
    assert (seen.returncode, seen.stderr) == (CLEAN, "")
    for command in COMMANDS:
        assert command in seen.stdout
    asked = (
        "import sys; sys.argv = ['wbgen', '--help']\nfrom wbgen.cli import app\n"
        f"try: app()\nexcept SystemExit: print('LOADED', sorted(set({HEAVY!r}) & set(sys.modules)))"
    )
    loaded = subprocess.run(
        [sys.executable, "-c", asked], cwd=ROOT, capture_output=True, text=True, check=True, timeout=60
    )
    assert loaded.stdout.rstrip().endswith("LOADED []")


def test_it_says_its_version() -> None:
    assert run("--version").output == f"wbgen {__version__}\n"


def test_the_command_builds_as_long_a_diary_as_the_function() -> None:
    """The number stands in both: the command line must not import what builds before it is asked to."""
    assert signature(commands.build).parameters["diary_rows"].default == DIARY_ROWS


def test_every_command_is_in_the_manual() -> None:
    group = typer.main.get_command(app)
    assert isinstance(group, TyperGroup)
    assert sorted(group.commands) == sorted(COMMANDS)
    manual = (ROOT / "README.md").read_text("utf-8")
    for name, command in group.commands.items():
        assert f"`wbgen {name}" in manual, name
        for option in (one for parameter in command.params for one in parameter.opts if one.startswith("--")):
            if option not in ("--help", "--output"):
                assert option in manual, f"{name} {option}"


@pytest.mark.parametrize("arguments", [[], ["mow"], ["verify"], ["build", "a.yaml", "--units", "furlongs"]])
def test_a_call_that_is_none_ends_with_the_usage(arguments: list[str]) -> None:
    assert "Usage:" in run(*arguments, code=CANNOT).output


def test_new_leaves_what_is_there(tmp_path: Path) -> None:
    (tmp_path / "lawns.yaml").write_text("mine", encoding="utf-8")
    assert "stands there already" in run("new", tmp_path, code=CANNOT).stderr
    assert (tmp_path / "lawns.yaml").read_text("utf-8") == "mine"


def test_new_into_a_file_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    assert run("new", tmp_path / "file", code=CANNOT).stderr.strip()


@pytest.mark.parametrize("command", ["verify", "explain", "export"])
@pytest.mark.parametrize("content", [None, b"", b"no workbook", b"PK\x03\x04 broken"])
def test_what_is_no_planner_is_told(tmp_path: Path, command: str, content: bytes | None) -> None:
    path = tmp_path / "planner.xlsx"
    if content is not None:
        path.write_bytes(content)
    more = {"verify": [], "explain": ["Mix!D9"], "export": ["diary"]}[command]
    assert run(command, path, *more, code=CANNOT).stderr.strip()


@pytest.mark.parametrize("built", ["pocket", "full"], indirect=True)  # judged alone, each function has plain figures
def test_verify_says_where_the_cause_is(built: Built, tmp_path: Path) -> None:
    at = address(*built.placed["lawns"].cell("area"))
    path = edited(built.path, tmp_path / "planner.xlsx", {("Lawns", at): formula(lambda text: f"({text})*2")})
    said = run("verify", path, code=FINDINGS).output.splitlines()
    assert said[0].startswith(f"Lawns!{at}: formula changed: ")
    assert said[1].endswith("*2")
    assert any("cells follow from it: " in line for line in said)
    assert any("1 findings, " in line for line in said)


def test_verify_as_json(built: Built, tmp_path: Path) -> None:
    found = json.loads(run("verify", built.path, "--json").stdout)
    cells = built.made.formula_cells
    assert (found["format"], found["version"], found["clean"]) == ("wbgen-verify", 1, True)
    assert found["witnesses"] == {"text": cells, "engine": cells, "model": cells, "cached": 0}
    assert found["cells"]["formulas"] == cells
    assert found["cells"]["all"] == sum(number for kind, number in found["cells"].items() if kind != "all")
    assert found["findings"] == found["warnings"] == []
    assert {one["kind"] for one in found["notices"]} <= {"setting changed"}
    at = address(*built.placed["lawns"].cell("area"))
    path = edited(built.path, tmp_path / "planner.xlsx", {("Lawns", at): typed(7.0)})
    findings = json.loads(run("verify", path, "--json", code=FINDINGS).stdout)["findings"]
    keys = {"sheet", "cell", "heading", "kind", "found", "expected", "message", "units", "cause", "do"}
    assert all(set(one) == keys for one in findings)
    assert [(one["sheet"], one["cell"], one["kind"]) for one in findings if one["cause"] is None] == [
        ("Lawns", at, "typed over")
    ]
    assert all(one["cause"] in (None, {"sheet": "Lawns", "cell": at}) for one in findings)


def test_explain_goes_down_to_what_was_typed(built: Built) -> None:
    lawns = built.placed["lawns"]
    at, typed_at = (address(*lawns.cell(key)) for key in ("area", "typed_area"))
    said = run("explain", built.path, f"Lawns!{at}").stdout
    assert said.startswith(f"Lawns!{at}  Lawns: Area = 240 m²")
    assert "witnesses: text same; engine 240 m²; model 240 m²; cached none: not recalculated" in said
    assert f"Lawns!{typed_at}  Lawns: Area typed = 240 m²" in said
    assert "Area typed" not in run("explain", built.path, f"Lawns!{at}", "--depth", "1").stdout


@pytest.mark.parametrize("where", ["Lawns", "Nowhere!A1", "Lawns!A1", ""])
def test_a_place_without_a_figure_is_told(planners: Planners, where: str) -> None:
    assert "nothing to explain" in run("explain", planners.get("empty", "metric").path, where, code=CANNOT).stderr


@pytest.mark.usefixtures("pocket_by_default")
def test_a_date_that_no_calendar_has_is_told_as_its_number(planners: Planners, tmp_path: Path) -> None:
    built = planners.get("pocket", "metric")
    diary = built.placed["diary"]
    odd = {address(*diary.cell("date", record)): number for record, number in enumerate([1e7, -8e5, 1e300])}
    path = edited(built.path, tmp_path / "far.xlsx", {(diary.sheet, at): typed(odd[at]) for at in odd})
    csv_text, json_text = (run("export", path, "diary", "--format", form).stdout for form in ("csv", "json"))
    said = run("verify", path, code=FINDINGS).stdout
    for at, number in odd.items():
        assert f"Date = {number:.15g}" in run("explain", path, f"Diary!{at}").stdout
        assert f'"{number:.15g}"' in run("explain", path, f"Diary!{at}", "--json").stdout
        assert f"{number:.15g}" in csv_text
        assert f"{number:.15g}" in json_text
        assert f"Diary!{at}" in said


def test_export_gives_a_table_to_other_programs(built: Built) -> None:
    said = run("export", built.path, "diary").stdout
    keys, units, *rows = list(csv.reader(io.StringIO(said)))
    assert len(rows) == sum(lawn != "" for lawn in built.inputs.values["diary"]["lawn"]) >= 5
    line = dict(zip(keys, rows[0], strict=True))
    assert dict(zip(keys, units, strict=True))["weighed"] == "g"
    assert line["date"][:2] == "20"
    assert line["note"] == "'=SUM(A1)"
    whole = json.loads(run("export", built.path, "diary", "--format", "json").stdout)
    assert [column["key"] for column in whole["columns"]] == keys
    assert whole["rows"][0]["note"] == "=SUM(A1)"
    for row, plain in zip(rows, whole["rows"], strict=True):
        number: Any = plain["applied_mass"]
        assert row[keys.index("applied_mass")] == ("" if number is None else str(number))


def test_an_unknown_table_is_told_with_the_nearest(built: Built) -> None:
    assert "did you mean diary?" in run("export", built.path, "dairy", code=CANNOT).stderr


def test_catalogue_lists_and_checks(tmp_path: Path) -> None:
    said = run("catalogue").stdout
    assert "Urea: soluble powder" in said
    assert "N 46 %; also carbamide" in said
    assert "no finding" in said.splitlines()[-1]
    own = tmp_path / "own.yaml"
    own.write_text("products:\n  - {name: Own salt, form: soluble powdr, family: salts}\n", encoding="utf-8")
    wrong = run("catalogue", own, code=CANNOT).stderr
    assert f"{own}:2:28: " in wrong
    assert "soluble powder" in wrong


def test_a_built_planner_is_a_plain_file(planners: Planners) -> None:
    assert inspect(planners.get("starter", "us").path).notes == ()


HIDDEN: Final = "Back \u202elawn\u2066\x9b2J\x85\u200b"
"""A name with marks that turn a line around, that a terminal takes for commands, and that nobody sees."""


@pytest.mark.parametrize("command", [("verify",), ("explain", "Lawns!{}")])
def test_what_cannot_be_seen_does_not_reach_the_terminal(
    planners: Planners, tmp_path: Path, command: tuple[str, ...]
) -> None:
    planner = planners.get("starter", "metric")
    lawns = planner.placed["lawns"]
    cell = address(*lawns.cell("name", 1))
    path = edited(planner.path, tmp_path / "planner.xlsx", {(lawns.sheet, cell): typed(HIDDEN)})
    result = CliRunner().invoke(app, [command[0], str(path), *(one.format(cell) for one in command[1:])])
    assert "Back" in result.output
    assert [one for one in result.output if not one.isprintable() and one != "\n"] == []
    assert "\\u202e" in result.output


@pytest.mark.parametrize(
    ("what", "reason"),
    [
        ("a text", "not a planner"),
        ("a stranger's sheet", "not a planner"),
        ("cut short", "unsafe"),
        ("none", "cannot be judged"),
    ],
)
def test_a_script_is_told_why_a_file_is_refused(built: Built, tmp_path: Path, what: str, reason: str) -> None:
    path = tmp_path / "planner.xlsx"
    if what == "a stranger's sheet":
        openpyxl.Workbook().save(path)
    elif what != "none":
        path.write_bytes(b"a text" if what == "a text" else built.path.read_bytes()[:-100])
    said = run("verify", path, "--json", code=CANNOT)
    told = json.loads(said.stdout)
    assert (told["format"], told["clean"], told["refused"]["reason"]) == ("wbgen-verify", False, reason)
    assert told["refused"]["do"] in said.stderr
    assert set(told) == {"format", "version", "workbook", "clean", "refused"}


@pytest.mark.parametrize("strict", [(), ("--strict",)])
def test_warnings_end_with_an_exit_code_where_that_is_asked_for(
    planners: Planners, tmp_path: Path, strict: tuple[str, ...]
) -> None:
    """A fact that no formula reads is not the catalogue's; a notice alone, and nothing, leave the code at 0."""
    planner = planners.get("starter", "metric")
    assert run("verify", planner.path, *strict).exit_code == CLEAN
    products = planner.placed["products"]
    changed = {(products.sheet, address(*products.cell("nitrate_nitrogen"))): typed(0.02)}
    path = edited(planner.path, tmp_path / "planner.xlsx", changed)
    result = run("verify", path, *strict, code=FINDINGS if strict else CLEAN)
    assert ("warnings count as findings" in result.stderr) == bool(strict)
