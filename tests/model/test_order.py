"""What the days ahead take, what runs out first and what is to be bought, worked out by hand for a small site.

The day is 15 May 2024. Urea of 2 g/m² on Front, Back and Side, 350 m², is 0.7 kg each time, the Strip having no area;
a pack of it has 0.15 kg and costs 3. The brew goes on at 3 mL/m².
"""

from __future__ import annotations

from typing import Any

import pytest

from support.small_programme import AS_OF, MEASURED, PRICE, filled, line, on, shown, site
from support.tables import NO, bare, is_close
from wbgen.model.binding import Model

SHELF = {"date": "date", "product": "text", "deed": "text", "packs": "", "mass": "kg", "volume": "L"}
FORTNIGHTLY = line(first=on(5, 1), last=on(6, 26), every=14.0)
"""Urea on all lawns on 1, 15 and 29 May, 12 and 26 June."""
DONE = [(on(5, 1), lawn, "Urea", 400.0) for lawn in ("Front", "Back", "Side", "Strip")]


def shop(*lines: dict[str, Any], ahead: float = 28.0, shelf: Any = (), diary: Any = (), **more: Any) -> Model:
    given: dict[str, Any] = {"order__days_ahead": ("day", ahead), **PRICE, **more}
    done = [(*one, NO, NO, NO, NO)[: len(MEASURED)] for one in diary]
    return site(*lines, **filled("shelf", SHELF, list(shelf)), **filled("diary", MEASURED, done), **given)


def counted(product: str, mass: float = NO, volume: float = NO) -> tuple[Any, ...]:
    return (on(5, 10), product, "counted", NO, mass, volume)


def test_what_comes_twice_counts_twice() -> None:
    """Done on 1 May: up to 12 June it comes on 15 and 29 May and on 12 June; a day less far ahead, twice."""
    for ahead, times in ((0, 1), (13, 1), (14, 2), (27, 2), (28, 3), (60, 4)):
        model = shop(FORTNIGHTLY, ahead=ahead, diary=DONE)
        assert is_close(bare(model.column("stock", "order_mass"), "kg")[0], 0.7 * times), ahead


def test_to_the_end_of_the_season() -> None:
    model = shop(FORTNIGHTLY, ahead=NO, diary=DONE)
    assert model.column("order", "until") == on(2, 29) + 365  # the season started on 1 March
    assert shop(ahead=5).column("order", "until") == AS_OF + 5
    assert is_close(bare(model.column("stock", "order_mass"), "kg")[0], 2.8)
    assert is_close(bare(model.column("stock", "needed_mass"), "kg")[0], 2.8)


def test_what_is_overdue_counts_as_of_today() -> None:
    """Never done, it counts from today on: five dates would end on 10 July, and four are left up to 26 June."""
    model = shop(FORTNIGHTLY, ahead=0)
    assert shown(model, "applications", "coming_day") == [AS_OF + 14 * turn for turn in range(5)]
    assert is_close(bare(model.column("applications", "coming_mass"), "kg")[:5], [0.7, 0.7, 0.7, 0.7, 0])
    assert is_close(bare(model.column("stock", "order_mass"), "kg")[0], 0.7)


def test_lawns_that_are_ahead_of_the_others() -> None:
    """The Front, 100 m², has one time less to come than the others: the last date is without it."""
    own = [*DONE, (on(5, 15), "Front", "Urea", 200.0)]
    model = shop(FORTNIGHTLY, diary=own)
    assert is_close(bare(model.column("applications", "coming_mass"), "kg")[:5], [0.7, 0.7, 0.7, 0.5, 0])


