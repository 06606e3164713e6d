"""What is wrong in a file that YAML cannot be read from, in the words of whoever wrote it.

The parser says where it gave up and what it would have liked; the mistake is often on a line above. Here the lines are
looked at again for the mistakes that people make. Where none of them is found, the parser's own words are given.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Final

import yaml

from wbgen.files.diagnostics import Place, Report, shown
from wbgen.files.yaml.look_alikes import CURLY, MOST_LINES, Told, blank, dash

ADVICE: Final = "check the indents (spaces, no tabs), the colons, the quotes and the brackets here and just above"
_BRACKETS: Final = {"[": "]", "{": "}"}
_KEY: Final = re.compile(r"(?P<indent> *)(?P<dash>(?:- +)*)(?P<key>[^\s#'\"\[{][^:#]*?) *:(?= |$)")
_IN_QUOTES: Final = re.compile(r"""(?:.*?(?::|^ *-|[\[{,]) +|.*?[\[{])?(?P<whole>(?P<quote>["'])(?P<rest>.*))""")
_NO_SPACE: Final = re.compile(r" *(?:- +)?(?P<key>\w[\w ]*):(?P<value>[^\s:/].*)")
_NO_COLON: Final = re.compile(r" *(?:- +)?(?P<key>\w+) (?P<value>[^:]+)")


def tell_syntax(error: yaml.MarkedYAMLError, lines: list[str], file: str, report: Report) -> None:
    """Put the mistake into the report, or each of several alike."""
    seen = _Seen(error, lines, file)
    for look in _LOOKS:
        told = list(look(seen))
        for one in told[:MOST_LINES]:
            report.add("yaml-syntax", seen.place(one.line, one.column), one.message, expected=one.expected,
                       found=one.found, remedy=one.remedy)  # fmt: skip
        if told:
            return
    said = " ".join(part for part in (error.context, error.problem) if part)
    report.add("yaml-syntax", seen.place(seen.line, seen.column), f"this is not YAML: {said}", remedy=ADVICE)


class _Seen:
    """The lines, and where the parser gave up (`line`, `column`) on what it had begun (`begun`), all from 0."""

    def __init__(self, error: yaml.MarkedYAMLError, lines: list[str], file: str) -> None:
        mark = error.problem_mark or error.context_mark
        self.lines, self._file = lines, file
        self.line, self.column = self._within(mark.line, mark.column) if mark else (-1, -1)
        begun = error.context_mark
        self.begun = self._within(begun.line, begun.column) if begun else (self.line, self.column)
        self.problem, self.context = error.problem or "", error.context or ""

    def _within(self, line: int, column: int) -> tuple[int, int]:
        """The parser in C puts the end of a file on a line of its own."""
        return (line, column) if line < len(self.lines) else (len(self.lines) - 1, len(self.lines[-1]))

    def place(self, line: int, column: int) -> Place:
        return Place(self._file, line + 1, column + 1) if line >= 0 else Place(self._file)

    @property
    def text(self) -> str:
        return self.lines[self.line] if self.line >= 0 else ""

    @property
    def sign(self) -> str:
        """The character at which the parser gave up, or ""."""
        return self.text[self.column : self.column + 1]

    def above(self, line: int) -> int:
        """The line above that says something, or -1."""
        return next((n for n in range(line - 1, -1, -1) if _says(self.lines[n])), -1)


def _says(line: str) -> bool:
    return bool(line.strip()) and not line.lstrip().startswith("#")


def _tabs(seen: _Seen) -> Iterator[Told]:
    with_tab = [n for n, line in enumerate(seen.lines) if re.match(r" *\t", line) and line.strip()]
    if any(n in with_tab for n in (seen.line, seen.line - 1)):
        for n in with_tab:
            yield Told(n, seen.lines[n].index("\t"), "this line is indented by a tab", "spaces", "a tab",
                        "delete it and press the space bar instead")  # fmt: skip


def _beginnings(seen: _Seen) -> Iterator[Told]:
    for n in (seen.line, seen.above(seen.line)):
        if n >= 0:
            yield from (*dash(n, seen.lines[n]), *blank(n, seen.lines[n]))


def _quotes(seen: _Seen) -> Iterator[Told]:
    first = seen.begun[0] if "quoted" in seen.context else max(seen.begun[0], seen.line - MOST_LINES)
    for n in range(max(first, 0), seen.line + 1):
        match = _IN_QUOTES.match(seen.lines[n])
        if match is None:
            continue
        quote, rest = match["quote"], match["rest"]
        closed = re.match(r"(?:[^'\\]|'')*'" if quote == "'" else r'(?:[^"\\]|\\.)*"', rest.replace("\\", "/"))
        if closed is None:
            yield _open_quote(n, match.start("quote"), quote, rest)
            return
        behind = rest[closed.end() :].strip()
        if n == seen.line and behind and behind[0] not in "#,]}:" and seen.column >= match.start("whole"):
            yield _text_behind(n, match.start("quote"), quote, match["whole"].strip())
            return
    if "quoted" in seen.context and "\\" in seen.text:
        yield Told(seen.line, seen.text.index("\\"), "a \\ stands in double quotes", "single quotes, or no \\",
                    shown(seen.text.strip()), "write the text in single quotes: ' '")  # fmt: skip


def _open_quote(line: int, column: int, quote: str, rest: str) -> Told:
    curly = next((sign for sign in rest if sign in CURLY), "")
    text = re.split(rf"[{CURLY},\]}}]", rest)[0].strip() if curly or "," in rest else rest.strip()
    said = f"this quote {quote} is never closed"
    if curly:
        said += f": {curly} is a curly one, as word processors write it"
    return Told(line, column, said, f"{quote} before the text and {quote} behind it", shown(quote + rest),
                 f"write {quote}{text}{quote}")  # fmt: skip


def _text_behind(line: int, column: int, quote: str, whole: str) -> Told:
    if quote == "'" and whole.endswith("'") and whole.count("'") > 2:
        return Told(line, column, "the apostrophe ends the text", 'double quotes round a text with an apostrophe',
                     shown(whole), f'write "{whole[1:-1]}"')  # fmt: skip
    inside = whole.replace(quote, "")
    return Told(line, column, "something stands behind the closing quote", "quotes round the whole text, or none",
                 shown(whole), f"write {quote}{inside}{quote}")  # fmt: skip


def _brackets(seen: _Seen) -> Iterator[Told]:
    if not seen.context.startswith("while parsing a flow"):
        if seen.sign in ("]", "}") and seen.sign:
            yield Told(seen.line, seen.column, f"this bracket {seen.sign} closes nothing", "brackets in pairs",
                       shown(seen.text.strip()),
                        f"delete it, or write the bracket that opens, {'[' if seen.sign == ']' else '{'}")  # fmt: skip
        return
    line, column = seen.begun
    opens = seen.lines[line][column : column + 1]
    closes = _BRACKETS.get(opens, "")
    end = seen.lines[line].rfind(closes) if closes else -1
    if seen.line == line and seen.sign in ("]", "}") and seen.sign != closes:
        yield Told(line, seen.column, f"what begins with {opens} ends with {seen.sign}", closes, seen.sign,
                    f"write {closes}")  # fmt: skip
    elif seen.line == line and end > seen.column:
        yield Told(line, seen.column, "a comma is missing before this, or a text with a colon has no quotes",
                    f"pieces parted by commas, up to {closes}", shown(seen.lines[line][column : end + 1]),
                    "write a comma between the two, or the text in quotes")  # fmt: skip
    elif closes:
        yield Told(line, column, f"this bracket {opens} is never closed", closes, shown(seen.lines[line][column:]),
                    f"write {closes} where {'the list ends' if closes == ']' else 'it ends'}")  # fmt: skip


def _first_signs(seen: _Seen) -> Iterator[Told]:
    begun = any(word in seen.context for word in ("block scalar", "alias", "anchor", "tag"))
    begins = seen.begun if begun else (seen.line, seen.column)
    text = seen.lines[begins[0]][begins[1] :].split(" #")[0].strip() if begins[0] >= 0 else ""
    if text and (begun or "cannot start any token" in seen.problem or "mapping keys are not" in seen.problem):
        yield Told(*begins, f"a text cannot begin with {text[0]} unless it is in quotes", "quotes round the text",
                    shown(text), f"write {_quoted(text)}")  # fmt: skip
    elif "sequence entries are not allowed" in seen.problem:
        yield Told(seen.line, seen.column, "an item of a list stands behind a colon",
                    "each item on a line of its own below, or [first, second]", shown(seen.text.strip()),
                    f"write [{text.removeprefix('-').strip()}], or put text in quotes")  # fmt: skip


def _colons(seen: _Seen) -> Iterator[Told]:
    if "mapping values" not in seen.problem and "expected ':'" not in seen.problem:
        return
    here = seen.line if "mapping values" in seen.problem else seen.begun[0]
    key = _KEY.match(seen.lines[here])
    if key and "mapping values" in seen.problem and seen.column > key.end() and not _NO_SPACE.match(seen.lines[here]):
        value = seen.lines[here][key.end() :].split(" #")[0].strip()
        column = seen.lines[here].index(value, key.end())
        yield Told(here, column, "a colon stands in a text without quotes", "quotes round a text with a colon",
                    shown(value), f"write {key['key']}: {_quoted(value)}")  # fmt: skip
        return
    above = seen.above(seen.line)
    for n in dict.fromkeys((here, above) if here != seen.line or _NO_SPACE.match(seen.lines[here]) else (above, here)):
        if n < 0 or (n == seen.line and n != here):
            continue
        if no_space := _NO_SPACE.fullmatch(seen.lines[n]):
            yield Told(n, no_space.end("key"), "a space is missing after the colon", "a colon and a space",
                        shown(seen.lines[n].strip()), f"write {no_space['key']}: {no_space['value']}")  # fmt: skip
            return
        no_colon = _NO_COLON.fullmatch(seen.lines[n])
        if no_colon and ("expected" in seen.problem or n != above or _as_far_in(seen, above)):
            yield Told(n, no_colon.end("key"), "a colon is missing", "a word, a colon, a space and what it is",
                        shown(seen.lines[n].strip()), f"write {no_colon['key']}: {no_colon['value']}")  # fmt: skip
            return


def _as_far_in(seen: _Seen, above: int) -> bool:
    return _columns(seen.lines[above])[-1] == _columns(seen.text)[0]


def _indents(seen: _Seen) -> Iterator[Told]:
    if not ("mapping values" in seen.problem or "block" in seen.context) or not _says(seen.text):
        return
    column, wanted = _columns(seen.text)[0], []
    least = column + 10_000
    for n in range(seen.line - 1, -1, -1):
        if _says(seen.lines[n]) and (columns := _columns(seen.lines[n]))[0] < least:
            least = columns[0]
            wanted += [one for one in columns if one not in wanted]
    if column in wanted and "collection" not in seen.context:
        return
    fit = sorted(one for one in wanted if one != column)
    if fit:
        yield Told(seen.line, column, "this line does not begin in the same column as those that it belongs to",
                    f"column {' or '.join(str(one + 1) for one in fit)}", f"column {column + 1}",
                    "put spaces before it, or take some away, until it does")  # fmt: skip


def _columns(line: str) -> list[int]:
    """Where a line begins, and where behind each - of a list."""
    start = re.match(r" *((?:- +)*)", line)
    first = len(line) - len(line.lstrip(" "))
    dashes = [first + match.end() for match in re.finditer(r"- +", start[1])] if start else []
    return [first, *dashes]


def _quoted(text: str) -> str:
    bare = text.strip()
    return f"'{bare}'" if '"' in bare or "\\" in bare else f'"{bare}"'


_LOOKS: Final[tuple[Callable[[_Seen], Iterator[Told]], ...]] = (
    _tabs, _beginnings, _quotes, _brackets, _first_signs, _colons, _indents,
)  # fmt: skip
