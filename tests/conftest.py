"""Settings for all tests: every run draws the same cases, and none leaves a file behind."""

from hypothesis import settings

settings.register_profile("same-every-time", derandomize=True, database=None, deadline=None)
settings.load_profile("same-every-time")

pytest_plugins = ["support.planner_fixtures"]
