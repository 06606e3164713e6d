"""The templates and the model say the same things about the same columns, and read the same figures for them."""

from __future__ import annotations

import pkgutil
from collections.abc import Iterator
from typing import Final

import pytest

import wbgen.model
from support.planners import SITES, SYSTEMS, Planners
from wbgen.model import binding
from wbgen.model.binding import PLANNER, Model
from wbgen.model.marks import family_served
from wbgen.sheets.book import Book, references
from wbgen.sheets.column import System
from wbgen.sheets.compile import needs_of
from wbgen.trade.families import family
from wbgen.trade.nutrients import NUTRIENTS

At = tuple[str, str]
"""A column: its table and its key."""

SCORED_THEN: Final = "the model goes by lawns and days, the template by their keys"
GUARDED: Final = "a guard: what the formula is made of is blank already"

STEP: Final = {"skipped": (), "put_off": ("ones.dry_step",)}
"""What besides is in the key of a visit that was not done."""
UNREAD: Final[dict[str, tuple[set[str], str]]] = {
    "start.recalculated": ({"start.today"}, "a stored text that only a calculation replaces; the model has no clock"),
    "mix.volume_last": ({"mix.loads"}, GUARDED),
    "feeding.rolling": ({"feeding.had"}, GUARDED),
    "mix.clean_water_full": ({"mix.volume_full"}, GUARDED),
    "mix.clean_water_last": ({"mix.volume_last"}, GUARDED),
    "mix.first_fill_full": ({"mix.volume_full"}, GUARDED),
    "mix.first_fill_last": ({"mix.volume_last"}, GUARDED),
    "card_lawns.area": ({"card_lawns.lawn"}, GUARDED),
    "card_lawns.ends": ({"card_lawns.lawn"}, GUARDED),
    "card_lawns.water": ({"card_lawns.lawn"}, GUARDED),
    "card_lawns.water_so_far": ({"card_lawns.lawn"}, GUARDED),
    "diary.days_since": (
        {"diary.visit_key", "ones.key_step", "ones.one_day"},
        "the model looks for the lawn's and family's last day itself",
    ),
    "diary.number_this_season": (
        {"diary.visit_key", "diary.day_key", "ones.dry_step", "ones.key_step", "ones.one_day"},
        "the model counts days, not keys",
    ),
    "diary.day_key": ({"diary.way_key", "diary.visit_first"}, "the model goes by what the key is made of"),
    "log_lines.select": ({"diary_lines.date", "diary_lines.note"}, "where a link leads is no figure"),
    "diary.own_salts": ({"diary.product_day_key"}, "the first of the day is the first of its spray"),
    "diary.pair_once": (
        {"diary.date", "diary.product_key", "ones.one_day", "settings.season_start", "start.as_of"},
        "the model looks for the first line of the season, the template counts the keys of the season",
    ),
    **{
        f"diary.visit_{key}": ({"diary.visit_first"}, "the sum up to the first line is its own")
        for key in ("salts", "salt_load", "nitrogen", "iron")
    },
    "diary.answered": (
        {"ones.key_day", "ones.key_step", "ones.one_day", "scores.once_key"},
        "the model goes by lawns and days, not by keys",
    ),
    "checks.found_points_lost": ({"points.place"}, "the model counts the points with both names"),
    "points.crossed": (
        {"points.low_along", "points.high_along", "points.low_offset", "points.high_offset"},
        "the model looks whether an end lies on an edge",
    ),
    "mix_products.soon_words": ({"ones.one_day"}, "the model takes the number of a time by itself"),
    "mix_products.early_words": ({"ones.one_day"}, "the model takes the number of a time by itself"),
    "visit_lawns.lawn_words": ({"ones.one_day"}, "the model takes the number of a time by itself"),
    "visit_lawns.iron_words": ({"ones.one_day"}, "the model takes the number of a time by itself"),
    "diary.flags": ({"ones.one_day"}, "the model takes the number of a time by itself"),
    "mix_products.level_rate": ({"mix_products.rates_given"}, "the rate taken says that two are given"),
    "mix_products.rate_words": ({"mix_products.rates_given"}, "the rate taken says that two are given"),
    **{
        name: ({"ones.one_day"}, "the model takes the number of a time by itself")
        for name in (
            "fortnight.words",
            "diary.product_key",
            "diary.visit_key",
            "diary.way_key",
            "answers.lawn_day_key",
            "programme.too_often",
            "programme.early",
            "diary.notes",
            "due_lines.fortnight_key",
            "due_lines.from_day",
            "due_lines.until_day",
            "due.following",
            "due.season_to_come",
            "applications.after",
            "diary.not_done_key",
            "due.next_due",
            "due.planned_day",
            "due.turn_day",
            "round_whole.until",
            "due.round_key",
            "growth_months.days",
            "calendar_weeks.year",
            "recipes.start_words",
            "round_lines.soon_words",
            "round_lines.early_words",
            "round_lines.method_key",
            "stock.after",
            "stock.order_key",
            "order.until",
        )
    },
    **{
        f"calendar.count_{week.key}": ({"ones.one_week"}, "the model knows how long a week is")
        for week in family("weeks")
    },
    **{
        f"calendar_weeks.begins_{week.key}": (
            {f"calendar_weeks.begins_{week.says['before']}", "ones.one_week"},
            "the model takes the number of a time by itself",
        )
        for week in family("later_weeks")
    },
    **{
        f"applications.{key}": ({"applications.stands"}, "the model looks for the different products itself")
        for key in ("beside", "together")
    },
    "applications.stands": ({"ones.key_step"}, "the order alone counts"),
    "due_lines.why": ({"due.number"}, "the model looks for line and day at once"),
    **{
        f"not_done.{key}_{what}": (asked, "the model looks for the day, and makes the key of it")
        for key in ("skipped", "put_off")
        for what, asked in (
            ("key", {"diary.not_done_key", "ones.one_day", "start.as_of"}),
            ("on", {f"not_done.{key}_key", "ones.key_day", "ones.key_step", "ones.one_day", *STEP[key]}),
            ("why", {f"not_done.{key}_key"}),
        )
    },
    "due.done": (
        {"diary.product_day_key", "due_lines.from_day", "due.product_key", "due_lines.until_day"},
        "the model counts days, not keys",
    ),
    "due.last_done": (
        {
            "diary.product_day_key",
            "due.done",
            "due.product_key",
            "due_lines.until_day",
            "ones.key_day",
            "ones.one_day",
        },
        "the model looks for the last day itself",
    ),
    **{
        name: ({"lawns.group_line"}, "the model goes by the names of the groups")
        for name in ("lawns.group_key", "applications.group")
    },
    "lawns.walk_rank": ({"lawns.name"}, GUARDED),
    "plan.dates_room": ({"applications.number"}, "its rows are counted"),
    "plan.pairs_room": ({"due.number"}, "its rows are counted"),
    "round_whole.room_words": (
        {"round_lines.turn", "round_products.turn", "round_tanks.turn"},
        "their rows are counted",
    ),
    "round_tanks.words": ({"mix_products.slot"}, "its rows are counted"),
    "today.more_lawns": ({"today_lawns.turn"}, "its rows are counted"),
    "today_round.words": ({"today_tanks.turn"}, "its rows are counted"),
    "due.visit_day": ({"ones.one_day", "ones.one_week"}, "the model knows how long a week is"),
    **{f"round_lines.{key}": ({"round_lines.turn"}, "its rows are counted") for key in ("bit", "tank", "tank_line")},
    "chosen.tank_taken": ({"mix.tank_line", "round_tanks.products_count"}, GUARDED),
    "mix.date_else": ({"round_tanks.day"}, GUARDED),
    "mix.sprayer": ({"round_tanks.sprayer"}, GUARDED),
    "mix.wanted_carrier": ({"round_tanks.wanted_carrier"}, GUARDED),
    "mix.tank_left": (
        {f"mix_products.{key}" for key in ("tank_place", "kept", "round_line")} | {"round_tanks.products_count"},
        GUARDED,
    ),
    "verdict.ready": ({"mix.tank_line"}, GUARDED),
    "programme.area_counted": ({"lawns.group_line"}, "the model goes by the names of the groups"),
    **{
        f"programme.{key}": ({"lawns.group_line", "lawns.lawn_number"}, "the model counts the lawns itself")
        for key in ("lawns_counted", "warm_lawns")
    },
    "programme.needs_growth": ({"programme.product_line"}, GUARDED),
    "round_whole.lawns_in": ({"round_lines.lawn_turn"}, "the model finds the different names itself"),
    **{
        name: ({"ones.one_pack"}, "the model takes the number of packs by itself")
        for name in (
            "stock.cost_to_buy",
            "stock.order_packs",
            "stock.order_cost",
            "stock.short_packs",
            "products.spray_pack_area",
            "products.dry_pack_area",
            "shelf.mass_in",
            "shelf.volume_in",
        )
    },
    "round_products.packs_exact": (
        {"ones.one_pack", "round_products.product_line"},
        "the model goes by the product's name, and takes the number of packs by itself",
    ),
    "round_lines.days_since": (
        {"ones.key_step", "ones.one_day", "diary.visit_key", "round_lines.visit_key"},
        "the model looks for the lawn's and family's last day itself",
    ),
    "round_lines.number_this_season": (
        {"diary.day_key", "round_lines.method_key", "ones.one_day"},
        "the model counts days, not keys",
    ),
    **{
        f"budget_running.running_{n.key}": (
            {"season_months.turn", "season_view.area"},
            "the months stand in their order, and the model is blank where they are",
        )
        for n in NUTRIENTS
    },
    **{
        f"answers.scored_{when}": (
            {"scores.once_key", "answers.lawn_day_key", *more},
            "the model goes by lawns and days, not by keys",
        )
        for when, more in (("before", ()), ("after", ("ones.one_day",)))
    },
    **{
        f"response_mixes.{what}_{place.key}": ({"response_products.bit"}, "the model takes the powers of two by itself")
        for what in ("line", "rest")
        for place in family("places")
    },
    **{
        name: ({"ones.one_day"}, "the model takes the number of a time by itself")
        for name in (
            "scores.lawn_day_key",
            "settings.after_days",
            "soil_tests.test_key_phosphate",
            "soil_tests.test_key_potash",
        )
    },
    **{
        f"response_weeks.{key}": ({f"response_weeks.seen_{key}"}, "the model counts them itself")
        for key in ("quality", "colour")
    },
    "scores.score_state": ({"scores.once_key"}, "the model looks for the first score of a day itself"),
    "scores.strip_line": (
        {"ones.key_day", "ones.one_day", "ones.key_step"},
        "the model goes by lawns and days, not by keys",
    ),
    "diary.line_key": ({"ones.one_day"}, "the model takes the number of a time by itself"),
    "report_lines.spot": (
        {"report_workings.later", "report_workings.lines"},
        "the model finds the lines by lawn and day",
    ),
    "record_lines.spot": (
        {"record_lawns.lines", "record_lawns.offset", "record_lawns.up_to"},
        "the model finds the lines by lawn and day",
    ),
    "record_lawns.offset": ({"ones.key_day", "ones.key_step", "ones.one_day"}, "the model goes by no keys"),
    "record.astray": ({"record_lawns.lines"}, "the model counts them themselves, not what the others leave"),
    "labels.mix": ({"mix_lawns.lawn_line"}, "the model takes the lawn that is treated"),
    **{
        f"report_months.{key}": ({"report_months.turn", *more}, "the months stand in their order")
        for key, more in (("month", ()), ("planned", ()), ("had", ("report_workings.lawn_line",)))
    },
    **{
        f"report_workings.{key}": ({"ones.key_day", "ones.key_step", "ones.one_day"}, "the model goes by no keys")
        for key in ("later", "scored", "scored_later")
    },
    **{
        f"report_workings.number_{visit.key}": (
            {f"report_workings.day_{visit.key}"},
            "the model finds the day and the line together",
        )
        for visit in family("ahead")
    },
    **{
        f"report_scores.{when}_{key}": ({"ones.key_day", "ones.key_step", "ones.one_day", *more}, SCORED_THEN)
        for when in ("latest", "before")
        for key, more in (
            ("date", ("report_workings.scored", "report_workings.scored_later")),
            *((scored.key, (f"report_scores.{when}_date",)) for scored in family("scored")),
        )
    },
    "year_choice.products": ({"year_lawn.up_to"}, "the model looks for those of the lawn itself"),
    "year_pairs.product_line": (
        {"year_choice.products", "year_lawn.up_to"},
        "the model looks for those of the lawn itself",
    ),
}
"""What a template refers to and the model never reads, with the reason."""

