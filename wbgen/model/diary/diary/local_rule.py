"""What the rule of the place speaks against in a line of the diary."""

from __future__ import annotations

from wbgen.model.tools.elementwise import only, ratio, where, yes
from wbgen.model.tools.relations import pick, sum_by
from wbgen.model.tools.rounding import exceeds
from wbgen.model.types import Area, Each, NitrogenMass, NitrogenPerArea, Number, PhosphateMass, Table, Text


def flag_place(
    visit_first: Each[Number],
    lawn_day_key: Each[Number],
    area_counted: Each[Area],
    load_nitrogen: Each[NitrogenMass],
    soluble_nitrogen: Each[NitrogenPerArea],
    load_phosphate: Each[PhosphateMass],
    month: Each[Number],
    place: Table,
    months: Table,
) -> Each[Text]:
    """What is to be said of the place, all that holds: of nitrogen once a visit, of phosphorus on its own line.

    The nitrogen of a visit is that of all its lines, by the area that its first line counts; its soluble nitrogen, the
    sum of what each line brought to what it treated.
    """
    visit = ratio(sum_by(lawn_day_key, lawn_day_key, load_nitrogen), area_counted)
    much = (visit_first == 1) & exceeds(visit, only(place.most_nitrogen))
    soluble = sum_by(lawn_day_key, lawn_day_key, soluble_nitrogen)
    quick = (visit_first == 1) & (area_counted > 0) & exceeds(soluble, only(place.most_soluble))
    banned = yes(only(place.no_phosphorus)) & exceeds(load_phosphate, 0.0)
    return (
        where(much, "; more nitrogen than the place allows", "")
        + where(quick, "; more soluble nitrogen than the place allows", "")
        + where(banned, "; phosphorus is not allowed here", "")
        + where(yes(pick(months.closed, month - 1)), "; a month closed to feeding", "")
    )
