"""The mix against its limits. A level is 0 go, 1 ask first, 2 do not mix.

A form: each figure is a scalar. What is not known is blank, and so is its level: it never trips a limit, and is never
called fine.
"""
