"""The proof of a formula's units: which conversions it needs, and what it must not do."""
