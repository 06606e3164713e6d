"""Every text that a formula can show does appear somewhere, and formulas and model show the same."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Final

import pytest

from thorough.omission_sheets import Sheets
from thorough.omission_sites import calm
from thorough.omission_stories import STORIES, UNSEEN, cut_short
from thorough.omissions import At, Scene, columns, computed, own_formula, said
from wbgen.model.inputs import TEXT
from wbgen.sheets.book import planner_book
from wbgen.sheets.template import System

SYSTEMS: Final[tuple[System, ...]] = ("metric", "us")

NEVER: Final = {
    "start.recalculated": {"no": "the other branch of a cell whose only work is to be recalculated: today is a date"},
}
"""Texts that cannot appear, with the reason."""


@cache
def sheets(system: System) -> Sheets:
    return Sheets(calm(system))


def by_model(scene: Scene, columns: set[At]) -> dict[At, list[str]]:
    return {at: [str(one) for one in scene.figures(".".join(at))] for at in columns}


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("story", STORIES)
def test_formulas_and_model_say_the_same(story: str, system: System) -> None:
    """All computed texts of the story, and at least one that is not as on a calm day."""
    scene = calm(system, STORIES[story])
    by_formulas = sheets(system).texts(scene)
    by_formulas.pop(("start", "recalculated"))
    told = by_model(scene, set(by_formulas))
    assert told == by_formulas
    assert story == "calm" or told != by_model(calm(system), set(by_formulas))


@pytest.mark.parametrize("system", SYSTEMS)
def test_no_text_begins_or_ends_in_a_blank(system: System) -> None:
    """LibreOffice drops such a blank when it saves, and the cell would seem changed."""
    texts = {at for at in computed(planner_book(system)) if calm(system).inputs.units[at[0]][at[1]] == TEXT}
    assert len(texts) > 100
    for story, changes in STORIES.items():
        told = by_model(calm(system, changes), texts)
        for at, said_there in told.items():
            assert said_there == [one.strip() for one in said_there], (story, at)


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_text_of_a_formula_appears(system: System) -> None:
    """The texts are collected from the templates' formulas; each must stand in its own column in some story."""
    wanted = {at: set(said(own_formula(planner_book(system), at))) for at in computed(planner_book(system))}
    assert sum(map(len, wanted.values())) > 150
    columns = {at for at, texts in wanted.items() if texts}
    whole = [calm(system, changes) for changes in STORIES.values()]
    cut = [cut_short(check, system) for check in UNSEEN]
    for scene in (*whole, *cut):
        told = by_model(scene, columns)
        for at in columns:
            wanted[at] -= {text for text in wanted[at] if any(text.strip() in one for one in told[at] if one)}
    assert {".".join(at): texts for at, texts in wanted.items() if texts} == _texts(NEVER)


def _texts(known: Mapping[str, Mapping[str, str]]) -> dict[str, set[str]]:
    return {name: set(texts) for name, texts in known.items()}


@pytest.mark.parametrize("system", SYSTEMS)
def test_nothing_said_is_lost_on_the_way_to_the_card(system: System) -> None:
    """What the checks, the products and the lawns of a visit say stands in the card's reason too."""
    checks = [
        f"mix_checks.{column.key}"
        for table, column in columns(planner_book(system), "formula")
        if table == "mix_checks" and column.key.startswith(("words_", "tank_words_"))
    ]
    heard = 0
    for changes in STORIES.values():
        scene = calm(system, changes)
        ready = scene.figure("verdict.ready") == "yes"
        told = [*scene.figures("mix_products.product_reason"), *scene.figures("mix_nitrogen.lawn_words")]
        told += [scene.figure(name) for name in checks] if ready else []
        reason = scene.figure("card.reason")
        for one in filter(None, told):
            assert one.removeprefix("; ") in reason
            heard += 1
    assert heard > 50
