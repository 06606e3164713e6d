"""Settings for all tests: which tier runs, what it draws, and what is said of it at the end; nothing is left behind."""

from __future__ import annotations

import os
import time
from collections import Counter

import pytest
from hypothesis import settings

from support.tier import TIER

pytest_plugins = ["support.planner_fixtures"]

STARTED = float(os.environ.get("WBGEN_STARTED", time.time()))
"""When the run began, what stands before pytest included."""


@pytest.hookimpl(tryfirst=True)  # before hypothesis looks for its own options
def pytest_configure(config: pytest.Config) -> None:
    """Every worker draws the same as this process, also where a day ends meanwhile."""
    os.environ["WBGEN_SEED"] = TIER.seed
    settings.register_profile(
        TIER.name, derandomize=not TIER.thorough, database=None, deadline=None, max_examples=TIER.examples
    )
    settings.load_profile(TIER.name)
    if TIER.thorough:
        config.option.hypothesis_seed = TIER.seed


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if TIER.thorough:
        return
    left_out = [item for item in items if item.get_closest_marker("thorough")]
    config.hook.pytest_deselected(items=left_out)
    items[:] = [item for item in items if item not in left_out]


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """One line with what was drawn and tried: tests say so by `record_property(what, number)`."""
    counted: Counter[str] = Counter()
    for reports in terminalreporter.stats.values():
        for report in reports:
            if getattr(report, "when", "") == "call":
                counted.update({name: int(number) for name, number in report.user_properties})
    tried = ", ".join(f"{number} {name}" for name, number in sorted(counted.items())) or "nothing drawn"
    terminalreporter.write_line(
        f"{TIER.name} tier, WBGEN_SEED={TIER.seed}: {tried}; {time.time() - STARTED:.0f} s since it began"
    )
