# SPDX-License-Identifier: LGPL-2.1-or-later

"""A stack as the order of its glue-up needs it. Figures by hand from boxes."""

from __future__ import annotations

from dataclasses import replace
from math import inf, isinf

import pytest
import shapely
from gluepiles import pile_with
from plans import layer_of, pedestal, stack_of, worked_stand
from shapely import MultiPolygon

from freecad_stacklam.lamination.gluing.pile import HOLLOW, MORTISE, Channel, Pile, channels_of, pile_of
from freecad_stacklam.lamination.plan.gluing import Interface
from freecad_stacklam.lamination.plan.insides import PinPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.refusal import Refusal

JOINT = Channel(MORTISE, "Pedestal to top", 9, 10, False, True)


def interfaces(stack: StackPlan, area: float = 100.0) -> list[Interface]:
    return [Interface(k.number, k.top, MultiPolygon(), area, (0.0, 0.0)) for k in stack.layers[:-1]]


def test_a_stack_becomes_a_pile_of_its_layers_and_lines() -> None:
    stack = pedestal()
    pins = (PinPlan(3, (0.0, 0.0), 10.0, 12.0, 12.0, 9.0), PinPlan(3, (9.0, 0.0), 10.0, 12.0, 12.0, 9.0))
    pile = pile_of(replace(stack, pins=pins), interfaces(stack, 5e3), [2.0] * 10, [7.4] * 9 + [5.0])
    assert (pile.first, pile.last, pile.height(2, 4), pile.mass(2, 4)) == (1, 10, 135.0, 6.0)
    assert [line.pins for line in pile.lines] == [0, 0, 2, 0, 0, 0, 0, 0, 0]
    assert pile.crush(1) == 7.4
    assert pile.crush(9) == 5.0
    assert pile.middle(1, 10)[2] == pytest.approx(225.0)
    # The joint's mortise is 75 mm deep from above: through layer 10 and 30 mm into layer 9.
    assert pile.channels == (JOINT,)


def test_a_blank_is_as_wide_as_the_narrower_side_of_its_tightest_rectangle() -> None:
    turned = shapely.affinity.rotate(shapely.box(-150, -40, 150, 40), 30.0)
    layers = (layer_of(1, 0, 20, [turned]), layer_of(2, 20, 40, [turned]))
    stack = stack_of("Rail", layers)
    layer = pile_of(stack, interfaces(stack)).layer(1)
    # Allowance 3 mm and guard 0.2 mm on both sides; outlines are thinned by 0.02 mm.
    assert (layer.width, layer.length) == (pytest.approx(86.4, abs=0.1), pytest.approx(306.4, abs=0.1))


def test_voids_and_mortises_are_channels() -> None:
    found = channels_of(worked_stand().stacks[0].layers)
    assert Channel(HOLLOW, "", 5, 5, True, True) in found
    assert JOINT in found
    # A void wholly inside one layer crosses no line and is none.
    layers = worked_stand().stacks[0].layers
    cut = replace(layers[4].cuts[0], start=layers[4].bottom + 5.0, end=layers[4].top - 5.0)
    assert channels_of((replace(layers[4], cuts=(cut,)),)) == ()


def test_a_chisel_comes_from_an_open_end() -> None:
    pile = pile_with([5e3] * 9, channels=(JOINT,))
    # Line 9 lies 45 mm under the top of layer 10, which is open; below, layer 9 ends it.
    assert pile.reach_above(9, 10) == 45.0
    assert pile.reach_below(9, 9) == inf
    assert pile.reach_above(8, 10) == 0.0  # nothing crosses line 8
    through = pile_with([5e3] * 9, channels=(Channel(MORTISE, "", 3, 8, False, False),))
    assert through.reach_below(5, 4) == 90.0  # layers 4 and 5 stand under line 5; layer 4's underside is open
    assert isinf(through.reach_below(5, 3))
    assert isinf(through.reach_below(5, 1))
    assert through.reach_above(5, 7) == 90.0
    assert isinf(through.reach_above(5, 9))


def test_a_rod_runs_through_what_is_bored_from_face_to_face() -> None:
    pile = pile_with([5e3] * 9, channels=(Channel(MORTISE, "", 1, 8, True, False),))
    assert pile.rod_fits(1, 7)
    assert pile.rod_fits(3, 6)
    assert not pile.rod_fits(1, 8)
    assert not pile.rod_fits(1, 9)


def test_what_is_not_known_stays_so() -> None:
    pile = pile_with([5e3, 5e3], masses=[1.0, None, 2.0])
    assert pile.mass(1, 2) is None
    assert pile.mass(3, 3) == 2.0
    assert pile.crush(1) is None
    # Without masses the middle is that of the rectangles: three equal ones of 45 mm.
    assert pile.middle(1, 3) == pytest.approx((0.0, 0.0, 67.5))


def test_a_line_that_glues_nothing_is_refused() -> None:
    stack = pedestal()
    with pytest.raises(Refusal, match="Layers 1 and 2 of Pedestal meet nowhere"):
        pile_of(stack, interfaces(stack, 0.0))


def test_lines_lie_between_layers() -> None:
    pile = pile_with([5e3, 5e3])
    with pytest.raises(Refusal, match="one glue line between each layer"):
        Pile("Pedestal", pile.layers, pile.lines[:1])
    with pytest.raises(Refusal, match="do not follow each other"):
        Pile("Pedestal", pile.layers[::2], pile.lines[:1])
