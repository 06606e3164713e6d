"""The workbook of findings: what it holds, where its links lead, what it overwrites (nothing); the bar meanwhile."""

from __future__ import annotations

import json
import os
import pty
import subprocess
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any, Final
from urllib.parse import unquote

import openpyxl
import pytest
from openpyxl.worksheet.worksheet import Worksheet

from support.command import CANNOT, CLEAN, FINDINGS, ROOT, run
from support.edits import Edit, edited, emptied, formula, typed
from support.planners import EMPTY, Built, Planners
from support.pocket_planner import POCKET_SITE
from wbgen import __version__
from wbgen import build as building
from wbgen.files.dates import serial
from wbgen.files.findings import CellAddress, Finding, Kind
from wbgen.files.xlsx.addresses import address
from wbgen.verify import report, verification
from wbgen.verify.verification import Verification
from wbgen.writer.findings_workbook import COLUMNS, HEADING, HIGHEST, LONGEST_FORMULA, MOST_LISTED, NOTICE_COLUMNS

DAY: Final = date(2026, 6, 30)
NAME: Final = "my planner #1 (50%).xlsx"
WORDS: Final = ("reading", "computing", "writing")


@pytest.fixture
def built(planners: Planners) -> Built:
    return planners.get("pocket", "metric")


@pytest.fixture
def faulty(built: Built, tmp_path: Path) -> Path:
    """A planner with two causes and what follows from them, in a file whose name needs care in a link."""
    lawns, diary = built.placed["lawns"], built.placed["diary"]
    edits = {
        ("Lawns", address(*lawns.cell("area"))): formula(lambda text: f"({text})*2"),
        ("Diary", address(*diary.cell("share_used", 3))): typed("=1+1"),
        ("Diary", address(*diary.cell("note"))): emptied,
    }
    return edited(built.path, tmp_path / NAME, edits)


def rows(sheet: Worksheet) -> list[dict[str, Any]]:
    """The cells of each line by its heading."""
    headings = [cell.value for cell in sheet[HEADING + 1]][1:]
    return [
        dict(zip(headings, line[1:], strict=True)) for line in sheet.iter_rows(min_row=HEADING + 2) if line[1].value
    ]


def leads_to(cell: Any, folder: Path) -> tuple[Path, str]:
    """The file that a link of a workbook in `folder` leads to, and the place in it."""
    target = unquote(cell.hyperlink.target.replace("\\", "/"))
    return (folder / target).resolve(), cell.hyperlink.location


def written(result: Verification, folder: Path) -> Any:
    report.write_report(result, folder / "findings.xlsx")
    return openpyxl.load_workbook(folder / "findings.xlsx")


def made_up(findings: tuple[Finding, ...] = (), notices: tuple[Finding, ...] = ()) -> Verification:
    cells = {"formulas": 7, "inputs": 5, "spare": 1}
    witnesses = {"text": 7, "engine": 7, "model": 7, "cached": 0}
    return Verification(Path("planner.xlsx"), findings, notices, cells, witnesses, serial(DAY))


def test_causes_come_first_and_what_follows_from_them_by_cause(built: Built, faulty: Path, tmp_path: Path) -> None:
    result = built.verify(faulty)
    folder = tmp_path / "reports" / "june"
    folder.mkdir(parents=True)
    told = rows(written(result, folder)["Findings"])
    assert list(told[0]) == list(COLUMNS)
    keys = ("Sheet", "Cell", "Heading", "Kind", "What is wrong", "Units", "What to do")
    assert sorted(tuple(line[key].value or "" for key in keys) for line in told) == sorted(
        (one.sheet, one.cell, one.heading, one.kind, one.message, one.units, one.kind.remedy) for one in result.findings
    )
    causes = [line["Cause"].value for line in told]
    first = causes.count(None)
    assert first == 2
    assert set(causes[:first]) == {None}
    order = [line["Place"].value for line in told[:first]]
    ranks = [order.index(cause) for cause in causes[first:]]
    assert set(ranks) == {0, 1}
    assert ranks == sorted(ranks)
    for line in told:
        at = f"'{line['Sheet'].value}'!{line['Cell'].value}"
        assert leads_to(line["Place"], folder) == (faulty, at)
        if line["Cause"].value:
            sheet, cell = line["Cause"].value.split("!")
            assert leads_to(line["Cause"], folder) == (faulty, f"'{sheet}'!{cell}")


