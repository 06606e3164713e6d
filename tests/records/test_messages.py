"""What is said of the mistakes that people make: at their place, exactly in these words, and no word of a program."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from records.message_cases import LAWNS, OWN, Mistake, made, mistakes
from wbgen.files.diagnostics import InputError, Report
from wbgen.files.shipped import product_catalogue
from wbgen.files.yaml.tree import load_text
from wbgen.records.site.site import load_site_and_catalogue

CASES = mistakes()
PARSERS = [pytest.param(yaml.SafeLoader, id="python"), pytest.param(yaml.CSafeLoader, id="c")]


def said(folder: Path, files: Mapping[str, str]) -> str:
    """What is said of the two files, or "" where nothing is."""
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8")
    try:
        load_site_and_catalogue(folder / "lawns.yaml", [product_catalogue()])
    except InputError as error:
        return str(error).replace(f"{folder}/", "") + "\n"
    return ""


def test_the_files_without_a_mistake_are_sound(tmp_path: Path) -> None:
    assert said(tmp_path, {"lawns.yaml": LAWNS, "own.yaml": OWN}) == ""


@pytest.mark.parametrize("case", CASES)
def test_a_mistake_is_told_in_these_words(tmp_path: Path, case: str) -> None:
    assert said(tmp_path, made(CASES[case])) == CASES[case].said


@pytest.mark.parametrize("case", CASES)
def test_a_message_has_its_place_what_was_found_and_what_to_do_in_plain_words(case: str) -> None:
    mistake = CASES[case]
    first = mistake.said.split("\n")[0]
    file, line, column, _ = first.split(":", 3)
    text = made(mistake)[file].split("\n")
    assert file == mistake.file
    assert 1 <= int(column) <= len(text[int(line) - 1]) + 1
    for fact in ("expected: ", "found: ", "do: "):
        assert f"\n  {fact}" in mistake.said
    jargon = ("scalar", "mapping", "token", "sequence", "stream", "None", "Traceback", "indicator", "parsing")
    assert not [word for word in jargon if word in mistake.said]


@pytest.mark.parametrize("loader", PARSERS)
@pytest.mark.parametrize("case", CASES)
def test_both_parsers_are_told_alike(monkeypatch: pytest.MonkeyPatch, case: str, loader: type) -> None:
    monkeypatch.setattr("wbgen.files.yaml.tree.PARSER", loader)
    report = Report()
    load_text(made(CASES[case])[CASES[case].file], CASES[case].file, report)
    told = "".join(diagnostic.render() + "\n" for diagnostic in report.diagnostics)
    assert told in (CASES[case].said, "")


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("lawns.yaml", "rate: 2.5 g/m²}", "rate: 0.25 kg per 100m2}"),
        ("lawns.yaml", "notes: Seen from the house", "notes: Ann's favourite, 1,5 m below the “house”"),
        (
            "lawns.yaml",
            "notes: Seen from the house",
            "notes: >-\n      Careful: wet\n      \tand – steep\n      -name: x",
        ),
        ("lawns.yaml", "notes: Seen from the house", "notes: \"Ann's: [wet, 'x]\""),
        ("lawns.yaml", "notes: Seen from the house", "notes: ends at 12:30, http://example.org"),
        ("lawns.yaml", "closed: [12, 1]", "closed: [12,1]"),
        ("lawns.yaml", "[1290 mL, 1310 mL]", "[1290 mL,1310 mL]"),
        ("lawns.yaml", "people: [Ann, Ben]", "people:\n  - Ann\n  - Ben"),
        ("own.yaml", "spray: 30 L/ha", "spray: 30 L ha-1"),
        ("own.yaml", "spray: 30 L/ha", "spray: 300 mL per 100m2"),
        ("own.yaml", "months: [4, 5, 6]", "months: {value: [4,5,6], basis: label, note: as printed}"),
        ("own.yaml", "price: 9.50", "price: 9.50   # 1,5 times of last year's"),
        ("own.yaml", "analysis: {per: w/v, N: 21 %, K2O: 6 %}", "analysis: {per: w/v, contents: {N: 21 %,K2O: 6 %}}"),
    ],
)
def test_what_only_looks_like_a_mistake_is_none(tmp_path: Path, file: str, old: str, new: str) -> None:
    assert said(tmp_path, made(Mistake(file, old, new, ""))) == ""


@given(st.sampled_from([LAWNS, OWN]), st.data())
def test_whatever_one_sign_of_a_file_becomes_it_is_read_or_told_of(text: str, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(text) - 1))
    sign = data.draw(
        st.sampled_from(["", "\t", "'", '"', "[", "]", "{", "}", ":", ",", "-", "–", "“", "\u00a0", "*", "#", "\n"])
    )
    report = Report()
    tree = load_text(text[:at] + sign + text[at + 1 :], "a.yaml", report)
    assert tree is not None or report
    lines = text.count("\n") + 2
    for diagnostic in report.diagnostics:
        assert 1 <= diagnostic.place.line <= lines
        assert diagnostic.remedy
