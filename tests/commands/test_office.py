"""The helpers around LibreOffice do what the other tests rely on, and fail loudly."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest
import xlsxwriter
from PIL import Image

from support.office import OfficeError, pdf_to_png, recalculate, run, to_pdf
from tools.pictures import pictures


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """Two sheets that show, one hidden between them; the stored value of B1 is not what its formula gives."""
    path = tmp_path / "small.xlsx"
    with xlsxwriter.Workbook(path) as book:
        first, hidden, last = (book.add_worksheet(name) for name in ("Mix", "Old & hidden", "Diary & notes"))
        first.write(0, 0, 21)
        first.write_formula(0, 1, "=A1*2", None, -1)
        hidden.write(0, 0, "hidden")
        hidden.hide()
        last.write_column(0, 0, range(120))
    return path


def test_every_formula_is_calculated_anew(small: Path, tmp_path: Path) -> None:
    anew = recalculate(small, tmp_path / "anew")
    assert anew == tmp_path / "anew" / "small.xlsx"
    for path, value in ((small, -1), (anew, 42)):
        assert openpyxl.load_workbook(path, data_only=True)["Mix"]["B1"].value == value


def test_a_copy_never_overwrites_the_workbook(small: Path) -> None:
    before = small.read_bytes()
    with pytest.raises(OfficeError, match="overwrite"):
        recalculate(small, small.parent)
    assert small.read_bytes() == before


def test_printing_gives_a_picture_a_page(small: Path, tmp_path: Path) -> None:
    pages = pdf_to_png(to_pdf(small, tmp_path), tmp_path / "pages", dpi=50)
    assert [page.name for page in pages] == [f"small-{number}.png" for number in range(1, len(pages) + 1)]
    assert len(pages) >= 3


@pytest.mark.parametrize("printed", [False, True])
def test_each_visible_sheet_gets_one_picture(small: Path, tmp_path: Path, printed: bool) -> None:
    made = pictures(small, tmp_path / "out", printed)
    assert [path.name for path in made] == ["mix.png", "diary_notes.png"]
    heights = []
    for path in made:
        with Image.open(path) as picture:
            heights.append(picture.height)
    assert heights[1] > 10 * heights[0]


def test_a_missing_program_a_missing_file_and_a_failure_are_errors(tmp_path: Path) -> None:
    with pytest.raises(OfficeError, match="not installed"):
        run(["no-such-program"])
    with pytest.raises(OfficeError, match="no file"):
        to_pdf(tmp_path / "none.xlsx", tmp_path)
    with pytest.raises(OfficeError, match="ended with 3"):
        run(["sh", "-c", "exit 3"])
    with pytest.raises(OfficeError, match="longer than"):
        run(["sh", "-c", "sleep 60"], timeout=0.2)