def test_what_was_found_is_text_whatever_it_begins_with(built: Built, faulty: Path, tmp_path: Path) -> None:
    book = written(built.verify(faulty), tmp_path)
    told = {line["Place"].value: line for line in rows(book["Findings"])}
    typed_over = next(line for line in told.values() if line["Kind"].value == "typed over")
    assert (typed_over["Found"].value, typed_over["Found"].data_type) == ("=1+1", "s")
    assert typed_over["Found"].quotePrefix
    assert typed_over["Expected"].value.startswith("=")
    kinds = {cell.data_type for sheet in book for line in sheet.iter_rows() for cell in line}
    assert kinds <= {"s", "n"}


def test_figures_are_numbers_and_what_is_no_number_is_text(tmp_path: Path) -> None:
    values = (1.5, 3, True, None, "", "12", float("nan"), float("inf"), date(2026, 1, 2))
    findings = tuple(
        Finding("Mix", f"B{row}", Kind.WRONG_RESULT, value, value, "wrong") for row, value in enumerate(values, 1)
    )
    told = rows(written(made_up(findings), tmp_path)["Findings"])
    assert [line["Found"].value for line in told] == [1.5, 3, True, None, None, "12", "nan", "inf", "2026-01-02"]
    assert [line["Expected"].value for line in told] == [line["Found"].value for line in told]


def test_a_place_that_is_no_cell_has_no_link_and_a_quote_in_a_name_is_doubled(tmp_path: Path) -> None:
    findings = (
        Finding("Sheet's own", "B2", Kind.STRAY_FORMULA, "=1", None, "a formula of your own"),
        Finding("the whole file", "", Kind.CALCULATION, None, None, "set otherwise"),
    )
    own, whole = rows(written(made_up(findings), tmp_path)["Findings"])
    assert own["Place"].hyperlink.location == "'Sheet''s own'!B2"
    assert (whole["Place"].value, whole["Place"].hyperlink) == ("the whole file", None)


def test_the_report_of_a_clean_planner_says_so(planners: Planners, tmp_path: Path) -> None:
    built, path = planners.get("empty", "metric"), tmp_path / "findings.xlsx"
    run("verify", built.path, "--report", path, code=CLEAN)
    book = openpyxl.load_workbook(path)
    assert book.sheetnames == ["Findings", "Warnings", "Said", "Counts"]
    assert book["Findings"]["B2"].value == f"No finding in {built.path.name}."
    assert rows(book["Findings"]) == []
    for sheet in (book["Warnings"], book["Said"]):
        assert (rows(sheet), sheet["B2"].value) == ([], "Nothing.")


def test_notices_are_said_on_a_sheet_of_their_own(tmp_path: Path) -> None:
    notice = Finding("Mix", "Z9", Kind.SETTING_CHANGED, "=mine", 1.0, "this is yours", None, "Least")
    (told,) = rows(written(made_up((), (notice,)), tmp_path)["Said"])
    assert list(told) == list(NOTICE_COLUMNS)
    assert [told[key].value for key in told] == [
        "Mix!Z9", "Mix", "Z9", "Least", "setting changed", "this is yours", "=mine", 1.0,
    ]  # fmt: skip
    assert told["Place"].hyperlink.location == "'Mix'!Z9"


def test_counts(tmp_path: Path) -> None:
    finding = Finding("Mix", "B2", Kind.TYPED_OVER, 1.0, "=2", "a value stands")
    follower = Finding("Mix", "B3", Kind.FOLLOWS, 1.0, 2.0, "this follows", CellAddress("Mix", "B2"))
    sheet = written(made_up((finding, follower, follower), (finding,)), tmp_path)["Counts"]
    told = [tuple(cell.value for cell in line[1:] if cell.value is not None) for line in sheet.iter_rows(min_row=3)]
    assert [line for line in told if line] == [
        ("File",), ("planner", "planner.xlsx"), ("recomputed for the day", "2026-06-30"),
        ("version of wbgen", __version__), ("findings that are causes", 1), ("cells that follow from them", 2),
        ("warnings", 0), ("notices", 1),
        ("Cells that are not empty",), ("formulas", 7), ("inputs", 5), ("spare", 1), ("all", 13),
        ("Formula cells that each witness spoke of",), ("text", 7), ("engine", 7), ("model", 7),
        ("cached", 0, "no spreadsheet program has calculated and saved the file yet"),
        ("Findings by kind",), ("follows", 2), ("typed over", 1),
        ("Warnings by kind",), ("Notices by kind",), ("typed over", 1),
    ]  # fmt: skip


