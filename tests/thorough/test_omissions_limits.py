"""Every limit and every rule can speak, and can be silent: on a visit that may go, each alone changes a verdict."""

from __future__ import annotations

from typing import Final

import pytest

from support.tier import every, others_thorough
from thorough.omission_sites import SEAWEED, N, calm
from thorough.omission_stories import ASK, BROKEN, GO, MET, SPOKEN, STOP, TRIPS, UNSEEN, cut_short
from thorough.omissions import Changes, columns
from wbgen.sheets.book import shipped_templates
from wbgen.sheets.column import System
from wbgen.trade.checks import CHECKS
from wbgen.trade.tank_rules import OTHERS, RISKS, TRAIT_RULES, TRAITS, Risk, TraitRule

SYSTEMS: Final = others_thorough(("metric", "us"), ["metric"])


def verdict(system: System, changes: Changes) -> str:
    return str(calm(system, changes).figure("verdict.verdict"))


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("risk", every(3, RISKS), ids=lambda risk: risk.key)
def test_each_risk_trips_on_and_off_at_both_limits(risk: Risk, system: System) -> None:
    met = MET.get(risk.key, {})
    found = float(calm(system, met).figure(f"mix_checks.found_{risk.key}"))
    assert found > 0

    def at(ask: float | None, stop: float | None) -> tuple[str, bool]:
        limits: Changes = {f"limits.ask_{risk.key}": ask, f"limits.stop_{risk.key}": stop}
        scene = calm(system, {**met, **limits})
        return scene.figure("verdict.verdict"), risk.words in scene.figure("verdict.reason")

    assert at(None, None) == at(found * 1.01, None) == at(None, found * 1.01) == at(found, None) == (GO, False)
    assert at(found * 0.99, None) == at(found * 0.99, found * 1.01) == (ASK, True)
    assert at(None, found * 0.99) == at(found * 0.98, found * 0.99) == (STOP, True)
    assert at(None, found) == ((STOP, True) if risk.sign == ">=" else (GO, False))


UNANALYSED: Final[Changes] = {
    f"products.stated_sulphur_trioxide@{N}": None,
    f"products.ammonium_nitrogen@{N}": None,
    f"products.stated_potash@{SEAWEED}": None,
}
"""Analyses that show no property."""


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("rule", every(5, TRAIT_RULES), ids=lambda rule: f"{rule.first}-{rule.second}")
def test_each_rule_of_the_tank_trips_between_two_products_only(rule: TraitRule, system: System) -> None:
    level = f"rules.level_{rule.first}_with_{rule.second}"
    bare: Changes = {f"products.trait_{trait}@{name}": "" for name in (N, SEAWEED) for trait in TRAITS}
    bare = {**bare, **UNANALYSED, **{f"products.trait_neutral@{name}": "yes" for name in (N, SEAWEED)}}
    first = f"products.trait_{rule.first}@{N}"
    both: Changes = {**bare, "chosen_products.product@1": SEAWEED, "chosen_more.hardness": None}
    if rule.second in OTHERS:  # the seaweed is not live without being told; both of them live are no two to part
        met: Changes = {**both, first: "yes"}
        unmet: tuple[Changes, ...] = (both, {**met, f"products.trait_{rule.first}@{SEAWEED}": "yes"})
    else:
        second, alone = f"products.trait_{rule.second}@{SEAWEED}", f"products.trait_{rule.second}@{N}"
        met = {**both, first: "yes", second: "yes"}
        unmet = ({**both, first: "yes"}, {**both, second: "yes"}, {**both, first: "yes", alone: "yes"})
    assert [verdict(system, {**met, level: float(one)}) for one in (0, 1, 2)] == [GO, ASK, STOP]
    assert verdict(system, met) == {1: ASK, 2: STOP}[rule.level]
    scene = calm(system, met)
    assert rule.reason in scene.figure("verdict.reason")
    assert list(scene.figures("mix_products.level_tank"))[:2] == [rule.level, rule.level]
    for missing in unmet:
        assert verdict(system, missing) == GO


def test_every_check_is_broken_here() -> None:
    assert {*BROKEN, *UNSEEN} == set(CHECKS)


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("check", CHECKS)
def test_each_check_fails_when_broken_and_not_before(check: str, system: System) -> None:
    whole = calm(system)
    scene = cut_short(check, system) if check in UNSEEN else whole.changed(BROKEN[check])
    assert whole.figure(f"checks.found_{check}") == whole.figure(f"checks.failed_{check}") == 0
    assert whole.figure(f"checks.advice_{check}") == ""
    assert whole.figure("start.master_check") == "all checks agree"
    assert scene.figure(f"checks.found_{check}") >= 1
    assert scene.figure(f"checks.failed_{check}") == 1
    assert scene.figure(f"checks.advice_{check}") == CHECKS[check][1]
    assert scene.figure("start.master_check") == "look at the sheet Checks"


NO_VERDICT: Final = {
    "week": "the step of a chart",
    "least_observations": "how many observations a mean needs",
    "brew_life": "asked of a recipe on the sheet Brewing, not of a mix",
    "use_time": "the hour at which a brew is used",
    "use_phosphate": "what a soil test asks for, which is no limit",
    "use_potash": "what a soil test asks for, which is no limit",
    "root_depth": "what a soil test asks for, which is no limit",
    "soil_density": "what a soil test asks for, which is no limit",
    "watering": "printed on the card, for whoever waters in",
    "first_fill": "how much water the mixing begins with",
    "nozzle_wear": "whether nozzles are worn is said on the sheet Sprayers",
    "course_area": "the area for which to walk a test course",
    "jar_volume": "the water of a jar test",
    "pace_distance": "the distance of the walking time on the card",
    "watercourse_strip": "printed on the card, for whoever sprays to keep",
    "rain_time": "for the reader, who knows the forecast: the sheet Mix asks for its yes or no",
}
"""Settings that are not limits."""


def test_every_setting_trips_something_or_is_no_limit() -> None:
    book = shipped_templates().book("metric")
    settings = {column.key for table, column in columns(book, "input") if table == "settings"}
    assert {*TRIPS, *NO_VERDICT} == settings
    assert not {*TRIPS} & {*NO_VERDICT}


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("setting", every(3, TRIPS))
def test_each_setting_trips_a_verdict_on_and_off(setting: str, system: System) -> None:
    trip = TRIPS[setting]
    on, off = (calm(system, {**trip.given, f"settings.{setting}": cell}) for cell in (trip.on, trip.off))
    assert (on.figure(trip.place), off.figure(trip.place)) == (trip.says, trip.quiet)


def levels() -> set[str]:
    """Every column of the mix that is a level, but for the worst of them and those of risks and of rules."""
    risks = {f"mix_checks.level_{risk.key}" for risk in RISKS}
    found = {
        f"{table}.{column.key}"
        for table, column in columns(shipped_templates().book("metric"), "formula")
        if table.startswith(("mix_", "visit_")) and (column.key.startswith("level_") or column.key.endswith("_level"))
    }
    return found - risks


def test_every_level_is_tripped_here() -> None:
    assert levels() == set(SPOKEN)


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("level", every(3, SPOKEN))
def test_each_level_changes_the_verdict(level: str, system: System) -> None:
    quiet, scene = calm(system), calm(system, SPOKEN[level])
    assert (quiet.figure(level), quiet.figure("verdict.verdict")) == (0, GO)
    assert scene.figure(level) > 0
    assert scene.figure("verdict.verdict") in {1: (ASK, STOP), 2: (STOP,)}[scene.figure(level)]
    assert scene.figure("verdict.reason") != quiet.figure("verdict.reason") == ""
