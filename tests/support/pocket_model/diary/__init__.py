"""The sheet Diary of the pocket planner."""
