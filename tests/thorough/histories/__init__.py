"""Histories of a planner in use: edits that a person may make, done by real programs, after which verify is silent."""