def test_a_file_that_was_not_recomputed_has_a_report(built: Built, tmp_path: Path) -> None:
    """Two headings are gone, so that nothing can be recomputed; that is what the report says."""
    diary = built.placed["diary"]
    gone = {("Diary", address(diary.opening, diary.at[key])): emptied for key in ("weighed", "poured")}
    result = built.verify(edited(built.path, tmp_path / "planner.xlsx", gone))
    assert list(report.as_lines(result))[-1].startswith("the formulas were not recomputed")
    book = written(result, tmp_path)
    assert "column missing" in [line["Kind"].value for line in rows(book["Findings"])]
    told = {line[1].value: (line[2].value, line[3].value) for line in book["Counts"].iter_rows(min_row=3)}
    assert told["recomputed for the day"] == (None, "none")
    assert told["cached"] == told["text"] == (0, "the formulas were not recomputed: something is missing")


@pytest.mark.parametrize(
    ("says", "told"),
    [
        (emptied, "its sheet Start does not say what it was built by"),
        (None, "the formulas were not recomputed"),
    ],
)
def test_another_version_is_named_only_where_it_may_be_one(
    built: Built, tmp_path: Path, says: Edit | None, told: str
) -> None:
    """A heading is gone. That happens to a planner of this version too."""
    diary, start = built.placed["diary"], built.placed["start"]
    edits: dict[tuple[str, str], Edit] = {("Diary", address(diary.opening, diary.at["weighed"])): emptied}
    if says:
        edits[("Start", address(*start.cell("built_by")))] = says
    result = built.verify(edited(built.path, tmp_path / "planner.xlsx", edits))
    assert list(report.as_lines(result))[-1].startswith(told)


def test_what_is_beyond_the_list_is_counted_and_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert MOST_LISTED == 5_000
    listed = 50
    monkeypatch.setattr("wbgen.writer.findings_workbook.MOST_LISTED", listed)
    cause = Finding("Mix", "B2", Kind.TYPED_OVER, 1.0, "=2", "a value stands")
    follow = tuple(
        Finding("Diary", f"C{row}", Kind.FOLLOWS, 1.0, 2.0, "this follows", cause.address)
        for row in range(1, listed + 3)
    )
    book = written(made_up((*follow, cause)), tmp_path)
    told = rows(book["Findings"])
    assert (len(told), told[0]["Place"].value) == (listed, "Mix!B2")
    assert "3 more are counted, not listed" in book["Findings"]["B2"].value
    assert book["Findings"].auto_filter.ref == f"B{HEADING + 1}:L{HEADING + 1 + listed}"
    counts = {line[1].value: line[2].value for line in book["Counts"].iter_rows()}
    assert counts["follows"] == listed + 2


def test_a_row_is_as_high_as_its_text_and_a_page_as_wide_as_its_table(tmp_path: Path) -> None:
    texts = ("short", "x" * 100, "x" * (LONGEST_FORMULA + 1))
    findings = tuple(Finding("Mix", f"B{row}", Kind.LABEL_CHANGED, text, None, "") for row, text in enumerate(texts, 1))
    sheet = written(made_up(findings), tmp_path)["Findings"]
    heights = [sheet.row_dimensions[HEADING + 2 + row].height for row in range(3)]
    assert heights[0] < 30 < heights[1] < 100
    assert heights[2] == HIGHEST
    assert len(rows(sheet)[2]["Found"].value) == LONGEST_FORMULA
    assert rows(sheet)[2]["Found"].value.endswith("x…")
    assert (sheet.page_setup.orientation, sheet.page_setup.fitToHeight) == ("landscape", 0)
    assert (sheet.freeze_panes, sheet.print_title_rows) == (f"A{HEADING + 2}", f"${HEADING + 1}:${HEADING + 1}")


