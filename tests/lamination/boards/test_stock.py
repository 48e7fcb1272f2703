# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which boards suit a layer. Rough sizes sold by the quarter inch: hardwood lumber rules; what a planer leaves of them
(4/4 to 19, 5/4 to 25, 6/4 to 32, 8/4 to 44 mm): common practice, no source."""

from __future__ import annotations

import pytest

from freecad_stacklam.lamination.boards.stock import least_planing, stock_for, suits, trim_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.board import Board
from freecad_stacklam.lamination.settings.shop import ShopSettings

SHOP = ShopSettings()


def board(thickness: float, surface: str = "", dried: str = "") -> Board:
    return Board("A", 200.0, 2000.0, thickness, "oak", surface=surface, dried=dried)


@pytest.mark.parametrize(("quarters", "planed"), [(4, 19.0), (5, 25.0), (6, 32.0), (8, 44.0)])
def test_a_rough_board_suits_what_shops_get_from_it(quarters: int, planed: float) -> None:
    assert suits(board(quarters * 25.4 / 4, "rough"), planed, "oak", SHOP)
    # And not what the next size is bought for: 25.4 mm rough is no 25 mm planed.
    assert not suits(board(quarters * 25.4 / 4, "rough"), quarters * 25.4 / 4 - 0.4, "oak", SHOP)


def test_surfaced_boards_are_used_as_they_are_and_unsaid_ones_where_they_are_as_thick() -> None:
    assert suits(board(25.0, "surfaced"), 25.0, "oak", SHOP) and suits(board(25.4, "surfaced"), 25.0, "oak", SHOP)
    assert suits(board(25.0), 25.0, "oak", SHOP) and not suits(board(25.4), 25.0, "oak", SHOP)
    assert not suits(board(25.0, "rough"), 25.0, "oak", SHOP)
    assert not suits(board(24.5, "surfaced"), 25.0, "oak", SHOP)
    assert not suits(board(25.0), 25.0, "ash", SHOP) and suits(board(25.0), 25.0, "", SHOP)
    assert least_planing(board(28.0), 25.0, SHOP) == 3.0 and least_planing(board(28.0, "surfaced"), 25.0, SHOP) == 0.0


def test_air_dried_boards_lose_more_at_their_ends() -> None:
    assert (trim_of(board(30.0), SHOP), trim_of(board(30.0, dried="air"), SHOP)) == (25.0, 50.0)
    assert stock_for([board(30.0, "rough", "air")], 25.0, "oak", SHOP, "A 1").lengths == (1900.0,)


@pytest.mark.parametrize(
    ("boards", "says"),
    [
        ([board(20.0)], "the thickest board is 20 mm, 5 mm short"),
        ([board(25.4, "rough")], "the rough board of 25.4 mm leaves 0.4 mm to plane away, and 3 mm are asked"),
        ([board(40.0)], "the thinnest board that reaches it is 40 mm, 15 mm to plane away"),
        ([Board("B", 200.0, 2000.0, 30.0, "ash")], "no board on the rack is of that species"),
    ],
)
def test_what_is_missing_is_said(boards: list[Board], says: str) -> None:
    with pytest.raises(Refusal, match=says):
        stock_for(boards, 25.0, "oak", SHOP, "A 1")
