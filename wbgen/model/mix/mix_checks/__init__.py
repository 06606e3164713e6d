"""The mix against its limits. All of it are scalars; a level is 0 go, 1 ask first, 2 do not mix.

What is not known is blank, and so is its level: it never trips a limit, and is never called fine.
"""