def test_the_same_findings_give_the_same_bytes(tmp_path: Path) -> None:
    findings = [Finding("Mix", f"B{row}", Kind.TYPED_OVER, 1.0, "=2", "a value stands") for row in range(1, 9)]
    for name, order in (("one.xlsx", findings), ("two.xlsx", findings[::-1])):
        report.write_report(made_up(tuple(order)), tmp_path / name)
    assert (tmp_path / "one.xlsx").read_bytes() == (tmp_path / "two.xlsx").read_bytes()
    assert openpyxl.load_workbook(tmp_path / "one.xlsx").properties.created.date() == DAY


@pytest.mark.usefixtures("pocket_by_default")
def test_json_and_report_together(faulty: Path, tmp_path: Path) -> None:
    path = tmp_path / "findings.xlsx"
    told = json.loads(run("verify", faulty, "--json", "--report", path, code=FINDINGS).stdout)
    assert len(rows(openpyxl.load_workbook(path)["Findings"])) == len(told["findings"])


@pytest.mark.parametrize("name", ["planner.xlsx", "other.xlsx", "link.xlsx", "nowhere/findings.xlsx"])
def test_nothing_is_overwritten(built: Built, tmp_path: Path, name: str) -> None:
    planner = edited(built.path, tmp_path / "planner.xlsx", {})
    (tmp_path / "other.xlsx").write_bytes(b"work")
    (tmp_path / "link.xlsx").symlink_to("not there yet.xlsx")
    before = planner.read_bytes()
    result = run("verify", planner, "--report", tmp_path / name, code=CANNOT)
    assert (result.stdout, result.stderr.count(str(tmp_path))) == ("", 1)
    assert ("give another name" in result.stderr) == ("nowhere" not in name)
    assert planner.read_bytes() == before
    assert (tmp_path / "other.xlsx").read_bytes() == b"work"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["link.xlsx", "other.xlsx", "planner.xlsx"]


def test_a_report_that_cannot_be_written_leaves_no_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(path: Path, _: bytes) -> int:
        raise OSError(28, "No space left on device", str(path))

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(OSError, match="No space left"):
        report.write_report(made_up(), tmp_path / "findings.xlsx")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.usefixtures("pocket_by_default")
def test_a_road_says_each_of_its_steps_once_and_in_order(tmp_path: Path) -> None:
    (tmp_path / "lawns.yaml").write_text(POCKET_SITE, encoding="utf-8")
    said: list[str] = []
    building.build(tmp_path / "lawns.yaml", tmp_path / "planner.xlsx", diary_rows=1, today=DAY, step=said.append)
    assert tuple(said) == building.STEPS == WORDS
    said.clear()
    verification.verify(tmp_path / "planner.xlsx", said.append)
    assert tuple(said) == verification.STEPS


def by_terminal(folder: Path, output: Callable[[int], int]) -> str:
    """What a terminal shows of a build whose error stream it is; `output` says from the terminal where output goes."""
    terminal, end = pty.openpty()
    (folder / "lawns.yaml").write_text(EMPTY, encoding="utf-8")
    process = subprocess.Popen(
        [sys.executable, "-m", "wbgen", "build", "lawns.yaml", "--diary-rows", "1"], cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT), "TERM": "xterm", "COLUMNS": "80"}, stdout=output(end), stderr=end,
    )  # fmt: skip
    os.close(end)
    shown = b""
    try:
        while part := os.read(terminal, 4096):
            shown += part
    except OSError:  # a terminal that the last process has left ends so
        pass
    os.close(terminal)
    assert process.wait(120) == CLEAN
    return shown.decode()


def test_a_terminal_shows_the_steps_and_then_only_the_result(tmp_path: Path) -> None:
    shown = by_terminal(tmp_path, lambda end: end)
    ends = [shown.index(word) for word in WORDS]
    assert ends == sorted(ends)
    assert shown.rstrip().splitlines()[-1].lstrip("\r").endswith("sheets")


def test_what_is_piped_shows_no_steps(tmp_path: Path) -> None:
    assert by_terminal(tmp_path, lambda _: subprocess.DEVNULL) == ""
