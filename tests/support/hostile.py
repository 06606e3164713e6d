"""Workbook files made part by part, for tests of what looks into them."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping
from pathlib import Path

import pytest

from wbgen.files.xlsx.package import Package, inspect
from wbgen.files.xlsx.refusal import Limits, UnsafeFile

TYPES = "[Content_Types].xml"
SHEET = "xl/worksheets/sheet1.xml"
MAIN = b' xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"'
PLAIN: Mapping[str, bytes] = {
    TYPES: b'<Types><Default Extension="xml" ContentType="application/xml"/></Types>',
    "xl/workbook.xml": b'<workbook><sheets><sheet name="Mix" sheetId="1"/></sheets></workbook>',
    SHEET: b"<worksheet" + MAIN + b'><sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData></worksheet>',
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
