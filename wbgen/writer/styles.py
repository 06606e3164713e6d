"""The look of a planner: few fonts, few fills, and no meaning by colour alone."""

from __future__ import annotations

from typing import Any

FONT, SIZE, VERDICT_SIZE, TITLE_SIZE = "Arial", 10, 20, 16
INK, QUIET, RULE = "#1A1A1A", "#595959", "#8C8C8C"
SHADE, BAND = "#F1F3EE", "#DDE3D5"
STOP_FILL, ASK_FILL, GO_FILL = "#F6D9D5", "#FBEFC9", "#DDEBD3"

LINES = ("#2F6B2F", "#8A4B08", "#1F4E79", "#5B2C6F")
DASHES = ("solid", "dash", "round_dot", "long_dash_dot")
"""Of a chart: the dash tells the lines apart where colour does not."""
MARKS = ("diamond", "circle")
"""Of a chart: the shape tells the marks apart."""

Properties = dict[str, Any]


def base(size: int) -> Properties:
    return {"font_name": FONT, "font_size": size, "font_color": INK, "valign": "vcenter"}


ROLES: dict[str, Properties] = {
    "input": {"border": 1, "border_color": RULE, "bg_color": "#FFFFFF", "locked": False},
    "formula": {"bg_color": SHADE},
    "plain_formula": {},
    "constant": {},
    "title": {"bold": True, "font_size": TITLE_SIZE},
    "purpose": {"italic": True, "font_color": QUIET},
    "table": {"bold": True, "font_size": 12, "bottom": 2, "bottom_color": INK},
    "note": {"font_color": QUIET, "italic": True},
    "group": {"bold": True, "bg_color": BAND},
    "unit": {"font_color": QUIET, "italic": True, "align": "right", "valign": "bottom", "text_wrap": True},
    "unit_beside": {"font_color": QUIET, "italic": True},
    "heading": {"bold": True, "text_wrap": True, "bottom": 1, "bottom_color": INK, "valign": "bottom"},
    "line": {"text_wrap": True},
    "closing": {"top": 1, "top_color": RULE, "font_color": QUIET, "italic": True, "font_size": 8},
}

VARIANTS: dict[str, Properties] = {
    "strong": {"bold": True},
    "fading": {"font_color": QUIET, "font_size": 8},
    "verdict": {"bold": True, "font_size": VERDICT_SIZE},
    "link": {"underline": 1, "font_color": "#1F4E9C"},
    "sample": {},
    "shrink": {"shrink": True},
    "top": {"valign": "top"},
    "upright": {"rotation": 90, "align": "center"},
}
