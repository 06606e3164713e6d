"""What a user's file says of the limits that the place sets: a statute, a permit or a rule of one's own."""

from __future__ import annotations

from typing import Annotated

from wbgen.files.yaml.records import Record
from wbgen.records.fields import Measure, Name
from wbgen.records.site.lawn import RateOfNitrogen
from wbgen.records.site.weather import YesNo


class PlaceRule(Record):
    """The most nitrogen in one visit, the most of it that is soluble, and whether phosphorus is forbidden.

    Whatever is None is no limit. `rule` is its name. Closed months are said of the months.
    """

    rule: Name | None = None
    most_N_a_visit: Annotated[Measure, RateOfNitrogen()] | None = None  # noqa: N815 - the file's key, _ for a space
    most_soluble_N_a_visit: Annotated[Measure, RateOfNitrogen()] | None = None  # noqa: N815
    no_phosphorus: YesNo | None = None
