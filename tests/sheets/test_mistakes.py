"""What a person editing a template does wrong is told with its place, and nothing of it is a traceback."""

from __future__ import annotations

import random
import re
import shutil
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import pytest
from typer.testing import CliRunner

import wbgen.model
from sheets.pocket import SOUND, place_of, spoiled, write
from support.tier import others_thorough
from wbgen import build as building
from wbgen.cli import app
from wbgen.files import shipped
from wbgen.files.diagnostics import Diagnostic, InputError
from wbgen.inputs.design import Design
from wbgen.sheets.book import Templates, compile_book, shipped_templates
from wbgen.sheets.column import STYLES, Accepts, Look, Meaning, Page
from wbgen.sheets.layout import lay_out
from wbgen.sheets.records import ColumnKeys
from wbgen.writer.styles import VARIANTS

CAPACITIES: Final = {"lawns": 3, "conversions": 40}


@dataclass(frozen=True)
class Mistake:
    """What is written where, and where and how it is told: at `at` (a text that stands once in the file)."""

    file: str
    old: str
    new: str
    at: str
    code: str
    words: tuple[str, ...] = ()
    told_in: str = ""


MISTAKES: Final = {
    "a misspelt key": Mistake(
        "lawns.yaml", "digits: 1}", "digts: 1}", "digts", "unknown-key", ("digts", "did you mean digits?")
    ),
    "a doubled key": Mistake(
        "lawns.yaml", "heading: Area, unit", "heading: Area, heading: Size, unit", "heading: Size", "duplicate-key"
    ),
    "a key that a table does not have": Mistake(
        "lawns.yaml", "vanish: name\n", "vanishes: name\n", "vanishes", "unknown-key", ("did you mean vanish?",)
    ),
    "a sheet out of the order of the parts": Mistake(
        "lawns.yaml", "purpose: What is fed\n", "purpose: What is fed\npart: today\n", "today", "wrong-order",
        ("Lawns stands behind Start", "today then plan", "move it forward in sheet_order.yaml"),
    ),
    "an example that is no number": Mistake(
        "lawns.yaml", "minimum: 0,", "minimum: 0, example: 12 m,", "12 m,", "wrong-value",
        ("area would not take this example",),
    ),
    "an example beyond the end": Mistake(
        "lawns.yaml", "minimum: 0,", 'minimum: 0, example: {metric: "12", us: "-1"},', '{metric: "12"', "wrong-value",
        ("area would not take this example", "-1"),
    ),
    "a link to no sheet": Mistake(
        "lawns.yaml", "purpose: What is fed\n", "purpose: What is fed\nlinks: [Start, Mxi]\n", "Mxi", "unknown-name",
        ("is not a sheet", "did you mean Mix?"),
    ),
    "a link of a sheet to itself": Mistake(
        "lawns.yaml", "purpose: What is fed\n", "purpose: What is fed\nlinks: [Start, Lawns]\n", "Lawns]", "twice",
        ("as to another", "delete the link"),
    ),
    "a key that a sheet does not have": Mistake(
        "lawns.yaml", "printed: 8\n", "printd: 8\n", "printd", "unknown-key", ("did you mean printed?",)
    ),
    "a missing key": Mistake(
        "lawns.yaml", "{key: name, heading: Name,", "{key: name,", "{key: name,", "missing-key", ("heading",)
    ),
    "no for a number": Mistake("lawns.yaml", "digits: 1}", "digits: no}", "no}", "ambiguous-word", ("true or false",)),
    "a word for a number": Mistake(
        "lawns.yaml", "minimum: 0", "minimum: none", "none", "wrong-value", ("a number", "'none'")
    ),
    "a word for a flag": Mistake(
        "lawns.yaml", "plain: true", "plain: plainly", "plainly", "wrong-value", ("true or false", "'plainly'")
    ),
    "a word that is none of those": Mistake(
        "lawns.yaml", "heading: Name, type: text", "heading: Name, type: txt", "txt", "unknown-word", ("mean text?",)
    ),
    "a list for a word": Mistake("lawns.yaml", "title: Days", "title: [Days]", "[Days]", "wrong-shape", ("text",)),
    "a word for a list": Mistake("lawns.yaml", "lines: [area]", "lines: area", "area, right", "wrong-shape", ("list",)),
    "a key like an address": Mistake("lawns.yaml", "{key: rate,", "{key: so3,", "so3", "wrong-value", ("key",)),
    "an unknown look": Mistake(
        "lawns.yaml", "minimum: 0,", "style: fadin,", "fadin", "unknown-word", ("did you mean fading?",)
    ),
    "a text in grams": Mistake(
        "lawns.yaml", "heading: Kind,", "heading: Kind, unit: g,", "g, type", "wrong-unit", ("only a number",)
    ),
    "two roles": Mistake(
        "lawns.yaml", "heading: In words\n", "heading: In words\n        constant: true\n",
        "true\n        type: text\n        formula", "two-roles", ("formula or a constant",),
    ),
    "an input that counts": Mistake(
        "mix/feeds.yaml", "constant: true, running: true", "running: true", "true}", "two-roles", ("constant: true",)
    ),
    "a unit that is none": Mistake(
        "lawns.yaml", "unit: {metric: g, us: oz}", "unit: {metric: grm, us: oz}", "grm", "wrong-unit", ("grm",)
    ),
    "a unit that is none with any member's word": Mistake(
        "mix/feeds.yaml", "g {symbol}/g", "g {name}/g", '"g {name}/g"', "wrong-unit", ("is not a unit",)
    ),
    "a unit of one system": Mistake(
        "lawns.yaml", "unit: {metric: g, us: oz}", "unit: {metric: g}", "{metric: g}", "missing-key", ("us",)
    ),
    "units of two dimensions": Mistake(
        "lawns.yaml", "unit: {metric: m², us: ft²}", "unit: {metric: m², us: ft}", "{metric: m², us: ft}", "unit-clash",
        ("m²", "ft"),
    ),
    "an unknown name in a formula": Mistake(
        "mix/mix.yaml", "SUM(lawns.mass)-weigh_full", "SUM(lawns.mass)-weigh_ful", "SUM(lawns.mass)-weigh_ful",
        "unknown-column", ("the formula of mix.rest", "weigh_ful", "did you mean weigh_full?"),
    ),
    "an unknown column of another table": Mistake(
        "mix/mix.yaml", "SUM(lawns.mass)-weigh_full", "SUM(lawns.mas)-weigh_full", "SUM(lawns.mas)", "unknown-column",
        ("a column of lawns", "did you mean mass?"),
    ),
    "an unknown table in a formula": Mistake(
        "mix/mix.yaml", "SUM(lawns.mass)-weigh_full", "SUM(lawn.mass)-weigh_full", "SUM(lawn.mass)", "unknown-table",
        ("'lawn'", "did you mean lawns?"),
    ),
    "the wrong dimension": Mistake(
        "lawns.yaml", "rate\n          *area", "rate\n          +area", ">-", "unit-clash",
        ("the formula of lawns.mass", "m**2 is [length]^2", "g/m**2 is [length]^-2 [mass]", "expected: g/m**2",
         "found: m**2"),
    ),
    "the wrong dimension for the column": Mistake(
        "lawns.yaml", "rate\n          *area", "rate\n          *1", ">-", "unit-clash",
        ("expected: g", "found: gram/metre**2", "g is [mass]"),
    ),
    "text for a figure": Mistake(
        "mix/mix.yaml", "SUM(lawns.mass)-weigh_full", '\'IF(weigh_full>0,"yes","no")\'', "'IF(weigh", "unit-clash",
        ("gives text where g belongs",),
    ),
    "a formula that does not parse": Mistake(
        "lawns.yaml", "rate\n          *area", "rate\n          *(area", ">-", "wrong-formula", ("bracket",)
    ),
    "a formula in German": Mistake(
        "mix/mix.yaml", "SUM(lawns.mass)-weigh_full", "SUM(lawns.mass;weigh_full)", "SUM(lawns.mass;", "wrong-formula"
    ),
    "an unknown function": Mistake(
        "mix/mix.yaml", "SUM(lawns.mass)-weigh_full", "SUMM(lawns.mass)-weigh_full", "SUMM", "unknown-function",
        ("SUMM", "did you mean SUM?"),
    ),
    "a bracket of a macro that is not closed": Mistake(
        "mix/mix.yaml", "SUM(lawns.mass)-weigh_full", "GIVEN(SUM(lawns.mass)-weigh_full", "GIVEN(", "wrong-formula",
        ("GIVEN is not closed",),
    ),
    "two arguments of a macro": Mistake(
        "mix/mix.yaml", "SUM(lawns.mass)-weigh_full", "'GIVEN(SUM(lawns.mass),weigh_full)'", "'GIVEN(", "wrong-formula",
        ("gives GIVEN 2 arguments", "expected: one argument"),
    ),
    "a misspelt macro": Mistake(
        "mix/mix.yaml", "SUM(lawns.mass)-weigh_full", "GIVE(weigh_full)", "GIVE(", "unknown-function",
        ("did you mean GIVEN?",),
    ),
    "a macro in a formula that does not parse": Mistake(
        "mix/mix.yaml", "SUM(lawns.mass)-weigh_full", "GIVEN(weigh_full)*/2", "GIVEN(", "wrong-formula",
        ("found: 'GIVEN(weigh_full)*/2'",),
    ),
    "the wrong dimension in a macro": Mistake(
        "mix/mix.yaml", "SUM(lawns.mass)-weigh_full", "'GIVEN(INDEX(lawns.area,1))'", "'GIVEN(", "unit-clash",
        ("expected: g", "found: m**2"),
    ),
    "a number that nobody declared": Mistake(
        "mix/mix.yaml", "SUM(lawns.mass)-weigh_full", "SUM(lawns.mass)*7-weigh_full", "SUM(lawns.mass)*7",
        "stray-number", ("the number 7", "literals"),
    ),
    "a number that is no longer declared": Mistake(
        "mix/mix.yaml", ", literals: [4]", "", "SUM(lawns.mass)/4", "stray-number", ("the number 4",)
    ),
    "a figure in words without its unit": Mistake(
        "lawns.yaml", "[g|oz]", "[oz|g]", "|\n          ROUND", "unit-clash", ("TEXT(",)
    ),
    "a key twice": Mistake(
        "lawns.yaml", "{key: rate,", "{key: kind,", "kind, heading: Rate", "twice", ("lawns: the key 'kind'",)
    ),
    "a heading twice": Mistake(
        "lawns.yaml", "heading: Rate", "heading: Area", "Area, unit: {metric: g/m²", "twice", ("area and rate",)
    ),
    "a table twice": Mistake(
        "units.yaml", "key: conversions\n", "key: conversions\n    title: One\n    columns: [{key: aa, heading: A}]\n"
        "  - key: lawns\n", "lawns\n", "twice", ("the table 'lawns'",),
    ),
    "a sheet's name twice": Mistake(
        "units.yaml", "name: Units", "name: LAWNS", "LAWNS", "twice", ("the sheet 'LAWNS'",)
    ),
    "a sheet's name that no program takes": Mistake(
        "units.yaml", "name: Units", "name: In/out", "In/out", "wrong-value", ("without [ ]",)
    ),
    "an unknown family": Mistake(
        "mix/mix.yaml", "each: loads", "each: load", "load, slot", "unknown-word", ("did you mean loads?",)
    ),
    "an unknown word of a family": Mistake(
        "mix/mix.yaml", "Weigh for {name}", "Weigh for {nam}", '"Weigh', "wrong-family", ("did you mean name?",)
    ),
    "a brace": Mistake("mix/mix.yaml", "Weigh for {name}", "Weigh for {name", '"Weigh', "wrong-family", ("braces",)),
    "an unknown name of all members": Mistake(
        "mix/feeds.yaml", "MAX(level_every)", "MAX(levels_every)", "MAX(", "wrong-family", ("did you mean level_each?",)
    ),
    "a look that no member has": Mistake(
        "mix/feeds.yaml", 'heading: "{name} level"', 'heading: "{name} level", show: each', "each}\n  - {key: highest",
        "wrong-family",
    ),
    "families of two lengths side by side": Mistake(
        "mix/feeds.yaml", "dose_each, each: nutrients", "dose_each, each: oxides", "true, heading: \"{printed} given",
        "wrong-family", ("beside",),
    ),
    "an unknown slot": Mistake("mix/mix.yaml", "slot: last", "slot: lst", "lst", "unknown-name", ("mean last?",)),
    "a slot without a column": Mistake(
        "mix/mix.yaml", "slot: last, heading", "slot: full, heading", "{full: Each", "unused-slot", ("last",)
    ),
    "an unknown column that fades": Mistake(
        "lawns.yaml", "vanish: name", "vanish: nam", "nam\n", "unknown-name", ("did you mean name?",)
    ),
    "an unknown guard": Mistake(
        "lawns.yaml", "blank_unless: [area, rate]", "blank_unless: [area, rat]", "rat]", "unknown-column",
        ("blank_unless", "did you mean rate?"),
    ),
    "an unknown guard of a table": Mistake(
        "lawns.yaml", "blank_unless: [name]", "blank_unless: [nam]", "nam]", "unknown-column", ("mean name?",)
    ),
    "an unknown column of choices": Mistake(
        "lawns.yaml", "choices: lawns.name", "choices: lawns.nam", "lawns.nam}", "unknown-name", ("mean name?",)
    ),
    "an unknown table of choices": Mistake(
        "lawns.yaml", "choices: lawns.name", "choices: lawn.name", "lawn.name}", "unknown-name", ("mean lawns?",)
    ),
    "a column in a chart that is not there": Mistake(
        "lawns.yaml", "right: [mass]", "right: [mas]", "mas]", "unknown-name", ("did you mean mass?",)
    ),
    "a chart of a table that is not there": Mistake(
        "lawns.yaml", "{table: lawns, over", "{table: lawn, over", "lawn, over", "unknown-name", ("mean lawns?",)
    ),
    "a chart over a column that is not there": Mistake(
        "lawns.yaml", "over: name", "over: nam", "nam, lines", "unknown-name", ("did you mean name?",)
    ),
    "more lines than can be told apart": Mistake(
        "lawns.yaml", "lines: [area]", "lines: [area, rate, area, rate]", "[area, rate, area, rate]", "wrong-value",
        ("at most 2 on the right and 4 in all", "4 lines, 1 on the right"),
    ),
    "more bars than can be told apart": Mistake(
        "lawns.yaml", "right: [mass]", "bars: [area, rate, mass]", "[area, rate, mass]", "wrong-value",
        ("these bars cannot be drawn", "3 bars"),
    ),
    "a line without what it is drawn over": Mistake(
        "lawns.yaml", "right: [mass]", "right: [mass], along: [area, mass]", "[area, mass]", "wrong-value",
        ("each line needs what it is drawn over", "1 columns"),
    ),
    "a chart of a form": Mistake(
        "lawns.yaml", "{table: lawns, over: name, lines: [area], right: [mass],",
        "{table: mix, over: rest, lines: [rest], right: [rest],", "mix, over", "wrong-value", ("direction: down",),
    ),
    "choices from a form": Mistake(
        "lawns.yaml", "choices: lawns.name", "choices: start.as_of", "start.as_of", "wrong-value", ("direction: down",)
    ),
    "slots of a table": Mistake(
        "mix/feeds.yaml", "title: Feeds\n", "title: Feeds\nslots: {one: One}\n", "{one: One}", "wrong-value",
        ("only a form has slots",),
    ),
    "a scale upside down": Mistake("lawns.yaml", "scale: [0, 9]", "scale: [9, 0]", "[9, 0]", "wrong-value"),
    "a last table that is not there": Mistake(
        "lawns.yaml", "last_printed: lawns", "last_printed: lawn", "lawn\n", "unknown-name", ("mean lawns?",)
    ),
    "a default that is no choice": Mistake(
        "lawns.yaml", "default: front", "default: frnt", "frnt", "unknown-name", ("did you mean front?",)
    ),
    "a default in another dimension": Mistake(
        "lawns.yaml", "{metric: 2 g/m², us: 1 oz/1000 ft²}", "2 kg", "2 kg", "wrong-value", ("g/m²", "2 kg")
    ),
    "a most below the least": Mistake(
        "lawns.yaml", "maximum: 90000", "maximum: -1", "-1,", "wrong-value", ("0 or more",)
    ),
    "a row with an unknown column": Mistake(
        "lawns.yaml", "- {day: Monday,", "- {da: Monday,", "{da: Monday", "unknown-name", ("did you mean day?",)
    ),
    "a second row in another dimension": Mistake(
        "lawns.yaml", "{day: Tuesday, length: 24 h}", "{day: Tuesday, length: 24 m}", "{day: Tuesday", "wrong-value",
        ("a figure in h",),
    ),
    "a family whose members have one key": Mistake(
        "mix/feeds.yaml", "{key: level_each,", "{key: level_all,", "level_all", "twice", ("feeds: the key 'level_all'",)
    ),
    "a family whose members have one heading": Mistake(
        "mix/feeds.yaml", 'heading: "{name} level"', 'heading: Level', "Level}", "twice", ("headed 'Level'",)
    ),
    "guards that ask for each other": Mistake(
        "lawns.yaml", "      - key: words\n", "      - {key: extra, heading: Extra, type: text, formula: kind, "
        "blank_unless: [words]}\n      - key: words\n        blank_unless: [extra]\n", "[words]", "circle",
        ("lawns.extra needs lawns.words needs lawns.extra",),
    ),
    "a row in another dimension": Mistake(
        "lawns.yaml", "{day: Monday, length: 24 h}", "{day: Monday, length: 24 m}", "{day: Monday", "wrong-value",
        ("a figure in h",),
    ),
    "a column that needs itself": Mistake(
        "mix/feeds.yaml", "MAX(level_every)", "MAX(level_every)+highest", "MAX(", "circle",
        ("feeds.highest needs feeds.highest",),
    ),
    "a circle in one table": Mistake(
        "mix/mix.yaml", "SUM(lawns.mass)/4", "SUM(lawns.mass)/4+rest", "SUM(lawns.mass)/4+rest", "circle",
        ("mix.weigh_full needs mix.rest needs mix.weigh_full",),
    ),
    "a circle across tables": Mistake(
        "lawns.yaml", "rate\n          *area", "rate\n          *area+mix.rest", ">-", "circle",
        ("lawns.mass needs mix.rest needs mix.weigh_full needs lawns.mass",),
    ),
    "a sheet without a file": Mistake(
        "sheet_order.yaml", "lawns, mix", "lawn, mix", "lawn, ", "missing-file", ("lawn.yaml", "did you mean lawns?")
    ),
    "a sheet twice in the order": Mistake(
        "sheet_order.yaml", "lawns, mix", "lawns, mix, lawns", "lawns, units", "twice", ("lawns",)
    ),
    "a sheet outside the folder": Mistake(
        "sheet_order.yaml", "lawns, mix", "../lawns, mix", "../lawns", "wrong-value", ("the name of a file",)
    ),
    "a table without a file": Mistake(
        "mix/sheet.yaml", "- feeds", "- feed", "feed\n", "missing-file", ("did you mean feeds?",)
    ),
    "a word for the names of tables": Mistake(
        "mix/sheet.yaml", "tables:\n  - mix\n  - feeds\n", "tables: mix, feeds\n", "mix, feeds", "wrong-shape"
    ),
    "a key in a file whose name is it": Mistake(
        "mix/feeds.yaml", "title: Feeds", "key: feeds\ntitle: Feeds", "key: feeds", "unknown-key"
    ),
    "an indent": Mistake("lawns.yaml", "        digits: {", "       digits: {", "digits: {", "yaml-syntax"),
    "an empty file": Mistake("units.yaml", SOUND["units.yaml"], "", "", "wrong-shape", ("keys and values",)),
    "no columns": Mistake("mix/feeds.yaml", SOUND["mix/feeds.yaml"], "title: Feeds\n", "title", "missing-key"),
    "no tables": Mistake("mix/sheet.yaml", "tables:\n  - mix\n  - feeds\n", "", "name", "missing-key", ("tables",)),
    "no state of the checks": Mistake(
        "start.yaml", "{key: master_check,", "{key: checks,", "", "missing-column", ("start.master_check",),
        told_in="sheet_order.yaml",
    ),
    "no factors": Mistake(
        "units.yaml", "{key: factor,", "{key: factors,", "", "missing-column", ("conversions.factor",),
        told_in="sheet_order.yaml",
    ),
}  # fmt: skip


