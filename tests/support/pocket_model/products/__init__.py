"""The sheet Products of the pocket planner."""
