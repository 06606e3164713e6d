"""Sprayers: what each puts out, and what that makes of a tank.

One record a sprayer: shape (sprayers,). Carrier volume is output of one pass times passes. A known area (area sprayed
as usual, and the refill) comes before the catch test.
"""

from __future__ import annotations

import numpy as np

from wbgen.model.tools.elementwise import as_number, blank, is_word, ratio, where
from wbgen.model.tools.jar import dilution_of
from wbgen.model.tools.relations import count_by, lookup, sum_by
from wbgen.model.tools.rounding import exceeds
from wbgen.model.tools.words import listed
from wbgen.model.types import (
    Area,
    Each,
    Flow,
    Length,
    Number,
    Pressure,
    Speed,
    Table,
    Text,
    Time,
    Volume,
    VolumePerArea,
)

BLANK_UNLESS = ("name",)


def course_distance(swath: Each[Length], settings: Table) -> Each[Length]:
    """How far to walk for the area of a test course: area (m²) ÷ swath (m). Utah State University, 2014-03.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> course = SimpleNamespace(course_area=FLOAT("0.0078125 acre"))
    >>> round(float(course_distance(FLOAT("20 inch"), course).to("ft").magnitude))
    204
    """
    return ratio(settings.course_area, swath)


def walks_timed(name: Each[Text], walks: Table) -> Each[Number]:
    """How many walks with the sprayer have a time."""
    return count_by(walks.sprayer, name, walks.time > 0)


def time_counted(name: Each[Text], walks_timed: Each[Number], walk_time: Each[Time], walks: Table) -> Each[Time]:
    """Mean time of the timed walks, else the one time that is given. Pesticide Environmental Stewardship, Spray Gun."""
    mean = ratio(sum_by(walks.sprayer, name, walks.time, walks.time > 0), walks_timed)
    return where(walks_timed > 0, mean, walk_time)


def ground_speed(walk_distance: Each[Length], time_counted: Each[Time]) -> Each[Speed]:
    """Speed of the timed walk: distance (m) ÷ time (s). Irish Independent Farming, Useful formulae.

    >>> from wbgen.units.quantity import FLOAT
    >>> round(float(ground_speed(FLOAT("50 m"), FLOAT("60 s")).to("km/h").magnitude), 9)
    3.0
    """
    return ratio(walk_distance, time_counted)


def nozzles_caught(name: Each[Text], catches: Table) -> Each[Number]:
    """How many nozzles of the sprayer have an output in the catch test."""
    return count_by(catches.sprayer, name, ~blank(catches.nozzle_output))


def total_output(name: Each[Text], nozzles_caught: Each[Number], catches: Table) -> Each[Flow]:
    """Output of all nozzles that were caught; blank where none was."""
    return where(nozzles_caught > 0, sum_by(catches.sprayer, name, catches.nozzle_output), np.nan)


def known_area_output(tested_area: Each[Area], tested_water: Each[Volume]) -> Each[VolumePerArea]:
    """Carrier volume of one pass: water used (L) ÷ area sprayed (m²), 10 000 × L ÷ m² in L/ha.

    The known-area method: Pesticide Environmental Stewardship, Spray Gun.

    >>> from wbgen.units.quantity import FLOAT
    >>> round(float(known_area_output(FLOAT("100 m**2"), FLOAT("2 L")).to("L/ha").magnitude), 9)
    200.0
    """
    return ratio(tested_water, tested_area)


def boom_output(total_output: Each[Flow], ground_speed: Each[Speed], swath: Each[Length]) -> Each[VolumePerArea]:
    """Carrier volume of one pass: output (L/min) ÷ (speed (km/h) × swath (m)), times 600 for L/ha.

    Defra, Pesticides Best Practice Guide, Nozzle selection and maintenance; the example is Irish Independent Farming's.

    >>> from wbgen.units.quantity import FLOAT
    >>> round(float(boom_output(FLOAT("1.3 L/min"), FLOAT("7.8 km/h"), FLOAT("0.5 m")).to("L/ha").magnitude), 9)
    200.0
    """
    return ratio(total_output, ground_speed * swath)


def pass_output(known_area_output: Each[VolumePerArea], boom_output: Each[VolumePerArea]) -> Each[VolumePerArea]:
    """Carrier volume of one pass: by the known area, else by the catch test."""
    return where(blank(known_area_output), boom_output, known_area_output)


def carrier_volume(pass_output: Each[VolumePerArea], passes: Each[Number]) -> Each[VolumePerArea]:
    """Carrier volume delivered: that of one pass (L/ha) × the number of passes. Common practice, no source.

    >>> from wbgen.units.quantity import FLOAT
    >>> float(carrier_volume(FLOAT("200 L/ha"), 2.0).magnitude)
    400.0
    """
    return pass_output * passes


def calibration(
    known_area_output: Each[VolumePerArea],
    boom_output: Each[VolumePerArea],
    kind: Each[Text],
    jar_dilution: Each[Number],
) -> Each[Text]:
    """How the sprayer was calibrated, in words; of a hose-end sprayer first whether its jar's dilution is given."""
    caught = where(blank(boom_output), "never calibrated", "boom, catch test")
    measured = where(blank(known_area_output), caught, "known area")
    unthinned = is_word(kind, "hose-end") & ~(jar_dilution > 0)
    return where(unthinned, "no jar dilution", measured)


