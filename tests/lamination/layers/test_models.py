# SPDX-License-Identifier: LGPL-2.1-or-later

"""Forms that nobody of this project made, judged by manifold3d (solid booleans, projection) and trimesh (sections)."""

from __future__ import annotations

from functools import cache

import judges
import numpy as np
import pytest
from models import MESHES, load_mesh

from freecad_stacklam.lamination.form.crossing import crossings
from freecad_stacklam.lamination.form.mesh import Mesh, gate
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.tolerances import PLANE_SNAP

CLOSED = [name for name, model in MESHES.items() if model.closed]
OPEN = [name for name, model in MESHES.items() if not model.closed]


@cache
def form(name: str) -> Mesh:
    vertices, triangles, _source = load_mesh(name)
    return gate(vertices, triangles)


@pytest.mark.parametrize("name", CLOSED)
def test_no_closed_model_passes_through_itself(name):
    assert crossings(form(name)).within == 0


UPRIGHT, TILTED = (0, 0, 1), (1, 0.3, 0.2)
#: Four surfaces are of the same twenty thousand triangles: the most folded of them goes with every run in both ways,
#: the others upright only.
ALIKE = ("white_left", "infl_left", "sphere_left")


@pytest.mark.parametrize(
    ("name", "axis"),
    [
        pytest.param(
            name, axis, id=f"{name}-{way}", marks=pytest.mark.slow if way == "tilted" and name in ALIKE else ()
        )
        for name in CLOSED
        for axis, way in ((UPRIGHT, "upright"), (TILTED, "tilted"))
    ],
)
def test_blanks_hold_the_form_and_shadows_are_the_judges(name, axis):
    mesh = form(name)
    height = float(np.ptp(mesh.vertices @ (np.array(axis) / np.linalg.norm(axis))))
    plan = plan_stack(mesh, StackSettings(stock=(height / 9.5,), axis=axis, allowance=0.0), name=name)
    assert plan.containment.proven
    assert plan.containment.least_cover > 0.19  # the mesh is the form here, so the guard is whole
    # manifold3d: form − blanks
    assert judges.uncovered(mesh, plan) <= 0.01
    # manifold3d: split and project. Snapping heights by PLANE_SNAP moves a shallow surface sideways a little more.
    for layer, area in zip(plan.layers, judges.projected(mesh, plan)):
        allowed = 0.02 + 20 * PLANE_SNAP * np.sqrt(layer.shadow.length) * 0.05
        assert layer.shadow.area == pytest.approx(area, abs=allowed)


@pytest.mark.parametrize("name", [n for n in CLOSED if n != "ant"])  # bodies that overlap have no even-odd section
def test_finished_outlines_are_the_judges_sections(name):
    mesh = form(name)
    height = float(np.ptp(mesh.vertices[:, 2]))
    plan = plan_stack(mesh, StackSettings(stock=(height / 7.3,), allowance=0.0), name=name)
    for layer in plan.layers[1:]:
        # trimesh cannot cut through vertices, so it cuts a micrometre above the glue line.
        area = judges.section_area(mesh, plan, layer.bottom + 1e-3)
        assert layer.finished_bottom.area == pytest.approx(area, rel=1e-4, abs=1.0)


@pytest.mark.parametrize("name", OPEN)
def test_open_models_are_refused_with_a_place(name):
    vertices, triangles, _source = load_mesh(name)
    with pytest.raises(Refusal, match=r"not closed: \d+ edges .* near x -?\d"):
        gate(vertices, triangles)