def told(folder: Path, files: dict[str, str]) -> tuple[Diagnostic, ...]:
    """What is told of templates in one system, or the other where the first has no mistake."""
    with pytest.raises(InputError) as caught:
        Templates(write(folder, files)).book("metric")
    return caught.value.diagnostics


@pytest.mark.parametrize("system", ["metric", "us"])
def test_the_small_templates_are_sound(tmp_path: Path, system: str) -> None:
    templates = Templates(write(tmp_path, SOUND))
    made = templates.book("us" if system == "us" else "metric")
    assert made is templates.book(made.system), "a book is made once"
    assert set(compile_book(made, lay_out(made.sheets, CAPACITIES).placed)["lawns"]) == {"mass", "words"}
    assert [key for key in made.tables if not key.startswith("standing_")] == [
        "start", "lawns", "days", "mix", "feeds", "conversions",
    ]  # fmt: skip
    assert made.formulas["lawns"]["mass"].source == 'IF(OR(name="",area="",rate=""),"",rate *area)'


@pytest.mark.parametrize("case", MISTAKES)
def test_a_mistake_is_told_once_at_its_place(tmp_path: Path, case: str) -> None:
    mistake = MISTAKES[case]
    files = spoiled(mistake.file, mistake.old, mistake.new)
    file = mistake.told_in or mistake.file
    line, column = place_of(files[file], mistake.at) if mistake.at else (0 if mistake.told_in else 1,) * 2
    found = told(tmp_path, files)
    at = [one for one in found if one.code == mistake.code]
    assert [(one.place.file, one.place.line, one.place.column) for one in at] == [(str(tmp_path / file), line, column)]
    for word in mistake.words:
        assert word in at[0].render(), at[0].render()


