"""Soil tests: what a laboratory found in the soil of a lawn, and what that asks for in a year."""
