"""The zip container, read with distrust: nothing in a header is believed before the bytes have borne it out.

Layout: PKWARE, APPNOTE.TXT, .ZIP File Format Specification: the end record (4.3.16), the central directory
(4.3.12), the local headers (4.3.7). A workbook needs no zip comment, no ZIP64, no second disk, no encryption
and no method but *stored* and *deflated*; what needs them is refused, so that every later reader of the file
finds the same parts as this one.
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from struct import Struct
from typing import BinaryIO, Final

from wbgen.files.xlsx.refusal import DISTRUST, MIB, SAVE_ANEW, Limits, UnsafeFile, damaged, too_large

_END: Final = Struct("<4s4H2LH")
_END64_LOCATOR_SIZE: Final = 20
_CENTRAL: Final = Struct("<4s6H3L5H2L")
_LOCAL: Final = Struct("<4s5H3L2H")
_COMPOUND_FILE: Final = bytes.fromhex("d0cf11e0a1b11ae1")
_ENCRYPTED, _UTF8 = 0x1, 0x800
_STORED, _DEFLATED = 0, 8
_BLOCK: Final = 65536
_BAD_NAME: Final = re.compile(r"^$|^/|\\|:|[\x00-\x1f\x7f]|(^|/)\.{1,2}(/|$)|//")


@dataclass(frozen=True, slots=True)
class Entry:
    """One part as the directory describes it: its packed bytes lie at `start` to `start + packed`."""

    name: str
    header: int
    start: int
    packed: int
    size: int
    method: int
    checksum: int


def entries(file: BinaryIO, limits: Limits) -> tuple[Entry, ...]:
    """Return the parts of a zip file in the order of its directory, nothing unpacked.

    Raises `UnsafeFile` where the file is no plain zip, is over a limit, or its names or places are not sound.
    """
    count, directory_size, directory_start = _end_record(file, limits)
    file.seek(directory_start)
    found = tuple(_located(file, *central) for central in _central(file.read(directory_size)))
    if len(found) != count:
        raise damaged(f"a directory of {len(found)} parts that says it has {count}")
    _refuse_names([entry.name for entry in found])
    _refuse_overlaps(found, directory_start)
    return found


def unpacked(file: BinaryIO, entry: Entry, limits: Limits, room: int) -> Iterator[bytes]:
    """Yield a part's bytes in blocks of at most 64 KiB, stopping at the first that is over a limit.

    `room` is what the parts before have left of the total, in bytes. Raises `UnsafeFile`, at the latest
    after the last block, where the bytes are not those that the directory promised.
    """
    made, checksum = 0, 0
    for block in _inflated(file, entry) if entry.method == _DEFLATED else _stored(file, entry):
        made += len(block)
        checksum = zlib.crc32(block, checksum)
        if made > min(limits.part, room):
            raise too_large(
                f"{entry.name} of more than {made // MIB} MiB",
                f"parts of at most {limits.part // MIB} MiB, together {limits.total // MIB} MiB",
            )
        if made > limits.ratio_from and made > limits.ratio * entry.packed:
            raise too_large(
                f"{entry.name}, packed more than {limits.ratio} times smaller", "a workbook, packed some 30 times"
            )
        yield block
    if made != entry.size:
        raise damaged(f"{entry.name} of {made} bytes where the directory says {entry.size}")
    if checksum != entry.checksum:
        raise damaged(f"{entry.name} with a wrong checksum")


def _end_record(file: BinaryIO, limits: Limits) -> tuple[int, int, int]:
    """The number of parts, and the directory's size and place, in bytes."""
    start = file.read(8)
    length = file.seek(0, 2)
    if start == _COMPOUND_FILE:
        raise UnsafeFile(
            "old-or-encrypted",
            "an .xlsx workbook without a password",
            "a compound file: an .xls of before 2007, or a workbook with a password to open it",
            "take the password off, or save it as .xlsx",
        )
    if start[:4] != b"PK\3\4":
        raise UnsafeFile("not-a-zip", "an .xlsx workbook (a zip file)", "other content", SAVE_ANEW)
    if length > limits.file:
        raise too_large(f"{length // MIB} MiB", f"a file of at most {limits.file // MIB} MiB")
    if length < _LOCAL.size + _END.size:
        raise damaged("a zip file cut short")
    file.seek(max(0, length - _END.size - _END64_LOCATOR_SIZE))
    tail = file.read()
    mark, disk, first_disk, here, count, size, place, comment = _END.unpack(tail[-_END.size :])
    if mark != b"PK\5\6" or comment:
        raise damaged("a zip file cut short, or with something after its end")
    if tail.startswith(b"PK\6\7") or disk or first_disk or here != count or place + size != length - _END.size:
        raise damaged("a zip directory that is not where the file says it is")
    if count > limits.parts or size > limits.directory:
        raise too_large(f"{count} parts", f"at most {limits.parts} parts")
    return count, size, place


