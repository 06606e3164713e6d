"""The sheet Start of the pocket planner."""
