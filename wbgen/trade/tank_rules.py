"""What holds of a mix whatever the planner: traits, what must not share a tank, and what is held against limits.

Each fact has its source, or says that it has none.
"""

from __future__ import annotations

from dataclasses import dataclass

TRAITS = {
    "calcium": "calcium",
    "sulphate": "sulphate",
    "phosphate": "phosphate",
    "ferrous": "ferrous",
    "magnesium": "magnesium",
    "potassium": "potassium",
    "ammonium": "ammonium",
    "alkaline_humate": "alkaline humate",
    "live_brew": "live brew",
    "strong_salt": "strong salt",
    "wetting_agent": "wetting agent",
    "acid": "acid",
    "citrate": "citrate",
    "chelated_iron": "chelated iron",
    "feed_or_extract": "feed or extract",
    "manganese": "manganese",
    "alkaline": "alkaline",
    "strongly_alkaline": "strongly alkaline",
    "thiosulphate": "thiosulphate",
    "neutral": "neutral",
}
"""The tank-mix properties, as a catalogue states them. Alkaline is near pH 8 to 10, as an extract made with potash;
strongly alkaline from about pH 11, as potassium carbonate, silicate or hydroxide (from memory). A strong salt, a
wetting agent, a feed or extract are in no rule: to state one says what a product is, and so that it is not live."""

OTHERS = {"not_live": "anything else"}
"""Properties that nobody states: whatever is not known to be live is something else beside a live brew."""

FROM_ANALYSIS = {
    "phosphate": "phosphate",
    "potassium": "potash",
    "calcium": "calcium_oxide",
    "magnesium": "magnesium_oxide",
    "sulphate": "sulphur_trioxide",
    "ferrous": "iron",
    "manganese": "manganese",
}
"""The nutrient whose presence in an analysis gives a property, told or not. What dissolves in water is there as its
ion, so the ion's partners meet it (general chemistry, from memory). The sulphur of a thiosulphate is no sulphate. Iron
counts as ferrous, the kind that falls out, unless the product is stated to be chelated iron. Ammonium follows from that
form of nitrogen, a live brew from being a brew."""

HOLDS_METALS = ("phosphate", "alkaline", "alkaline_humate", "strongly_alkaline")
"""What would throw down iron and manganese. A product that is sold with it and with them keeps them in solution: its
iron counts as chelated unless it is stated to be ferrous, and its manganese does not count unless it is stated (general
chemistry, from memory)."""

SIDES = ("acid", "neutral", "alkaline", "alkaline_humate", "strongly_alkaline")
"""Properties of which one at least must be stated for it to be known on which side of neutral a product is. No
analysis tells it. Neutral is nearly so: pH 5 to 8 in its spray (common practice, no source)."""


@dataclass(frozen=True)
class TraitRule:
    """Two traits that must not share a tank (level 2), or only after a jar test (level 1)."""

    first: str
    second: str
    level: int
    reason: str
    basis: str


