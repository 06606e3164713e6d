"""What a function of the model is given and gives, by names for annotations.

At run time a quantity is pint's, a date and a number are floats, and one figure a record is a numpy array or a
quantity of one. Pint and numpy say too little for a type checker to tell a text from a number, and a column from a
scalar: the stub beside this module says which operators the figures have and what comes out of them.
"""

from __future__ import annotations

from typing import Any, Generic, TypeVar

import numpy as np
from numpy.typing import NDArray

T = TypeVar("T")
"""Whatever a figure is, which a helper hands on."""
T_co = TypeVar("T_co", covariant=True)

Mask = NDArray[np.bool_]
"""True or False for each record."""

Places = NDArray[np.int64]
"""The place of a record, from 0, for each record; -1 for none."""


class Quantity:
    """A number with a unit: one figure of a form, or one of a column."""


class SerialDate(float):
    """A day as spreadsheets count them, from 1899-12-30; two of them apart are a number of days."""


class Each(Generic[T_co]):
    """One figure a record: shape (records,)."""


class Table:
    """Another table: its columns are attributes, and each is computed when it is first asked for.

    A checker cannot follow a name into another table, so that a column of it is Any.
    """


def each(figures: Any) -> Any:
    """An array as what it is to the model, one figure a record; which figures, the annotation of a function says."""
    return figures
