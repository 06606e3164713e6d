"""Conditional formats that let figures vanish or show otherwise are named; others are not."""

from __future__ import annotations

from pathlib import Path
from typing import Final

import pytest

from support.edits import replaced
from support.office import resave
from support.planners import SYSTEMS, Built, Planners
from support.tier import others_thorough
from wbgen.files.findings import Kind
from wbgen.files.xlsx.addresses import address
from wbgen.sheets.column import System
from wbgen.verify.report import write_report
from wbgen.writer.styles import DESK, INK, PAPER

STYLES: Final = "xl/styles.xml"


@pytest.fixture
def planner(planners: Planners) -> Built:
    return planners.get("pocket", "metric")


def part_of(planner: Built, sheet: str) -> str:
    return f"xl/worksheets/sheet{planner.sheets.sheetnames.index(sheet) + 1}.xml"


def told(planner: Built, path: Path) -> set[tuple[str, str]]:
    findings = planner.verify(path).findings
    assert {one.kind for one in findings} <= {Kind.CONDITIONAL_FORMAT}
    assert {one.kind.remedy for one in findings} <= {Kind.CONDITIONAL_FORMAT.remedy}
    return {(one.sheet, one.cell) for one in findings}


def with_rules(planner: Built, folder: Path, rules: dict[str, tuple[str, str]]) -> Path:
    """The planner with more looks and, on the sheet Lawns, rules over these cells; {at} in a rule is the first cell."""
    looks = "".join(f"<dxf>{look}</dxf>" for look, _ in rules.values())
    looked = replaced(planner.path, folder / "look.xlsx", STYLES, "</dxfs>", f"{looks}</dxfs>")
    whole = "".join(
        f'<conditionalFormatting sqref="{cells}"><cfRule dxfId="{number}" priority="{90 + number}" '
        f"{rule.replace('{at}', cells.partition(':')[0])}</cfRule></conditionalFormatting>"
        for number, (cells, (_, rule)) in enumerate(rules.items(), len(planner.file.index.looks))
    )
    at = "<dataValidations"
    return replaced(looked, folder / "rule.xlsx", part_of(planner, "Lawns"), at, whole + at)


def font(colour: str) -> str:
    return f"<font><color {colour}/></font>"


def fill(colour: str) -> str:
    return f'<fill><patternFill><bgColor rgb="{colour}"/></patternFill></fill>'


ALWAYS: Final = 'type="expression"><formula>TRUE</formula>'
VANISHING: Final = {
    "another figure": ('<numFmt numFmtId="200" formatCode="&quot;120&quot;"/>', ALWAYS),
    "no decimals of figures that have some": ('<numFmt numFmtId="1" formatCode="0"/>', ALWAYS),
    "fewer decimals than were looked at": (
        '<numFmt numFmtId="1" formatCode="0"/>',
        'type="expression"><formula>AND(ISNUMBER({at}),ROUND({at},1)={at})</formula>',
    ),
    "another cell looked at": (
        '<numFmt numFmtId="1" formatCode="0"/>',
        'type="expression"><formula>AND(ISNUMBER(Z5),ROUND(Z5,0)=Z5)</formula>',
    ),
    "white on white": (font('rgb="FFFFFFFF"'), ALWAYS),
    "the paper's colour by its number": (font('indexed="9"'), ALWAYS),
    "the paper's colour of the theme": (font('theme="0"'), ALWAYS),
    "pale on white": (font('rgb="FFFFFF99"'), ALWAYS),
    "as the fill": (font('rgb="FF003300"') + fill("FF003300"), ALWAYS),
    "ink under a dark fill": (fill("FF101010"), ALWAYS),
    "where an empty cell of no table is empty": (
        font('rgb="FFFFFFFF"'),
        'type="expression"><formula>$AZ5=""</formula>',
    ),
    "letters of no height": ('<font><sz val="1"/></font>', ALWAYS),
    "a bar in the place of the figure": ("", 'type="dataBar"><dataBar showValue="0"/>'),
    "where the figures are above 0": (
        font('rgb="FFFFFFFF"'),
        'type="cellIs" operator="greaterThan"><formula>0</formula>',
    ),
}  # fmt: skip
HARMLESS: Final = {
    "red": (font('rgb="FFC00000"'), ALWAYS),
    "dark on a light fill": (fill("FFFFC7CE"), ALWAYS),
    "white on a dark fill": (font('rgb="FFFFFFFF"') + fill("FF003300"), ALWAYS),
    "bold": ("<font><b/></font>", ALWAYS),
    "a bar beside the figure": ("", 'type="dataBar"><dataBar/>'),
}


