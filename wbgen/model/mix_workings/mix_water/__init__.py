"""The water of this mix, and the citric acid that brings it to the pH that is wanted.

A form: each figure is a scalar. What is not known is blank. `known` says whose water it is, `acid` works out how much
acid it takes, `added` what of it goes in.
"""
