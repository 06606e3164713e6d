"""Fixtures for a test module that says ``pytest_plugins = ["support.planner_fixtures"]``."""

from __future__ import annotations

import pytest

from support.planners import ALL, Built, Planners


@pytest.fixture(scope="session")
def planners(tmp_path_factory: pytest.TempPathFactory) -> Planners:
    """All planners, each built when it is first asked for."""
    return Planners(tmp_path_factory.mktemp("planners"))


@pytest.fixture(params=ALL, ids="-".join)
def planner(request: pytest.FixtureRequest, planners: Planners) -> Built:
    """One planner after the other: the test runs over all six."""
    return planners.get(*request.param)
