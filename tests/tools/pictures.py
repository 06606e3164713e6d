"""Turns each sheet of a workbook into one PNG, recalculated by LibreOffice.

    python tests/tools/pictures.py planner.xlsx OUTDIR            each sheet as it stands on the screen
    python tests/tools/pictures.py --printed planner.xlsx OUTDIR  the pages that a printer would give, side by side
    python tests/tools/pictures.py --screens planner.xlsx OUTDIR  what a person sees of each front sheet, 1366 by 768

The files are named after the sheets, in lower_snake. Hidden sheets are left out.
"""

from __future__ import annotations

import argparse
import html
import re
import sys
import zipfile
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final
from xml.etree import ElementTree

from PIL import Image, ImageChops, ImageOps

from support.office import OfficeError, pdf_to_png, run, to_pdf
from tools.screens import front_sheets, screens

DPI: Final = 96
LARGEST: Final = (2400, 2400)
"""Width and height in pixels. What is wider is made smaller; what is longer is cut off below (a long table goes on)."""

READABLE, LONGEST = 1900, 6000
"""Pixels: the widest picture of a whole sheet in which a reader can still read, and the longest one for reading."""

Image.MAX_IMAGE_PIXELS = None  # a page of one's own, however wide, is no attack

MARGIN: Final = 16
ONE_PAGE_A_SHEET: Final = (
    '{"SinglePageSheets":{"type":"boolean","value":"true"},"ExportNotes":{"type":"boolean","value":"false"}}'
)
WITH_OUTLINE: Final = (
    '{"ExportBookmarks":{"type":"boolean","value":"true"},"ExportNotes":{"type":"boolean","value":"false"}}'
)
PAGES_IN_A_ROW: Final = 4


def pictures(xlsx: Path, out_dir: Path, printed: bool = False) -> list[Path]:
    """Write one PNG a visible sheet into `out_dir` and return their paths in the order of the sheets.

    Raises `OfficeError` where LibreOffice or poppler is missing or fails, or two sheets would share a file.
    """
    visible, targets = _targets(xlsx, out_dir)
    with TemporaryDirectory(prefix="wbgen-pictures-") as scratch:
        grouped = (printed_pages if printed else whole_sheets)(xlsx, Path(scratch))
        for name, target in zip(visible, targets, strict=True):
            pages = [trimmed(page) for page in grouped.get(name, [])]
            framed = [ImageOps.expand(page, 1, "silver") for page in pages] if len(pages) > 1 else pages
            fitted(joined(framed)).save(target, optimize=True)
    return targets


def of_screens(xlsx: Path, out_dir: Path) -> list[Path]:
    """Write a picture of the screen for each front sheet into `out_dir` and return their paths.

    Raises `OfficeError` where a program is missing or the workbook does not open.
    """
    names = front_sheets(xlsx, [name for name, _ in sheets(xlsx)])
    out_dir.mkdir(parents=True, exist_ok=True)
    targets = [out_dir / f"{lower_snake(name)}.png" for name in names]
    screens(xlsx, names, targets)
    return targets


def for_reading(xlsx: Path, out_dir: Path) -> list[Path]:
    """As `pictures`, but a sheet too wide for one picture is shown as its printed pages, two side by side."""
    visible, targets = _targets(xlsx, out_dir)
    with TemporaryDirectory(prefix="wbgen-pictures-") as scratch:
        whole, printed = whole_sheets(xlsx, Path(scratch, "whole")), printed_pages(xlsx, Path(scratch, "printed"))
        for name, target in zip(visible, targets, strict=True):
            picture = trimmed(whole[name][0])
            if picture.width > READABLE:
                pages = [ImageOps.expand(trimmed(page), 1, "silver") for page in printed[name]]
                picture = joined(pages, across=2)
            fitted(picture, (LARGEST[0], LONGEST)).save(target, optimize=True)
    return targets


def _targets(xlsx: Path, out_dir: Path) -> tuple[list[str], list[Path]]:
    """The visible sheets and the files of their pictures; makes the folder."""
    visible = [name for name, shown in sheets(xlsx) if shown]
    targets = [out_dir / f"{lower_snake(name)}.png" for name in visible]
    if len(set(targets)) != len(targets):
        raise OfficeError(f"two sheets of {xlsx} would share one file: {', '.join(path.name for path in targets)}")
    out_dir.mkdir(parents=True, exist_ok=True)
    return visible, targets