SAID: Final = ("diary.date", "diary.lawn", "diary.method", "lawns.name")
OF_FAMILY: Final = ("diary.product_line", "products.family")
UNASKED: Final[dict[str, tuple[set[str], str]]] = {
    "diary.visit_first": ({"diary.date"}, "the template goes by the key of the line, which holds the day"),
    **{
        f"not_done.{key}_{what}": (asked, "the template goes by the key of the line")
        for key in ("skipped", "put_off")
        for what, asked in (
            ("key", {f"not_done.{key}_on"}),
            ("on", {*SAID, "diary.not_done_key", "start.as_of"}),
            ("why", {*SAID, f"not_done.{key}_on", "not_done.turn"}),
        )
    },
    **{
        f"order_lines.{key}": ({"shelf.mass", "shelf.volume"}, "give the units of the words")
        for key in ("on_hand", "needed", "short")
    },
    **{
        f"parts.{key}": ({"parts.shape_number"}, "the template goes by the name of the shape")
        for key in ("part_state", "mean_radius")
    },
    "card.part_mark": ({"mix.loads"}, "the template goes by the mark, which is blank without loads"),
    "checks.found_points_lost": ({"points.lawn", "points.part"}, "the template goes by the place that both names give"),
    **{
        f"diary.{key}": (
            {"diary.product_line", "products.family", "diary.lawn", more},
            "the template goes by the key of them all",
        )
        for key, more in (("day_key", "diary.date"), ("number_this_season", "diary.lawn_line"))
    },
    "diary.days_since": (
        {*OF_FAMILY, "diary.date", "diary.lawn", "diary.lawn_line"},
        "the template goes by the key of them all",
    ),
    "diary.answered": ({"scores.date", "scores.lawn_line"}, "the template goes by the keys of lawn and day"),
    "mix_products.level_rate": ({"mix_products.rate_from"}, "says that two rates are given"),
    "mix_products.rate_words": ({"mix_products.rate_from"}, "says that two rates are given"),
    "mix_products.short_words": ({"mix.wanted_carrier"}, "gives the unit of the water"),
    **{f"mix_answers.{key}": ({"mix.remainder"}, "gives the unit of the litres") for key in ("to_mix", "into_tank")},
    "visit_lawns.spray_said": ({"mix.remainder"}, "gives the unit of the litres"),
    "mix_lawns.ends_words": ({"mix.treated_area"}, "gives the unit of the area"),
    **{
        f"{table}.measured_in": ({"ones.one_mass", "ones.one_volume"}, "give the units that it names")
        for table in ("chosen_products", "into_tank")
    },
    **{f"mix_products.bucket_{load}": ({"mix.fill_full"}, "gives the unit of the litres") for load in ("full", "last")},
    "visit_lawns.lawn_words": ({"lawns.most_nitrogen_month"}, "gives the unit of the words"),
    "mix_products.diluted_words": (
        {"mix.wanted_carrier", "mix_products.own_rate_mass", "mix_products.own_rate_volume"},
        "give the units",
    ),
    "mix_water.over_words": ({"limits.ask_salts"}, "gives the unit of the words"),
    "mix_products.water_words": ({"mix.wanted_carrier"}, "gives the unit of the words"),
    **{
        f"mix_products.{key}": ({"mix_products.own_rate_mass", "mix_products.own_rate_volume"}, "give the units")
        for key in ("label_words", "low_words")
    },
    **{
        f"calendar_weeks.begins_{week.key}": ({"settings.season_start"}, "the template goes on from the week before")
        for week in family("later_weeks")
    },
    **{
        f"due.{key}": (
            {
                "diary.lawn_line",
                "diary.product_line",
                "due.lawn_line",
                "due.product_line",
                "programme.first",
                "programme.ends",
                "settings.line_margin",
                "start.as_of",
            }
            | more,
            "the template goes by the keys of lawn, product and day",
        )
        for key, more in (("done", {"diary.date"}), ("last_done", {"diary.date"}))
    },
    **{
        f"answers.scored_{when}": (
            {"answers.lawn_line", "diary.date", "scores.date", "scores.lawn_line", *more},
            "the template goes by the keys of lawn and day, and by what an answered line is",
        )
        for when, more in (("before", ()), ("after", ("settings.after_time",)))
    },
    "growth_months.days": ({"season_months.month_number"}, "the template counts the months of the season on"),
    **{
        name: ({"lawns.group", "lawns.name"}, "the template goes by the line of the group")
        for name in ("lawns.group_key", "programme.lawns_counted", "programme.warm_lawns")
    },
    **{
        name: ({"lawns.group"}, "the template goes by the line of the group")
        for name in ("programme.area_counted", "applications.group")
    },
    "programme.interval": ({"programme.times"}, "the template goes by the times planned"),
    "programme.times_planned": ({"programme.product"}, "the template goes by the lawns counted, 0 without a product"),
    "round_whole.lawns_in": ({"round_lines.lawn"}, "the model finds the different names itself"),
    "round_products.packs_exact": (
        {"products.measured_by", "products.name"},
        "the template goes by the line and by what is blank",
    ),
    **{
        f"round_lines.{key}": (
            {"diary.lawn_line", "diary.product_line", "due.lawn_line", "products.family", "round_lines.product_line"}
            | more,
            "the template goes by the key of lawn, family and day",
        )
        for key, more in (
            ("days_since", {"diary.date", "round_lines.day"}),
            ("number_this_season", {"diary.date", "diary.method", "round_lines.method"}),
        )
    },
    **{
        f"{table}.amount": ({"diary.poured", "diary.weighed"}, "give the units of the words")
        for table in ("report_lines", "record_lines")
    },
    **{
        f"{table}.rate": (
            {"diary.planned_mass_rate", "diary.planned_volume_rate"},
            "give the units of the words",
        )
        for table in ("report_lines", "record_lines")
    },
    "record_lines.spot": (
        {"diary.date", "diary.lawn_line", "record.first_day", "record.last_day"},
        "the template goes by the key of lawn, day and line",
    ),
    "record_lawns.offset": ({"diary.date", "diary.lawn_line"}, "the template goes by the key of the lines"),
    "record.astray": ({"diary.lawn_line"}, "the template counts what the lines of the lawns leave"),
    "report.ground": ({"season_applied.area"}, "gives the unit of the area"),
    "report_lines.spot": (
        {"diary.date", "diary.season_month", "diary.lawn_line", "report_workings.lawn_line", "start.as_of"},
        "the template goes by the key of lawn, day and line",
    ),
    **{
        f"report_scores.{when}_{key}": ({"scores.date", "scores.lawn_line", "start.as_of"}, SCORED_THEN)
        for when in ("latest", "before")
        for key in ("date", *(scored.key for scored in family("scored")))
    },
    "report_workings.day_a": ({"due.number"}, "the model finds the day and the line together"),
    "report_workings.later": ({"diary.date", "diary.lawn_line"}, "the template goes by the key of the lines"),
    **{
        f"report_workings.{key}": ({"scores.date", "scores.lawn_line"}, SCORED_THEN)
        for key in ("scored", "scored_later")
    },
    "mix_products.cost": ({"mix_products.measured_by"}, "the template goes by what is blank"),
    "stock.short_packs": ({"products.measured_by"}, "the template goes by what is blank"),
    **{
        f"stock.{what}_{kind}": ({f"shelf.{kind}"}, "gives the unit in which the shed is kept")
        for what in ("needed", "used")
        for kind in ("mass", "volume")
    },
}
"""What the model reads and the template does not refer to, with the reason."""

