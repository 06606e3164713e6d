"""The sheet Lawns of the pocket planner."""
