"""The soil tests of a lawn: what a laboratory found, and by which method."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Annotated, ClassVar

from wbgen.files.diagnostics import Report, shown
from wbgen.files.yaml.fields import Leaf, OneOf, Text
from wbgen.files.yaml.nodes import Scalar
from wbgen.files.yaml.records import Record, wrong
from wbgen.records.fields import Day, Measure
from wbgen.trade.soil import METHODS
from wbgen.units.quantity import parse_quantity


@dataclass(frozen=True)
class Found(Leaf):
    """Parts of the element in a million of soil by mass, as a laboratory prints it: 24 ppm, or 24 mg/kg."""

    expected: ClassVar[str] = "a figure such as 24 ppm or 24 mg/kg"
    element: str

    def read(self, scalar: Scalar) -> Measure:
        number = rf"([0-9]+(?:\.[0-9]+)?) ?(?:ppm|mg(?: {self.element})? ?/ ?kg)"
        if match := re.fullmatch(number, scalar.text):
            return Measure(scalar.text, parse_quantity(f"{match[1]} mg {self.element}/kg"), scalar.place)
        raise wrong("wrong-quantity", f"this must be what was found of {self.element} in the soil",
                    expected=self.expected, found=shown(scalar.text), remedy=self._do(scalar.text))  # fmt: skip

    def _do(self, text: str) -> str:
        """What to do about a figure that is none."""
        if re.fullmatch(r"[0-9]+(?:\.[0-9]+)?", text):
            return f"write the unit behind the number, as the report has it: {text} ppm"
        if re.search(r"lb ?/ ?a|pounds? (?:an?|per) acre", text, re.IGNORECASE):
            return "halve pounds an acre, and write ppm: 48 lb/acre are 24 ppm"
        if "2O" in text:
            oxide, share = ("P2O5", "0.436") if self.element == "P" else ("K2O", "0.830")
            return f"give the element: {oxide} times {share} is {self.element}"
        return "write it in ppm or mg/kg, as the report has it"


class SoilTest(Record):
    """What was found in the soil of a lawn on a day, by one method: of phosphorus and of potassium, as elements."""

    date: Day
    method: Annotated[str, OneOf(*METHODS)]
    P: Annotated[Measure, Found("P")] | None = None
    K: Annotated[Measure, Found("K")] | None = None
    note: Text | None = None


def check_soil_tests(lawn: str, tests: Sequence[SoilTest], report: Report) -> None:
    """Something was found in each, and of one day there is one figure of an element."""
    seen: dict[tuple[date, str], SoilTest] = {}
    for test in tests:
        given = [element for element, found in (("P", test.P), ("K", test.K)) if found]
        if not given:
            report.add("soil-test", test.place, f"{lawn}: a soil test without a figure", expected="P, K, or both",
                       found="neither", remedy="add what the laboratory found, or delete the test")  # fmt: skip
        for element in given:
            first = seen.setdefault((test.date, element), test)
            if first is not test:
                report.add("soil-test", test.place_of(element), f"{lawn}: {element} was tested on {test.date} already",
                           expected="one figure of an element a day", found=f"another in line {first.place.line}",
                           remedy="keep that of the method that your adviser goes by")  # fmt: skip
