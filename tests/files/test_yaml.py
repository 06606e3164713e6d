from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest
import yaml
from hypothesis import example, given
from hypothesis import strategies as st

from support.marked import places_of, unmarked
from wbgen.files.diagnostics import Report
from wbgen.files.yaml.nodes import Listing, Mapping, Node, Scalar
from wbgen.files.yaml.plain_scalars import Trap, Value, read_plain
from wbgen.files.yaml.tree import DEEPEST, LARGEST_FILE, MOST_KEYS, load, load_text

PARSERS = [pytest.param(yaml.SafeLoader, id="python"), pytest.param(yaml.CSafeLoader, id="c")]


@pytest.fixture(params=PARSERS)
def parser(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each test with this fixture runs with the parser in Python and with the one in C."""
    monkeypatch.setattr("wbgen.files.yaml.tree.PARSER", request.param)


def read(text: str) -> tuple[Node | None, Report]:
    report = Report()
    return load_text(text, "a.yaml", report), report


def codes(report: Report) -> list[str]:
    return [finding.code for finding in report.diagnostics]


def at(node: Node | None, *path: str | int) -> Node:
    for step in path:
        if isinstance(node, Mapping):
            node = node.get(str(step))
        else:
            assert isinstance(node, Listing)
            node = node.items[int(step)]
    assert node is not None
    return node


TREE = """\
# a comment
site:
  name: "Hollow Oak House"  # invented
  as of: 2026-06-30
lawns:
  - {name: Terrace, area: 240 m², passes: 2}
  - name: Wéir 草
    note: >-
      =SUM(1)
      +1
"""


@pytest.mark.usefixtures("parser")
def test_every_value_and_key_knows_its_place() -> None:
    tree, report = read(TREE)
    assert not report
    seen = {
        key: (node.place.line, node.place.column, node.value)
        for path in (("site", "name"), ("site", "as of"), ("lawns", 0, "area"), ("lawns", 0, "passes"))
        if isinstance(node := at(tree, *path), Scalar) and (key := node.place.key)
    }
    assert seen == {
        "site.name": (3, 9, "Hollow Oak House"),
        "site.as of": (4, 10, date(2026, 6, 30)),
        "lawns[1].area": (6, 27, "240 m²"),
        "lawns[1].passes": (6, 43, 2),
    }
    lawn = at(tree, "lawns", 1)
    assert isinstance(lawn, Mapping)
    assert (lawn.place_of("note").line, lawn.place_of("note").column) == (8, 5)
    assert (lawn.place_of("none").line, lawn.place_of("none").column) == (7, 5)
    assert (lawn.place.file, lawn.place.key) == ("a.yaml", "lawns[2]")


@pytest.mark.usefixtures("parser")
def test_text_that_looks_like_a_formula_stays_text() -> None:
    tree, report = read(TREE + 'more: ["@SUM(1)", =1, +1 kg, -x]\n')
    assert not report
    assert isinstance(note := at(tree, "lawns", 1, "note"), Scalar)
    assert note.value == "=SUM(1) +1"
    assert isinstance(more := at(tree, "more"), Listing)
    assert [item.value for item in more.items if isinstance(item, Scalar)] == ["@SUM(1)", "=1", "+1 kg", "-x"]


@pytest.mark.parametrize(
    ("word", "value"),
    [
        ("12", 12), ("+5", 5), ("-3", -3), ("0", 0), ("0.25", 0.25), ("24.00", 24.0), (".5", 0.5), ("5.", 5.0),
        ("2026-02-28", date(2026, 2, 28)), ("", None), ("null", None), ("true", True), ("False", False),
        ("21 %", "21 %"), ("N", "N"), ("y", "y"), ("12 kg/ha", "12 kg/ha"), ("03 kg", "03 kg"), ("1,5", "1,5"),
        ("1 January", "1 January"), ("1.7.2026", "1.7.2026"), ("٣", "٣"), ("e5", "e5"), ("no-one", "no-one"),
        ("123456789012345", 123456789012345),
    ],
)  # fmt: skip
def test_a_plain_word_is_read_as_it_looks(word: str, value: Value) -> None:
    found = read_plain(word)
    assert found == value
    assert type(found) is type(value)


@pytest.mark.parametrize(
    "word",
    [
        "yes", "No", "ON", "off", "~", "=", "<<", "12:30", "1:30:00", "190:20:30.15", "010", "-07", "00", "007.5",
        "0x1F", "0b11", "0o17", "1_000", "1_000.5", "1e5", "1.5E+3", ".inf", "-.Inf", ".NaN", "2026-3-1",
        "2026-02-30", "0000-01-01", "2026-03-01T12:00:00", "2026-03-01 12:00:00", "1234567890123456",
    ],
)  # fmt: skip
def test_a_word_that_readers_disagree_on_is_refused_unquoted_and_taken_quoted(word: str) -> None:
    assert isinstance(read_plain(word), Trap)
    tree, report = read(f"a: {word}")
    assert codes(report) == ["ambiguous-word"]
    assert places_of(report.diagnostics) == [(1, 4)]
    assert isinstance(value := at(tree, "a"), Scalar)
    assert (value.trapped, value.value) == (True, word)
    tree, report = read(f"a: '{word}'")
    assert not report
    assert isinstance(value := at(tree, "a"), Scalar)
    assert (value.trapped, value.value) == (False, word)


def resolved(word: str) -> object:
    """What PyYAML itself makes of a word, or why it makes nothing of it."""
    try:
        return yaml.safe_load(f"[{word}]")[0]
    except (yaml.YAMLError, ValueError) as error:
        return error


@given(st.from_regex(r"[-+]?[0-9._:eExobya-fTZ ~=<-]{1,12}", fullmatch=True))
@example("0.0_1")
@example("1__0")
@example("0_")
@example("-0")
@example("0o7")
def test_no_plain_word_is_taken_for_text_where_yaml_1_1_reads_something_else(word: str) -> None:
    word = word.strip() or "0"
    value, other = read_plain(word), resolved(word)
    if isinstance(value, str) and not any(mark in word for mark in (": ", " #", ",")):
        assert other == word or isinstance(other, yaml.YAMLError | dict)
    if isinstance(value, int | float) and not isinstance(value, bool):
        assert value == other or re.fullmatch(r"[-+]\.[0-9]+", word), "what 1.1 takes for text, and 1.2 for a number"


REFUSED = {
    "duplicate-key": ["a: 1\n«a: 2", "a:\n  b: 1\n  c: 2\n  «b: 3", "{a: 1, «'a': 2}", "a: 1\n«a: 2\n«a: 3"],
    "tag": ["a: «!!python/object:os.system x", "a: «!x {b: 1}", "«!!map {a: 1}", "a: [«!!str 5]", "a: «! b"],
    "anchor": ["a: «&x 5", "a: «&x [1, 2]", "«&k a: 5"],
    "unusable-key": ["? «[a, b]\n: 1", "a:\n  ? «{b: 1}\n  : 2", "«'': 1", "«\"a\\tb\": 1"],
    "ambiguous-word": ["«yes: 1", "a: [«no, «off]", "«~: 1"],
    "second-document": ["a: 1\n«---\nb: 2"],
    "lost-text": ["a: «Lawn #2", "a:\n  - «Bed #12 b"],
    "unreadable-character": ["a: «\"\\0\"", 'a: «"\\u0007x"', "a: b«\x07", "«\x00", "a: «\"\\uFFFF\""],
    "yaml-syntax": ["a: «[1, 2", "a: «'b", "a: «b: c", "«@a: 1", "a: «%b", "a:\n  b: 1\n «c: 2"],
}  # fmt: skip


@pytest.mark.usefixtures("parser")
@pytest.mark.parametrize(("code", "marked"), [(code, text) for code, texts in REFUSED.items() for text in texts])
def test_what_is_not_plain_data_is_refused_at_its_place(code: str, marked: str) -> None:
    text, places = unmarked(marked)
    tree, report = read(text)
    assert set(codes(report)) == {code}
    assert places_of(report.diagnostics) == places
    assert all(finding.remedy for finding in report.diagnostics)
    assert (tree is None) == (code == "yaml-syntax" or "\x07" in text or "\x00" in text)


@pytest.mark.usefixtures("parser")
def test_an_alias_is_refused_and_a_small_file_never_grows() -> None:
    levels = [f"l{n}: &l{n} [{', '.join([f'*l{n - 1}'] * 9)}]" for n in range(1, 30)]
    tree, report = read("\n".join(["l0: &l0 x", *levels]))
    assert isinstance(tree, Mapping)
    assert codes(report).count("alias") == 9 * 29
    assert codes(report).count("anchor") == 30


@pytest.mark.usefixtures("parser")
def test_an_alias_as_a_key_is_one_finding() -> None:
    _, report = read("a: 1\n*x : 2")
    assert codes(report) == ["alias"]
    assert places_of(report.diagnostics) == [(2, 1)]


@pytest.mark.usefixtures("parser")
@pytest.mark.parametrize("levels", [DEEPEST, DEEPEST + 1, 500])
def test_levels_within_each_other_are_limited(levels: int) -> None:
    tree, report = read("[" * levels + "x" + "]" * levels)
    assert codes(report) == ([] if levels == DEEPEST else ["too-deep"])
    assert (tree is None) == (levels > DEEPEST)


@pytest.mark.usefixtures("parser")
def test_everything_is_told_at_once() -> None:
    text, places = unmarked("a: «yes\nb: «&x 1\nc: «*x\n«b: 2\nd: «010\ne: «!t z\n")
    _, report = read(text)
    assert codes(report) == ["ambiguous-word", "anchor", "alias", "duplicate-key", "ambiguous-word", "tag"]
    assert places_of(report.diagnostics) == places


def test_keys_in_one_place_are_limited() -> None:
    lines = [f"k{n}: 1" for n in range(MOST_KEYS + 1)]
    assert not read("\n".join(lines[:-1]))[1]
    tree, report = read("\n".join(lines))
    assert (tree, codes(report), places_of(report.diagnostics)) == (None, ["too-many-keys"], [(MOST_KEYS + 1, 1)])


@pytest.mark.parametrize("text", ["", "# nothing\n", "---\n", "\n\n"])
def test_an_empty_file_is_a_value_of_nothing(text: str) -> None:
    tree, report = read(text)
    assert not report
    assert isinstance(tree, Scalar)
    assert tree.value is None


@pytest.mark.parametrize("text", ["a: Lawn # 2", "a: 240 m² # measured", "a: 'Lawn #2'", "a: b#2", "a: b #x"])
def test_a_comment_is_no_finding(text: str) -> None:
    assert not read(text)[1]


def test_a_file_is_read_with_its_byte_order_mark_and_either_line_end(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes("\ufeffa: 1\r\nb: 2\r\n".encode())
    report = Report()
    tree = load(path, report)
    assert not report
    assert isinstance(node := at(tree, "b"), Scalar)
    assert (node.value, node.place.file, node.place.line, node.place.column) == (2, str(path), 2, 4)


def test_a_file_that_cannot_be_read_is_a_finding(tmp_path: Path) -> None:
    (tmp_path / "large.yaml").write_bytes(b"#" * (LARGEST_FILE + 1))
    (tmp_path / "latin.yaml").write_bytes("a: 1\nb: m²".encode("latin-1"))
    (tmp_path / "utf16.yaml").write_bytes("a: 1".encode("utf-16"))
    (tmp_path / "most.yaml").write_bytes(b"#" * LARGEST_FILE)
    report = Report()
    for name in ("large", "latin", "utf16", "none"):
        assert load(tmp_path / f"{name}.yaml", report) is None
    assert load(tmp_path, report) is None
    assert load(Path("a\0b"), report) is None
    assert sorted(codes(report)) == sorted(
        ["file-too-large", "not-utf-8", "not-utf-8", "unreadable-file", "unreadable-file", "unreadable-file"]
    )
    assert [places_of((f,)) for f in report.diagnostics if f.place.file.endswith("latin.yaml")] == [[(2, 5)]]
    assert load(tmp_path / "most.yaml", report) is not None


FRAGMENTS = st.sampled_from(
    ["a", "b: ", ": ", "- ", "\n", "  ", "{", "}", "[", "]", ", ", "'", '"', "&x ", "*x", "!!str ", "!", "| ", ">\n",
     "? ", "---\n", "...\n", "%YAML 1.1\n", "%TAG ! x\n", "#", "yes", "12:30", "010", "2026-03-01", "\\x", "\\U0011",
     "\\uD800", "\t", "\r", "\x85", "\u2028", "\ufeff", "²", "<<: ", "=", "~", "`", "@", "\x00", "😀", "\ud800"]
)  # fmt: skip
TEXTS = st.text() | st.lists(FRAGMENTS, max_size=40).map("".join)


def nodes(node: Node) -> list[Node]:
    below = node.items if isinstance(node, Listing) else ()
    below = tuple(entry.value for entry in node.entries) if isinstance(node, Mapping) else below
    return [node, *(deeper for item in below for deeper in nodes(item))]


@pytest.mark.parametrize("loader", PARSERS)
@given(text=TEXTS)
@example(text='"\\UFFFFFFFF"')
@example(text="%YAML 1." + "9" * 5000 + "\n--- a")
@example(text="%TAG ! %ff\n--- !a b")
@example(text="a: !<%ff> b")
@example(text="9" * 5000)
@example(text="- " * 900)
def test_any_text_gives_a_tree_or_findings_and_never_an_exception(loader: type, text: str) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("wbgen.files.yaml.tree.PARSER", loader)
        tree, report = read(text)
    assert tree is not None or report
    lines = text.count("\n") + text.count("\r") + text.count("\x85") + text.count("\u2028") + text.count("\u2029") + 1
    for place in [finding.place for finding in report.diagnostics] + [n.place for n in (nodes(tree) if tree else [])]:
        assert 0 <= place.line <= lines
    if tree and not report:
        assert all(n.value is not None or not n.text.strip("nulNUL") for n in nodes(tree) if isinstance(n, Scalar))


@given(data=st.binary())
@example(data=b"\xff\xfe")
def test_any_bytes_give_a_tree_or_findings(tmp_path_factory: pytest.TempPathFactory, data: bytes) -> None:
    path = tmp_path_factory.mktemp("bytes") / "a.yaml"
    path.write_bytes(data)
    report = Report()
    assert load(path, report) is not None or report


VALUES = st.recursive(
    st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cs")), max_size=12) | st.integers(-999, 999),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(st.from_regex(r"[a-m][a-m ]{0,5}[a-m]", fullmatch=True), inner, max_size=4)
    ),
    max_leaves=12,
)


def data_of(node: Node) -> object:
    if isinstance(node, Scalar):
        return node.value
    if isinstance(node, Listing):
        return [data_of(item) for item in node.items]
    return {entry.key: data_of(entry.value) for entry in node.entries}


@given(VALUES)
def test_plain_data_written_by_pyyaml_comes_back(data: object) -> None:
    tree, report = read(yaml.safe_dump(data, allow_unicode=True))
    # Noncharacters such as U+FFFF, which YAML does not allow; words such as 08, which PyYAML leaves without quotes.
    assert set(codes(report)) <= {"unreadable-character", "ambiguous-word"}
    if not report:
        assert tree is not None
        assert data_of(tree) == data
