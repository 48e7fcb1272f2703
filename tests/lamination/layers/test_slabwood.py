# SPDX-License-Identifier: LGPL-2.1-or-later

"""The wood of slabs before any layer is drawn, beside closed formulas and beside the blanks that are drawn."""

from __future__ import annotations

import numpy as np
import pytest
import solids

from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.layers.sequence import plan_sequence
from freecad_stacklam.lamination.layers.slabwood import SlabWood
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.tolerances import GUARD


def turned(*sizes: tuple[float, float]) -> Mesh:
    """A turned form through radius and height of some places."""
    return solids.revolved(np.array([(0.0, sizes[0][1]), *sizes, (0.0, sizes[-1][1])]), 96)


def test_a_cylinder_takes_its_circle_grown_by_the_margin() -> None:
    mesh = solids.cylinder(100.0, 200.0)
    for square in (False, True):
        wood = SlabWood(mesh.vertices, mesh.triangles, mesh.twins, 5.0, square=square)
        wood.measure([(50.0, 95.0), (95.0, 140.0), (50.0, 140.0)])
        for slab in ((50.0, 95.0), (95.0, 140.0), (50.0, 140.0)):
            assert wood.knows(slab) and wood.area(slab) == pytest.approx(np.pi * 105.0**2, rel=0.005)
        assert not wood.knows((0.0, 45.0))


def test_a_square_allowance_on_a_slope_takes_what_lies_below() -> None:
    """A cone of 200 × 80 mm: its surface rises by 80 in 200, so square to it the margin reaches out level by
    r / sin(slope) = 8.2 · √(80² + 200²) / 80 = 22.1 mm beyond the circle at the slab's bottom. The ball is taken in few
    steps, which on so flat a slope is an eighth of that too much, and never too little."""
    mesh = solids.cone(200.0, 80.0, 360)
    margin, out = 8.2, 8.2 * float(np.hypot(80.0, 200.0)) / 80.0
    radius = 200.0 * (1 - 30.0 / 80.0)
    for square, wanted, more in ((False, radius + margin, 0.1), (True, radius + out, out / 8)):
        wood = SlabWood(mesh.vertices, mesh.triangles, mesh.twins, margin, square=square)
        wood.measure([(30.0, 50.0)])
        assert wanted - 0.3 <= np.sqrt(wood.area((30.0, 50.0)) / np.pi) <= wanted + more


FORMS = (
    turned((110.0, 0.0), (60.0, 60.0), (120.0, 130.0), (40.0, 200.0), (90.0, 240.0)),
    solids.ball(120.0, 4),
    solids.torus(),
)


@pytest.mark.parametrize("square", [False, True])
@pytest.mark.parametrize("mesh", FORMS)
def test_the_wood_weighed_is_the_wood_drawn(mesh: Mesh, square: bool) -> None:
    plan = plan_stack(mesh, StackSettings(stock=(19.0,), allowance=6.0, square=square), name="Form")
    wood = SlabWood(mesh.vertices, mesh.triangles, mesh.twins, 6.0 + GUARD, square=square)
    slabs = [(layer.bottom, layer.top) for layer in plan.layers]
    wood.measure(slabs)
    drawn = sum(layer.blank_area for layer in plan.layers)
    assert sum(wood.area(slab) for slab in slabs) == pytest.approx(drawn, rel=0.012)


def test_layers_are_chosen_by_the_allowance_that_is_asked_for() -> None:
    """What is told of a sequence is the wood of the blanks that are drawn from it, square or level."""
    mesh = FORMS[0]
    for square in (False, True):
        settings = StackSettings(stock=(19.0, 45.0), allowance=8.0, square=square, pick="least wood")
        best = plan_sequence(mesh.vertices, mesh.triangles, mesh.twins, settings).best
        plan = plan_stack(mesh, settings, name="Form")
        assert tuple(layer.thickness for layer in plan.layers) == pytest.approx(best.thicknesses)
        drawn = sum(layer.blank_area * layer.thickness for layer in plan.layers)
        assert best.wood == pytest.approx(drawn, rel=0.015)
