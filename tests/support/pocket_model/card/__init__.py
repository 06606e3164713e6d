"""The sheet Card of the pocket planner."""
