"""The folder that a newcomer begins with."""

from __future__ import annotations

from pathlib import Path

from wbgen.files import shipped
from wbgen.files.diagnostics import Finding, InputError, Place


def new(folder: Path) -> Path:
    """Write the starter files into a new folder and return the path of its lawns.yaml.

    Raises InputError where the folder holds a lawns.yaml already, OSError where it cannot be written.
    """
    target = folder / "lawns.yaml"
    if target.exists():
        finding = Finding(
            "there-already", Place(str(target)), "", "", "give another folder", "this file stands there already"
        )
        raise InputError([finding])
    folder.mkdir(parents=True, exist_ok=True)
    target.write_bytes((shipped.templates() / "starter" / "lawns.yaml").read_bytes())
    return target
