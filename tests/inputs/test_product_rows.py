"""What a product of the user's own becomes on the sheet: the label's own unit, and packs as they are counted."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Final

import pytest

from support.edits import edited, typed
from support.planners import EMPTY
from support.tier import others_thorough
from wbgen.build import Planner, build
from wbgen.files.findings import Kind
from wbgen.files.xlsx.addresses import address
from wbgen.model.binding import Model
from wbgen.verify.verification import verify

OWN: Final = """\
products:
  - {name: By weight, form: liquid, family: f, density: {value: 1.2 kg/L, basis: memory},
     spray: {usual: 5 L/ha, basis: memory}, pack: {value: 12 kg, basis: memory}, price: {value: 30.00, basis: memory}}
  - {name: Sachets, form: soluble powder, family: f, analysis: {per: w/w, contents: {K: 40 %}, basis: memory},
     spray: {usual: 1 sachet per 450 m², high: 2 sachets per 450 m², basis: memory},
     pack: {value: 1.8 kg, basis: memory}}
  - {name: Potash, form: soluble powder, family: f, analysis: {per: w/w, contents: {K: 41.5 %}, basis: memory},
     spray: {usual: 5 kg K2O/ha, basis: memory}}
  - {name: Element, form: soluble powder, family: f, analysis: {per: w/w, contents: {K2O: 50 %}, basis: memory},
     spray: {usual: 1 lb K/2000 ft², basis: memory}}
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Planner]:
    folder = tmp_path_factory.mktemp("own")
    (folder / "own.yaml").write_text(OWN, encoding="utf-8")
    (folder / "lawns.yaml").write_text(EMPTY + "catalogue: [own.yaml]\n", encoding="utf-8")
    path = folder / "planner.xlsx"
    return path, build(folder / "lawns.yaml", path, diary_rows=5, today=date(2026, 6, 30))


def figure(made: Planner, key: str, name: str, unit: str = "") -> float:
    model = Model(made.inputs)
    names = list(model.column("products", "name"))
    return float(model.column("products", key)[names.index(name)].to(unit).magnitude)


def test_a_liquid_packed_by_weight_is_counted_by_volume(made: tuple[Path, Planner]) -> None:
    """12 kg of 1.2 kg/L are 10 L, so 30.00 a pack is 3.00 a litre."""
    assert figure(made[1], "pack_volume", "By weight", "L/pack") == pytest.approx(10)
    assert figure(made[1], "price_by_volume", "By weight", "currency/L") == pytest.approx(3)


def test_the_label_stands_on_the_sheet_as_it_is_printed(made: tuple[Path, Planner]) -> None:
    inputs = made[1].inputs.values
    at = list(inputs["products"]["name"]).index("Sachets")
    shown = [inputs["products"][key][at] for key in ("spray_usual", "spray_high", "spray_unit")]
    assert shown == [1, 2, "pack/450 m²"]
    assert figure(made[1], "spray_mass_usual", "Sachets", "g/m²") == pytest.approx(4)


def test_a_rate_of_an_oxide_is_had_from_the_element_and_the_other_way_round(made: tuple[Path, Planner]) -> None:
    """K is 0.8301 of K₂O (Mattilsynet, Hva er forskjell på P og P2O5?, prints 0.830)."""
    assert figure(made[1], "spray_mass_usual", "Potash", "g/m²") == pytest.approx(0.5 * 0.830 / 0.415, rel=1e-3)
    pound_per_area = 453.59237 / (2000 * 0.09290304)
    assert figure(made[1], "spray_mass_usual", "Element", "g/m²") == pytest.approx(
        pound_per_area / 0.830 / 0.5, rel=1e-3
    )


def test_a_planner_with_units_of_its_own_is_clean(made: tuple[Path, Planner]) -> None:
    assert verify(made[0]).clean


@pytest.mark.parametrize(
    ("key", "wrong"),
    others_thorough(
        [("pack_rate", 0.01), ("kind_number", 1.0), ("kind", "mass rate"), ("rate_unit", "pack/45 m²")],
        [("pack_rate", 0.01)],
    ),
)
def test_verify_knows_what_one_of_a_unit_of_ones_own_is(
    made: tuple[Path, Planner], tmp_path: Path, key: str, wrong: float | str
) -> None:
    path, planner = made
    placed = planner.layout.placed["rate_units"]
    line = list(planner.inputs.values["rate_units"]["rate_unit"]).index("pack/450 m²")
    cell = address(*placed.cell(key, line))
    changed = edited(path, tmp_path / "changed.xlsx", {(placed.sheet, cell): typed(wrong)})
    found = {(finding.cell, finding.kind) for finding in verify(changed).findings}
    expected = address(*placed.cell("pack_rate", line)) if key == "rate_unit" else cell
    assert (expected, Kind.CONSTANT_CHANGED) in found
