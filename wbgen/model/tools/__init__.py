"""What functions of several tables use: look-ups, rounding, dates, words.

Open first: `elementwise`, whose functions take figures and texts alike; then `relations`, how one table is looked up
in another.
"""