@pytest.mark.parametrize("case", MISTAKES)
def test_a_mistake_hides_none_and_makes_none(tmp_path: Path, case: str) -> None:
    """Another mistake in another file is told too, and nothing that only follows from the first."""
    mistake = MISTAKES[case]
    alone = told(tmp_path / "alone", spoiled(mistake.file, mistake.old, mistake.new))
    assert len(alone) <= 2, [one.render() for one in alone]
    files = spoiled(mistake.file, mistake.old, mistake.new)
    other = "start.yaml" if mistake.file != "start.yaml" else "lawns.yaml"
    files[other] = files[other].replace("purpose:", "purpse:")
    both = told(tmp_path / "both", files)
    assert len(both) == len(alone) + 1
    assert ("unknown-key", other) in {(one.code, Path(one.place.file).name) for one in both}


def test_a_file_without_a_place_in_the_order_is_told(tmp_path: Path) -> None:
    more = {"round.yaml": "name: Round\n", "mix/spare.yaml": "title: Spare\n", "old/sheet.yaml": "name: Old\n"}
    found = told(tmp_path, {**SOUND, **more})
    assert {(one.code, one.place.file) for one in found} == {
        ("unlisted-file", str(tmp_path / name)) for name in ("round.yaml", "old", "mix/spare.yaml")
    }


