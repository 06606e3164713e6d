"""The helper's card and the lines for the diary, against figures worked out by hand."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from support.tables import planner
from wbgen.model.binding import Model
from wbgen.model.inputs import Inputs, blank_column

Table = dict[str, tuple[str, Any]]
"""By column: its unit, and its figures from the first record on (the rest is blank)."""

BLANK = np.nan
RECORDS = {"mix_products": 4, "mix_lawns": 4, "sprayers": 2}
RECORDS |= {"card_steps": 7, "part_steps": 7, "card_lawns": 4, "diary_lines": 8}
FORMS = frozenset(
    {
        "mix",
        "verdict",
        "mix_checks",
        "mix_nutrients",
        "mix_water",
        "settings",
        "limits",
        "card",
        "card_walk",
        "card_products",
    }
)
MAY_14 = 46156.0

# A liquid that goes in second, an empty record, a solid that goes in third, and one that goes in first.
TABLES: dict[str, Table] = {
    "mix_products": {
        "product": ("text", ["Seaweed", "", "Iron sulphate", "Urea"]),
        "product_line": ("", [2, BLANK, 3, 4]),
        "measured_by": ("text", ["volume", "", "mass", "Mass"]),
        "pouring_order": ("", [2, BLANK, 3, 1]),
        "weigh_full": ("g", [BLANK, BLANK, 350, 700]),
        "weigh_last": ("g", [BLANK, BLANK, 175, 350]),
        "pour_full": ("mL", [42]),
        "pour_last": ("mL", [21]),
        "mass_total": ("g", [BLANK, BLANK, 1225, 0]),
        "volume_total": ("mL", [147]),
        "bucket_full": ("L", [BLANK, BLANK, 3.1, 2]),
        "bucket_last": ("L", [BLANK, BLANK, 1.6, 1]),
        "laid_mass": ("g/m**2", [BLANK, BLANK, 1, 2]),
        "laid_volume": ("mL/m**2", [0.12]),
        "hazard": ("text", []),
        "caution": ("text", ["Strain it", "", "", "Scorches.  Water in"]),
    },
    "mix_lawns": {
        "lawn_used": ("text", ["Back", "No area", "Front"]),
        "lawn_line": ("", [1, BLANK, 2]),
        "treated_area": ("m**2", [300, BLANK, 100]),
        "water": ("L", [12, BLANK, 4]),
        "water_so_far": ("L", [12, BLANK, 16]),
    },
    "mix": {
        "visit_date": ("date", MAY_14),
        "sprayer": ("text", "LANCE"),
        "who": ("text", "Second helper"),
        "loads": ("", 4),
        "full_loads": ("", 3),
        "fill_full": ("L", 14),
        "fill_last": ("L", 7),
        "first_fill_full": ("L", 6.4),
        "first_fill_last": ("L", 3.5),
        "remainder": ("L", 0.8),
        "treated_area": ("m**2", 400),
        "spray_volume": ("L", 16),
        "air_temperature": ("degC", 18),
        "wind": ("km/h", BLANK),
        "watered_in": ("text", ""),
        "wind_height": ("text", "at spray height"),
    },
    "verdict": {
        "ready": ("text", "yes"),
        "level": ("", 1),
        "verdict": ("text", "Ask first"),
        "reason": ("text", "wind"),
        "not_checked": ("text", "heat; rain"),
    },
    "mix_checks": {"found_products": ("", 3)},
    "mix_nutrients": {"rate_iron": ("g_Fe/m**2", 0.2)},
    "mix_water": {
        "steps_full": ("", 0),
        "steps_last": ("", 0),
        "weigh_full": ("g", BLANK),
        "weigh_last": ("g", BLANK),
        "caution_words": ("text", ""),
    },
    "sprayers": {
        "name": ("text", ["Boom", "Lance"]),
        "passes": ("", [1, 2]),
        "ground_speed": ("km/h", [5, 3.6]),
        "nozzle_size": ("text", ["", "02"]),
        "pressure": ("bar", [3, BLANK]),
    },
    "settings": {
        "pace_distance": ("m", 10),
        "hot_air": ("degC", 25),
        "hottest_air": ("degC", 32),
        "stop_air": ("degC", 35),
        "calm_wind": ("km/h", 2),
        "hot_air_iron": ("degC", 27),
        "watercourse_strip": ("m", 2),
        "watering": ("mm", 3),
        "diary_wind": ("text", "at spray height"),
    },
    "limits": {"ask_near_wind": ("km/h", 10), "stop_near_wind": ("km/h", 14.5)},
    "card_steps": {"line": ("", [1, 2, 3, 4, 5, 6, 7])},
    "part_steps": {"line": ("", [1, 2, 3, 4, 5, 6, 7])},
    "card_lawns": {"turn": ("", [1, 2, 3, 4])},
    "diary_lines": {"line": ("", [1, 2, 3, 4, 5, 6, 7, 8])},
    "log": {
        "who": ("text", ""),
        "started": ("text", ""),
        "ended": ("text", ""),
        "left_over": ("L", BLANK),
        "air_temperature": ("degC", BLANK),
        "wind": ("km/h", BLANK),
        "wind_from": ("text", ""),
        "rain": ("mm", BLANK),
        "reason": ("text", ""),
        "batch": ("text", ""),
    },
    "log_lines": {},
    "card": {},
    "card_walk": {},
    "card_products": {},
}


def column(unit: str, figures: Any, records: int) -> Any:
    """The figures from the first record on, blank after them."""
    given = figures if isinstance(figures, list) else [figures]
    filled = blank_column(unit, records)
    filled[: len(given)] = given
    return filled


def visit(**changed: Table) -> Model:
    """The visit of TABLES; `changed` replaces columns."""
    tables = {table: columns | changed.get(table, {}) for table, columns in TABLES.items()}
    records = {table: RECORDS.get(table, 1) for table in tables}
    return Model(
        Inputs(
            values={
                table: {key: column(*given, records[table]) for key, given in columns.items()}
                for table, columns in tables.items()
            },
            units={table: {key: unit for key, (unit, _) in columns.items()} for table, columns in tables.items()},
            records=records,
            forms=FORMS,
        )
    )


def found(model: Model, table: str, key: str, unit: str = "") -> Any:
    """The figures of a column, in `unit`; a list where there are several."""
    value = model.column(table, key)
    bare = value.to(unit).magnitude if hasattr(value, "units") else value
    return bare.tolist() if isinstance(bare, np.ndarray) else bare


def close(figures: Any) -> Any:
    return pytest.approx(figures, rel=1e-12, nan_ok=True)


FORBIDDEN: Table = {"level": ("", 2)}


def test_the_top_of_the_card() -> None:
    model = visit()
    assert found(model, "card", "alike") == 3
    assert found(model, "card", "fill_mark", "L") == 14
    assert found(model, "card", "part_mark", "L") == 7


@pytest.mark.parametrize("changed", [{"verdict": FORBIDDEN}, {"mix": {"loads": ("", BLANK)}}])
def test_no_figures_where_there_is_nothing_that_may_be_made(changed: dict[str, Table]) -> None:
    model = visit(**changed)
    for key in ("alike", "fill_mark", "part_mark"):
        assert np.isnan(found(model, "card", key, "L"))
    for table in ("card_steps", "part_steps"):
        for key, unit in (("to_weigh", "g"), ("to_pour", "mL"), ("dissolve_in", "L")):
            assert found(model, table, key, unit) == close([BLANK] * 7)
        assert found(model, table, "to_fill", "L") == close([BLANK] * 7)
        for key in ("action", "what", "ticks"):
            assert found(model, table, key) == [""] * 7
    assert found(model, "card_lawns", "lawn") == ["Back", "Front", "", ""]
    assert found(model, "card_lawns", "water", "L") == close([BLANK] * 4)
    assert found(model, "card_lawns", "water_so_far", "L") == close([BLANK] * 4)


def test_steps_of_a_full_load() -> None:
    model = visit()
    assert found(model, "card_steps", "action") == ["FILL", "DISSOLVE", "POUR", "DISSOLVE", "TOP UP", "", ""]
    assert found(model, "card_steps", "what") == [
        "clean water to begin", "Urea", "Seaweed", "Iron sulphate", "water to the mark", "", "",
    ]  # fmt: skip
    assert found(model, "card_steps", "to_weigh", "g") == close([BLANK, 700, BLANK, 350, BLANK, BLANK, BLANK])
    assert found(model, "card_steps", "to_pour", "mL") == close([BLANK, BLANK, 42, BLANK, BLANK, BLANK, BLANK])
    assert found(model, "card_steps", "to_fill", "L") == close([6.4, BLANK, BLANK, BLANK, 14, BLANK, BLANK])
    assert found(model, "card_steps", "dissolve_in", "L") == close([BLANK, 2, BLANK, 3.1, BLANK, BLANK, BLANK])
    assert found(model, "card_steps", "ticks") == ["☐ ☐ ☐"] * 5 + [""] * 2


def test_steps_of_the_part_load() -> None:
    model = visit()
    assert found(model, "part_steps", "action") == ["FILL", "DISSOLVE", "POUR", "DISSOLVE", "TOP UP", "", ""]
    assert found(model, "part_steps", "to_weigh", "g") == close([BLANK, 350, BLANK, 175, BLANK, BLANK, BLANK])
    assert found(model, "part_steps", "to_pour", "mL") == close([BLANK, BLANK, 21, BLANK, BLANK, BLANK, BLANK])
    assert found(model, "part_steps", "to_fill", "L") == close([3.5, BLANK, BLANK, BLANK, 7, BLANK, BLANK])
    assert found(model, "part_steps", "dissolve_in", "L") == close([BLANK, 1, BLANK, 1.6, BLANK, BLANK, BLANK])
    assert found(model, "part_steps", "ticks") == ["☐"] * 5 + [""] * 2


ACID: Table = {
    "steps_full": ("", 1), "steps_last": ("", 1), "weigh_full": ("g", 4.1), "weigh_last": ("g", 1.2),
    "caution_words": ("text", "•Citric acid: It hurts"),
}  # fmt: skip


@pytest.mark.parametrize(("table", "load", "grams"), [("card_steps", 0, 4.1), ("part_steps", 1, 1.2)])
def test_acid_is_stirred_into_the_water_before_all_products(table: str, load: int, grams: float) -> None:
    model = visit(mix_water=ACID)
    assert found(model, table, "action") == ["FILL", "WEIGH", "DISSOLVE", "POUR", "DISSOLVE", "TOP UP", ""]
    what = ["clean water to begin", "citric acid, stir in", "Urea", "Seaweed", "Iron sulphate"]
    assert found(model, table, "what") == [*what, "water to the mark", ""]
    weighed = [[BLANK, grams, 700, BLANK, 350, BLANK, BLANK], [BLANK, grams, 350, BLANK, 175, BLANK, BLANK]][load]
    assert found(model, table, "to_weigh", "g") == close(weighed)
    assert found(model, table, "to_pour", "mL") == close([BLANK, BLANK, BLANK, [42, 21][load], BLANK, BLANK, BLANK])
    assert found(model, table, "dissolve_in", "L")[1:3] == close([BLANK, [2, 1][load]])
    assert found(model, table, "to_fill", "L") == close(
        [[6.4, 3.5][load], BLANK, BLANK, BLANK, BLANK, [14, 7][load], BLANK]
    )


def test_a_part_load_may_have_no_acid_where_the_others_have() -> None:
    model = visit(mix_water={**ACID, "steps_last": ("", 0)})
    assert found(model, "part_steps", "action") == ["FILL", "DISSOLVE", "POUR", "DISSOLVE", "TOP UP", "", ""]
    assert found(model, "part_steps", "to_weigh", "g")[1] == 350


def test_the_caution_on_acid_stands_before_those_on_products() -> None:
    told = found(visit(mix_water=ACID), "card_products", "cautions")
    assert told == "• Citric acid: It hurts • Seaweed: Strain it • Urea: Scorches. Water in"


def test_nothing_is_weighed_of_acid_where_nothing_may_be_made() -> None:
    model = visit(mix_water=ACID, verdict=FORBIDDEN)
    for table in ("card_steps", "part_steps"):
        assert found(model, table, "action") == found(model, table, "what") == [""] * 7
        assert found(model, table, "to_weigh", "g") == close([BLANK] * 7)


@pytest.mark.parametrize(("table", "bucket"), [("card_steps", "bucket_full"), ("part_steps", "bucket_last")])
def test_a_solid_of_which_no_bucket_is_known_is_weighed_only(table: str, bucket: str) -> None:
    model = visit(mix_products={bucket: ("L", [BLANK, BLANK, 3.1])})
    assert found(model, table, "action") == ["FILL", "WEIGH", "POUR", "DISSOLVE", "TOP UP", "", ""]
    assert not np.isnan(found(model, table, "to_weigh", "g")[1])
    assert np.isnan(found(model, table, "dissolve_in", "L")[1])


def test_without_a_part_load_it_has_no_steps() -> None:
    model = visit(mix={"fill_last": ("L", BLANK)})
    assert found(model, "part_steps", "action") == [""] * 7
    assert found(model, "part_steps", "what") == [""] * 7
    assert found(model, "card_steps", "action")[4] == "TOP UP"


@pytest.mark.parametrize("table", ["card_steps", "part_steps"])
def test_nothing_is_filled_to_less_than_nothing(table: str) -> None:
    """Where buckets and liquids leave no room, the card begins with an empty tank; the checks say so."""
    model = visit(mix={"first_fill_full": ("L", -0.6), "first_fill_last": ("L", -0.1)})
    assert found(model, table, "to_fill", "L")[0] == 0


@pytest.mark.parametrize(("loads", "ticks"), [(1, "☐"), (4, "☐ ☐ ☐ ☐"), (5, "__ of 5"), (33, "__ of 33")])
def test_four_boxes_at_most(loads: float, ticks: str) -> None:
    assert found(visit(mix={"full_loads": ("", loads)}), "card_steps", "ticks") == [ticks] * 5 + [""] * 2


def test_as_many_steps_as_the_table_has() -> None:
    """With more products than lines the last ones have no line, and the table does not break."""
    model = visit(mix_checks={"found_products": ("", 9)})
    assert found(model, "card_steps", "action")[-1] == "POUR"
    assert found(model, "card_steps", "what")[1:4] == ["Urea", "Seaweed", "Iron sulphate"]
    assert found(model, "card_steps", "to_weigh", "g") == close([BLANK, 700, BLANK, 350, BLANK, BLANK, BLANK])


def test_the_list_has_the_full_tank_and_then_the_last_part_tank() -> None:
    model = listed()
    assert found(model, "card_list", "action") == ["FILL", "POUR", "TOP UP", "THEN", "FILL", "POUR", "TOP UP", ""]
    assert found(model, "card_list", "what")[3] == "make the last part tank"
    assert found(model, "card_list", "to_pour", "mL") == close([BLANK, 42, BLANK, BLANK, BLANK, 21, BLANK, BLANK])
    assert found(model, "card_list", "to_fill", "L") == close([7, BLANK, 14, 6, 3, BLANK, 6, BLANK])
    assert found(model, "card_list", "ticks") == ["☐ ☐", "☐ ☐", "☐ ☐", "", "☐", "☐", "☐", ""]


def test_the_list_ends_with_the_full_tank_where_there_is_no_other() -> None:
    alone = listed(part_mark=("L", BLANK))
    assert found(alone, "card_list", "action") == ["FILL", "POUR", "TOP UP", "", "", "", "", ""]
    none = listed(fill_mark=("L", BLANK))
    assert found(none, "card_list", "action") == [""] * 8


def listed(**card: tuple[str, Any]) -> Model:
    """A card of three steps a tank."""
    steps: Table = {"action": ("text", ["FILL", "POUR", "TOP UP"]), "what": ("text", ["water", "Seaweed", "water"]),
             "to_weigh": ("g", []), "dissolve_in": ("L", [])}  # fmt: skip
    tables: dict[str, Table] = {
        "card": {"fill_mark": ("L", 14.0), "part_mark": ("L", 6.0)} | card,
        "mix": {"full_steps": ("", 3.0)},
        "card_steps": steps | {
            "to_pour": ("mL", [BLANK, 42]), "to_fill": ("L", [7, BLANK, 14]), "ticks": ("text", ["☐ ☐"] * 3),
        },
        "part_steps": steps | {
            "to_pour": ("mL", [BLANK, 21]), "to_fill": ("L", [3, BLANK, 6]), "ticks": ("text", ["☐"] * 3),
        },
        "card_list": {"line": ("", list(range(1, 9)))},
    }  # fmt: skip
    return planner(tables, {"card_steps": 3, "part_steps": 3, "card_list": 8})


@pytest.mark.parametrize(("loads", "said"), [
    (2.0, ["", "fill 1 after 83 m²", ""]), (1.0, ["", "", ""]), (BLANK, ["", "", ""]),
])  # fmt: skip
def test_where_a_tank_ends_is_said_at_its_lawn(loads: float, said: list[str]) -> None:
    """9 L on 150 m², 14.4 L on 240 m², and nothing; a fill has 14 L."""
    tables: dict[str, Table] = {
        "mix": {"loads": ("", loads), "volume_full": ("L", 14.0), "treated_area": ("m**2", 390.0)},
        "mix_lawns": {
            "lawn_used": ("text", ["Tea", "North", ""]), "water": ("L", [9.0, 14.4]),
            "water_so_far": ("L", [9.0, 23.4]), "treated_area": ("m**2", [150.0, 240.0]),
        },
    }  # fmt: skip
    assert found(planner(tables, {"mix_lawns": 3}), "mix_lawns", "ends_words") == said


def test_lawns_in_walking_order() -> None:
    model = visit()
    assert found(model, "card_lawns", "lawn") == ["Back", "Front", "", ""]
    assert found(model, "card_lawns", "water", "L") == close([12, 4, BLANK, BLANK])
    assert found(model, "card_lawns", "water_so_far", "L") == close([12, 16, BLANK, BLANK])


def test_walking() -> None:
    model = visit()
    assert found(model, "card_walk", "passes") == 2
    assert found(model, "card_walk", "pace", "s") == pytest.approx(10)  # 3.6 km/h are 1 m/s
    assert found(model, "card_walk", "nozzle") == "02"
    assert np.isnan(found(model, "card_walk", "pressure", "bar"))
    assert found(model, "card_walk", "wind_words") == "stop at 14.5 km/h; ask above 10 km/h; ask below 2 km/h"
    heat = "32 °C; in dry air 25 °C; with this iron 27 °C; stop above 35 °C"
    assert found(model, "card_walk", "heat_words") == heat
    assert found(model, "card_walk", "strip", "m") == 2


def test_the_heat_limit_of_iron_is_said_only_where_there_is_iron() -> None:
    model = visit(mix_nutrients={"rate_iron": ("g_Fe/m**2", 0)})
    assert found(model, "card_walk", "heat_words") == "32 °C; in dry air 25 °C; stop above 35 °C"


@pytest.mark.parametrize(("answer", "said"), [("YES", "WATER IN within an hour: 3 mm"), ("no", ""), ("", "")])
def test_the_card_says_to_water_in_what_was_allowed_more_for_it(answer: str, said: str) -> None:
    model = visit(mix={"watered_in": ("text", answer)})
    assert found(model, "card_walk", "water_in") == said


def test_limits_that_are_not_set_are_not_said() -> None:
    model = visit(settings={"hottest_air": ("degC", BLANK)}, limits={"stop_near_wind": ("km/h", BLANK)})
    assert found(model, "card_walk", "heat_words") == "in dry air 25 °C; with this iron 27 °C; stop above 35 °C"
    assert found(model, "card_walk", "wind_words") == "ask above 10 km/h; ask below 2 km/h"
    model = visit(limits={"ask_near_wind": ("km/h", BLANK)}, settings={"calm_wind": ("km/h", BLANK)})
    assert found(model, "card_walk", "wind_words") == "stop at 14.5 km/h"


def test_cautions_of_the_products_by_name() -> None:
    """Each with one blank between its words; a product without cautions is passed over."""
    model = visit()
    assert found(model, "mix_products", "caution_words") == [
        "•Seaweed: Strain it",
        "",
        "",
        "•Urea: Scorches.  Water in",
    ]
    assert found(model, "card_products", "cautions") == "• Seaweed: Strain it • Urea: Scorches. Water in"


def test_what_hurts_a_person_stands_before_all_else() -> None:
    """Of every product, so that none of it falls off where the room ends; its name is not said twice."""
    model = visit(mix_products={"hazard": ("text", ["", "", "", "Eye damage."])})
    assert found(model, "mix_products", "hazard_words") == ["", "", "", "•Urea: Eye damage."]
    assert found(model, "card_products", "cautions") == "• Urea: Eye damage. • Seaweed: Strain it • Scorches. Water in"


@pytest.mark.parametrize(("letters", "cut"), [(265, False), (266, True)])
def test_cautions_that_paper_may_cut_say_so_first(letters: int, cut: bool) -> None:
    """Six lines of 44 letters. The mark and a blank stand before the name, and a colon and a blank after it."""
    caution = "x" * (letters - len("• Seaweed: "))
    told = found(visit(mix_products={"caution": ("text", [caution])}), "card_products", "cautions")
    assert told == ("this may be cut, see the sheet Mix and the labels: " if cut else "") + f"• Seaweed: {caution}"


def test_walking_without_a_sprayer() -> None:
    model = visit(mix={"sprayer": ("text", "")})
    assert np.isnan(found(model, "card_walk", "passes"))
    assert np.isnan(found(model, "card_walk", "pace", "s"))
    assert found(model, "card_walk", "nozzle") == ""


def test_lines_for_the_diary() -> None:
    model = visit()
    assert found(model, "diary_lines", "lawn_number") == close([1, 1, 1, 2, 2, 2, BLANK, BLANK])
    assert found(model, "diary_lines", "product_number") == close([1, 2, 3, 1, 2, 3, BLANK, BLANK])
    assert found(model, "diary_lines", "date") == close([MAY_14] * 6 + [BLANK] * 2)
    assert found(model, "diary_lines", "lawn") == ["Back"] * 3 + ["Front"] * 3 + ["", ""]
    assert found(model, "diary_lines", "product") == ["Urea", "Seaweed", "Iron sulphate"] * 2 + ["", ""]
    assert found(model, "diary_lines", "method") == ["spray"] * 6 + ["", ""]
    assert found(model, "diary_lines", "treated_share") == close([0.75] * 3 + [0.25] * 3 + [BLANK] * 2)
    # Of the urea nothing was weighed, which is blank.
    weighed = [BLANK, BLANK, 918.75, BLANK, BLANK, 306.25, BLANK, BLANK]
    assert found(model, "diary_lines", "weighed", "g") == close(weighed)
    poured = [BLANK, 110.25, BLANK, BLANK, 36.75, BLANK, BLANK, BLANK]
    assert found(model, "diary_lines", "poured", "mL") == close(poured)
    assert found(model, "diary_lines", "water", "L") == close([12] * 3 + [4] * 3 + [BLANK] * 2)
    rates = [2, BLANK, 1, 2, BLANK, 1, BLANK, BLANK]
    assert found(model, "diary_lines", "planned_mass_rate", "g/m**2") == close(rates)
    rates = [BLANK, 0.12, BLANK, BLANK, 0.12, BLANK, BLANK, BLANK]
    assert found(model, "diary_lines", "planned_volume_rate", "mL/m**2") == close(rates)
    assert found(model, "diary_lines", "treated_area", "m**2") == close([300] * 3 + [100] * 3 + [BLANK] * 2)
    assert found(model, "diary_lines", "air_temperature", "degC") == close([18] * 6 + [BLANK] * 2)
    assert found(model, "diary_lines", "wind", "km/h") == close([BLANK] * 8)
    assert found(model, "diary_lines", "left_over", "L") == close([0.6] * 3 + [0.2] * 3 + [BLANK] * 2)
    assert found(model, "diary_lines", "who") == ["Second helper"] * 6 + ["", ""]


@pytest.mark.parametrize("remainder", [0, BLANK])
def test_what_is_left_over_is_for_the_day_to_show_where_nothing_stays(remainder: float) -> None:
    model = visit(mix={"remainder": ("L", remainder)})
    assert found(model, "diary_lines", "left_over", "L") == close([BLANK] * 8)


@pytest.mark.parametrize("level", [0, 1])
def test_lines_are_there_whatever_is_to_be_asked(level: float) -> None:
    assert found(visit(verdict={"level": ("", level)}), "diary_lines", "lawn_number")[:6] == [1, 1, 1, 2, 2, 2]


@pytest.mark.parametrize(
    "changed",
    [
        {"verdict": {"level": ("", 2)}},
        {"mix_checks": {"found_products": ("", 0)}},
        {"mix_lawns": {"treated_area": ("m**2", [])}},
    ],
)
def test_no_lines_where_there_is_nothing_that_may_be_made(changed: dict[str, Table]) -> None:
    model = visit(**changed)
    assert found(model, "diary_lines", "lawn_number") == close([BLANK] * 8)
    assert found(model, "diary_lines", "product_number") == close([BLANK] * 8)
    assert found(model, "diary_lines", "method") == [""] * 8
    assert found(model, "diary_lines", "date") == close([BLANK] * 8)


@pytest.mark.parametrize(
    ("height", "kept", "carried"),
    [
        ("at spray height", "at spray height", True),
        ("Forecast at 10 m", "forecast at 10 m", True),
        ("", "", True),
        ("", "at spray height", True),
        ("forecast at 10 m", "at spray height", False),
        ("at spray height", "forecast at 10 m", False),
        ("forecast at 10 m", "", False),
    ],
)
def test_a_forecast_is_no_wind_of_the_diary_unless_it_keeps_forecasts(height: str, kept: str, carried: bool) -> None:
    """What is not said counts as spray height, in both."""
    model = visit(mix={"wind": ("km/h", 8), "wind_height": ("text", height)}, settings={"diary_wind": ("text", kept)})
    assert found(model, "diary_lines", "wind", "km/h")[:6] == close([8 if carried else BLANK] * 6)
