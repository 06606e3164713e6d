"""The sheet Nutrients of the pocket planner."""