@pytest.mark.parametrize(
    ("order", "codes"),
    [("order: [start]\n", {"unknown-key", "missing-key"}), ("", {"empty-file"}), ("- start\n", {"wrong-shape"}),
     ("sheets: start\n", {"wrong-shape"})],
    ids=["no sheets", "empty", "a list", "a word"],
)  # fmt: skip
def test_an_order_that_names_no_sheets_is_told(tmp_path: Path, order: str, codes: set[str]) -> None:
    found = told(tmp_path, {**SOUND, "sheet_order.yaml": order})
    assert {one.code for one in found} == codes
    assert {(one.place.file, one.place.line) for one in found} == {(str(tmp_path / "sheet_order.yaml"), 1)}


def test_a_sheet_that_is_a_file_and_a_folder_is_told(tmp_path: Path) -> None:
    (found,) = told(tmp_path, {**SOUND, "mix.yaml": "name: Mix\n"})
    assert (found.code, found.place.file) == ("twice", str(tmp_path / "mix.yaml"))


def test_a_folder_that_is_none_is_told(tmp_path: Path) -> None:
    with pytest.raises(InputError) as caught:
        Templates(tmp_path / "nowhere").book("metric")
    assert [one.code for one in caught.value.diagnostics] == ["unreadable-file"]


def test_mistakes_in_all_files_are_told_at_once_in_the_order_of_their_places(tmp_path: Path) -> None:
    files = dict(SOUND)
    for case in ("a misspelt key", "an unknown name in a formula", "no factors", "a word for a flag"):
        mistake = MISTAKES[case]
        files[mistake.file] = files[mistake.file].replace(mistake.old, mistake.new)
    found = told(tmp_path, files)
    assert sorted(one.code for one in found) == ["missing-column", "unknown-column", "unknown-key", "wrong-value"]
    lines = [one.place.line for one in found if one.place.file.endswith("lawns.yaml")]
    assert lines == sorted(lines)


