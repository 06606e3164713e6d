"""The sheet Mix of the pocket planner."""
