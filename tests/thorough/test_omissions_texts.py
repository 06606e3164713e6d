"""Every text that a formula can show does appear somewhere, and formulas and model show the same."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Final

import pytest

from support.shared import Shared
from support.tier import TIER, Recorder, others_thorough
from thorough.omission_sheets import Sheets
from thorough.omission_sites import calm
from thorough.omission_stories import ROOMLESS, STORIES, UNSEEN, cut_short
from thorough.omissions import At, Scene, columns, computed, own_formula, said
from wbgen.model.inputs import TEXT
from wbgen.sheets.book import shipped_templates
from wbgen.sheets.column import System

SYSTEMS: Final = others_thorough(("metric", "us"), ["metric"])
HEARD: Final = [story for number, story in enumerate(STORIES) if TIER.thorough or number % 16 == 0]
"""The stories in which formulas are heard beside the model: all, or every sixteenth."""

NEVER: Final = {
    "round_lines.tank_words": {
        "; no tank: too many mixes in one round": "more products at a rate than the site has room for"
    },
    "log_lines.go": {
        "the diary has no room for them: build the planner with more lines": "a full diary; see tests/model/test_log.py"
    },
    "start.recalculated": {"no": "the other branch of a cell whose only work is to be recalculated: today is a date"},
    **{
        f"labels.{key}": {"amount not known": "what cannot be measured is not mixed, and has no label"}
        for key in ("full", "last")
    },
    **{
        f"report_nutrients.stands_{key}": dict.fromkeys(
            ("by its soil test", "over, by soil test"), "no soil test asks for it"
        )
        for key in ("nitrogen", "iron")
    },
    "soil_tests.level_potash": dict.fromkeys(
        ("enough", "below enough"), "no method is listed of which nothing but enough potassium is known"
    ),
}
"""Texts that cannot appear, with the reason."""
Told = Mapping[At, list[str]]
"""The texts of computed columns, one a record."""


@cache
def sheets(system: System) -> Sheets:
    return Sheets(calm(system))


@cache
def texts_of(system: System) -> frozenset[At]:
    """The computed columns of text."""
    units = calm(system).inputs.units
    return frozenset(at for at in computed(shipped_templates().book(system)) if units[at[0]][at[1]] == TEXT)


def by_model(scene: Scene) -> Told:
    return {at: [str(one) for one in scene.figures(".".join(at))] for at in texts_of(scene.book.system)}


@cache
def told(shared: Shared, system: System, story: str) -> Told:
    """Every computed text of a story by the model, worked out once a run."""
    number = list(STORIES).index(story)
    return shared.once(f"story-{system}-{number}", lambda: by_model(calm(system).followed(STORIES[story])))


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("story", HEARD)
def test_formulas_and_model_say_the_same(shared: Shared, story: str, system: System, record_property: Recorder) -> None:
    """All computed texts of the story, and at least one that is not as on a calm day."""
    record_property("stories", 1)
    by_formulas = sheets(system).texts(calm(system, STORIES[story]))
    by_formulas.pop(("start", "recalculated"))
    own, quiet = ({at: told(shared, system, one)[at] for at in by_formulas} for one in (story, "calm"))
    assert own == by_formulas
    assert story == "calm" or own != quiet


@pytest.mark.parametrize("system", SYSTEMS)
def test_no_text_begins_or_ends_in_a_blank(shared: Shared, system: System) -> None:
    """LibreOffice drops such a blank when it saves, and the cell would seem changed."""
    assert len(texts_of(system)) > 100
    for story in STORIES:
        for at, said_there in told(shared, system, story).items():
            assert said_there == [one.strip() for one in said_there], (story, at)


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_text_of_a_formula_appears(shared: Shared, system: System) -> None:
    """The texts are collected from the templates' formulas; each must stand in its own column in some story."""
    book = shipped_templates().book(system)
    wanted = {at: set(said(own_formula(book, at))) for at in computed(book)}
    assert sum(map(len, wanted.values())) > 150
    assert {at for at, texts in wanted.items() if texts} <= texts_of(system)
    whole = [told(shared, system, story) for story in STORIES]
    cut = [by_model(cut_short(check, system)) for check in UNSEEN]
    cut += [by_model(calm(system, changes).cut(table, 1)) for table, changes in ROOMLESS.items()]
    for one in (*whole, *cut):
        for at in one:
            wanted[at] -= {text for text in wanted[at] if any(text.strip() in line for line in one[at] if line)}
    assert {".".join(at): texts for at, texts in wanted.items() if texts} == _texts(NEVER)


def _texts(known: Mapping[str, Mapping[str, str]]) -> dict[str, set[str]]:
    return {name: set(texts) for name, texts in known.items()}


@pytest.mark.parametrize("system", SYSTEMS)
def test_nothing_said_is_lost_on_the_way_to_the_card(shared: Shared, system: System) -> None:
    """What the checks, the products and the lawns of a visit say stands in the card's reason too."""
    checks = [
        ("mix_checks", column.key)
        for table, column in columns(shipped_templates().book(system), "formula")
        if table == "mix_checks" and column.key.startswith(("words_", "tank_words_"))
    ]
    heard = 0
    for story in STORIES:
        one = told(shared, system, story)
        (ready,), (reason,) = one["verdict", "ready"], one["verdict", "reason"]
        words = [*one["mix_products", "product_reason"], *one["visit_lawns", "lawn_words"]]
        words += [one[at][0] for at in checks] if ready == "yes" else []
        for said_there in filter(None, words):
            assert said_there.removeprefix("; ") in reason
            heard += 1
    assert heard > 50
