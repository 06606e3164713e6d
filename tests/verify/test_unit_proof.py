"""The units of formulas as they stand in a file: proven ones pass, and slips of the trade are named."""

from __future__ import annotations

import random
import re
from typing import Final

import pytest

from support.papers import LATER, Paper, formulas, paper
from support.planners import SYSTEMS
from wbgen.files.xlsx.references import area_of
from wbgen.sheets.column import System
from wbgen.sheets.formula_tree import parse


@pytest.mark.parametrize("renamed", [False, True], ids=["as built", "other sheet names"])
@pytest.mark.parametrize("system", SYSTEMS)
def test_every_formula_of_the_templates_passes(system: System, *, renamed: bool) -> None:
    one = paper(system, renamed=renamed)
    told = {(name, record): one.verdict(name, text, record) for name, record, text in formulas(one)}
    assert len(told) > 1000
    assert not {place: words for place, words in told.items() if words}


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_reference_of_the_templates_has_a_type(system: System) -> None:
    """Else formulas would pass for want of units."""
    one = paper(system)
    untyped = set()
    for name, record, text in formulas(one):
        home = one.placed[name.split(".")[0]]
        for node in parse(text).walk():
            area = area_of(str(node.value), home.sheet) if node.kind == "reference" else None
            if area is not None and len(one.units.fields(area)) != 1:
                untyped.add((name, record))
    assert not untyped


FACTOR: Final = re.compile(r"\*Units!\$E\$[0-9]+")


def others(paper: Paper, factor: str) -> str:
    """A factor of another figure."""
    row = int(factor.rpartition("$")[2])
    figures = {
        paper.placed["conversions"].cell("factor", index)[0] + 1: found.factor
        for index, found in enumerate(paper.book.conversions)
    }
    other = next(one for one, figure in figures.items() if figure != figures[row])
    return f"*Units!$E${other}"


@pytest.mark.parametrize("system", SYSTEMS)
def test_no_conversion_may_be_dropped_doubled_or_swapped(system: System) -> None:
    one = paper(system)
    tried = 0
    for name, record, text in formulas(one):
        for match in FACTOR.finditer(text):
            before, after = text[: match.start()], text[match.end() :]
            for way in ("", match[0] * 2, others(one, match[0]), match[0].replace("*", "/")):
                tried += 1
                assert one.verdict(name, before + way + after, record), (name, before + way + after)
    assert tried > 700


