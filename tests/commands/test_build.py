"""The command build: mistakes in the files, what it may overwrite, and that nothing half-written is left."""

from __future__ import annotations

from pathlib import Path
from typing import Final

import openpyxl
import pytest

from support.command import CANNOT, run
from support.planners import EMPTY

LINE: Final = "  - {date: 2026-05-01, lawn: Only lawn, product: Urea, method: spray, measured: 100 g}\n"


def site(folder: Path, text: str = EMPTY, name: str = "lawns.yaml") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def built(folder: Path, text: str, *arguments: object, code: int = 0) -> str:
    """What build says of the site."""
    result = run("build", site(folder, text), "-o", folder / "planner.xlsx", "--diary-rows", "5", *arguments, code=code)
    return result.stderr if code else result.stdout


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


@pytest.mark.usefixtures("pocket_by_default")
def test_units_of_the_call_come_before_those_of_the_site(tmp_path: Path) -> None:
    for units, said in ((None, "metric"), ("us", "us")):
        built(tmp_path, EMPTY, *(("--units", units) if units else ()), "--force")
        start = openpyxl.load_workbook(tmp_path / "planner.xlsx")["Start"]
        assert said in [cell.value for row in start.iter_rows() for cell in row]


@pytest.mark.usefixtures("pocket_by_default")
def test_the_same_site_gives_the_same_bytes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1780000000")
    built(tmp_path, EMPTY)
    first = (tmp_path / "planner.xlsx").read_bytes()
    built(tmp_path, EMPTY, "--force")
    assert (tmp_path / "planner.xlsx").read_bytes() == first


def test_a_mistake_is_told_with_file_line_and_column(tmp_path: Path) -> None:
    said = built(tmp_path, EMPTY.replace("100 m²", "100 kg"), code=CANNOT)
    line, column = 2, EMPTY.splitlines()[1].index("100 m²") + 1
    assert said.startswith(f"{tmp_path}/lawns.yaml:{line}:{column}: ")
    assert "found: " in said
    assert names(tmp_path) == ["lawns.yaml"]


def test_all_mistakes_are_told_at_once(tmp_path: Path) -> None:
    text = EMPTY.replace("cool season", "hot season").replace("100 m²", "-3 m²").replace("EUR", "Euros")
    said = built(tmp_path, text + "settings: {ask windd: 12 km/h}\n", code=CANNOT)
    for word in ("hot season", "-3 m²", "Euros"):
        assert word in said
    lines = [line for line in said.splitlines() if line.startswith(str(tmp_path))]
    assert len(lines) >= 3
    assert lines == sorted(lines, key=lambda line: [int(part) for part in line.split(":")[1:3]])


NO_SITES: Final = (
    "", "site: [", "a: 1\na: 2\n", "\t", "- 1\n", "site: &a {name: *a}\n", "\x00", "lawns: no\n",
    "site: {name: 12:30}\n",
)  # fmt: skip


@pytest.mark.parametrize("text", NO_SITES)
def test_a_file_that_is_no_site_is_told(tmp_path: Path, text: str) -> None:
    assert built(tmp_path, text, code=CANNOT).startswith(f"{tmp_path}/lawns.yaml")
    assert names(tmp_path) == ["lawns.yaml"]


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    said = run("build", tmp_path / "lawns.yaml", "-o", tmp_path / "planner.xlsx", code=CANNOT).stderr
    assert "lawns.yaml" in said


def test_a_setting_that_is_none_is_told_with_the_nearest(tmp_path: Path) -> None:
    assert "did you mean ask wind?" in built(tmp_path, EMPTY + "settings: {ask windd: 12 km/h}\n", code=CANNOT)
    assert "another unit" in built(tmp_path, EMPTY + "settings: {ask wind: 12 kg}\n", code=CANNOT)


def test_a_folder_that_is_not_there_is_told_by_its_name(tmp_path: Path) -> None:
    target = tmp_path / "nowhere" / "planner.xlsx"
    said = run("build", site(tmp_path), "-o", target, code=CANNOT).stderr
    assert said.startswith(f"{tmp_path}/nowhere: ")


