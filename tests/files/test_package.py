"""Containers that lie, burst or break, each made here and refused with the right code."""

from __future__ import annotations

import os
import struct
import zipfile
import zlib
from pathlib import Path

import pytest
import xlsxwriter
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from support.hostile import PLAIN, SHEET, TYPES, looked_at, refusal, zipped
from wbgen.files.xlsx.package import inspect
from wbgen.files.xlsx.refusal import Limits, UnsafeFile


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


SIGNATURE, METHOD, PACKED, COMMENT, HEADER = 0, 10, 20, 32, 42
"""Places of fields in a record of the directory, in bytes."""


def patched(field: int, code: str, value: int, content: bytes = zipped(PLAIN)) -> bytes:
    """A field of the directory's last record, that of the sheet, set to another value."""
    changed = bytearray(content)
    struct.pack_into(code, changed, content.index(SHEET.encode(), directory_of(content)) - 46 + field, value)
    return bytes(changed)


def widened(before_directory: bytes = b"", in_directory: bytes = b"", after_directory: bytes = b"") -> bytes:
    """A workbook with bytes put between its pieces and its end record set right."""
    content = zipped(PLAIN)
    place, end = directory_of(content), bytearray(content[-22:])
    directory = content[place:-22] + in_directory
    struct.pack_into("<2L", end, 12, len(directory), place + len(before_directory))
    return content[:place] + before_directory + directory + after_directory + bytes(end)


packed_sheet = len(zipped({SHEET: PLAIN[SHEET]})) - 22 - 30 - 46 - 2 * len(SHEET)


@pytest.mark.parametrize(
    ("content", "found"),
    [
        (zipped(PLAIN)[:-2] + b"\5\0", "a zip file cut short, or with something after its end"),
        (
            zipped(PLAIN)[:-22] + b"PK\0\0" + zipped(PLAIN)[-18:],
            "a zip file cut short, or with something after its end",
        ),
        (widened(after_directory=bytes(30)), "a zip directory that is not where the file says it is"),
        (widened(in_directory=bytes(30)), "a zip directory cut short"),
        (patched(SIGNATURE, "<L", 0), "a zip directory that does not hold together"),
        (patched(COMMENT, "<H", 9), "a zip directory that does not hold together"),
        (patched(HEADER, "<L", 1), "a zip directory that points at no part"),
        (patched(HEADER, "<L", 1 << 30), "a zip directory that points at no part"),
        (patched(PACKED, "<L", packed_sheet - 5), f"{SHEET}, cut short"),
        (patched(PACKED, "<L", packed_sheet + 4, widened(bytes(4))), f"{SHEET} with something after its end"),
        (patched(METHOD, "<H", zipfile.ZIP_STORED), "a zip directory and parts that disagree"),
        (zipped(PLAIN, zipfile.ZIP_BZIP2), "a way of packing (12) that workbooks do not use"),
        (zipped({name: PLAIN[name] for name in PLAIN if name != TYPES}), "a zip file without a workbook in it"),
    ],
)
def test_a_container_that_does_not_hold_together_is_refused(tmp_path: Path, content: bytes, found: str) -> None:
    assert refusal(tmp_path, content).found == found


def test_bytes_between_the_parts_are_no_trouble(tmp_path: Path) -> None:
    """Programs that write in one pass put a part's sizes there."""
    assert looked_at(tmp_path, widened(bytes(16))).notes == ()


def test_a_pipe_is_refused_without_waiting_for_it(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.xlsx")
    with pytest.raises(UnsafeFile) as caught:
        inspect(tmp_path / "pipe.xlsx")
    assert caught.value.code == "unreadable"


def test_an_encrypted_part_is_refused(tmp_path: Path) -> None:
    content = bytearray(zipped(PLAIN))
    content[directory_of(content) + 8] |= 1
    assert refusal(tmp_path, bytes(content)).code == "old-or-encrypted"


def test_a_wrong_checksum_is_refused(tmp_path: Path) -> None:
    content = zipped(PLAIN, zipfile.ZIP_STORED).replace(b"<v>1</v>", b"<v>2</v>")
    assert refusal(tmp_path, content).found.endswith("with a wrong checksum")


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