def test_a_mistake_in_a_family_is_told_once(tmp_path: Path) -> None:
    """Twelve columns have the formula that is written once."""
    (found,) = told(tmp_path, spoiled("mix/feeds.yaml", "*content_each", "*contents_each"))
    assert found.code == "unknown-column"


def test_the_place_of_every_column_is_known(tmp_path: Path) -> None:
    """Whoever finds a column at fault later can say where it is written."""
    for table in Templates(write(tmp_path, SOUND)).book("metric").tables.values():
        assert all(column.written.place.line for column in table.columns), table.key


def test_templates_and_model_have_one_tree() -> None:
    """The model of a table stands in the folder of its sheet, under the name of its table. Tools are of no table."""
    model, templates = Path(wbgen.model.__path__[0]), shipped.templates()
    computed = shipped_templates().book("metric")
    for key, formulas in computed.formulas.items():
        if not formulas or computed.tables[key].standing:
            continue
        file = Path(computed.tables[key].columns[0].written.place.file)
        folder = file.stem if file.parent == templates else file.parent.name
        own = [path.parent for path in model.glob(f"*/{key}*") if path.stem == key and path.parent.name != "tools"]
        assert own == [model / folder], key


def test_every_key_of_a_column_has_its_place_in_one_of_the_four() -> None:
    of_columns = {name for group in (Meaning, Accepts, Look, Page) for name in group.__dataclass_fields__}
    keys = set(ColumnKeys.model_fields) - {"place", "places"}
    assert keys - of_columns == {"key", "heading", "each", "beside"}
    assert of_columns <= keys


