"""A planner small enough to be verified hundreds of times: templates and a model of the tests' own.

It has one of each kind of table (down and across, forms with and without slots, a diary with a filter, a card whose
empty lines vanish) and of each kind of column, in few records. Its files are as those of any planner.
"""

from __future__ import annotations

from pathlib import Path
from typing import Final

from support import pocket_model
from wbgen.inputs.design import Design
from wbgen.model.binding import ColumnFunctions
from wbgen.sheets.book import Templates

POCKET: Final = Design(Templates(Path(__file__).with_name("pocket")), ColumnFunctions(pocket_model))
"""Its templates and its model."""

POCKET_SITE: Final = """\
site: {name: Small House, units: metric, currency: EUR, season starts: 1 January, as of: 2026-06-30}
lawns:
  - {name: Terrace, grass: cool season, area: 240 m², walking order: 1, targets: {N: 12 g/m²}, notes: "=1+1"}
  - {name: Bank, grass: warm season, area: 90 m²}
sprayers: [{name: Knapsack, kind: knapsack, brim: 15 L, working: 14 L, passes: 2, remainder: 0.2 L}]
people: [Helper]
mix:
  date: 2026-07-01
  lawns: [Terrace]
  sprayer: Knapsack
  carrier volume: 600 L/ha
  overlap: 5 %
  weather: {wind: 8 km/h}
  products: [{product: Ammonium sulphate, rate: 2 g/m²}, {product: Liquid NPK 10-4-6, rate: 1 mL/m²}]
diary:
  - {date: 2026-04-08, lawn: Terrace, product: Ammonium sulphate, method: spray, measured: 600 g, water: 14 L,
     left over: 1 L, who: Helper, note: "=SUM(A1)"}
  - {date: 2026-04-09, lawn: Bank, product: Liquid NPK 10-4-6, method: spray, measured: 300 mL, water: 9 L, note: "-5"}
  - {date: 2026-05-06, lawn: Terrace, product: Urea, method: dry, measured: 500 g, who: Helper}
  - {date: 2026-06-03, lawn: Terrace, product: Liquid NPK 10-4-6, method: spray, measured: 410 mL, water: 12 L,
     left over: 2 L, who: Helper, note: "@home"}
  - {date: 2026-06-17, lawn: Bank, product: Ammonium sulphate, method: dry, measured: 210 g, note: "+1"}
"""
