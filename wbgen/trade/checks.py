"""What the sheet Checks looks for, and what to do about what it finds."""

from __future__ import annotations

from typing import Final

CHECKS: Final = {
    "totals": (
        "Totals that do not agree",
        "mend unknown names first; if none is left, run wbgen verify, a formula may have been changed",
    ),
    "lawn_names": ("Diary lines of an unknown lawn", "choose the lawn from the list"),
    "product_names": ("Diary lines of an unknown product", "choose the product from the list"),
    "incomplete_lines": ("Diary lines without date or lawn or product", "complete them: they are not counted"),
    "diary_texts": (
        "Diary lines with a text for a date or a number",
        "type it anew as a date or a number: until then it counts as not given",
    ),
    "diary_duplicates": ("Diary lines that stand twice", "delete the second line, or say in its note why it is there"),
    "diary_full": (
        "Diary nearly full",
        "insert rows above its last line and fill the formulas down, or build with more",
    ),
    "lawn_states": ("Lawns to mend", "see the column To mend of the sheet Lawns"),
    "part_states": ("Parts of lawns to mend", "see the column To mend of the sheet Areas"),
    "parts_lost": ("Parts of an unknown lawn", "choose the lawn of each part from the list"),
    "point_states": ("Points out of order", "see the column To mend of the points"),
    "points_lost": ("Points of an unknown part", "give each point the lawn and the part as they stand above"),
    "product_states": ("Products to mend", "see the column To mend of the sheet Products"),
    "sprayer_states": ("Sprayers to mend", "see the column To mend of the sheet Sprayers"),
    "line_states": ("Lines of the programme to mend", "see the column To mend of the sheet Programme"),
    "shelf_states": ("Counts and purchases to mend", "see the column To mend of the sheet Stock"),
    "dates_beyond": (
        "Dates of the programme without room",
        "they are on no other sheet: build the planner anew with the whole programme",
    ),
    "pairs_beyond": (
        "Lawns of the programme without room",
        "they are not on the sheet Due: build the planner anew with the whole programme",
    ),
    "score_states": ("Scores to mend", "see the column To mend of the sheet Scores"),
    "soil_states": ("Soil tests to mend", "see the column To mend of the sheet Soil tests"),
    "brew_states": ("Recipes and ingredients to mend", "see the columns To mend of the sheet Brewing"),
    "mixes_beyond": (
        "Mixes that the sheet Response has no room for",
        "they are in its other tables: build the planner anew to see them all",
    ),
    "answers_beyond": (
        "Lines with an answer that the sheet Response has no room for",
        "the oldest are left out of its means: build the planner anew to count them all",
    ),
    "lawns_unseen": ("Lawns that the totals do not see", "build the planner anew with all lawns"),
    "products_unseen": ("Products that the totals do not see", "build the planner anew with all products"),
}
"""By key: what each check finds, and what to do about it."""
