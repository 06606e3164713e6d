"""Every file that is written keeps to the schemas of Office Open XML, and to what these leave unsaid.

The schemas and the rules beyond them are openxml-audit's, which knows nothing of this project or of its writer.
"""

from __future__ import annotations

import re
import zipfile
from pathlib import Path
from typing import Final

import pytest
from openxml_audit import FileFormat, OpenXmlValidator

from support.edits import edited, formula, replaced
from support.planners import ALL, Planners
from wbgen.files.xlsx.addresses import address
from wbgen.sheets.column import System
from wbgen.verify import report, verification

QUICK: Final = (("empty", "us"),)
SIX: Final = [pytest.param(*one, marks=() if one in QUICK else pytest.mark.thorough, id="-".join(one)) for one in ALL]

SHEET: Final = "xl/worksheets/sheet1.xml"
UNTYPED: Final = re.compile(r'<c r="([A-Z]+[0-9]+)"(?: s="[0-9]+")?>(?:<f>[^<]*</f>)?<v>([^<]*)</v></c>')
NUMBER: Final = re.compile(r"-?[0-9]+(\.[0-9]+)?(E[+-]?[0-9]+)?", re.IGNORECASE)


def faults(path: Path) -> list[str]:
    """What is wrong in a file, with its part."""
    result = OpenXmlValidator(file_format=FileFormat.OFFICE_2019).validate(path)
    return [f"{one.part_uri}: {one.description}" for one in result.errors]


def values_that_are_no_numbers(path: Path) -> list[str]:
    """The cells that give a value without saying its type, which is a number then, and is none.

    In the schemas every value is a text, so that they do not tell.
    """
    with zipfile.ZipFile(path) as file:
        return [
            f"{part} {cell}: {value!r}"
            for part in file.namelist()
            if part.startswith("xl/worksheets/sheet")
            for cell, value in UNTYPED.findall(file.read(part).decode("utf-8"))
            if not NUMBER.fullmatch(value)
        ]


@pytest.mark.parametrize(("site", "system"), SIX)
def test_a_planner_keeps_to_the_schemas(site: str, system: System, planners: Planners) -> None:
    assert faults(planners.get(site, system).path) == []


@pytest.mark.parametrize(("site", "system"), SIX)
def test_every_value_of_a_planner_is_of_its_type(site: str, system: System, planners: Planners) -> None:
    assert values_that_are_no_numbers(planners.get(site, system).path) == []


@pytest.fixture(scope="module")
def findings(planners: Planners, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The report on a planner with a cause and what follows from it: links, text and numbers."""
    folder = tmp_path_factory.mktemp("findings")
    built = planners.get("empty", "metric")
    changed = {("Lawns", address(*built.placed["lawns"].cell("area"))): formula(lambda text: f"({text})*2")}
    result = verification.verify(edited(built.path, folder / "my planner #1.xlsx", changed))
    assert result.findings
    report.write_report(result, folder / "findings.xlsx")
    return folder / "findings.xlsx"


def test_the_workbook_of_findings_keeps_to_the_schemas(findings: Path) -> None:
    assert faults(findings) == []
    assert values_that_are_no_numbers(findings) == []


@pytest.mark.parametrize(
    ("part", "sound", "broken", "word"),
    [
        (SHEET, "<sheetData>", "<sheetData><unknown/>", "unknown"),
        (SHEET, ' t="s"', ' t="wrong"', "wrong"),
        (SHEET, "<pageMargins ", "<pageMarkings ", "pageMarkings"),
        ("xl/styles.xml", ' horizontal="left"', ' horizontal="lift"', "lift"),
        ("xl/workbook.xml", "<sheet name=", "<sheet nome=", "name"),
        ("xl/_rels/workbook.xml.rels", "worksheets/sheet1.xml", "worksheets/sheet9.xml", "sheet9.xml"),
    ],
)
def test_a_planted_fault_is_found(
    part: str, sound: str, broken: str, word: str, findings: Path, tmp_path: Path
) -> None:
    found = faults(replaced(findings, tmp_path / "planted.xlsx", part, sound, broken))
    assert any(word in fault for fault in found), found


def test_a_blank_without_its_type_is_found(planners: Planners, tmp_path: Path) -> None:
    built = planners.get("empty", "metric").path
    with zipfile.ZipFile(built) as file:
        blank = re.search(r'<c [^>]* t="str"><f>[^<]*</f><v></v></c>', file.read(SHEET).decode("utf-8"))
    assert blank
    planted = replaced(built, tmp_path / "planted.xlsx", SHEET, blank[0], blank[0].replace(' t="str"', ""))
    (found,) = values_that_are_no_numbers(planted)
    assert found.startswith(SHEET)
    assert found.endswith(": ''")
