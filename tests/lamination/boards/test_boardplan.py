# SPDX-License-Identifier: LGPL-2.1-or-later

"""From stacks and a rack to a cutting plan, judged by shapely."""

from __future__ import annotations

from dataclasses import replace

import plans
import pytest
import shapely

from freecad_stacklam.lamination.boards import boardplan, cutting
from freecad_stacklam.lamination.boards.boardplan import boards_for, plan_boards, wanted
from freecad_stacklam.lamination.plan.boards import BoardsPlan
from freecad_stacklam.lamination.refusal import Defect, Refusal
from freecad_stacklam.lamination.settings.board import Board, Knot, Rack
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.shop import ShopSettings

SHOP = ShopSettings()
THICK = Board("Thick", 210.0, 2600.0, 52.0, "white oak", for_sale=True, count=0)
THIN = Board("Thin", 180.0, 2400.0, 32.0, "white oak", for_sale=True, count=0)


def lies_well(plan: BoardsPlan) -> None:
    """Every piece lies on its board, off knots and off the others by the kerf; every stave is cut once a copy."""
    for board in plan.plan:
        whole = shapely.box(board.end_trim, 0, board.length - board.end_trim, board.width).buffer(1e-6)
        boxes = [shapely.box(p.x, p.y, p.x + p.length, p.y + p.width) for p in board.pieces]
        assert all(whole.contains(box) for box in boxes)
        for i, box in enumerate(boxes):
            assert all(box.distance(other) >= plan.kerf - 1e-6 for other in boxes[:i])
            knots = [shapely.box(x, y, x + a, y + b).buffer(-1e-6) for x, y, a, b in board.knots]
        assert not any(box.intersects(knot) for knot in knots)
    cut = sorted((p.stave, p.copy) for b in plan.plan for p in b.pieces)
    assert cut == sorted((s.id, c + 1) for s in plan.staves for c in range(s.copies))


def test_asked_for_by_boards_or_by_an_option_of_the_staves() -> None:
    assert not wanted(Settings())
    assert wanted(Settings(boards=(THICK,)))
    assert wanted(Settings(shop=ShopSettings(stagger=30.0)))
    assert not wanted(Settings(shop=ShopSettings(kerf=4.0)))


def test_all_staves_are_cut_from_boards_that_suit_them() -> None:
    stand = plans.plant_stand()
    knotty = Board("Knotty", 200.0, 2500.0, 50.0, "white oak", knots=(Knot(900.0, 40.0, 80.0, 60.0),))
    made = plan_boards(stand.stacks, Settings(boards=(knotty, THICK, THIN)))
    lies_well(made)
    assert made.short == () or all("buy" in words or "more" in words for words in made.short)
    where = {p.stave: b for b in made.plan for p in b.pieces}
    for stave in made.staves:
        assert 0 <= where[stave.id].thickness - stave.thickness <= SHOP.planing


def test_without_boards_the_staves_alone() -> None:
    made = boards_for(plans.plant_stand().stacks, Rack(), SHOP)
    assert made.staves and not made.plan
    assert "no boards on the rack" in made.short[0]
    assert max(s.width for s in made.staves) <= SHOP.max_stave + 1e-6


def test_few_wide_boards_are_not_wanted_for_every_stave() -> None:
    """One wide board on hand and any number of narrow ones for sale: staves are made for those that do not run out."""
    wide = Board("Wide", 420.0, 2600.0, 52.0, "white oak")
    narrow = Board("Narrow", 120.0, 2600.0, 52.0, "white oak", for_sale=True, count=0)
    pedestal = plans.plant_stand().stacks[0]
    one = boards_for((pedestal,), Rack((wide, narrow)), SHOP)
    assert [b.board for b in one.plan] == ["Wide"]  # it takes all blanks of one pedestal whole
    four = boards_for((replace(pedestal, copies=4),), Rack((wide, narrow)), SHOP)
    lies_well(four)
    assert {b.board.split(" #")[0] for b in four.plan} == {"Narrow", "Wide"}
    assert max(s.width for s in four.staves) <= 120.0


def test_an_impossible_rack_is_refused_by_the_layer() -> None:
    with pytest.raises(Refusal, match="Pedestal"):
        boards_for(plans.plant_stand().stacks, Rack((THIN,)), SHOP)


def test_what_the_programs_own_check_refuses_is_called_its_defect(monkeypatch: pytest.MonkeyPatch) -> None:
    """No setting mends it, so none is advised."""
    pedestal = plans.plant_stand().stacks[:1]
    with monkeypatch.context() as patch:
        patch.setattr(boardplan.cutcheck, "blank_faults", lambda *_: ["Pedestal 1 a and Pedestal 1 b overlap"])
        with pytest.raises(Defect, match=r"Pedestal 1 a and Pedestal 1 b overlap.*defect of the program") as refused:
            boards_for(pedestal, Rack((THICK,)), SHOP)
        assert "change" not in str(refused.value)
    monkeypatch.setattr(cutting.cutcheck, "faults_of", lambda *_: ["a is not cut"])
    with pytest.raises(Defect, match=r"a is not cut.*defect of the program"):
        boards_for(pedestal, Rack((THICK,)), SHOP)
