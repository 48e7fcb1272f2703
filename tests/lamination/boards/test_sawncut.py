# SPDX-License-Identifier: LGPL-2.1-or-later

"""Flat and quarter: not mixed in a panel where it can be helped, else told."""

from __future__ import annotations

from dataclasses import replace

import plans
import pytest

from freecad_stacklam.lamination.boards.boardplan import boards_for
from freecad_stacklam.lamination.boards.sawncut import cut_checks, mixed, stack_cut
from freecad_stacklam.lamination.plan.boards import BoardCut, BoardPiece, BoardsPlan, Stave
from freecad_stacklam.lamination.settings.board import Board, Rack
from freecad_stacklam.lamination.settings.shop import ShopSettings


def stave(name: str, layer: int) -> Stave:
    return Stave(name, "Top", layer, ((0, 0), (300, 0), (300, 80), (0, 80)), 80.0, 300.0, 45.0, 0.0, "oak")


def made(*cuts: str) -> BoardsPlan:
    """Layer 1 of staves a and b, layer 2 of c; each from a board of its own."""
    staves = (stave("a", 1), stave("b", 1), stave("c", 2))
    boards = tuple(
        BoardCut(
            f"B{s.id}", 100.0, 400.0, 50.0, "oak", None, True, (BoardPiece(s.id, 1, 25.0, 0.0, 300.0, 80.0),), cut=cut
        )
        for s, cut in zip(staves, cuts)
    )
    return BoardsPlan(staves=staves, plan=boards)


@pytest.mark.parametrize(
    ("cuts", "stack", "layers"),
    [
        (("flat", "flat", "flat"), "flat", []),
        (("flat", "quarter", "flat"), "", [("Top", 1)]),
        (("flat", "flat", "quarter"), "", []),
        (("flat", "rift", "flat"), "", []),
        (("flat", "", "flat"), "", []),
        (("quarter", "quarter", "quarter"), "quarter", []),
    ],
)
def test_what_the_boards_say_of_a_stack_and_its_panels(cuts: tuple, stack: str, layers: list) -> None:
    plan = made(*cuts)
    assert stack_cut(plan, "Top") == stack and mixed(plan) == layers
    (check,) = cut_checks(plan, "Top")
    assert check.verdict == ("caution" if layers else "ok")


def test_nothing_is_said_where_no_board_says_how_it_was_sawn() -> None:
    assert cut_checks(made("", "", ""), "Top") == [] and stack_cut(made("", "", ""), "Top") == ""
    assert stack_cut(None, "Top") == ""


def test_panels_are_of_one_cut_where_the_rack_has_enough_of_it() -> None:
    """Two narrow quarter-sawn boards are cheapest and too few for the whole pedestal; flat ones would do for all."""
    pedestal = replace(plans.plant_stand().stacks[0])
    few = Board("Quarter", 105.0, 1100.0, 48.0, "white oak", 1.0, cut="quarter", count=2)
    flat = Board("Flat", 120.0, 2400.0, 48.0, "white oak", 60.0, cut="flat", count=6)
    shop = ShopSettings(max_stave=100.0)
    free = boards_for([pedestal], Rack((replace(few, cut=""), replace(flat, cut=""))), shop)
    told = replace(free, plan=tuple(replace(b, cut=b.board.split(" #")[0].lower()) for b in free.plan))
    assert mixed(told)  # so it would, if it did not mind
    found = boards_for([pedestal], Rack((few, flat)), shop)
    assert mixed(found) == [] and not found.short