IN_ORDER: Final = {
    "feeding": "turn", "order_brews": "turn",
    "season_left": "turn", "season_end": "turn", "season_share": "turn", "season_hectare": "turn",
    "visit_lawns": "turn", "stock": "turn", "growth_months": "turn", "budget_months": "turn", "budget_running": "turn",
    "months_together": "turn", "mix_lawns": "turn", "mix_products": "slot", "chosen_targets": "line",
}  # fmt: skip
"""Tables whose records stand in the order of another: looked up by this number in a formula, in step in the model."""


def formula_columns(book: Book) -> Iterator[At]:
    for table, formulas in book.formulas.items():
        for key in formulas:
            yield table, key


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_formula_column_has_a_function_of_the_model(planners: Planners, system: System) -> None:
    book = planners.get("starter", system).book
    assert [at for at in formula_columns(book) if PLANNER.function_for(*at) is None] == []


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_function_of_the_model_has_a_formula_column(planners: Planners, system: System) -> None:
    book = planners.get("starter", system).book
    served = {
        (table, found[0].__name__)
        for table, key in formula_columns(book)
        if (found := PLANNER.function_for(table, key))
    }
    assert {(table, name) for table in book.tables for name in PLANNER.of(table)} - served == set()


def test_every_module_of_the_model_is_a_table_or_a_tool(planners: Planners) -> None:
    """A module left behind when its table is renamed would never be asked."""
    folders = [wbgen.model.__path__[0] + f"/{found.name}" for found in pkgutil.iter_modules(wbgen.model.__path__)
               if found.ispkg and found.name != binding.TOOLS]  # fmt: skip
    modules = {module.name for module in pkgutil.iter_modules(folders)}
    assert modules - set(planners.get("starter", "metric").book.tables) == set()