G_TO_KG: Final = "{by:g_N_hectare_to_kg_N_metre_squared}"
SLIPS: Final[dict[str, tuple[System, str, str, str, str]]] = {
    "grams and millilitres": (
        "metric", "mix_products.mass_total", "", "{mix_products.weigh_full}+{mix_products.pour_full}", "adds g and mL",
    ),
    "grams less millilitres": (
        "metric", "mix_products.mass_total", "", "{mix_products.weigh_full}-{mix_products.pour_full}",
        "takes mL from g",
    ),
    "kg/ha that are g/m²": (
        "metric", "season_hectare.hectare_nitrogen", "*" + G_TO_KG, "",
        "gives g N/m² where kg N/ha belongs (1 g N/m² is 10 kg N/ha)",
    ),
    "lb/acre that are lb/1000 ft²": (
        "us", "season_hectare.hectare_nitrogen", "*{by:acre_to_thousand_square_feet}", "",
        "gives lb N/1000 ft² where lb N/acre belongs (1 lb N/1000 ft² is 43.56 lb N/acre)",
    ),
    "ten, with no label": (
        "metric", "season_hectare.hectare_nitrogen", G_TO_KG, "10",
        "has the number 10 in it: a number without a heading and a unit",
    ),
    "an imperial gallon": (
        "us", "mix.liquids_full", "*{by:us_fluid_ounce_to_us_gallon}", "/160",
        "has the number 160 in it: a number without a heading and a unit",
    ),
    "fluid ounces for gallons": (
        "us", "mix.liquids_full", "*{by:us_fluid_ounce_to_us_gallon}", "",
        "gives fl oz where US gal belongs (1 fl oz is 0.0078125 US gal)",
    ),
    "a conversion twice": (
        "metric", "mix.liquids_full", "*{by:millilitre_to_litre}", "*{by:millilitre_to_litre}*{by:millilitre_to_litre}",
        "gives L²/mL where L belongs (1 L²/mL is 1000 L)",
    ),
    "a conversion the wrong way round": (
        "metric", "mix.liquids_full", "*{by:millilitre_to_litre}", "/{by:millilitre_to_litre}",
        "gives mL²/L where L belongs (1 mL²/L is 1e-06 L)",
    ),
    "an element as its oxide": (
        "metric", "products.share_phosphate", "/{oxides.element_in_phosphate}", "",
        "gives g P/g or g P₂O₅/g",
    ),
    "an oxide as its element": (
        "metric", "products.mass_element_potash", "*{oxides.element_in_potash}", "",
        "gives g K₂O/kg where g K/kg belongs",
    ),
    "the oxide's factor the wrong way round": (
        "metric", "products.mass_element_potash", "*{oxides.element_in_potash}", "/{oxides.element_in_potash}",
        "gives g K₂O²/g K/kg where g K/kg belongs",
    ),
    "the factor of another oxide": (
        "metric", "products.mass_element_potash", "{oxides.element_in_potash}", "{oxides.element_in_phosphate}",
        "gives g K₂O·g P/g P₂O₅/kg where g K/kg belongs",
    ),
    "w/w as w/v": (
        "us", "products.volume_content_nitrogen", "*{products.millilitre_mass}", "",
        "gives g N/g where lb N/US gal belongs",
    ),
    "w/v with a density": (
        "metric", "diary.load_nitrogen", "", "{diary.applied_mass}*INDEX({all:products.volume_content_nitrogen},1)",
        "gives g N·g/L where g N belongs",
    ),
    "nitrogen and phosphate": (
        "metric", "season_grams.load_nitrogen", "", "{season_grams.load_nitrogen}+{season_grams.load_phosphate}",
        "adds g N and g P₂O₅",
    ),
    "phosphate for nitrogen": (
        "metric", "season_grams.load_nitrogen", "{all:diary.load_nitrogen}", "{all:diary.load_phosphate}",
        "gives g P₂O₅ where g N belongs",
    ),
    "a range over two columns": (
        "metric", "season_grams.load_nitrogen", "", "SUM({season_grams.load_nitrogen}:{season_grams.load_phosphate})",
        "takes g N and g P₂O₅ in one range, {season_grams.load_nitrogen}:{season_grams.load_phosphate}",
    ),
    "a load for a rate": (
        "metric", "mix_products.salt_load", "", "{mix_products.in_water_mass}", "gives g/L where g/m² belongs",
    ),
    "the limit of another unit": (
        "metric", "diary.flag_amount", "", "IF({diary.rate_mass}>{diary.rate_volume},\"over the label; \",\"\")",
        "compares g/m² with mL/m²",
    ),
    "a criterion of another unit": (
        "metric", "season_grams.load_nitrogen", "",
        "SUMIFS({all:diary.load_nitrogen},{all:diary.poured},\">\"&{mix.spray_volume})",
        "compares a column in mL with a figure in L (1 L is 1000 mL)",
    ),
    "a temperature doubled": (
        "us", "mix.water_used", "", "{mix.water_temperature}*2", "multiplies or divides °F and a plain number",
    ),
    "an area for a date": (
        "metric", "mix.visit_date", "", "{mix.treated_area}", "gives m² where a date belongs",
    ),
    "an area to a date": (
        "us", "mix.visit_date", "", "{start.as_of}+{mix.treated_area}", "adds ft² to a date",
    ),
    "a true answer for a figure": (
        "metric", "mix.treated_area", "", "{mix.loads}>1", "gives a truth value where m² belongs",
    ),
    "a percent sign": (
        "metric", "mix.treated_area", "", "{mix.treated_area}*2%",
        "has a percent sign in it: a hundredth without a heading and a unit",
    ),
    "what is gone": (
        "metric", "mix.treated_area", "", "SUM(#REF!)", "has #REF! in it: what it read is not there",
    ),
    "no formula": (
        "metric", "mix.treated_area", "", "SUM(",
        "cannot be read as a formula: Unmatched opening parenthesis or bracket",
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", SLIPS)
@pytest.mark.parametrize("record", [0, LATER], ids=["first", "later"])
def test_a_slip_is_named_with_both_units(case: str, record: int) -> None:
    system, name, old, new, words = SLIPS[case]
    one = paper(system)
    record = min(record, one.placed[name.split(".")[0]].count - 1)
    text, old, new = one.text(name, record), one.spelled(old, name, record), one.spelled(new, name, record)
    assert old in text
    assert one.verdict(name, text.replace(old, new) if old else new, record) == one.spelled(words, name, record)


AREA: Final = "{mix.treated_area}"
RATE: Final = "{mix.carrier_volume}"
ELSEWHERE: Final = {
    f"{AREA}*1000/7": "", f"{AREA}+{RATE}": "adds m² and L/ha", f"H9000*{AREA}": "", f"H9000*{AREA}+{RATE}": "",
    f"[1]Mix!D5+{RATE}": "", f"own_name+{RATE}": "", f"Start:Mix!D5+{RATE}": "", f"Elsewhere!D5+{RATE}": "",
    f"{AREA}&{RATE}": "writes m² into text, where its unit is lost: use TEXT(…)",
    f"VLOOKUP({AREA},B:D,2)": "uses VLOOKUP, which is not in the set that all engines agree on",
    "SUM(D:D)": "takes text and a plain number in one range, D:D", f"{AREA}*{AREA}+{AREA}": "adds m⁴ and m²",
    "H9000*\"yes\"": "multiplies or divides an unknown figure and text", f"{AREA}^0.5*{AREA}^1.5-{AREA}^2": "",
}  # fmt: skip


@pytest.mark.parametrize("formula", ELSEWHERE)
def test_of_a_formula_outside_every_table_the_inside_is_proven(formula: str) -> None:
    """With any number in it, and cells of which nothing is known."""
    one = paper("metric")
    text, sheet = one.spelled(formula, "mix.loads", 0), one.placed["mix"].sheet
    assert one.units.verdict(text, sheet, None) == ELSEWHERE[formula]
    assert one.units.verdict(text, sheet, (900, 90)) == ELSEWHERE[formula]


INPUT: Final = {
    "12*7.5+30": "", "{lawns.area}/2": "", "{lawns.area}*3+12": "adds m² and a plain number",
    "{lawns.target_nitrogen}": "gives g N/m² where m² belongs", "{lawns.name}": "gives text where m² belongs",
}  # fmt: skip


@pytest.mark.parametrize("formula", INPUT)
def test_a_person_may_calculate_in_an_input_cell(formula: str) -> None:
    one = paper("metric")
    text = one.spelled(formula, "lawns.typed_area", 1)
    assert one.verdict("lawns.typed_area", text, 1) == INPUT[formula]


def test_a_cell_of_no_table_goes_with_everything() -> None:
    one = paper("metric")
    assert one.verdict("mix.treated_area", one.spelled(f"{RATE}*H9000", "mix.treated_area", 0)) == ""


@pytest.mark.parametrize("text", ["[1]Mix!A1", "'[1]Mix'!A1", "Start:Mix!A1", "A", "7", "A1:B", "own_name", "A1:B2:C3"])
def test_what_is_no_place_of_this_file(text: str) -> None:
    assert area_of(text, "Mix") is None


TOKEN: Final = re.compile(r'("[^"]*")|([A-Z_.a-z]+\()|((?:\'[^\']+\'!)?[\w!$:.]+)|(<>|[<>]=|[-+*/&<>=^])|(.)')


def tokens(text: str) -> list[tuple[int, str]]:
    """Each token with its kind: text, function, reference or number, operator, other."""
    return [(int(match.lastindex or 0), match[0]) for match in TOKEN.finditer(text)]


@pytest.mark.parametrize("seed", range(4))
def test_whatever_stands_in_a_cell_is_answered_in_one_line(seed: int) -> None:
    """Tokens of proven formulas in the place of others of their kind, or of any: no error but a sentence."""
    draw = random.Random(seed)  # noqa: S311 - the same formulas every time
    one = paper(SYSTEMS[seed % 2])
    known = list(formulas(one))
    strange = [token for name, record, text in draw.sample(known, 100) for token in tokens(text)]
    answers = set()
    for _ in range(500):
        name, record, text = draw.choice(known)
        written = tokens(text)
        for _ in range(draw.randrange(1, 4)):
            at = draw.randrange(len(written))
            like = [token for token in strange if token[0] == written[at][0]] if draw.random() < 0.9 else strange
            written[at] = draw.choice(like)
        answers.add(one.verdict(name, "".join(token for _, token in written), record))
    assert len(answers) > 50
    assert not [answer for answer in answers if "\n" in answer or "Error" in answer or "**" in answer]
