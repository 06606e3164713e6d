from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wbgen.files.diagnostics import (
    MOST_DIAGNOSTICS,
    MOST_LISTED,
    Diagnostic,
    InputError,
    Place,
    Report,
    did_you_mean,
    nearest,
    shown,
)


def diagnostic(line: int, file: str = "a.yaml", message: str = "wrong") -> Diagnostic:
    return Diagnostic("some-code", Place(file, line, 2, "site.name"), "a name", "5", "write a name", message)


def test_a_diagnostic_says_where_what_was_expected_what_was_found_and_what_to_do() -> None:
    assert diagnostic(7).render().split("\n") == [
        "a.yaml:7:2: site.name: wrong",
        "  expected: a name",
        "  found: 5",
        "  do: write a name",
    ]


def test_a_diagnostic_leaves_out_what_it_does_not_say() -> None:
    assert Diagnostic("c", Place("a.yaml"), "", "", "", "the file is empty").render() == "a.yaml: the file is empty"


def test_a_report_gives_all_diagnostics_by_line_with_the_files_in_the_order_met() -> None:
    report = Report()
    for file, line in (("b.yaml", 9), ("a.yaml", 1), ("b.yaml", 2)):
        report.add("c", Place(file, line, 1), "wrong")
    assert [(f.place.file, f.place.line) for f in report.diagnostics] == [("b.yaml", 2), ("b.yaml", 9), ("a.yaml", 1)]


def test_a_report_takes_the_same_diagnostic_once() -> None:
    report = Report()
    for _ in range(2):
        report.add("c", Place("a.yaml", 1, 1), "wrong")
    report.add("c", Place("a.yaml", 1, 1), "wrong in another way")
    assert [f.message for f in report.diagnostics] == ["wrong", "wrong in another way"]


def test_a_report_keeps_so_many_diagnostics_and_counts_the_others() -> None:
    report = Report()
    for line in range(1, MOST_DIAGNOSTICS + 1):
        report.add("c", Place("a.yaml", line, 1), "wrong")
    assert len(report.diagnostics) == MOST_DIAGNOSTICS
    for line in (1, 2):
        report.add("c", Place("b.yaml", line, 1), "wrong")
    assert [f.place.line for f in report.diagnostics] == [*range(1, MOST_DIAGNOSTICS + 1), 0]
    assert report.diagnostics[-1].message == "2 more findings are left out"


def test_an_empty_report_raises_nothing_and_any_other_raises_all() -> None:
    report = Report()
    report.raise_any()
    assert not report
    report.add("c", Place("a.yaml", 2, 1), "second")
    report.add("c", Place("a.yaml", 1, 1), "first")
    assert report
    with pytest.raises(InputError) as raised:
        report.raise_any()
    assert [f.message for f in raised.value.diagnostics] == ["first", "second"]
    assert str(raised.value) == "a.yaml:1:1: first\na.yaml:2:1: second"


@pytest.mark.parametrize(
    ("name", "expected"),
    [("ferous", "ferrous"), ("FERROUS", "ferrous"), ("acid", "Acid"), ("zzz", ""), ("", "")],
)
def test_the_nearest_name_ignores_case_and_is_none_where_none_is_near(name: str, expected: str) -> None:
    assert nearest(name, ["ferrous", "Acid", "urea"]) == expected


def test_a_long_list_of_names_is_cut_short() -> None:
    names = [f"name {n:03}" for n in range(100)]
    assert did_you_mean("qqqq", names).count("name") == MOST_LISTED
    assert did_you_mean("qqqq", names).endswith(", ...")
    assert not did_you_mean("qqqq", names[:MOST_LISTED]).endswith("...")
    assert did_you_mean("nam 001", names[:2]) == "did you mean name 001?"
    assert did_you_mean("qqqq", []) == ""


def test_shown_text_is_cut_where_it_is_too_long_only() -> None:
    assert shown("x" * 60) == "'" + "x" * 60 + "'"
    assert shown("x" * 61) == "'" + "x" * 60 + "…'"


@given(st.text())
def test_shown_text_is_one_short_line_that_can_be_printed(text: str) -> None:
    assert shown(text).isprintable()
    assert len(shown(text)) < 700


@given(st.text(), st.lists(st.text()))
def test_any_name_is_compared_with_any_names(name: str, names: list[str]) -> None:
    assert nearest(name, names) in ["", *names]
