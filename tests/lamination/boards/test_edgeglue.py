# SPDX-License-Identifier: LGPL-2.1-or-later

"""Edge glue of the pieces that voids leave of staves, by hand and by shapely."""

from __future__ import annotations

from dataclasses import replace

import pytest
import shapely
import solids

from freecad_stacklam.lamination.boards.edgeglue import edge_glue_checks, loose_pieces
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.boards import Stave
from freecad_stacklam.lamination.plan.insides import HollowPlan
from freecad_stacklam.lamination.plan.layers import Cut
from freecad_stacklam.lamination.plan.outline import rectangle
from freecad_stacklam.lamination.settings.stack import StackSettings


def planned(mesh, stock=45.0, name="Piece", **more):
    return plan_stack(mesh, StackSettings(stock=(stock,), **more), name=name)


def test_pieces_with_little_edge_glue_are_reported():
    # A blank 200 × 180 of three staves 60 wide, with a void 140 × 120: the middle stave is left as two ends 30 mm
    # long, each glued along 30 mm on both sides, 60 mm in all; a void 160 wide leaves 20 mm a side, 40 mm in all, for
    # these two ends and for each of the outer staves.
    mesh = solids.box(194, 174, 45)
    layer = replace(planned(mesh).layers[0], blank=(rectangle(200, 180),), cuts=())
    staves = {f"s{i}": shapely.box(-100, -90 + 60 * i, 100, -30 + 60 * i) for i in range(3)}
    for width, count in ((140.0, 0), (160.0, 4)):
        holed = replace(layer, cuts=(Cut("hollow", rectangle(width, 120.0), 0.0, 45.0),))
        found = loose_pieces(holed, staves)
        assert len(found) == count
        assert all(p.length == pytest.approx(40.0, abs=0.5) for p in found)
        assert sorted(p.stave for p in found) == ["s0", "s1", "s1", "s2"][:count]
        stack = replace(planned(mesh), layers=(holed,), hollow=HollowPlan(20.0, 0, 1.0, 20.0, (), ()))
        made = [
            Stave(n, "Piece", 1, tuple(s.exterior.coords)[:-1], 60.0, 200.0, 45.0, 0.0, "oak")
            for n, s in staves.items()
        ]
        (check,) = edge_glue_checks(stack, made)
        assert check.verdict == ("caution" if count else "ok")
        assert check.figure == count
        assert edge_glue_checks(replace(stack, name="Other"), made) == []
    assert loose_pieces(layer, {"one": shapely.box(-100, -90, 100, 90)}) == ()
