# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a plan says of the wood it leaves."""

from __future__ import annotations

import pytest
import solids

from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.settings.stack import StackSettings


def planned(mesh=None, **changes):
    chosen = StackSettings(**{"stock": (25.0,), **changes})
    return plan_stack(mesh or solids.cone(200.0, 50.0), chosen, name="cone")


def test_a_shallow_cone_is_told_with_its_zone_and_the_cost_of_square():
    plan = planned()
    least = plan.containment.least_wood
    # Slope s with tan s = 50/200; blanks stand 3.2 to 3.4 out: 3.2·sin s = 0.776, less the search's tolerance.
    assert 0.776 - 0.06 < least.distance < 0.83
    assert (least.kind, least.layer, least.side, least.asked) == ("step", 1, 1, 1.5)
    assert [[z.side for z in layer.thin] for layer in plan.layers] == [[1], []]
    cost = plan.containment.square
    assert cost.wood > 0 and cost.level == least.distance
    # Above the glue line the cone's radius, 100 mm, is larger by margin/sin s = 3.2/0.2425 = 13.2 mm instead of by 3.2:
    # π·(113.2² − 103.2²) of π·(203.2² + 103.2²) mm², both layers being 25 mm thick.
    assert cost.share == pytest.approx(0.0417, abs=0.004)


def test_square_allowance_leaves_it_everywhere():
    plan = planned(square=True)
    least = plan.containment.least_wood
    assert least.distance >= 3.0 and least.asked == 3.0
    assert all(layer.thin == () for layer in plan.layers)
    assert plan.containment.square.level == pytest.approx(0.776, abs=0.08)


@pytest.mark.parametrize("share, thin", [(0.2, False), (0.3, True)])
def test_the_share_asked_for_sets_the_limit(share, thin):
    plan = planned(least_wood=share)
    assert plan.containment.least_wood.asked == pytest.approx(3.0 * share)
    assert (plan.containment.square is not None) is thin
    assert bool(plan.layers[0].thin) is thin


def test_an_upright_form_has_its_least_wood_at_a_wall():
    plan = planned(solids.cylinder(60.0, 100.0))
    least = plan.containment.least_wood
    assert least.kind == "wall" and least.distance == plan.containment.least_cover
    assert plan.containment.square is None
