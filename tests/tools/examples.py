"""Makes output_examples/ anew: the starter's planner in both systems of units, and a picture of each sheet.

It makes the fingerprints of the shipped facts anew too (`tools.shipped_facts`).

python tests/tools/examples.py            the workbooks and the pictures
python tests/tools/examples.py --no-pictures
"""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import Final

from tools.shipped_facts import shipped_facts
from wbgen.build import build
from wbgen.sheets.column import System
from wbgen.verify.catalogue_facts import KEPT

ROOT: Final = Path(__file__).resolve().parents[2]
EXAMPLES: Final = ROOT / "output_examples"
DAY: Final = date(2026, 6, 30)
"""The day on which the examples are built; their as-of date is typed in lawns.yaml."""
DIARY_ROWS: Final = 60
SYSTEMS: Final[tuple[System, ...]] = ("metric", "us")


def make(system: System, folder: Path) -> Path:
    """Build the example of one system into `folder` and return its path."""
    target = folder / f"planner_{system}.xlsx"
    target.unlink(missing_ok=True)  # made of lawns.yaml alone: nothing of it can be lost
    build(EXAMPLES / "lawns.yaml", target, system=system, diary_rows=DIARY_ROWS, today=DAY)
    return target


def main(arguments: list[str]) -> None:
    KEPT.write_text(shipped_facts(), encoding="utf-8")
    for system in SYSTEMS:
        planner = make(system, EXAMPLES)
        print(planner.relative_to(ROOT))
        if "--no-pictures" not in arguments:
            from tools.pictures import for_reading

            for picture in for_reading(planner, EXAMPLES / f"pictures_{system}"):
                print(picture.relative_to(ROOT))


if __name__ == "__main__":
    main(sys.argv[1:])
