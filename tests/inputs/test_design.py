"""Templates and model that do not belong together are told with their place, by every command."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Final

import pytest
from typer.testing import CliRunner

from support.pocket_planner import POCKET, POCKET_SITE
from wbgen import build as building
from wbgen.cli import app
from wbgen.export import export
from wbgen.files.diagnostics import Diagnostic, InputError
from wbgen.files.xlsx.addresses import address
from wbgen.inputs.design import NEEDED, Design
from wbgen.sheets.book import Templates
from wbgen.verify.explain.explain import explain

MONTH: Final = "- {key: month,"
WORDS: Final = "- {key: words,"


def spoiled(folder: Path, file: str, old: str, new: str) -> Design:
    """The pocket planner's design with one text of its templates made another."""
    shutil.copytree(POCKET.templates.folder, folder / "templates")
    path = folder / "templates" / file
    text = path.read_text("utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), "utf-8")
    return Design(Templates(folder / "templates"), POCKET.functions)


def told(design: Design) -> tuple[Diagnostic, ...]:
    with pytest.raises(InputError) as raised:
        design.book("metric")
    return raised.value.diagnostics


def test_a_column_without_a_function_is_told_where_its_formula_stands(tmp_path: Path) -> None:
    added = "- {key: monht, heading: Monht, digits: 0, formula: MONTH(date)}\n      " + MONTH
    (found,) = told(spoiled(tmp_path, "diary.yaml", MONTH, added))
    line = (tmp_path / "templates" / "diary.yaml").read_text("utf-8").splitlines()[found.place.line - 1]
    assert (found.code, found.place.file) == ("no-function", str(tmp_path / "templates" / "diary.yaml"))
    assert line[found.place.column - 1 :].startswith("MONTH(date)")
    assert "diary.monht" in found.message
    assert found.remedy == "did you mean month?"


def test_a_function_without_a_column_is_told_where_its_table_begins(tmp_path: Path) -> None:
    design = spoiled(tmp_path, "diary.yaml", WORDS, "- {key: sword,")
    found = {one.code: one for one in told(design)}
    assert found.keys() == {"no-function", "no-formula"}
    assert found["no-formula"].place.file == str(tmp_path / "templates" / "diary.yaml")
    assert "words of the model" in found["no-formula"].message


@pytest.mark.parametrize("key", NEEDED)
def test_a_form_start_that_lacks_what_the_commands_need_is_told(tmp_path: Path, key: str) -> None:
    found = told(spoiled(tmp_path, "start.yaml", f"- {{key: {key},", f"- {{key: other_{key},"))
    lacking = [one for one in found if one.code in ("missing-column", "unknown-column")]
    assert any(key in one.message for one in lacking), found
    assert all(one.place.line for one in found)


def test_a_build_tells_of_it_with_exit_code_2(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    design = spoiled(tmp_path, "diary.yaml", WORDS, "- {key: sword,")
    (tmp_path / "lawns.yaml").write_text(POCKET_SITE, "utf-8")
    monkeypatch.setattr(building, "Design", lambda: design)
    ran = CliRunner().invoke(app, ["build", str(tmp_path / "lawns.yaml"), "-o", str(tmp_path / "planner.xlsx")])
    assert ran.exit_code == 2
    assert isinstance(ran.exception, SystemExit)
    assert "diary.sword has no function in the model" in ran.output
    assert not (tmp_path / "planner.xlsx").exists()


def test_explain_and_export_take_a_design(tmp_path: Path) -> None:
    (tmp_path / "lawns.yaml").write_text(POCKET_SITE, "utf-8")
    made = building.build(tmp_path / "lawns.yaml", tmp_path / "mine.xlsx", diary_rows=10, design=POCKET)
    assert made.formula_cells < 600
    rows = export(tmp_path / "mine.xlsx", "lawns", POCKET).rows
    assert [row["name"] for row in rows] == ["Terrace", "Bank"]
    sheet, at = made.layout.placed["lawns"].sheet, made.layout.placed["lawns"].cell("area")
    step = explain(tmp_path / "mine.xlsx", f"{sheet}!{address(*at)}", design=POCKET)
    assert step.role == "formula"
    with pytest.raises(InputError):
        export(tmp_path / "mine.xlsx", "programme", POCKET)


def test_a_planner_without_a_diary_is_overwritten_when_asked(tmp_path: Path) -> None:
    """Only what the templates have can be lost."""
    (tmp_path / "lawns.yaml").write_text(POCKET_SITE.partition("diary:")[0], "utf-8")
    target = tmp_path / "mine.xlsx"
    for force in (False, True):
        building.build(tmp_path / "lawns.yaml", target, diary_rows=10, design=POCKET, force=force)
    with pytest.raises(InputError, match="--force"):
        building.build(tmp_path / "lawns.yaml", target, diary_rows=10, design=POCKET)
