"""What functions of several tables use: look-ups, rounding, dates, words."""
