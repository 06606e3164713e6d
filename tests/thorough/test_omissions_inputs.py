"""No input is dead: each, changed to another value that a person may type, moves a figure that is worked out."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from fnmatch import fnmatchcase
from pathlib import Path
from typing import Any, Final

import numpy as np
import pytest

from support.tier import others_thorough
from thorough.fuzzing import USUAL
from thorough.omission_sites import EVERYTHING, IRON, OWN, SEAWEED, N, crowded
from thorough.omission_stories import HARD, RUSTY, SOURED, diluted
from thorough.omissions import At, Changes, Scene, columns, computed, is_echo, own_formula
from wbgen.files import shipped
from wbgen.files.diagnostics import Report
from wbgen.inputs.rows import Cell, cell_value
from wbgen.inputs.site_rows import rows_of
from wbgen.model.inputs import DATE, TEXT
from wbgen.records.site.site import load_site_and_catalogue
from wbgen.sheets.book import references, shipped_templates
from wbgen.sheets.column import Column, System
from wbgen.trade.tank_rules import FROM_ANALYSIS

SYSTEMS: Final = others_thorough(("metric", "us"), ["metric"])
PARTS: Final = 8
"""Of the inputs, of which every run tries one."""

COMING: Final = "for the reader, and for the sheets of the coming season, of stock and of response"
FOR_THE_READER: Final = {
    "programme.note": "a note of the person who plans",
    "lawns.notes": "a note of the person who keeps the lawns",
    "products.nitrate_nitrogen": "for the reader: how fast the nitrogen works",
    "products.urea_nitrogen": "for the reader: how fast the nitrogen works",
    "products.active_word": "what is active, said beside its price",
    "shelf.paid": "what was paid, for whoever keeps the books",
    "shelf.note": "a note of the person who counts or buys",
    "scores.note": "a note of the person who scores",
    "soil_tests.note": "a note on a soil test, such as its pH",
    "ingredients.ingredient": "what to weigh or to pour",
    "ingredients.note": "a note of the person who brews",
    "catches.nozzle": "the name of a nozzle, for whoever cleans it",
    "diary.who": "the person who did it",
    "chosen_more.who": "the person who does it, for the lines of the diary",
    "log.who": "who did it, likewise",
    "people.name": "the people to choose from",
    "diary.rain": COMING,
    "card_blanks.begun": "filled in by hand on the printed card",
    "card_blanks.ended": "filled in by hand on the printed card",
    "card_blanks.left_over": "filled in by hand on the printed card",
    "card_blanks.air_temperature": "filled in by hand on the printed card",
    "card_blanks.wind": "filled in by hand on the printed card",
    "card_blanks.initials": "filled in by hand on the printed card",
    "settings.watercourse_strip": "printed on the card, for whoever sprays to keep",
    "settings.rain_time": "for the reader, who knows the forecast: the sheet Mix asks for its yes or no",
}
"""Inputs that move no figure, with the reason why a planner has them. Nothing else may be such."""

GIVEN: Final[dict[str, Changes]] = {
    "products.usual_carrier": {"chosen.wanted_carrier": None},
    "products.number_binds": {
        "products.most_a_year@Ammonium sulphate": 1.0,
        "products.number_binds@Ammonium sulphate": "yes",
    },
    "products.spray_practice": {"chosen_products.own_rate": "3.1 g/m²"},
    "settings.practice_span": {"chosen_products.own_rate": "3.1 g/m²"},
    "settings.most_acid": {**HARD, "chosen_more.acidify": "yes"},
    "products.dry_practice": {"programme.method": "dry", "programme.own_rate_mass": "99 g/m²"},
    "products.dry_least_interval": {"programme.method": "dry"},
    "settings.dry_nitrogen": {"diary.method": "dry"},
    **{f"settings.{key}": {"diary.method": "dry", "diary.product": IRON} for key in ("dry_iron", "dry_iron_stop")},
    **{
        f"products.trait_{trait}": {f"products.trait_{trait}@{N if trait == 'potassium' else SEAWEED}": "yes"}
        for trait in (*FROM_ANALYSIS, "ammonium")
    },
    "limits.ask_near_wind": {"weather.wind_height": "at spray height"},
    "limits.stop_near_wind": {"weather.wind_height": "at spray height"},
    "settings.calm_wind": {"weather.wind": "3 km/h"},
    "settings.unknown_solids": {"products.dissolved_solids@Everything in a bottle": None},
    "rules.level_manganese_with_alkaline": {f"products.trait_alkaline@{IRON}": "yes"},
    "rules.level_strongly_alkaline_with_manganese": {f"products.trait_strongly_alkaline@{IRON}": "yes"},
    "settings.diluted_span": {**diluted(N, "g in 10 L"), "chosen_products.own_rate": None},
    "settings.humate_ph": {"chosen_more.ph": 5.2},
    "settings.lowest_ph": {"chosen_more.ph": 5.2},
    "settings.highest_ph": {"chosen_more.ph": 8.0},
    "settings.acid_span": SOURED,
    **{f"limits.{limit}_iron_ph": {"chosen_more.ph": 7.8} for limit in ("ask", "stop")},
    **{f"limits.{limit}_alkalinity": {"chosen_more.alkalinity": "250 mg CaCO3/L"} for limit in ("ask", "stop")},
    **{f"water.{key}": {"chosen_more.hardness": None} for key in ("ph", "alkalinity", "hardness")},
    **{f"water.{key}": HARD for key in ("wanted_ph", "citric_acid")},
    "chosen_more.acidify": HARD,
    "settings.volume_tolerance": {f"products.least_carrier@{N}": "640 L/ha"},
    "scales.fine_jug_step": {"scales.fine_jug_capacity": "5 L"},
    "scales.coarse_jug_step": {"scales.fine_jug_capacity": None},
    "settings.iron_time": RUSTY,
    "settings.most_nitrogen_month": {"lawns.most_nitrogen_month": None},
    "settings.coldest_air": {"weather.air_temperature": "3 degC"},
    "settings.before_time": {"scores.date": date(2026, 5, 7)},
    "settings.after_time": {"scores.date@4": date(2026, 7, 6)},
    "settings.water_temperature": {"chosen_more.water_temperature": None},
    "diary.note": {"diary.date@3": date(2026, 5, 20)},
    "products.release_time": {"diary.product": "Everything in grains"},
    **{
        f"log.{key}": {f"chosen_products.product@{turn}": None for turn in (1, 2, 3)}
        for key in ("left_over", "air_temperature", "wind", "rain")
    },
}
"""What the crowded visit needs before an input can be seen to move anything."""
OTHER: Final[dict[str, Cell]] = {
    "products.months_suited": "------------",
    "limits.stop_carrier": 0.1,
    "limits.stop_manganese": 1e-6,
    "settings.target_tolerance": 1.0,
    "lawns.walking_order": 9.0,
    "settings.test_life": 10.0,
}
"""Another value of an input, where one that is drawn up by rule would not be what a person types."""


def others(scene: Scene, table: str, column: Column) -> Iterator[Changes]:
    """Other values for one cell after the other: for those that hold something, or for all where none does."""
    name = f"{table}.{column.key}"
    figures = scene.inputs.values[table][column.key]
    filled = [record for record, figure in enumerate(figures) if figure != "" and figure == figure]
    for record in filled or range(len(figures)):
        for value in _values(scene, name, column, figures[record] if filled else None):
            yield {f"{name}@{record}": value}


def _values(scene: Scene, name: str, column: Column, now: Any) -> Iterator[Cell]:
    unit = scene.inputs.units[name.partition(".")[0]][column.key]
    if name in OTHER:
        yield OTHER[name]
    elif isinstance(column.accepts.choices, str):
        yield from (str(one) for one in scene.figures(column.accepts.choices) if one and one != now)
    elif column.accepts.choices:
        yield from (
            one
            for one in (*column.accepts.choices, *([""] if len(column.accepts.choices) == 1 else []))
            if one != (now or "")
        )
    elif unit == TEXT:
        yield f"{now} two" if now else "two"
    elif unit == DATE:
        yield (now or 46203.0) - 20
    else:
        yield from _numbers(column, unit, now)


def _numbers(column: Column, unit: str, now: float | None) -> Iterator[float]:
    if now is None:
        stems = [stem for stem in USUAL if column.key == stem or column.key.startswith(stem + "_")]
        yield cell_value(USUAL[max(stems, key=len)], unit) if stems else 1.0
        return
    least = -np.inf if column.accepts.minimum is None else column.accepts.minimum
    most = np.inf if column.accepts.maximum is None else column.accepts.maximum
    for value in (now * 2, now / 2, now + 1, now - 1, 1e-6):
        if least <= value <= most:
            yield value


def movers(scene: Scene, changes: Changes) -> set[At]:
    """The columns that move and do more than show what is typed."""
    return {at for at in scene.moved(changes) if not is_echo(own_formula(scene.book, at))}


@pytest.mark.parametrize("part", others_thorough(range(PARTS), [0]))
@pytest.mark.parametrize("system", SYSTEMS)
def test_every_input_moves_something_or_is_for_the_reader(system: System, part: int) -> None:
    """Each part has every so manieth input; a few of them are dead, or the test would be."""
    inputs = {f"{table}.{one.key}": (table, one) for table, one in columns(shipped_templates().book(system), "input")}
    assert FOR_THE_READER.keys() <= inputs.keys()
    # Dealt out so that each part has some of those for the reader, wherever they stand.
    own = sorted(inputs, key=lambda name: name not in FOR_THE_READER)[part::PARTS]
    dead = set()
    for name in own:
        scene = crowded(system, GIVEN.get(name))
        if not any(movers(scene, changes) for changes in others(scene, *inputs[name])):
            dead.add(name)
    assert dead == FOR_THE_READER.keys() & set(own) != set()


ENDS: Final = {
    "standing_*.state": "the state of the checks, on every sheet",
    "weather.*": "the conditions, on the sheet Today",
    "today*.*": "the sheet Today",
    "start.recalculated": "tells whether a spreadsheet program has saved the file",
    "products.mass_element_*": "for a reader who counts in elements",
    "products.volume_element_*": "for a reader who counts in elements",
    "products.dry_mass_low": "the label's rates in one unit, for whoever spreads dry",
    "sprayers.tank_area": "how far a tank goes",
    "sprayers.tank_time": "how long a tank takes",
    "sprayers.needed_*": "what to change for the carrier volume wanted",
    "sprayers.course_distance": "how far to walk for a known area",
    "sprayers.nozzle_words": "whether the nozzles are worn",
    "products.*_pack_area": "how far a pack goes",
    "mix_products.jar_*": "what goes into the jar of a jar test",
    "catches.nozzle_state": "which nozzle to clean",
    "nozzles.carrier_volume": "which nozzle to buy",
    "mix_products.trait_strong_salt": "stated of a product, and no rule asks for it",
    "mix_products.trait_wetting_agent": "stated of a product, and no rule asks for it",
    "mix_products.trait_feed_or_extract": "stated of a product, and no rule asks for it",
    "chosen.*": "what an empty box takes",
    "chosen_products.measured_in": "in what a rate is typed",
    "chosen_targets.product": "whose targets they are",
    "mix_answers.*": "the mix in short",
    "into_tank.*": "the mix in short",
    "mix_limits.*": "the mix in short",
    "lawn_choices.choice": "what the box of the lawns offers",
    "verdict.notes": "what to know of the mix",
    "verdict.reason": "all that is said of the mix, where the sheet Mix shows the first of it",
    "mix_products.product_verdict": "the verdict on each product",
    "mix.least_carrier": "how much water the liquids need",
    "mix.salts_share": "the salts as growers quote them",
    "mix_lawns.spray_time": "how long each lawn takes",
    "mix_nutrients.*": "what the visit brings, in the ways that it is quoted",
    "card*.*": "the helper's card",
    "diary_lines.*": "lines to paste",
    "log.*": "what an empty box takes",
    "log_lines.*": "where the lines belong",
    "diary.notes": "what to know of a line",
    "feeding.*": "the sheet Feeding",
    "season_*.*": "the sheets Feeding and Feeding workings",
    "soil_tests.level_*": "what so much is called, on the sheet Soil tests",
    "soil_tests.stands_*": "which target holds, on the sheet Soil tests",
    "lawns.soil_words": "the targets by soil tests, on the sheet Lawns",
    "months_together.*": "the sheet Feeding workings",
    "progress.*": "drawn as a chart",
    "calendar.*": "the year at a glance",
    "calendar_weeks.year": "the year at a glance",
    "timeline.*": "the dates in order of time",
    "fortnight.*": "what is due, on the sheet Today",
    "round*.*": "the round to print",
    "due*.*": "how each line stands on each lawn",
    "programme.*": "what each line comes to, and how it agrees with the catalogue",
    "stock.*": "what is there, and what to buy",
    "money.*": "the sheet Cost",
    "lawn_costs.*": "the sheet Cost",
    "prices.*": "the sheet Cost",
    "growth_months.*": "the sheet Feeding workings",
    "growth_view.*": "the sheet Feeding workings",
    "budget_*.*": "the sheet Feeding workings",
    "order*.*": "the sheet Order",
    "report*.*": "the sheet Lawn report",
    "record_lines.*": "the sheet Spray record",
    "record.lines": "the sheet Spray record",
    "record_lawns.lawn": "whose lines they are",
    "labels*.*": "the labels of the jugs",
    "ingredients.*": "from what to brew",
    "response_*.*": "the sheet Response",
    "year*.*": "the sheet Next year",
    "plan.room_words": "the room of the programme, in words",
    "checks.advice_*": "what to do where a check fails",
    "flagged_lines.*": "the lines of the diary to look at",
    "facts_now.*": "for information, beside the checks",
}
"""Computed columns, by pattern, that no other formula reads: what each tells a person. Nothing else may be such."""


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_figure_is_read_by_another_or_by_a_person(system: System) -> None:
    book = shipped_templates().book(system)
    read = set().union(*references(book).values())
    ends = {".".join(at) for at in computed(book) if at not in read}
    told = {name: [pattern for pattern in ENDS if fnmatchcase(name, pattern)] for name in ends}
    assert [name for name, patterns in told.items() if not patterns] == []
    assert {pattern for patterns in told.values() for pattern in patterns} == set(ENDS)


ON_THE_SHEET_ONLY: Final = {
    "chosen_lawns.part_treated", "order.days_ahead", "nozzle_test.pressure", "nozzle_test.speed", "nozzle_test.spacing",
    "nozzle_test.rated_pressure", "season_view.lawn", "report_choice.lawn", "year_choice.lawn", "record.begin",
    "record.until", "log.who", "log.started", "log.ended", "log.left_over", "log.air_temperature", "log.wind",
    "log.wind_from", "log.rain", "log.reason", "log.batch",
    "people.licence", "products.registration", "round.begin", "round.length",
    "round.sprayer", "chosen.tank",
    *(name for name in FOR_THE_READER if name.startswith("card_blanks.")),
}  # fmt: skip
"""Inputs that no key of lawns.yaml fills. (Settings are filled by their own names.)"""
SEVERAL: Final = ("lawns: [Front]", "lawns: [Front, Back]")
"""A mix of several lawns, which are named one by one: no file fills both these lines and the box of one lawn."""
NEAR: Final = ("weather: {wind: 8 km/h,", "weather: {wind: 8 km/h, wind is: at spray height,")
"""A wind of which it is said where it blows."""


def test_every_column_that_the_files_fill_is_there_and_every_input_is_filled(tmp_path: Path) -> None:
    """A column renamed on one side only would drop what the files say, without a word."""
    (tmp_path / "own.yaml").write_text(OWN, encoding="utf-8")
    filled, named = set(), set()
    for text in (EVERYTHING, EVERYTHING.replace(*SEVERAL).replace(*NEAR)):
        (tmp_path / "lawns.yaml").write_text(text, encoding="utf-8")
        site, catalogue = load_site_and_catalogue(tmp_path / "lawns.yaml", (shipped.product_catalogue(),))
        report = Report()
        rows = rows_of(site, catalogue, report).tables
        report.raise_any()
        filled |= {
            f"{table}.{key}" for table, own in rows.items() for row in own for key in row if row[key] is not None
        }
        named |= {f"{table}.{key}" for table, own in rows.items() for row in own for key in row}
    inputs = {f"{table}.{column.key}" for table, column in columns(shipped_templates().book("metric"), "input")}
    assert named - inputs == set()
    settings = {name for name in inputs if name.partition(".")[0] in ("settings", "limits", "rules")}
    assert inputs - settings - filled == ON_THE_SHEET_ONLY
