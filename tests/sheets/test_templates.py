"""What a template may not say, and that the conversions put into its formulas are right."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, Final

import formualizer
import pytest
import yaml

from wbgen.files.diagnostics import InputError
from wbgen.sheets.book import Templates, compile_book, shipped_templates
from wbgen.sheets.column import System
from wbgen.sheets.compile import guarded, needs_of
from wbgen.sheets.layout import lay_out
from wbgen.sheets.macros import written_out
from wbgen.units.quantity import FLOAT, parse_unit

CONVERSIONS: Final = {
    "key": "conversions", "title": "Conversions", "direction": "down", "records": "conversions", "plain": True,
    "columns": [
        {"key": "conversion", "heading": "Conversion", "type": "text", "constant": True},
        {"key": "factor", "heading": "Factor", "constant": True},
    ],
}  # fmt: skip


def folder(tmp_path: Path, columns: Mapping[str, Mapping[str, Any]]) -> Path:
    """Templates of one sheet with one form of the columns, and the table of conversions."""
    form = {
        "key": "start", "title": "Start", "direction": "across",
        "columns": [{"key": key, "heading": key.capitalize(), **column} for key, column in columns.items()],
    }  # fmt: skip
    sheet = {"name": "Trial", "purpose": "A trial", "tables": [form, CONVERSIONS]}
    (tmp_path / "sheet_order.yaml").write_text("sheets: [trial]", encoding="utf-8")
    (tmp_path / "trial.yaml").write_text(yaml.safe_dump(sheet, allow_unicode=True), encoding="utf-8")
    return tmp_path


def given(**units: str) -> dict[str, dict[str, Any]]:
    return {key: {"unit": unit} if unit else {} for key, unit in units.items()}


REFUSED: Final[dict[str, tuple[dict[str, str], str, dict[str, Any], tuple[str, ...]]]] = {
    "mass and volume": (
        {"mass": "g", "volume": "mL"}, "mass+volume", {"unit": "g"}, ("mL is [length]^3", "g is [mass]"),
    ),
    "mass into a column of litres": ({"mass": "g"}, "mass*2", {"unit": "L"}, ("L is [length]^3", "gram is [mass]")),
    "two nutrients": (
        {"nitrogen": "g N", "phosphate": "g P2O5"}, "nitrogen+phosphate", {"unit": "g N"}, ("g_N", "g_P2O5"),
    ),
    "an element and its oxide": ({"iron": "g Fe", "share": "g P/g"}, "MAX(iron,share)", {"unit": "g Fe"}, ("g_Fe",)),
    "branches of an IF": (
        {"mass": "g", "area": "m²"}, "IF(mass>0,mass,area)", {"unit": "g"}, ("g is [mass]", "m**2 is [length]^2"),
    ),
    "a figure and a plain number": (
        {"mass": "g"}, "mass+2", {"unit": "g"}, ("g is [mass]", "a plain number is without dimension"),
    ),
    "a number that nobody declared": ({"mass": "g"}, "mass*3.5", {"unit": "g"}, ("3.5",)),
    "a criterion in another unit": (
        {"mass": "g", "least": "kg"}, 'COUNTIF(start.mass,">="&least)', {}, ("in g", "in kg"),
    ),
    "a text and a number": ({"mass": "g"}, 'IF(mass>0,"yes",mass)', {"unit": "g"}, ("g", "text")),
    "a number where text belongs": ({"mass": "g"}, "mass", {"type": "text"}, ("g", "text")),
    "a sum of temperatures": ({"air": "degC", "water": "degC"}, "air+water", {"unit": "degC"}, ("temperature",)),
    "a figure in words without its unit": ({"mass": "g"}, 'mass&" in all"', {"type": "text"}, ("unit", "TEXT")),
    "a function that engines read differently": ({"mass": "g"}, "OFFSET(mass,1,0)", {"unit": "g"}, ("OFFSET",)),
    "a newer function": ({"mass": "g"}, "XLOOKUP(mass,mass,mass)", {"unit": "g"}, ("XLOOKUP",)),
    "a percent sign": ({"mass": "g"}, "mass*5%", {"unit": "g"}, ()),
    "no formula": ({"mass": "g"}, "mass*(2", {"unit": "g"}, ("formula",)),
    "a column that is not there": ({"mass": "g"}, "masss*2", {"unit": "g"}, ("masss", "start")),
    "a table that is not there": ({"mass": "g"}, "SUM(stray.mass)", {"unit": "g"}, ("stray",)),
}  # fmt: skip


@pytest.mark.parametrize("case", REFUSED)
def test_a_formula_is_refused_with_its_place_and_both_units(tmp_path: Path, case: str) -> None:
    columns, text, wanted, words = REFUSED[case]
    templates = Templates(folder(tmp_path, given(**columns) | {"result": {"formula": text, **wanted}}))
    with pytest.raises(InputError) as caught:
        templates.book("metric")
    (problem,) = caught.value.diagnostics
    assert problem.message.startswith("the formula of start.result ")
    assert problem.place.key == f"tables[1].columns[{len(columns) + 1}].formula"
    for word in words:
        assert word in problem.render(), problem.render()


def test_all_refusals_are_told_at_once(tmp_path: Path) -> None:
    formulas = {"first": "mass+volume", "second": "mass*7", "third": "nowhere"}
    columns = given(mass="g", volume="mL") | {key: {"unit": "g", "formula": text} for key, text in formulas.items()}
    with pytest.raises(InputError) as caught:
        Templates(folder(tmp_path, columns)).book("metric")
    assert [one.message.split()[3] for one in caught.value.diagnostics] == [f"start.{key}" for key in formulas]


Expected = Callable[..., Any]
CONVERTED: Final[dict[str, tuple[dict[str, tuple[float, str]], str, str, Expected]]] = {
    "a rate by large area": (
        {"rate": (25.0, "kg/ha"), "area": (240.0, "m²")}, "rate*area", "g", lambda rate, area: rate * area,
    ),
    "kilograms a hectare into grams a square metre": ({"rate": (25.0, "kg/ha")}, "rate", "g/m²", lambda rate: rate),
    "ounces by 1000 square feet": (
        {"rate": (2.0, "oz/1000 ft²"), "area": (240.0, "m²")}, "rate*area", "lb", lambda rate, area: rate * area,
    ),
    "a sum of scales": (
        {"one": (3.0, "g"), "other": (2.0, "oz"), "third": (1.0, "lb")},
        "one+(other-third)*2", "kg", lambda one, other, third: one + (other - third) * 2,
    ),
    "nested brackets": (
        {"one": (3.0, "m"), "other": (2.0, "ft"), "third": (5.0, "in")},
        "((one+other)*((third)))/(other+(third-one))", "cm",
        lambda one, other, third: (one + other) * third / (other + (third - one)),
    ),
    "the branch that is taken": (
        {"one": (3.0, "L"), "other": (2.0, "US gal")}, "IF(one>other,one,other*2)", "mL", lambda other, **_: other * 2,
    ),
    "a comparison of scales": (
        {"one": (3.9, "L"), "other": (1.0, "US gal")}, "IF(one>other,one,other)", "L", lambda one, **_: one,
    ),
    "an IF within an IF": (
        {"one": (3.0, "g"), "other": (2.0, "oz"), "third": (1.0, "lb")},
        'IF(one>other,"",IF(third>other,third+IF(one>0,one,other),other))', "g", lambda one, third, **_: third + one,
    ),
    "the greatest of scales": (
        {"one": (3.0, "g"), "other": (2.0, "oz")}, "MAX(one,other)-MIN(one,other)", "lb",
        lambda one, other: other - one,
    ),
    "a choice": (
        {"one": (3.0, "km/h"), "other": (2.0, "mph")}, "CHOOSE(2,one,other)", "m/s", lambda other, **_: other,
    ),
    "a share of an area by nutrient": (
        {"rate": (25.0, "kg/ha"), "area": (240.0, "ft²"), "share": (0.21, "g N/g")},
        "rate*area*share", "lb N", lambda rate, area, share: rate * area * share,
    ),
    "a root": (
        {"one": (9.0, "bar"), "other": (40.0, "psi")}, "SQRT(one/other)", "", lambda one, other: (one / other) ** 0.5,
    ),
    "a power": ({"one": (9.0, "ft")}, "one^2", "m²", lambda one: one**2),
    "a guarded division": (
        {"one": (9.0, "L"), "other": (2.0, "ft²")}, 'IFERROR(one/other,"")', "L/ha", lambda one, other: one / other,
    ),
    "a rounded figure": ({"one": (9.26, "kg")}, "ROUND(one,1)", "g", lambda one: round(one, 1)),
    "a difference of temperatures": (
        {"one": (68.0, "degF"), "other": (50.0, "degF")}, "one-other", "delta_degC",
        lambda one, other: (one.magnitude - other.magnitude) * FLOAT("delta_degF"),
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", CONVERTED)
def test_conversions_stand_where_they_belong(tmp_path: Path, case: str) -> None:
    """The compiled formula, evaluated, gives what pint gives for the same quantities."""
    figures, text, unit, expected = CONVERTED[case]
    columns = given(**{key: own for key, (_, own) in figures.items()})
    result = {"formula": text} | ({"unit": unit} if unit else {})
    found = evaluated(folder(tmp_path, columns | {"result": result}), {key: one for key, (one, _) in figures.items()})
    quantities = {key: FLOAT.Quantity(one, parse_unit(own)) for key, (one, own) in figures.items()}
    wanted = expected(**quantities).to(parse_unit(unit) if unit else "dimensionless").magnitude
    assert found == pytest.approx(wanted, rel=1e-12)


def evaluated(templates: Path, figures: Mapping[str, float], system: System = "metric") -> Any:
    """What formualizer makes of the column `result`."""
    book = Templates(templates).book(system)
    layout = lay_out(book.sheets, {"conversions": max(1, len(book.conversions))})
    compiled = compile_book(book, layout.placed)
    workbook = formualizer.Workbook()
    workbook.add_sheet("Trial")
    start, factors = layout.placed["start"], layout.placed["conversions"]
    for key, figure in figures.items():
        row, column = start.cell(key)
        workbook.set_value("Trial", row + 1, column + 1, figure)
    for index, found in enumerate(book.conversions):
        row, column = factors.cell("factor", index)
        workbook.set_value("Trial", row + 1, column + 1, float(found.factor))
    row, column = start.cell("result")
    workbook.set_formula("Trial", row + 1, column + 1, "=" + compiled["start"]["result"].text(0))
    return workbook.evaluate_cell("Trial", row + 1, column + 1)


WRITTEN: Final = {
    "GIVEN(INDEX(lawns.area,line))": 'IF(INDEX(lawns.area,line)="","",INDEX(lawns.area,line))',
    "GIVEN(mass)*2": 'IF(mass="","",mass)*2',
    "MAX(GIVEN(mass),GIVEN(area))": 'MAX(IF(mass="","",mass),IF(area="","",area))',
    "GIVEN(INDEX(mass,GIVEN(line)))": 'IF(INDEX(mass,IF(line="","",line))="","",INDEX(mass,IF(line="","",line)))',
    'GIVEN(IF(a=")","(",b))': 'IF(IF(a=")","(",b)="","",IF(a=")","(",b))',
    '"GIVEN(mass)"&words': '"GIVEN(mass)"&words',
    "FORGIVEN(mass)": "FORGIVEN(mass)",
    "mass*2": "mass*2",
}  # fmt: skip
"""Formulas with a macro, and what they stand for."""


@pytest.mark.parametrize("formula", WRITTEN)
def test_a_macro_is_written_out(formula: str) -> None:
    assert written_out(formula) == WRITTEN[formula]


def test_no_formula_of_a_workbook_has_a_macro_and_no_template_writes_one_out() -> None:
    """What stands twice in a text may differ unseen."""
    whole = re.compile(r'IF\((.+?)="","",\1\)')
    macros = 0
    for table in shipped_templates().book("metric").tables.values():
        for column in table.columns:
            written = column.meaning.formula or ""
            macros += written != written_out(written)
            assert "GIVEN" not in guarded(table, column)
            assert whole.search(written) is None, f"{table.key}.{column.key}"
    assert macros


def test_a_guard_asks_nothing_twice() -> None:
    """The area needs the lawn's name, so what needs both asks for the area alone."""
    lawns = shipped_templates().book("metric").tables["lawns"]
    line = next(column for column in lawns.columns if column.key == "strip_line")
    asked = {
        ("strip",): 'IF(strip="",',
        ("name", "strip"): 'IF(OR(name="",strip=""),',
        ("name", "area"): 'IF(area="",',
        ("area", "strip", "area_from"): 'IF(OR(area="",strip="",area_from=""),',
    }
    for needs, guard in asked.items():
        column = replace(line, meaning=replace(line.meaning, blank_unless=needs))
        assert needs_of(lawns, column) == needs
        assert guarded(lawns, column).startswith(guard)