def test_a_workbook_is_not_overwritten_unasked(tmp_path: Path) -> None:
    (tmp_path / "planner.xlsx").write_text("work", encoding="utf-8")
    assert "add --force" in built(tmp_path, EMPTY, code=CANNOT)
    assert (tmp_path / "planner.xlsx").read_text("utf-8") == "work"


def test_what_cannot_be_looked_through_is_not_overwritten_at_all(tmp_path: Path) -> None:
    (tmp_path / "planner.xlsx").write_text("work", encoding="utf-8")
    assert "may hold work" in built(tmp_path, EMPTY, "--force", code=CANNOT)
    assert (tmp_path / "planner.xlsx").read_text("utf-8") == "work"


@pytest.mark.usefixtures("pocket_by_default")
def test_a_planner_is_overwritten_when_asked_and_nothing_is_lost(tmp_path: Path) -> None:
    built(tmp_path, EMPTY)
    before = (tmp_path / "planner.xlsx").read_bytes()
    built(tmp_path, EMPTY + "diary:\n" + LINE, "--force")
    assert (tmp_path / "planner.xlsx").read_bytes() != before
    built(tmp_path, EMPTY + "diary:\n" + LINE + LINE.replace("05-01", "05-09"), "--force")
    assert names(tmp_path) == ["lawns.yaml", "planner.xlsx"]


@pytest.mark.usefixtures("pocket_by_default")
def test_a_diary_that_would_be_lost_is_kept_even_when_asked(tmp_path: Path) -> None:
    built(tmp_path, EMPTY + "diary:\n" + LINE + LINE.replace("05-01", "05-09"))
    before = (tmp_path / "planner.xlsx").read_bytes()
    assert "2 lines that this build would lose" in built(tmp_path, EMPTY, "--force", code=CANNOT)
    assert "1 lines that" in built(tmp_path, EMPTY + "diary:\n" + LINE, "--force", code=CANNOT)
    assert (tmp_path / "planner.xlsx").read_bytes() == before


def test_a_shed_that_would_be_lost_is_kept_even_when_asked(tmp_path: Path) -> None:
    count = "shelf:\n  - {date: 2026-05-01, product: Urea, deed: counted, amount: 3 kg}\n"
    built(tmp_path, EMPTY + count)
    before = (tmp_path / "planner.xlsx").read_bytes()
    assert "its shed has 1 lines" in built(tmp_path, EMPTY, "--force", code=CANNOT)
    assert (tmp_path / "planner.xlsx").read_bytes() == before
    built(tmp_path, EMPTY + count + count.partition("\n")[2].replace("05-01", "05-09"), "--force")


@pytest.mark.usefixtures("pocket_by_default")
def test_a_build_that_fails_leaves_the_target_and_no_other_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    built(tmp_path, EMPTY)
    before = (tmp_path / "planner.xlsx").read_bytes()

    def full(path: Path, *_: object) -> None:
        path.write_bytes(b"half of it")
        raise OSError(28, "No space left on device", str(path))

    monkeypatch.setattr("wbgen.build.write", full)
    assert "No space left on device" in built(tmp_path, EMPTY, "--force", code=CANNOT)
    assert (tmp_path / "planner.xlsx").read_bytes() == before
    assert names(tmp_path) == ["lawns.yaml", "planner.xlsx"]


def test_a_target_that_is_a_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / "planner.xlsx").mkdir()
    assert built(tmp_path, EMPTY, "--force", code=CANNOT)
    assert names(tmp_path) == ["lawns.yaml", "planner.xlsx"]


def test_a_planner_too_large_to_be_verified_is_refused_before_the_work_begins(tmp_path: Path) -> None:
    result = run("build", site(tmp_path, EMPTY), "-o", tmp_path / "planner.xlsx", "--diary-rows", 90_000, code=CANNOT)
    assert "would be too large" in result.stderr
    assert "--diary-rows" in result.stderr
    assert names(tmp_path) == ["lawns.yaml"]
