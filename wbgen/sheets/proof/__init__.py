"""The proof of a formula's units: which conversions it needs, and what it must not do.

Open first: `prover`, which walks a formula; `types` are what it finds, `functions` says what each function makes of
them.
"""
