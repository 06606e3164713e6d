"""The place: what its rule lets one visit bring.

A form: each figure is a scalar.
"""

from __future__ import annotations

from wbgen.model.types import Text


def rule_words(rule: Text) -> Text:
    """The rule by its name, as it is said after a limit.

    >>> rule_words("By-law 7"), rule_words("")
    ('By-law 7', 'your own rule')
    """
    return rule or "your own rule"
