"""This mix: from the lawns, the sprayer and the products to litres and loads.

A form: each figure is a scalar.
"""
