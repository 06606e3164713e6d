"""Makes wbgen/verify/shipped_facts.json anew: the fingerprints by which verify knows an unchanged planner at once.

python tests/tools/shipped_facts.py
"""

from __future__ import annotations

import json
from typing import Final

from wbgen.inputs.design import Design
from wbgen.sheets.column import System
from wbgen.verify.catalogue_facts import KEPT, fingerprint, stamp_of_catalogue
from wbgen.verify.provenance import catalogue_records

SYSTEMS: Final[tuple[System, ...]] = ("metric", "us")


def shipped_facts() -> str:
    """What the file has to hold."""
    known = {"catalogue": stamp_of_catalogue()}
    for system in SYSTEMS:
        records = catalogue_records(Design().book(system))
        known[system] = fingerprint({table: [one.values for one in of] for table, of in records.items()})
    return json.dumps(known, indent=2) + "\n"


if __name__ == "__main__":
    KEPT.write_text(shipped_facts(), encoding="utf-8")