def test_the_styles_of_a_template_are_those_of_the_writer() -> None:
    assert set(STYLES) == set(VARIANTS)


SPOILED: Final = {
    "a name": ("programme.yaml", "lawns.area", "lawns.aera", "did you mean area?"),
    "a capacity": ("lawns.yaml", "records: lawns\n", "records: lawn\n", "did you mean lawns?"),
    "a type": (
        "lawns.yaml", 'Notes, type: text, wrap: true, example: "shaded after noon"', "Notes", "cannot hold",
    ),
    "a page": ("visit.yaml", "page: true", "page: false", "begin more pages"),
}  # fmt: skip
"""Mistakes in the planner's own templates, by what finds them: the sheets, the build, the writer."""


@pytest.mark.parametrize("case", others_thorough(SPOILED, ["a capacity"]))
def test_a_build_tells_of_a_mistake_without_a_traceback(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, case: str
) -> None:
    file, old, new, words = SPOILED[case]
    folder = tmp_path / "templates"
    shutil.copytree(shipped.templates(), folder)
    text = (folder / file).read_text("utf-8")
    assert old in text
    (folder / file).write_text(text.replace(old, new), "utf-8")
    monkeypatch.setattr(building, "Design", lambda: Design(Templates(folder)))
    target = tmp_path / "planner.xlsx"
    ran = CliRunner().invoke(app, ["build", str(shipped.starter()), "-o", str(target)])
    assert (ran.exit_code, target.exists()) == (2, False), ran.output
    assert isinstance(ran.exception, SystemExit)
    assert re.match(rf"{re.escape(str(folder / file))}:[0-9]+:[0-9]+: ", ran.output), ran.output
    assert words in ran.output