@pytest.mark.parametrize(
    ("mass", "day", "packs"),
    [
        (NO, 0, 14),
        (0.69, 0, 10),
        (0.7, 14, 10),
        (1.95, 28, 1),
        (2.0999, 28, 1),
        (2.1, 42, 0),
        (2.8, NO, 0),
        (-1.0, 0, 14),
    ],
)
def test_when_it_runs_out(mass: float, day: float, packs: float) -> None:
    """2.1 kg up to 12 June, 2.8 to 26 June, in packs of 0.15 kg; less than nothing on hand is nothing."""
    shelf = [] if mass != mass else [counted("Urea", mass=mass)]
    model = shop(FORTNIGHTLY, diary=DONE, shelf=shelf)
    assert is_close(model.column("stock", "runs_out")[0], AS_OF + day)
    assert is_close(model.column("stock", "order_packs")[0], packs)
    assert is_close(bare(model.column("stock", "order_cost"), "currency")[0], 3 * packs)
    assert is_close(model.column("order", "packs"), packs)
    assert is_close(bare(model.column("order", "cost"), "currency"), 3 * packs)


def test_two_lines_of_one_product_share_what_there_is() -> None:
    twice = [FORTNIGHTLY, line(lawn="Back", first=on(5, 20), last=on(5, 20), times=1.0)]
    model = shop(*twice, diary=DONE, shelf=[counted("Urea", mass=1.0)])
    assert model.column("stock", "runs_out")[0] == on(5, 20)  # 0.7 kg and 0.4 kg of 1 kg


BREW = line("Brew", first=on(5, 16), last=on(5, 16), times=1.0)
IRON = line("Iron salt", first=on(6, 1), last=on(6, 1), times=1.0)


def listed(model: Model, key: str) -> list[Any]:
    return list(model.column("order_lines", key))


def test_the_first_to_run_out_is_on_top() -> None:
    """The brew runs out on 16 May, the urea on 12 June; the iron salt lasts, of calcium nitrate nothing is needed."""
    shelf = [counted("Urea", mass=1.5), counted("Iron salt", mass=1.0), counted("Calcium nitrate", mass=5.0)]
    model = shop(FORTNIGHTLY, BREW, IRON, diary=DONE, shelf=shelf)
    assert listed(model, "product") == ["Brew", "Urea", "Iron salt", "Calcium nitrate"]
    assert is_close(listed(model, "runs_out"), [on(5, 16), on(6, 12), NO, NO])
    assert listed(model, "on_hand") == ["", "1.5 kg", "1 kg", "5 kg"]
    assert listed(model, "needed") == ["1.05 L", "2.1 kg", "0.18 kg", ""]
    assert listed(model, "short") == ["1.05 L", "0.6 kg", "", ""]
    assert is_close(listed(model, "packs"), [3, 4, NO, NO])
    assert is_close(bare(model.column("order_lines", "cost"), "currency"), [12, 12, NO, NO])
    words = ["buy before 16 May 2024; never counted", "buy before 12 June 2024", "", ""]
    assert listed(model, "words") == words
    assert model.column("order_sum", "more_words") == ""


def test_what_to_do() -> None:
    urea = shop(FORTNIGHTLY, diary=DONE, shelf=[counted("Urea", mass=-0.5)])
    assert listed(urea, "words")[0] == "buy now; less than nothing: count again"
    salt = shop(IRON)  # packs of it are of no known size
    assert listed(salt, "words")[0] == "short: no pack size is known; never counted"
    recipe: dict[str, Any] = {"recipes__product": ("text", ["Brew"])}
    assert listed(shop(BREW, **recipe), "words")[0] == "brew"


def test_what_is_not_in_it() -> None:
    """Five products are needed or on hand, and there is room for four; of one the price is not known."""
    names = ("Urea", "Iron salt", "Calcium nitrate", "Brew", "Humate")
    shelf = [counted(name, mass=0.1) for name in names[:3]] + [counted(name, volume=0.1) for name in names[3:]]
    model = shop(FORTNIGHTLY, diary=DONE, shelf=shelf, products__price=("currency/pack", [NO]))
    assert model.column("order_sum", "more_words") == "and 1 more, on the sheet Stock"
    assert model.column("order_sum", "unpriced") == 1
    assert shop(FORTNIGHTLY, diary=DONE).column("order_sum", "unpriced") == 0
