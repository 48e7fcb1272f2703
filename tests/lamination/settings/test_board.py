# SPDX-License-Identifier: LGPL-2.1-or-later

"""A board of the rack: what it holds, what it costs, what it refuses."""

from __future__ import annotations

from dataclasses import replace

import pytest

from freecad_stacklam.lamination.options.rows import rows_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.board import GRADES, Board, Knot

OAK = Board("Oak", 203.2, 2438.4, 50.8, "white oak")  # 8 in × 8 ft of 8/4


def test_board_feet_and_prices_by_hand() -> None:
    """8 in × 8 ft / 12 is a surface measure of 5⅓, counted as 5; times 2 in it makes 10 board feet (NHLA rules)."""
    assert OAK.board_feet == 10.0
    assert OAK.volume == pytest.approx(203.2 * 2438.4 * 50.8)
    assert OAK.price is None and OAK.priced == "no price given"
    by_foot = replace(OAK, cost=9.0, per="board foot")
    assert by_foot.price == pytest.approx(90.0)
    by_volume = replace(OAK, cost=2000.0, per="m3")
    assert by_volume.price == pytest.approx(2000.0 * 0.2032 * 2.4384 * 0.0508)
    assert replace(OAK, cost=80.0).price == 80.0


def test_grades_are_shares_of_clear_wood() -> None:
    """NHLA rules for measurement and inspection: FAS 83⅓ %, No. 1 common 66⅔ %, No. 2A common 50 % clear-face."""
    assert pytest.approx({"FAS": 0.8333, "No. 1 common": 0.6667, "No. 2 common": 0.5}, abs=1e-4) == GRADES


@pytest.mark.parametrize(
    "knot",
    [
        Knot(2400.0, 0.0, 60.0, 20.0),
        Knot(0.0, 190.0, 20.0, 20.0),
        Knot(10.0, 10.0, 0.0, 5.0),
        Knot(-1.0, 0.0, 5.0, 5.0),
    ],
)
def test_a_knot_off_the_board_is_refused_with_both_sizes(knot: Knot) -> None:
    with pytest.raises(Refusal, match=r"“Oak”.*does not lie on the board of 2438\.4 mm × 203\.2 mm"):
        replace(OAK, knots=(knot,))
    assert replace(OAK, knots=(Knot(2378.4, 183.2, 60.0, 20.0),)).knots[0].box == (2378.4, 183.2, 60.0, 20.0)


def test_none_on_hand_is_no_board() -> None:
    with pytest.raises(Refusal, match="0 boards on hand is impossible"):
        replace(OAK, count=0)
    assert replace(OAK, count=0, for_sale=True).count == 0


@pytest.mark.parametrize(
    ("what", "value"), [("width", 0.0), ("length", float("nan")), ("thickness", -5.0), ("per", "kilo"), ("cost", -1.0)]
)
def test_impossible_boards_are_refused_by_name(what: str, value: object) -> None:
    with pytest.raises(Refusal, match="board “Oak”"):
        replace(OAK, **{what: value})  # type: ignore[arg-type]


def test_a_cell_is_written_for_every_column() -> None:
    assert all(row.by_hand == "a cell of the rack's sheet" for row in rows_of(Board))
