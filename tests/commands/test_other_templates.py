"""A planner that other templates made is told as such by every command, and is nothing that these may judge."""

from __future__ import annotations

import shutil
import zipfile
from pathlib import Path

import pytest

from support.command import CANNOT, run
from support.edits import Edit, edited, emptied, typed
from support.office import recalculate
from support.planners import Built, Planners
from thorough.mutations.planting import packed
from wbgen import __version__
from wbgen.files.findings import Kind
from wbgen.files.shipped import templates
from wbgen.files.xlsx.addresses import address
from wbgen.files.xlsx.workbook import read
from wbgen.sheets.book import MARK, Templates

PROPERTIES = "docProps/custom.xml"


@pytest.fixture(scope="module")
def planner(planners: Planners) -> Built:
    return planners.get("starter", "metric")


def remarked(path: Path, target: Path, mark: str) -> Path:
    """The file with another mark; without one where `mark` is ""."""
    with zipfile.ZipFile(path) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    old = read(path).index.properties[MARK].encode()
    assert parts[PROPERTIES].count(old) == 1
    parts[PROPERTIES] = parts[PROPERTIES].replace(old, mark.encode())
    return packed(target, parts)


def built_by(planner: Built, words: str) -> dict[tuple[str, str], Edit]:
    start = planner.placed["start"]
    return {(start.sheet, address(*start.cell("built_by"))): typed(words) if words else emptied}


@pytest.mark.parametrize("builder", ["wbgen 0.2.0", "wbgen 99.1", f"wbgen {__version__}"])
def test_every_command_tells_it_and_says_what_to_do(planner: Built, tmp_path: Path, builder: str) -> None:
    path = remarked(planner.path, tmp_path / "marked.xlsx", "0123456789abcdef")
    other = edited(path, tmp_path / "other.xlsx", built_by(planner, builder))
    before = other.read_bytes()
    for command in (
        ["verify", str(other)], ["verify", str(other), "--json"], ["explain", str(other), "Mix!D12"],
        ["export", str(other), "diary"], ["build", str(planner.lawns), "-o", str(other), "--force"],
    ):  # fmt: skip
        done = run(*command, code=CANNOT)
        assert f"a planner that {builder} built" in done.stderr
        assert ("from other templates" in done.stderr) == (builder == f"wbgen {__version__}")
        assert "do: " in done.stderr
    assert other.read_bytes() == before


@pytest.mark.parametrize("builder", ["wbgen 0.2.0", "wbgen 99.1"])
def test_where_a_program_lost_the_mark_the_version_tells(planner: Built, tmp_path: Path, builder: str) -> None:
    path = remarked(planner.path, tmp_path / "marked.xlsx", "")
    done = run("verify", edited(path, tmp_path / "other.xlsx", built_by(planner, builder)), code=CANNOT)
    assert "build a planner anew" in done.stderr


def test_a_planner_that_lost_its_mark_is_judged(planner: Built, tmp_path: Path) -> None:
    path = remarked(planner.path, tmp_path / "marked.xlsx", "")
    bare = edited(path, tmp_path / "bare.xlsx", built_by(planner, ""))
    for one in (path, bare):
        assert planner.verify(one).witnesses["model"] == planner.made.formula_cells


def test_a_mark_is_no_evidence(planner: Built, tmp_path: Path) -> None:
    """A planner with this mark is judged as ever, whatever it says of itself."""
    diary = planner.placed["diary"]
    spoilt = {(diary.sheet, address(*diary.cell("visit_key", 3))): typed("0.5")}
    path = edited(planner.path, tmp_path / "other.xlsx", {**built_by(planner, "wbgen 0.2.0"), **spoilt})
    assert [finding.kind for finding in planner.verify(path).findings if finding.cause is None] == [Kind.TYPED_OVER]


def test_a_spreadsheet_program_keeps_the_mark(planner: Built, tmp_path: Path) -> None:
    saved = recalculate(planner.path, tmp_path / "saved")
    assert read(saved).index.properties[MARK] == planner.design.templates.mark


def test_the_mark_is_of_the_words_and_not_of_how_lines_end(tmp_path: Path) -> None:
    mark = Templates(templates()).mark
    folder = tmp_path / "templates"
    shutil.copytree(templates(), folder)
    assert Templates(folder).mark == mark
    files = sorted(folder.rglob("*.yaml"))
    for path in files:
        path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    assert Templates(folder).mark == mark
    seen = {mark}
    for path in files[:: len(files) // 5]:
        path.write_bytes(path.read_bytes() + b"# a word\n")
        seen.add(Templates(folder).mark)
    files[0].rename(files[0].with_name("renamed.yaml"))
    seen.add(Templates(folder).mark)
    assert len(seen) == 2 + len(files[:: len(files) // 5])
