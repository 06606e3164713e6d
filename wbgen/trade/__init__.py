"""What the trade knows and both witnesses share: nutrients, what may share a tank, and the families of columns.

In: nothing. Out: constants with their sources. Sheets and model both believe what stands here, so an error in it would
escape both: it is little, and the tests hold it against the outside world.

Open `nutrients` first, then `tank_rules`; `families` and `checks` are what one column of a template may stand for.
"""
