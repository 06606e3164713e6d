"""Sprayers of the file as records of the table."""

from __future__ import annotations

from pathlib import Path

import pytest

from wbgen.inputs.sprayer_rows import sprayer_row, walk_rows
from wbgen.records.fields import Measure
from wbgen.records.site.site import load_site_and_catalogue

SITE = """\
site: {name: A, units: metric, currency: EUR, season starts: 1 January}
lawns: [{name: A, grass: cool season, area: 1 m²}]
sprayers: [{name: Hose, kind: hose-end, brim: 1 L, working: 0.9 L, passes: 1, jar: JAR}]
"""


@pytest.mark.parametrize("jar", ["{dilution: 20}", "{dilution: 20, capacity: 1 L}", "{capacity: 900 mL, dilution: 20}"])
def test_a_jar_is_filled_to_the_working_capacity(tmp_path: Path, jar: str) -> None:
    file = tmp_path / "lawns.yaml"
    file.write_text(SITE.replace("JAR", jar), encoding="utf-8")
    (hose,) = load_site_and_catalogue(file, ())[0].sprayers
    row = sprayer_row(hose)
    working = row["working"]
    assert isinstance(working, Measure)
    assert (working.to("L"), row["jar_dilution"]) == (0.9, 20)


@pytest.mark.parametrize(
    ("seconds", "alone", "walks"), [("36", 36.0, []), ("[36]", 36.0, []), ("[36, 38.5, 37]", None, [36, 38.5, 37])]
)
def test_several_walks_are_records_of_their_own(
    tmp_path: Path, seconds: str, alone: float | None, walks: list[float]
) -> None:
    file = tmp_path / "lawns.yaml"
    walk = f"{{dilution: 20}}, walk: {{distance: 20 m, seconds: {seconds}}}"
    file.write_text(SITE.replace("JAR", walk), encoding="utf-8")
    (hose,) = load_site_and_catalogue(file, ())[0].sprayers
    assert sprayer_row(hose)["walk_time"] == alone
    assert [row["time"] for row in walk_rows(hose)] == walks
