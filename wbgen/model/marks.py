"""What a function of the model says of itself: the family that it serves, and the families that it reads.

The marks stand on the function; `binding` reads them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeVar

Function = TypeVar("Function", bound=Callable[..., Any])  # any signature: each function has its own

_SERVES, _READS = "serves_family", "reads_families"


def of_family(name: str) -> Callable[[Function], Function]:
    """Mark a function whose name ends in ``_each`` as the one of every column of a family.

    >>> @of_family("nutrients")
    ... def load_each(): ...
    >>> family_served(load_each)
    'nutrients'
    """

    def mark(function: Function) -> Function:
        vars(function)[_SERVES] = name
        return function

    return mark


def reads_every(**families: str) -> Callable[[Function], Function]:
    """Mark a function that reads all columns of a family: ``load="nutrients"`` for ``load_every``.

    >>> @reads_every(load="nutrients")
    ... def total(load_every): ...
    >>> families_read(total)
    {'load': 'nutrients'}
    """

    def mark(function: Function) -> Function:
        vars(function)[_READS] = families
        return function

    return mark


def family_served(function: Callable[..., Any]) -> str | None:
    """The family that a function is marked as serving, if it is."""
    return vars(function).get(_SERVES)


def families_read(function: Callable[..., Any]) -> Mapping[str, str]:
    """The family of each ``…_every`` that a function reads, by what stands before ``_every``."""
    found: Mapping[str, str] = vars(function).get(_READS, {})
    return found
