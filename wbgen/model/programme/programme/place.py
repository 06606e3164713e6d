"""What the rule of the place speaks against in a line of the programme."""

from __future__ import annotations

from wbgen.model.programme.programme._dates import dates_that, dates_word
from wbgen.model.tools.elementwise import only, where, yes
from wbgen.model.tools.methods import soluble_share
from wbgen.model.tools.rounding import exceeds
from wbgen.model.tools.words import counts, listed
from wbgen.model.types import Each, NitrogenPerArea, Number, PhosphatePerArea, Table, Text


def soluble_nitrogen(
    by_area_nitrogen: Each[NitrogenPerArea], product_line: Each[Number], products: Table
) -> Each[NitrogenPerArea]:
    """The nitrogen (g N/m²) of one visit that is not of slow release; 0 where the product holds none."""
    return by_area_nitrogen * soluble_share(product_line, products)


def closed_dates(product: Each[Text], applications: Table) -> Each[Number]:
    """How many of the line's dates are in months that are closed to feeding."""
    return dates_that(applications, yes(applications.closed_month), len(product))


def over_place(
    by_area_nitrogen: Each[NitrogenPerArea],
    soluble_nitrogen: Each[NitrogenPerArea],
    by_area_phosphate: Each[PhosphatePerArea],
    closed_dates: Each[Number],
    place: Table,
) -> Each[Text]:
    """Where one visit brings more than the place allows, and how many of the line's dates are in closed months."""
    banned = yes(only(place.no_phosphorus)) & exceeds(by_area_phosphate, 0.0)
    return listed(
        where(exceeds(by_area_nitrogen, only(place.most_nitrogen)), "; over the place's nitrogen of one visit", "")
        + where(exceeds(soluble_nitrogen, only(place.most_soluble)), "; over the place's soluble nitrogen", "")
        + where(banned, "; phosphorus is not allowed", "")
        + where(closed_dates > 0, "; " + counts(closed_dates) + dates_word(closed_dates) + "in a closed month", "")
    )