TRAIT_RULES = (
    TraitRule("calcium", "sulphate", 2, "gypsum falls out",
              "University of California ANR, micro-irrigation maintenance pages (read)"),
    TraitRule("calcium", "phosphate", 2, "calcium phosphate falls out",
              "fertigation compatibility notes (read in a secondary page); agrees with the solubilities"),
    TraitRule("calcium", "citrate", 1, "calcium citrate may fall out",
              "Some 0.9 g/L dissolve, pK 17.6 in little salt: Solubility of tricalcium citrate, abstract at scilit.net "
              "(read); it comes slowly: from memory"),
    TraitRule("ferrous", "phosphate", 2, "iron phosphate falls out",
              "fertigation compatibility notes (read in a secondary page)"),
    TraitRule("ferrous", "alkaline_humate", 2, "iron drops out in an alkaline mix", "general chemistry, from memory"),
    TraitRule("manganese", "phosphate", 2, "manganese phosphate falls out", "general chemistry, from memory"),
    TraitRule("calcium", "alkaline", 1, "lime may fall out in an alkaline mix", "general chemistry, from memory"),
    TraitRule("ferrous", "alkaline", 1, "iron may drop out in an alkaline mix", "general chemistry, from memory"),
    TraitRule("ammonium", "alkaline_humate", 1, "a humate may fall out among ammonium salts",
              "common practice, from memory"),
    TraitRule("magnesium", "phosphate", 1, "magnesium phosphate may fall out",
              "fertigation compatibility notes (read in a secondary page)"),
    TraitRule("calcium", "alkaline_humate", 1, "calcium humate may fall out", "common practice, no source"),
    TraitRule("magnesium", "alkaline_humate", 1, "magnesium humate may fall out", "common practice, no source"),
    TraitRule("acid", "alkaline_humate", 1, "acid may curdle a humate", "common practice, no source"),
    TraitRule("acid", "alkaline", 1, "an extract may gel or curdle",
              "alginic acid gels below about pH 4: general chemistry, from memory"),
    TraitRule("manganese", "alkaline", 1, "manganese may drop out in an alkaline mix",
              "the hydroxide falls out and browns above about pH 9: general chemistry, from memory"),
    TraitRule("strongly_alkaline", "ammonium", 2, "ammonia gas comes off",
              "half of it is ammonia at pH 9.25: general chemistry, from memory"),
    TraitRule("strongly_alkaline", "acid", 2, "it foams or gels in a closed tank",
              "carbonic acid and silica gel: general chemistry, from memory"),
    TraitRule("strongly_alkaline", "ferrous", 2, "iron hydroxide falls out", "general chemistry, from memory"),
    TraitRule("strongly_alkaline", "chelated_iron", 1, "a chelate may let go of its iron",
              "EDTA holds iron to about pH 7, DTPA to 7.5: a training page for growers (read); EDDHA to 9 and above: "
              "from memory"),
    TraitRule("strongly_alkaline", "manganese", 2, "manganese hydroxide falls out", "general chemistry, from memory"),
    TraitRule("strongly_alkaline", "calcium", 2, "lime or calcium silicate falls out",
              "general chemistry, from memory"),
    TraitRule("strongly_alkaline", "magnesium", 2, "magnesium hydroxide or silicate falls out",
              "at pH 11 water keeps some 0.1 mg Mg/L (solubility product 5.6e-12): general chemistry, from memory"),
    TraitRule("thiosulphate", "acid", 2, "sulphur dioxide gas comes off",
              "New South Wales Department of Education, chemicals, thiosulfates (read)"),
    TraitRule("thiosulphate", "ferrous", 1, "an iron salt is mostly acid: sulphur dioxide gas may come off",
              "as with acid; that iron salts are acid: from memory"),
    TraitRule("live_brew", "not_live", 2, "a live brew goes on alone", "common practice, no source"),
)  # fmt: skip


@dataclass(frozen=True)
class Risk:
    """A figure of a mix that is held against two limits: ask first, and do not mix.

    `sign` is ">" where the second limit itself is still allowed, ">=" where it is not. Limits are quantities
    as text; "" is no limit.
    """

    key: str
    name: str
    metric: str
    us: str
    ask: str
    stop: str
    sign: str
    words: str
    basis: str
    digits: int = 0
    """Decimals to which the verdict says the figure."""
    show: str = "plain"
    """"share" where the verdict says it in per cent."""


