"""Where the files that come with wbgen are: templates and catalogue beside `wbgen/` in a checkout, in it in a wheel."""

from __future__ import annotations

from pathlib import Path

_HERE = Path(__file__).resolve().parent.parent


def templates() -> Path:
    """Return the folder of the sheets' templates.

    Raises `FileNotFoundError` where the installation has lost it.

    >>> templates().name
    'templates'
    """
    return _shipped("templates")


def starter() -> Path:
    """Return the lawns.yaml that a new planner begins with.

    Raises `FileNotFoundError` where the installation has lost it.

    >>> starter().name
    'lawns.yaml'
    """
    return _shipped("starter") / "lawns.yaml"


def product_catalogue() -> Path:
    """Return the folder of the product catalogue that comes with wbgen.

    Raises `FileNotFoundError` where the installation has lost it.

    >>> product_catalogue().name
    'product_catalogue'
    """
    return _shipped("product_catalogue")


def _shipped(name: str, package: Path = _HERE) -> Path:
    for folder in (package / name, package.parent / name):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"wbgen came without its folder {name}/: install it again")
