"""The files of a folder of templates, as records."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml
from pydantic import ValidationError

from wbgen.files.yaml.tree import PARSER
from wbgen.sheets.template import Sheet

ORDER = Path("order.yaml")


class TemplateError(ValueError):
    """What is wrong with the templates, one line each: file, table, key, what was found."""

    def __init__(self, problems: list[str]) -> None:
        super().__init__("\n".join(problems))
        self.problems = problems


def read_sheets(folder: Path) -> tuple[Sheet, ...]:
    """The sheets of the templates in `folder` as they are written, in the order of order.yaml.

    Raises TemplateError with everything that is not as a template should be.
    """
    problems: list[str] = []
    sheets: list[Sheet] = []
    for name in _plain(folder / ORDER)["sheets"]:
        path = folder / f"{name}.yaml"
        try:
            sheets.append(Sheet.model_validate(_plain(path)))
        except ValidationError as error:
            problems += [f"{path.name}: {'.'.join(map(str, e['loc']))}: {e['msg']}" for e in error.errors()]
        except (KeyError, yaml.YAMLError) as error:
            problems.append(f"{path.name}: {error}")
    if problems:
        raise TemplateError(problems)
    return tuple(sheets)


def _plain(path: Path) -> Any:
    return yaml.load(path.read_text("utf-8"), PARSER)  # noqa: S506 - a safe one