RISKS = (
    Risk("carrier", "Carrier volume: delivered against wanted", "", "", "5 %", "", ">",
         "the sprayer is off the water wanted, see its calibration",
         "Output within 5 % of the target: Pesticide Environmental Stewardship, calibration pages (read)",
         show="share"),
    Risk("products", "Products in one tank", "", "", "3", "", ">", "many products in one tank",
         "About three partners a tank: Sprayers101, loading a sprayer (read)"),
    Risk("salts", "Salts in the spray", "g/L", "oz/US gal", "50 g/L", "100 g/L", ">",
         "much salt in the spray", "common practice, no source", 1),
    Risk("solubility", "Share of solubility used", "", "", "50 %", "80 %", ">",
         "may not dissolve", "common practice, no source", show="share"),
    Risk("potassium_sulphate", "Potassium sulphate out of two products", "", "", "50 %", "80 %", ">",
         "potassium sulphate may fall out", "common practice, no source; what it is a share of stands above",
         show="share"),
    Risk("salt_load", "Salt load on the grass", "g/m²", "lb/1000 ft²", "5 g/m²", "10 g/m²", ">",
         "salt load may scorch", "common practice, no source; salt index after Rader et al. 1943 (from memory)",
         2),
    Risk("nitrogen", "Soluble nitrogen in this visit", "g N/m²", "lb N/1000 ft²", "0.25 lb N/1000 ft²",
         "0.5 lb N/1000 ft²", ">", "much soluble nitrogen in one visit",
         "0.25 lb N/1000 ft² is the upper rate of the urea sprays in USGA Green Section, 27 Feb 2015 (read); "
         "twice that: common practice, no source", 2),
    Risk("iron", "Iron in this visit", "g Fe/m²", "lb Fe/1000 ft²", "0.34 g Fe/m²", "0.98 g Fe/m²", ">=",
         "so much iron may blacken or thin the turf",
         "A few lb Fe an acre blackens: Hull 2000 (read); 1.96 g Fe/m² thinned greens of Poa annua: doi "
         "10.2134/cftm2019.05.0041 (read); half of it, with phosphorous acid, did no great harm: abstract at "
         "discovery.researcher.life/topic/microdochium-patch/10702093 (read)", 3),
    Risk("manganese", "Manganese in this visit", "g Mn/m²", "lb Mn/1000 ft²", "0.15 g Mn/m²", "", ">",
         "so much manganese may scorch",
         "5 kg/ha of a sulphate of 31 % Mn, 0.155 g Mn/m²: a formulator's page on powders of trace elements, "
         "micromix.com (read in a secondary page)", 3),
    Risk("wind", "Wind, forecast at 10 m", "km/h", "mph", "15 km/h", "20 km/h", ">=", "wind",
         "15 km/h: Ontario, how weather conditions affect spray applications (read); 20 km/h, Beaufort 4, measured "
         "at 10 m: Victoria Department of Health (read)", 1),
    Risk("near_wind", "Wind, at spray height", "km/h", "mph", "10 km/h", "14.5 km/h", ">=", "wind at spray height",
         "3.2 to 6.5 km/h is ideal: Defra, during spraying (read); to about 10 km/h with care: Health and Safety "
         "Executive (read in a secondary page); inadvisable to 14.5 km/h: from memory", 1),
    Risk("hardness", "Hardness of the water, with what it may throw down", "meq/L", "meq/L", "2.5 meq/L", "", ">",
         "hard water may throw down this feed, jar test",
         "2.5 meq/L: University of California ANR, micro-irrigation maintenance pages (read); iron, where the "
         "alkalinity is not known, since hard water is mostly alkaline: from memory", 1),
    Risk("iron_ph", "pH of the water, with iron", "", "", "7", "", ">",
         "iron may rust out of this water, acidify it",
         "Above pH 7 ferrous iron soon turns to rust: a supplier's page on the pH of ferrous sprays (read); above pH 6 "
         "it is the carbonate of iron that does: King, Environ. Sci. Technol. 32 (1998) 2997 (abstract read)", 1),
    Risk("alkalinity", "Alkalinity of the water, with iron or calcium", "mg CaCO₃/L", "ppm CaCO₃", "100 mg CaCO₃/L",
         "", ">", "iron or lime may fall out of such alkaline water, acidify it",
         "2 meq/L of bicarbonate, with calcium, at a pH over 7.5: University of California ANR, micro-irrigation "
         "maintenance pages (from memory); with iron common practice, no source, and over 50 mg CaCO₃/L most of it is "
         "bound: King, Environ. Sci. Technol. 32 (1998) 2997 (abstract read)"),
)  # fmt: skip

ACID = ("acid", "citrate", "not_live")
"""The properties of citric acid that is put into the water, by which it breaks rules of the tank as a product does."""

CONDITIONERS = "water conditioners"
"""The family of what makes the water right. One of them that is acid is acid for the water, chosen as a product."""

WATERED_IN = ("salt_load", "nitrogen")
"""The risks whose limits are wider when the spray is watered in."""