def test_rules_under_which_figures_are_not_seen_are_named_and_others_not(planners: Planners, tmp_path: Path) -> None:
    planner = planners.get("starter", "metric")
    rules = {f"C{row}:D{row}": rule for row, rule in enumerate(VANISHING.values(), 5)}
    others = {f"E{row}:F{row}": rule for row, rule in enumerate(HARMLESS.values(), 6)}
    beyond = {"BA500:BB600": (font('rgb="FFFFFFFF"'), ALWAYS)}
    path = with_rules(planner, tmp_path, {**rules, **others, **beyond})
    found = told(planner, path)
    assert [name for name, cells in zip(VANISHING, rules, strict=True) if ("Lawns", cells) not in found] == []
    assert found == {("Lawns", cells) for cells in rules}
    write_report(planner.verify(path), tmp_path / "report.xlsx")
    assert (tmp_path / "report.xlsx").stat().st_size


@pytest.mark.parametrize("look", [font('rgb="FFFFFFFF"'), '<numFmt formatCode="&quot;7&quot;"/>'])
def test_a_rule_in_an_extension_is_read(planner: Built, tmp_path: Path, look: str) -> None:
    rule = (
        '<extLst><ext xmlns:n="urn:n" xmlns:m="urn:m"><n:conditionalFormattings><n:conditionalFormatting>'
        f'<n:cfRule type="expression"><m:f>TRUE</m:f><n:dxf>{look}</n:dxf></n:cfRule><m:sqref>C6:C9</m:sqref>'
        "</n:conditionalFormatting></n:conditionalFormattings></ext></extLst></worksheet>"
    )
    path = replaced(planner.path, tmp_path / "rule.xlsx", part_of(planner, "Lawns"), "</worksheet>", rule)
    assert told(planner, path) == {("Lawns", "C6:C9")}


def test_a_rule_of_the_planners_turned_against_it_is_named(planner: Built, tmp_path: Path) -> None:
    """Its looks are the planner's own: only the condition is another."""
    card = next(one for one in planner.placed.values() if one.sheet == "Card" and one.table.vanish)
    key = address(card.first, card.at[card.table.vanish or ""])
    for changed in ("1=1", f'${key}&lt;&gt;"x"', f'${address(card.first, max(card.at.values()) + 40)}=""'):
        path = replaced(planner.path, tmp_path / "rule.xlsx", part_of(planner, "Card"), f'${key}=""', changed)
        ((sheet, cells),) = told(planner, path)
        assert sheet == "Card"
        assert cells.startswith(address(card.first, min(card.at.values())))


@pytest.mark.parametrize("system", others_thorough(SYSTEMS, []))
def test_the_planners_own_rules_are_read_and_no_finding_before_and_after_a_program_saved_them(
    planners: Planners, system: System, tmp_path: Path
) -> None:
    planner = planners.get("full", system)
    rules = [rule for sheet in planner.file.sheets for rule in sheet.content.rules]
    looks = [planner.file.index.look_of(rule.look) for rule in rules]
    assert {look.number_format for look in looks} == {None, "0", "0.0"}
    assert {look.font for look in looks} == {None} | {one.removeprefix("#") for one in (INK, DESK, PAPER)}
    assert all(rule.cells and (rule.formulas or rule.kind == "dataBar") for rule in rules)
    assert {rule.kind for rule in rules} == {"expression", "cellIs", "dataBar"}
    assert told(planner, planner.path) == set()
    assert told(planner, resave(planner.path, tmp_path)) == set()