def sprayer_state(
    name: Each[Text], kind: Each[Text], brim: Each[Volume], working: Each[Volume], jar_dilution: Each[Number]
) -> Each[Text]:
    """What is to be mended of the sprayer, in words; empty for nothing."""
    twice = where(count_by(name, name) > 1, "; this name stands twice", "")
    unthinned = is_word(kind, "hose-end") & ~(jar_dilution > 0)
    jar = where(unthinned, "; give the jar dilution", "")
    above = where(exceeds(working, brim), "; working capacity above the brim", "")
    return listed(twice + jar + above)


def spray_capacity(working: Each[Volume], kind: Each[Text], jar_dilution: Each[Number]) -> Each[Volume]:
    """Spray from a full tank; a hose-end sprayer's jar makes as much more as it is thinned, nobody knows how much
    where that is not given."""
    thinned = working * dilution_of(kind, jar_dilution)
    return where(is_word(kind, "hose-end") & ~(jar_dilution > 0), np.nan, thinned)


def tank_area(spray_capacity: Each[Volume], carrier_volume: Each[VolumePerArea]) -> Each[Area]:
    """Area that a full tank treats: spray (L) ÷ carrier volume (L/ha). Mesa County, How to calibrate a handgun.

    >>> from wbgen.units.quantity import FLOAT
    >>> round(float(tank_area(FLOAT("25 us_gallon"), FLOAT("150 us_gallon/acre")).to("acre").magnitude), 5)
    0.16667
    """
    return ratio(spray_capacity, carrier_volume)


def tank_time(spray_capacity: Each[Volume], total_output: Each[Flow]) -> Each[Time]:
    """Time in which the nozzles empty a full tank; what leaves a hose-end sprayer is spray, hose water too."""
    return ratio(spray_capacity, total_output)


def needed_speed(
    wanted_carrier: Each[VolumePerArea], total_output: Each[Flow], swath: Each[Length], passes: Each[Number]
) -> Each[Speed]:
    """Ground speed at which the passes together give the carrier volume wanted.

    Output (L/min) × passes ÷ (carrier volume (L/ha) × swath (m)), the formula of `boom_output` solved for the speed.

    >>> from wbgen.units.quantity import FLOAT
    >>> speed = needed_speed(FLOAT("200 L/ha"), FLOAT("1.3 L/min"), FLOAT("0.5 m"), 1.0)
    >>> round(float(speed.to("km/h").magnitude), 9)
    7.8
    """
    return ratio(total_output * passes, wanted_carrier * swath)


def needed_passes(wanted_carrier: Each[VolumePerArea], pass_output: Each[VolumePerArea]) -> Each[Number]:
    """Passes that give the carrier volume wanted, not rounded."""
    return as_number(ratio(wanted_carrier, pass_output))


def needed_output(
    wanted_carrier: Each[VolumePerArea],
    ground_speed: Each[Speed],
    swath: Each[Length],
    passes: Each[Number],
    nozzles_caught: Each[Number],
    total_output: Each[Flow],
) -> Each[Flow]:
    """Output of each nozzle at which the passes together give the carrier volume wanted; blank without a catch test."""
    each = ratio(ratio(wanted_carrier * ground_speed * swath, passes), nozzles_caught)
    return where(blank(total_output), np.nan, each)


def rated_output(nozzle_size: Each[Text], pressure: Each[Pressure], nozzles: Table, nozzle_test: Table) -> Each[Flow]:
    """Output of one nozzle of this size at the sprayer's pressure; blank for an unknown size.

    Rated output (L/min) × √(pressure (bar) ÷ rated pressure (bar)): Oklahoma State University Extension, Calibrating a
    low-pressure ground sprayer.

    >>> from types import SimpleNamespace
    >>> from wbgen.units.quantity import FLOAT
    >>> size, rated = np.array(["02"], dtype=object), FLOAT.Quantity(np.array([0.8]), "L/min")
    >>> sizes = SimpleNamespace(size=size, rated_output=rated)
    >>> test = SimpleNamespace(rated_pressure=FLOAT("3 bar"))
    >>> rated_output(size, FLOAT.Quantity(np.array([12.0]), "bar"), sizes, test).magnitude
    array([1.6])
    """
    rated = lookup(nozzle_size, nozzles.size, nozzles.rated_output)
    return rated * as_number(ratio(pressure, nozzle_test.rated_pressure)) ** 0.5


def mean_nozzle(total_output: Each[Flow], nozzles_caught: Each[Number]) -> Each[Flow]:
    """Mean output of the nozzles that were caught."""
    return ratio(total_output, nozzles_caught)


def nozzle_wear(mean_nozzle: Each[Flow], rated_output: Each[Flow]) -> Each[Number]:
    """Mean output ÷ that of a new nozzle of the size at the sprayer's pressure − 1, a share. USGA, The 10-percent rule.

    >>> from wbgen.units.quantity import FLOAT
    >>> nozzle_wear(FLOAT.Quantity(np.array([0.75]), "L/min"), FLOAT.Quantity(np.array([0.6]), "L/min")).round(9)
    array([0.25])
    """
    return as_number(ratio(mean_nozzle, rated_output)) - 1


def nozzle_words(nozzle_size: Each[Text], kind: Each[Text], nozzle_wear: Each[Number], settings: Table) -> Each[Text]:
    """Whether the nozzles put out what their size should, in words; empty for a sprayer without a size."""
    tolerance = as_number(settings.nozzle_wear)
    off = where(exceeds(-nozzle_wear, tolerance), "too little: clean", "as their size")
    found = where(exceeds(nozzle_wear, tolerance), "worn: replace", off)
    checked = where(blank(nozzle_wear) | blank(tolerance), "not checked", found)
    return where(blank(nozzle_size) | is_word(kind, "hose-end"), "", checked)
