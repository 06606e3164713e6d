"""Units: how they are written, what they are, how one becomes another, and where each definition comes from.

In: texts such as "25 kg/ha" or "oz/1000 ft²". Out: quantities, exact conversion factors, dimensions, printed units.
`units.txt` defines every unit that is known; nothing else is a unit.

Open `quantity` first: it is what other packages use. Behind it, `spelling` takes texts apart, `names` has the names,
`registry` the two pint registries, `kinds` the kinds of quantities, `definitions` the origins, `label_rates` the
units that a label's rate may have.
"""