def _central(directory: bytes) -> Iterator[tuple[bytes, int, int, int, int, int, int]]:
    """Each record of the directory: name, flags, method, checksum, packed, size, place of the local header."""
    at = 0
    while at < len(directory):
        if len(directory) - at < _CENTRAL.size:
            raise damaged("a zip directory cut short")
        mark, _, _, flags, method, _, _, checksum, packed, size, named, extra, comment, *_, header = (
            _CENTRAL.unpack_from(directory, at)
        )
        name = directory[at + _CENTRAL.size : at + _CENTRAL.size + named]
        at += _CENTRAL.size + named + extra + comment
        if mark != b"PK\1\2" or at > len(directory):
            raise damaged("a zip directory that does not hold together")
        yield name, flags, method, checksum, packed, size, header


def _located(
    file: BinaryIO, name: bytes, flags: int, method: int, checksum: int, packed: int, size: int, header: int
) -> Entry:
    """The part that a directory record describes, its local header found to say the same."""
    file.seek(header)
    head = file.read(_LOCAL.size)
    if len(head) < _LOCAL.size or not head.startswith(b"PK\3\4"):
        raise damaged("a zip directory that points at no part")
    _, _, local_flags, local_method, *_, named, extra = _LOCAL.unpack(head)
    if file.read(named) != name or local_method != method:
        raise UnsafeFile("two-faced", "one account of each part", "a zip directory and parts that disagree", DISTRUST)
    if (flags | local_flags) & _ENCRYPTED:
        raise UnsafeFile("old-or-encrypted", "a file without a password", "encrypted parts", "take the password off")
    if method not in (_STORED, _DEFLATED):
        raise damaged(f"a way of packing ({method}) that workbooks do not use")
    return Entry(_text(name, flags), header, header + _LOCAL.size + named + extra, packed, size, method, checksum)


def _text(name: bytes, flags: int) -> str:
    try:
        return name.decode("utf-8" if flags & _UTF8 else "ascii")
    except UnicodeDecodeError:
        raise UnsafeFile("bad-part-name", "names of parts in ASCII or UTF-8", repr(name), DISTRUST) from None


def _refuse_names(names: Sequence[str]) -> None:
    for name in names:
        if _BAD_NAME.search(name) or len(name) > 255:
            raise UnsafeFile("bad-part-name", "names of parts inside the file", repr(name[:80]), DISTRUST)
    seen: set[str] = set()
    for name in names:
        if (key := name.casefold()) in seen:
            raise UnsafeFile("two-faced", "each part once", f"{name!r} twice", DISTRUST)
        seen.add(key)


def _refuse_overlaps(found: Sequence[Entry], directory_start: int) -> None:
    """Parts that share bytes unpack to far more than the file holds, each of them within the limits."""
    ordered = sorted(found, key=lambda entry: entry.header)
    ends = [entry.start + entry.packed for entry in ordered]
    nexts = [entry.header for entry in ordered[1:]] + [directory_start]
    if any(end > following for end, following in zip(ends, nexts, strict=True)):
        raise UnsafeFile("two-faced", "parts one after another", "parts that overlap", DISTRUST)


def _stored(file: BinaryIO, entry: Entry) -> Iterator[bytes]:
    file.seek(entry.start)
    left = entry.packed
    while left and (block := file.read(min(_BLOCK, left))):
        left -= len(block)
        yield block


def _inflated(file: BinaryIO, entry: Entry) -> Iterator[bytes]:
    stream = zlib.decompressobj(-zlib.MAX_WBITS)
    file.seek(entry.start)
    left = entry.packed
    while not stream.eof:
        feed = stream.unconsumed_tail or file.read(min(_BLOCK, left))
        left -= 0 if stream.unconsumed_tail else len(feed)
        try:
            block = stream.decompress(feed, _BLOCK)
        except zlib.error as error:
            raise damaged(f"{entry.name}, which does not unpack ({error})") from None
        if not feed and not block:
            raise damaged(f"{entry.name}, cut short")
        yield block
    if stream.unused_data or left:
        raise damaged(f"{entry.name} with something after its end")
