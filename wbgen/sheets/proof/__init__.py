"""The proof of a formula's units: which conversions it needs, and what it must not do.

Open first: `prover`, which walks a formula; `functions` says what each function makes of what it is given.
"""
