# SPDX-License-Identifier: LGPL-2.1-or-later

"""Panels are kept to one cut each where the rack has enough of both only together."""

from __future__ import annotations

import plans
import pytest

from freecad_stacklam.lamination.boards.boardplan import boards_for
from freecad_stacklam.lamination.boards.cutting import plan_cutting
from freecad_stacklam.lamination.boards.onecut import dealt_out
from freecad_stacklam.lamination.boards.sawncut import mixed
from freecad_stacklam.lamination.plan.boards import Stave
from freecad_stacklam.lamination.settings.board import Board, Rack
from freecad_stacklam.lamination.settings.shop import ShopSettings

SHOP = ShopSettings(shortest_to_machine=0.0, end_trim=0.0, jointing=0.0, kerf=0.0)


def panels(layers: int, staves: int = 3) -> list[Stave]:
    """Panels of some staves, 500 × 100 mm each."""
    return [
        Stave(f"Top {n} {k}", "Top", n, (), 100.0, 500.0, 45.0, 0.0, "oak", 1)
        for n in range(1, layers + 1)
        for k in range(staves)
    ]


def rack(flat: int, quarter: int, surface: str = "surfaced") -> Rack:
    """Boards that hold three staves each, end to end, on hand; the quarter-sawn ones a little cheaper."""
    made = Board("Flat", 100.0, 1500.0, 45.0, "oak", 12.0, surface=surface, cut="flat", count=flat)
    other = Board("Quarter", 100.0, 1500.0, 45.0, "oak", 10.0, surface=surface, cut="quarter", count=quarter)
    return Rack((made, other))


def test_whole_panels_of_each_cut_are_dealt_out() -> None:
    staves = panels(4)
    ways = list(dealt_out(staves, rack(2, 2).boards, SHOP))
    assert ways
    for way in ways:
        assert set(way) == {s.id for s in staves}
        for layer in range(1, 5):
            assert len({way[s.id] for s in staves if s.layer == layer}) == 1
    # 0.75 of two boards of 3 staves holds 4.5 staves: one panel. With 0.95 it is one too: 5.7 staves.
    assert {sum(cut == "flat" for cut in way.values()) for way in ways} >= {3, 9}


def test_the_pedestal_of_two_boards_of_each_cut_has_no_mixed_panel() -> None:
    """Neither cut is enough for all of it: the cheapest plan that does not mind mixes five of its panels."""
    pedestal = plans.plant_stand().stacks[0]
    boards = (
        Board("Quarter", 105.0, 2000.0, 48.0, "white oak", 20.0, cut="quarter", count=2),
        Board("Flat", 120.0, 2000.0, 48.0, "white oak", 24.0, cut="flat", count=2),
    )
    found = boards_for([pedestal], Rack(boards), ShopSettings(max_stave=100.0))
    assert mixed(found) == [] and not found.short
    assert {board.cut for board in found.plan} == {"flat", "quarter"}


@pytest.mark.parametrize(("flat", "quarter"), [(3, 3), (2, 3), (4, 1)])
def test_no_panel_is_mixed_where_boards_of_both_cuts_are_enough_only_together(flat: int, quarter: int) -> None:
    """Four panels of a board each."""
    staves = panels(4)
    free = [
        plan_cutting(staves, rack(flat, quarter), SHOP, avoided=way)
        for way in dealt_out(staves, rack(flat, quarter).boards, SHOP)
    ]
    assert any(mixed(found) == [] and not found.short for found in free)


def test_a_stave_is_never_cut_from_what_it_avoids() -> None:
    staves = panels(2)
    avoided = {s.id: "flat" if s.layer == 1 else "quarter" for s in staves}
    found = plan_cutting(staves, rack(5, 5), SHOP, avoided=avoided)
    cuts = {piece.stave: board.cut for board in found.plan for piece in board.pieces}
    assert all(cuts[s.id] != avoided[s.id] for s in staves)
    # Three panels and one board of the cut that they must have: two more like it are to be bought.
    short = plan_cutting(panels(3), rack(9, 1), SHOP, avoided={s.id: "flat" for s in panels(3)})
    assert len(short.short) == 1 and short.short[0].startswith("The rack is short of 2 boards")
