"""Fixtures of planners, and of what else is made once a run, for all tests."""

from __future__ import annotations

from typing import Final

import pytest

from support.planners import ALL, Built, Planners
from support.pocket_planner import POCKET
from support.shared import Shared
from support.tier import others_thorough


@pytest.fixture(scope="session")
def shared(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Shared:
    """What the workers of this run have in common; a process without others has it for itself."""
    own = tmp_path_factory.getbasetemp()
    return Shared((own.parent if hasattr(request.config, "workerinput") else own) / "shared")


@pytest.fixture(scope="session")
def planners(shared: Shared) -> Planners:
    """All planners, each built when it is first asked for."""
    return Planners(shared)


@pytest.fixture
def pocket_by_default(monkeypatch: pytest.MonkeyPatch) -> None:
    """The commands build, verify, explain and export the pocket planner, as they do wbgen's own otherwise."""
    for module in ("build", "export", "verify.verification", "verify.explain.explain"):
        monkeypatch.setattr(f"wbgen.{module}.Design", lambda: POCKET)


QUICK: Final = [("starter", "metric"), ("full", "us")]


@pytest.fixture(params=others_thorough(ALL, QUICK, whole=True), ids="-".join)
def planner(request: pytest.FixtureRequest, planners: Planners) -> Built:
    """One planner after the other: the test runs over one in each system, in the thorough tier over all six."""
    return planners.get(*request.param)
