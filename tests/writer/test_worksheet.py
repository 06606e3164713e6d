"""The worksheet that takes formulas as they stand: but for the type of a blank, the file is xlsxwriter's own."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Sequence
from html import escape
from itertools import product
from pathlib import Path
from typing import Any, Final

import pytest
import xlsxwriter
from xlsxwriter.worksheet import Worksheet

from support.planners import SYSTEMS, TODAY, site_text
from support.pocket_planner import POCKET, POCKET_SITE
from support.tier import others_thorough
from wbgen.build import build
from wbgen.inputs.design import Design
from wbgen.sheets.column import System
from wbgen.sheets.compile import STORED_WITH_PREFIX
from wbgen.sheets.proof.functions import RULES
from wbgen.writer import workbook
from wbgen.writer.worksheet import PlannerWorksheet

ROWS: Final = 60
SHEET: Final = "xl/worksheets/sheet1.xml"


def typed(sheet: str) -> str:
    """A sheet of xlsxwriter's own, in which the formulas that give the empty text say so."""
    return re.sub(r"(<c [^>]*)(><f>[^<]*</f><v></v></c>)", r'\1 t="str"\2', sheet)


@pytest.mark.parametrize(
    ("site", "system"),
    others_thorough(product(("pocket", "empty", "full"), SYSTEMS), [("pocket", "metric"), ("pocket", "us")]),
)
def test_a_planner_is_what_xlsxwriters_own_worksheet_gives_with_its_blanks_typed(
    site: str, system: System, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lawns = tmp_path / "lawns.yaml"
    lawns.write_text(POCKET_SITE if site == "pocket" else site_text(site), encoding="utf-8")
    design = POCKET if site == "pocket" else Design()

    def built(name: str) -> dict[str, str]:
        made = build(lawns, tmp_path / name, system=system, diary_rows=ROWS, today=TODAY, design=design)
        assert made.inputs.records["diary"] >= ROWS
        with zipfile.ZipFile(tmp_path / name) as file:
            return {part: file.read(part).decode("utf-8") for part in file.namelist()}

    ours = built("ours.xlsx")
    monkeypatch.setattr(workbook, "PlannerWorksheet", Worksheet)
    theirs = built("theirs.xlsx")
    assert list(ours) == list(theirs)
    assert [part for part, text in theirs.items() if typed(text) != ours[part]] == []
    assert [part for part, text in theirs.items() if text != ours[part]] != []


def written(
    path: Path, kind: type[Any], formulas: Sequence[str], values: Sequence[str | float], **options: bool
) -> str:
    """A sheet with one column of formulas, from the fourth row down."""
    with xlsxwriter.Workbook(str(path), options) as made:
        sheet = made.add_worksheet("Only", worksheet_class=kind)
        bold = made.add_format({"bold": True})
        for row, (formula, value) in enumerate(zip(formulas, values, strict=True), 3):
            sheet.write_formula(row, 2, formula, bold, value)
    with zipfile.ZipFile(path) as file:
        return file.read(SHEET).decode("utf-8")


VALUES: Final = (
    1.0, 0.1 + 0.2, -0.0, 1e-300, 1.5e22, 46203.0, "", "Go", "a & b < c > \"d\" 'e'", "#N/A", "#no error", "²³ ×",
    " x ", 7.0,
)  # fmt: skip


@pytest.mark.parametrize("equals", ["", "="])
@pytest.mark.parametrize(
    "formula",
    [
        "A4*2",
        'IF(OR(A4="",$B$4<>"<&>"),"",SUMIFS(Diary!$C$8:$C$408,Diary!$B$8:$B$408,A4&"*"))',
        "_xlfn.MAXIFS(B$4:B4,A$4:A4,A4)",
        'TEXTJOIN(",",TRUE,A4:B4)',
    ],
)
def test_any_value_is_stored_as_xlsxwriter_would(formula: str, equals: str, tmp_path: Path) -> None:
    formulas = [equals + formula] * len(VALUES)
    ours = written(tmp_path / "ours.xlsx", PlannerWorksheet, formulas, VALUES)
    assert ours == typed(written(tmp_path / "theirs.xlsx", Worksheet, formulas, VALUES))
    assert ours.count('t="str"') == sum(isinstance(value, str) and value != "#N/A" for value in VALUES)
    assert ours.count(f"<f>{escape(formula, quote=False)}</f>") == len(VALUES)


def test_xlsxwriter_would_put_a_prefix_before_no_function_of_the_templates(tmp_path: Path) -> None:
    """Its own worksheet is asked to complete each formula: it has nothing to add to what `compile` writes."""
    formulas = [f"{'_xlfn.' if name in STORED_WITH_PREFIX else ''}{name}(A4)" for name in sorted(RULES)]
    sheet = written(tmp_path / "theirs.xlsx", Worksheet, formulas, [1.0] * len(RULES), use_future_functions=True)
    assert [text for text in formulas if f"<f>{text}</f>" not in sheet] == []


def test_a_function_without_its_prefix_stays_without(tmp_path: Path) -> None:
    """What spares the search of each formula: else the test above would prove nothing of ours."""
    assert "<f>ACOT(A4)</f>" in written(
        tmp_path / "ours.xlsx", PlannerWorksheet, ["ACOT(A4)"], [1.0], use_future_functions=True
    )
    assert "<f>_xlfn.ACOT(A4)</f>" in written(
        tmp_path / "theirs.xlsx", Worksheet, ["ACOT(A4)"], [1.0], use_future_functions=True
    )
