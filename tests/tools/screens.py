"""Screens: what a person sees of each front sheet of a workbook in LibreOffice, 1366 by 768 pixels, on a display of
its own that nobody looks at.

Called by `pictures.py --screens`. Sheets behind, whose tabs have the colour of the workings, are left out.
"""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import time
import zipfile
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

from PIL import Image, ImageChops

from support.office import PROFILE, OfficeError, run
from wbgen.writer.styles import TABS

WIDE, HIGH = 1366, 768
NEEDED: Final = {"Xvfb": "xvfb", "xdotool": "xdotool", "import": "imagemagick", "soffice": "libreoffice-calc"}
"""Programs, and the Debian packages that have them."""
PATIENCE: Final = 300.0
"""Seconds that a workbook may take to open, and a sheet to be drawn."""
GLANCE: Final = 0.7
"""Seconds between two looks at a sheet; drawn is what looks the same twice."""


def front_sheets(xlsx: Path, names: Sequence[str]) -> list[str]:
    """Those of the visible sheets, which are given in their order, that come before the workings."""
    behind = TABS["behind"].removeprefix("#")
    with zipfile.ZipFile(xlsx) as archive:
        parts = [f"xl/worksheets/sheet{number}.xml" for number in range(1, len(names) + 1)]
        heads = [archive.open(part).read(2000).decode("utf-8", "replace") for part in parts]
    return [name for name, head in zip(names, heads, strict=True) if f'{behind}"' not in head]


def screens(xlsx: Path, names: Sequence[str], targets: Sequence[Path]) -> None:
    """Write a picture of each of the first sheets, which are `names`, to `targets`.

    Raises `OfficeError` where a program is missing, or the workbook does not open in time.
    """
    lacking = [package for program, package in NEEDED.items() if shutil.which(program) is None]
    if lacking:
        raise OfficeError(f"pictures of the screen need more programs: apt-get install {' '.join(lacking)}")
    with TemporaryDirectory(prefix="wbgen-screens-", ignore_cleanup_errors=True) as scratch:
        shown = Path(shutil.copy(xlsx, Path(scratch, "planner.xlsx")))
        profile = Path(scratch, "profile")
        Path(profile, "user").mkdir(parents=True)
        Path(profile, "user", "registrymodifications.xcu").write_text(PROFILE, encoding="utf-8")
        office = ["soffice", f"-env:UserInstallation={profile.as_uri()}", "--norestore", "--nologo",
                  "--nofirststartwizard", "--nolockcheck", "--calc", str(shown)]  # fmt: skip
        with _display() as display, _running(office, {**display, "XDG_RUNTIME_DIR": scratch}):
            window = _opened(display)
            run(["xdotool", "windowmove", window, "0", "0", "windowsize", window, str(WIDE), str(HIGH)], 60, display)
            run(["xdotool", "windowfocus", window, "mousemove", str(WIDE - 2), str(HIGH - 2), "key", "Escape"], 60,
                display)  # fmt: skip
            for number, (_, target) in enumerate(zip(names, targets, strict=True)):
                if number:
                    run(["xdotool", "key", "ctrl+Next"], 60, display)
                _drawn(display, Path(scratch)).quantize(128).save(target, optimize=True)


@contextmanager
def _display() -> Iterator[Mapping[str, str]]:
    """A display of its own, as what programs must have in their environment."""
    told, tell = os.pipe()
    command = ["Xvfb", "-displayfd", str(tell), "-screen", "0", f"{WIDE}x{HIGH}x24", "-nolisten", "tcp"]
    with _running(command, {}, (tell,)):
        os.close(tell)
        with os.fdopen(told) as numbers:
            number = numbers.readline().strip()
        if not number:
            raise OfficeError("Xvfb did not begin a display")
        yield {"DISPLAY": f":{number}"}


@contextmanager
def _running(command: Sequence[str], settings: Mapping[str, str], kept: Sequence[int] = ()) -> Iterator[None]:
    """A program that runs meanwhile; then it is ended with all that it began."""
    with subprocess.Popen(
        command, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        start_new_session=True, env={**os.environ, **settings}, pass_fds=kept,
    ) as process:  # fmt: skip
        try:
            yield
        finally:
            os.killpg(process.pid, signal.SIGKILL)


def _opened(display: Mapping[str, str]) -> str:
    """The window of the workbook, once it is there."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        try:
            return run(["xdotool", "search", "--onlyvisible", "--name", "planner.xlsx"], 60, display).split()[-1]
        except (OfficeError, IndexError):
            time.sleep(GLANCE)
    raise OfficeError(f"the workbook did not open within {PATIENCE:g} s")


def _drawn(display: Mapping[str, str], scratch: Path) -> Image.Image:
    """The screen, once it no longer changes."""
    end = time.monotonic() + PATIENCE
    before: Image.Image | None = None
    while time.monotonic() < end:
        time.sleep(GLANCE)
        taken = scratch / "screen.png"
        run(["import", "-window", "root", str(taken)], 60, display)
        with Image.open(taken) as opened:
            picture = opened.convert("RGB")
        if before is not None and ImageChops.difference(picture, before).getbbox() is None:
            return picture
        before = picture
    raise OfficeError(f"a sheet was not drawn within {PATIENCE:g} s")
