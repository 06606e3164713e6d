"""LibreOffice and poppler as plain functions: recalculate a workbook, print it to PDF, turn pages into pictures.

Every call has a profile of its own, so calls may run at the same time and leave nothing behind. A program
that is missing, hangs or writes no file raises `OfficeError`.
"""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
from collections.abc import Mapping, Sequence
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

TIMEOUT: Final = 300.0
"""Seconds that one run of a program may take."""

UNTOUCHED: Final = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry"/>
"""
"""The program as it is installed: it takes the values stored in a file for right, but those it must calculate."""

PROFILE: Final = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="ODFRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"""
"""0 is *always recalculate*: without it LibreOffice shows the values stored in the file."""


class OfficeError(RuntimeError):
    """A program is missing, took too long, failed, or wrote no file."""


def recalculate(xlsx: Path, out_dir: Path, timeout: float = TIMEOUT) -> Path:
    """Save a copy of a workbook in `out_dir`, every formula calculated anew, and return its path.

    Raises `OfficeError`, also where the copy would overwrite the workbook itself.
    """
    return _convert(xlsx, out_dir, "xlsx", "xlsx:Calc MS Excel 2007 XML", timeout)


def resave(xlsx: Path, out_dir: Path, timeout: float = TIMEOUT) -> Path:
    """Save a copy of a workbook in `out_dir` as somebody does who opens and saves it, and return its path.

    Raises `OfficeError`, also where the copy would overwrite the workbook itself.
    """
    return _convert(xlsx, out_dir, "xlsx", "xlsx:Calc MS Excel 2007 XML", timeout, UNTOUCHED)


def to_pdf(xlsx: Path, out_dir: Path, options: str = "", timeout: float = TIMEOUT) -> Path:
    """Print a workbook, recalculated, to a PDF in `out_dir` and return its path.

    `options` is the export filter's own JSON. Raises `OfficeError`.
    """
    return _convert(xlsx, out_dir, "pdf", "pdf:calc_pdf_Export" + (f":{options}" if options else ""), timeout)


def pdf_to_png(pdf: Path, out_dir: Path, dpi: int = 100, timeout: float = TIMEOUT) -> list[Path]:
    """Turn each page of a PDF into `<name>-<page>.png` in `out_dir`; return the paths in page order.

    Raises `OfficeError`.
    """
    out_dir.mkdir(parents=True, exist_ok=True)
    with TemporaryDirectory(prefix="wbgen-pages-") as scratch:
        run(["pdftoppm", "-png", "-r", str(dpi), str(pdf), f"{scratch}/{pdf.stem}"], timeout)
        pages = sorted(Path(scratch).glob("*.png"), key=lambda page: int(page.stem.rpartition("-")[2]))
        if not pages:
            raise OfficeError(f"pdftoppm made no picture of {pdf}")
        return [Path(shutil.move(page, out_dir / page.name)) for page in pages]


def run(command: Sequence[str], timeout: float = TIMEOUT, settings: Mapping[str, str] | None = None) -> str:
    """Run a program without input and return what it printed; on a timeout its whole process group is ended.

    `settings` are added to the environment.
    Raises `OfficeError`, with the program's own words, where it is missing, fails or takes too long.
    """
    if shutil.which(command[0]) is None:
        raise OfficeError(f"{command[0]} is not installed: `bash tests/run_all.sh` installs what the tests need")
    with subprocess.Popen(
        command,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        errors="replace",
        start_new_session=True,
        env={**os.environ, **(settings or {})},
    ) as process:
        try:
            said, _ = process.communicate(timeout=timeout)
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, signal.SIGKILL)
            raise OfficeError(f"{command[0]} took longer than {timeout:g} s: {' '.join(command)}") from None
    if process.returncode:
        raise OfficeError(f"{command[0]} ended with {process.returncode}: {said.strip()}")
    return said


def _convert(xlsx: Path, out_dir: Path, suffix: str, target: str, timeout: float, settings: str = PROFILE) -> Path:
    if not xlsx.is_file():
        raise OfficeError(f"there is no file {xlsx}")
    made = out_dir / f"{xlsx.stem}.{suffix}"
    if made.resolve() == xlsx.resolve():
        raise OfficeError(f"the copy would overwrite {xlsx}: give another folder")
    out_dir.mkdir(parents=True, exist_ok=True)
    with TemporaryDirectory(prefix="wbgen-office-", ignore_cleanup_errors=True) as scratch:
        profile = Path(scratch, "profile")
        Path(profile, "user").mkdir(parents=True)
        Path(profile, "user", "registrymodifications.xcu").write_text(settings, encoding="utf-8")
        said = run(
            [
                "soffice",
                f"-env:UserInstallation={profile.as_uri()}",
                "--headless",
                "--norestore",
                "--convert-to",
                target,
                "--outdir",
                f"{scratch}/out",
                str(xlsx.resolve()),
            ],
            timeout,
            {"XDG_RUNTIME_DIR": scratch},  # or it leaves a settings file in the home folder
        )
        written = Path(scratch, "out", made.name)
        if not written.is_file():
            raise OfficeError(f"soffice wrote no {suffix} of {xlsx}: {said.strip()}")
        return Path(shutil.move(written, made))