WORDS: Final = (
    "", "no", "0", "-1", "99999999999", "x", "[]", "{}", "[a, b]", "{a: b}", '""', "null", "~", "1.5", "2026-01-01",
    "&a b", "*a", "!!int 3", "'", '"', "{", "}", "- ", "#", "name", "lawns.name", "lawns", "each", "{name}", "{0}",
    "{name!x}", "SUM(", "a.b.c", "mass_every", "each_level", "TRUE", "A1", "1e9", "\t", "so_far.mass", "standing_mix",
    "from_here.mass", "B9", "at: C6",
)  # fmt: skip
"""What stands in the place of something else."""


def muddled(draw: random.Random) -> dict[str, str]:
    """The sound files with one to three pieces of them taken out, doubled, exchanged, or made something else."""
    files = dict(SOUND)
    for _ in range(draw.randint(1, 3)):
        file = draw.choice(sorted(files))
        text = files[file]
        lines = text.split("\n")
        at = draw.randrange(len(lines))
        match draw.randrange(5):
            case 0:
                del lines[at]
            case 1:
                lines.insert(at, draw.choice(lines))
            case 2:
                other = draw.randrange(len(lines))
                lines[at], lines[other] = lines[other], lines[at]
            case 3:
                start = draw.randrange(len(lines[at]) + 1)
                lines[at] = lines[at][:start] + draw.choice(WORDS) + lines[at][start + draw.randint(0, 6) :]
            case _:
                words = lines[at].split(" ")
                words[draw.randrange(len(words))] = draw.choice(WORDS)
                lines[at] = " ".join(words)
        files[file] = "\n".join(lines)
    return files


@pytest.mark.parametrize("seed", range(150))
def test_no_mistake_in_a_template_gives_a_traceback(tmp_path: Path, seed: int) -> None:
    """Whatever stands in the files: a book that can be laid out and compiled, or diagnostics with their places."""
    templates = Templates(write(tmp_path, muddled(random.Random(seed))))  # noqa: S311 - no secret
    for system in ("metric", "us"):
        try:
            made = templates.book("us" if system == "us" else "metric")
            asked = {table.records for table in made.tables.values() if isinstance(table.records, str)}
            layout = lay_out(made.sheets, dict.fromkeys(asked, 4))
        except InputError:
            continue
        compile_book(made, layout.placed)