@pytest.mark.parametrize("system", SYSTEMS)
def test_an_input_has_no_function_that_would_never_be_asked(planners: Planners, system: System) -> None:
    book = planners.get("starter", system).book
    given = [(t.key, c.key) for t in book.tables.values() for c in t.columns if c.role != "formula"]
    assert [at for at in given if at[1] in PLANNER.of(at[0])] == []


@pytest.mark.parametrize("system", SYSTEMS)
def test_a_function_serves_every_member_of_its_family(planners: Planners, system: System) -> None:
    """A family too wide would stand for columns that no template has; a mark that is too narrow lacks a function."""
    book = planners.get("starter", system).book
    served = [(table, name.removesuffix("each") + member.key)
              for table in book.tables for name, function in PLANNER.of(table).items()
              if (of := family_served(function)) for member in family(of)]  # fmt: skip
    assert [at for at in served if at[1] not in book.formulas[at[0]]] == []


def reads(planners: Planners, system: System) -> dict[At, set[At]]:
    """The columns that the model read for each of its own, over all sites."""
    found: dict[At, set[At]] = {}
    for site in SITES:
        planner = planners.get(site, system)
        model = Model(planner.inputs)
        for at in formula_columns(planner.book):
            model.column(*at)
        for at, read in model.reads.items():
            found.setdefault(at, set()).update(read - {at})
    return found


def named(columns: set[At]) -> set[str]:
    return {".".join(at) for at in columns}


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_model_reads_what_the_formula_refers_to(planners: Planners, system: System) -> None:
    """A reference that the model does without is an omission of one of the two, unless its reason is given above."""
    planner = planners.get("starter", system)
    read, referred = reads(planners, system), references(planner.book)
    unread, unasked = {}, {}
    for at, asked in referred.items():
        # What a formula's guard leaves to the guard of another column is asked by it all the same.
        placed = planner.placed[at[0]]
        columns = asked | {(at[0], key) for key in needs_of(placed.table, placed.column(at[1])) if "." not in key}
        turn = {f"{at[0]}.{IN_ORDER.get(at[0])}"}
        if missing := named(columns - read.get(at, set())) - turn:
            unread[".".join(at)] = missing
        if more := named(read.get(at, set()) - columns):
            unasked[".".join(at)] = more
    assert unread == {name: columns for name, (columns, _) in UNREAD.items()}
    assert unasked == {name: columns for name, (columns, _) in UNASKED.items()}
