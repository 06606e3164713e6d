"""Fixtures of planners, and of what else is made once a run, for all tests."""

from __future__ import annotations

import pytest

from support.planners import ALL, Built, Planners
from support.shared import Shared


@pytest.fixture(scope="session")
def shared(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Shared:
    """What the workers of this run have in common; a process without others has it for itself."""
    own = tmp_path_factory.getbasetemp()
    return Shared((own.parent if hasattr(request.config, "workerinput") else own) / "shared")


@pytest.fixture(scope="session")
def planners(shared: Shared) -> Planners:
    """All planners, each built when it is first asked for."""
    return Planners(shared)


@pytest.fixture(params=ALL, ids="-".join)
def planner(request: pytest.FixtureRequest, planners: Planners) -> Built:
    """One planner after the other: the test runs over all six."""
    return planners.get(*request.param)
