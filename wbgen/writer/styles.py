"""The look of a planner: one font, few fills, and no meaning by colour alone.

Desk and paper: what is only read stands on tinted ground, what is typed in white boxes with a frame, and a page that is
printed for others is white without frames. A fill says that something is asked for; its word stands there too.
Contrast of ink on each ground is at least 4.5, of a frame 3 (WCAG 2.1, level AA).
"""

from __future__ import annotations

from typing import Any, Final

FONT: Final = "Arial"
SIZE, SMALL_SIZE, SECTION_SIZE, TITLE_SIZE, KEY_SIZE, VERDICT_SIZE = 10, 9, 11, 16, 18, 26
"""In points: body; column heads, units and hints; a table's title; a sheet's; key figures; the verdict."""
DESK, PAPER = "#F2F3EE", "#FFFFFF"
INK, HINT, LINK = "#1E2723", "#56605A", "#1F5673"
FRAME, INNER_FRAME = "#7C8780", "#8C968F"
"""Round a box by itself, and between the boxes of a table."""
ROW_LINE, RULE = "#D3D8CF", "#3E5C50"
GO_FILL, ASK_FILL, STOP_FILL, UNCHECKED_FILL = "#D3E7D6", "#FBE2A2", "#F3C9C0", "#E4E6E0"
FILLS: Final = (GO_FILL, ASK_FILL, STOP_FILL, UNCHECKED_FILL)

TABS: Final = {
    "today": "#2E6B4F", "plan": "#2F5F8A", "reports": "#6F4A85", "set_up": "#94681C", "behind": "#6E7471",
}  # fmt: skip
"""The colours of the tabs, by the part of the workbook."""

BAR_FILL, BEYOND_FILL = "#69967A", "#B5761A"
"""Of a bar up to a caution and of one beyond it: at least 3 to the desk."""

LINES = ("#2F6B2F", "#8A4B08", "#1F4E79", "#5B2C6F")
DASHES = ("solid", "dash", "round_dot", "long_dash_dot")
"""Of a chart: the dash tells the lines apart where colour does not."""
BARS = ("#FFFFFF", "#2F6B2F")
"""Of a chart: an empty bar is told from a full one where colour does not."""
MARKS = ("diamond", "circle")
"""Of a chart: the shape tells the marks apart."""

Properties = dict[str, Any]

_HINT: Final[Properties] = {"font_size": SMALL_SIZE, "font_color": HINT}
ROLES: dict[str, Properties] = {
    "ground": {},
    "input": {"border": 1, "border_color": FRAME, "bg_color": PAPER, "locked": False},
    "formula": {},
    "constant": {},
    "shaded": {"bg_color": DESK},
    "title": {"bold": True, "font_size": TITLE_SIZE},
    "purpose": _HINT,
    "table": {"bold": True, "font_size": SECTION_SIZE, "bottom": 1, "bottom_color": RULE},
    "note": _HINT,
    "group": {"bold": True, "bottom": 1, "bottom_color": ROW_LINE},
    "unit": _HINT | {"align": "right", "valign": "bottom", "text_wrap": True},
    "unit_beside": _HINT,
    "heading": {
        "bold": True, "font_size": SMALL_SIZE, "text_wrap": True, "bottom": 1, "bottom_color": FRAME,
        "valign": "bottom",
    },
    "stub": _HINT | {"bottom": 1, "bottom_color": FRAME, "valign": "bottom", "indent": 1},
    "line": {"text_wrap": True},
    "closing": _HINT | {"font_size": 8},
}  # fmt: skip

IN_TABLE: dict[str, Properties] = {
    "input": {"border_color": INNER_FRAME},
    "formula": {"bottom": 1, "bottom_color": ROW_LINE},
    "constant": {"bottom": 1, "bottom_color": ROW_LINE},
}
"""What a role has besides in the rows of a table."""

VARIANTS: dict[str, Properties] = {
    "strong": {"bold": True},
    "key": {"bold": True, "font_size": KEY_SIZE},
    "fading": {"font_color": HINT, "font_size": 8},
    "verdict": {"bold": True, "font_size": VERDICT_SIZE},
    "link": {"underline": 1, "font_color": LINK},
    "sample": {},
    "shrink": {"shrink": True},
    "top": {"valign": "top"},
    "bar": {},
    "beyond": {},
    "upright": {"rotation": 90, "align": "center"},
}


def look(
    role: str, *, size: int = SIZE, ground: str = PAPER, variant: str | None = None, in_table: bool = False
) -> Properties:
    """The properties of a cell's format, as xlsxwriter takes them.

    `size` is that of the sheet's print: heads and hints grow with it, and no title is smaller.
    """
    own = ROLES[role] | (IN_TABLE.get(role, {}) if in_table else {})
    if "font_size" in own:
        large = own["font_size"] > SIZE
        own["font_size"] = max(size, own["font_size"]) if large else own["font_size"] + size - SIZE
    base = {"font_name": FONT, "font_size": size, "font_color": INK, "valign": "vcenter"}
    if ground != PAPER:
        base["bg_color"] = ground
    return base | own | VARIANTS.get(variant or "", {})