def sheets(xlsx: Path) -> list[tuple[str, bool]]:
    """The sheets of a workbook in order: name, and whether it is visible."""
    with zipfile.ZipFile(xlsx) as archive:
        book = ElementTree.fromstring(archive.read("xl/workbook.xml"))  # noqa: S314 - a file made by the tests
    return [
        (sheet.get("name", ""), sheet.get("state", "visible") == "visible") for sheet in book.iterfind("{*}sheets/*")
    ]


def whole_sheets(xlsx: Path, scratch: Path) -> dict[str, list[Path]]:
    """One page for each sheet, whatever its size: LibreOffice gives hidden sheets a page too."""
    names = [name for name, _ in sheets(xlsx)]
    pages = pdf_to_png(to_pdf(xlsx, scratch, ONE_PAGE_A_SHEET), scratch, DPI)
    if len(pages) != len(names):
        raise OfficeError(f"{len(pages)} pages for the {len(names)} sheets of {xlsx}")
    return {name: [page] for name, page in zip(names, pages, strict=True)}


def printed_pages(xlsx: Path, scratch: Path) -> dict[str, list[Path]]:
    """The printed pages of each sheet, told apart by the PDF's outline; a sheet with nothing to print has none."""
    pdf = to_pdf(xlsx, scratch, WITH_OUTLINE)
    pages = pdf_to_png(pdf, scratch, DPI)
    told = run(["pdftohtml", "-xml", "-i", "-nodrm", "-stdout", str(pdf)])
    starts = [
        (html.unescape(name), int(first) - 1)
        for first, name in re.findall(r'<item page="(\d+)">(.*?)</item>', told.partition("<outline>")[2])
    ]
    return {name: pages[first:last] for (name, first), (_, last) in pairwise([*starts, ("", len(pages))])}


def trimmed(page: Path) -> Image.Image:
    """A page without its white margin; an empty page is one white point."""
    with Image.open(page) as opened:
        picture = opened.convert("RGB")
    box = ImageChops.difference(picture, Image.new("RGB", picture.size, "white")).getbbox()
    return picture.crop(box or (0, 0, 1, 1))


def joined(pages: Sequence[Image.Image], across: int = PAGES_IN_A_ROW) -> Image.Image:
    """Pages in rows of at most so many, from the upper left."""
    across = min(across, max(1, len(pages)))
    wide = max((page.width for page in pages), default=1) + MARGIN
    high = max((page.height for page in pages), default=1) + MARGIN
    sheet = Image.new("RGB", (wide * across, high * -(-max(1, len(pages)) // across)), "white")
    for place, page in enumerate(pages):
        sheet.paste(page, (wide * (place % across), high * (place // across)))
    return sheet.crop((0, 0, sheet.width - MARGIN, sheet.height - MARGIN))


def fitted(picture: Image.Image, largest: tuple[int, int] = LARGEST) -> Image.Image:
    """A picture no larger than `largest`, with a white margin, in few colours."""
    wide, high = largest
    if picture.width > wide:
        picture = picture.resize((wide, max(1, picture.height * wide // picture.width)), Image.Resampling.LANCZOS)
    framed = ImageOps.expand(picture.crop((0, 0, picture.width, min(picture.height, high))), MARGIN, "white")
    return framed.quantize(128)


def lower_snake(name: str) -> str:
    """A sheet's name as the name of a file.

    >>> lower_snake("Mix planner"), lower_snake("N, P & K")
    ('mix_planner', 'n_p_k')
    """
    return re.sub(r"\W+", "_", name.lower()).strip("_") or "sheet"


def main(arguments: Sequence[str] | None = None) -> int:
    """The command: 0 when all pictures are written, 1 with a message when not."""
    parser = argparse.ArgumentParser(description="One PNG a sheet.")
    parser.add_argument("xlsx", type=Path)
    parser.add_argument("out_dir", type=Path)
    parser.add_argument("--printed", action="store_true", help="the printed pages rather than the sheet")
    parser.add_argument("--screens", action="store_true", help="the screen as a person sees it, of each front sheet")
    asked = parser.parse_args(arguments)
    try:
        made = of_screens(asked.xlsx, asked.out_dir) if asked.screens else None
        for picture in made or pictures(asked.xlsx, asked.out_dir, asked.printed):
            print(picture)
    except OfficeError as error:
        print(error, file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
