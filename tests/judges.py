# SPDX-License-Identifier: LGPL-2.1-or-later

"""Outside judges for the lamination: solid booleans by manifold3d, plain sections by trimesh."""

from __future__ import annotations

from collections.abc import Sequence

import manifold3d
import numpy as np
import shapely
import trimesh

from freecad_stacklam.lamination.form.frame import to_stack
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.outline import polygon_of


def solid(mesh: Mesh, frame: Sequence[float] | None = None) -> manifold3d.Manifold:
    """The form as manifold3d sees it, in the stack's frame when one is given."""
    points = mesh.vertices if frame is None else to_stack(frame, mesh.vertices)
    return manifold3d.Manifold(
        manifold3d.Mesh64(np.array(points), np.ascontiguousarray(mesh.triangles, dtype=np.uint64))
    )


def extruded(area: shapely.Geometry, bottom: float, top: float) -> manifold3d.Manifold:
    """A shapely area as a prism."""
    rings = []
    for part in shapely.get_parts(area):
        rings.append(shapely.get_coordinates(part.exterior)[:-1])
        rings += [shapely.get_coordinates(hole)[:-1] for hole in part.interiors]
    section = manifold3d.CrossSection(rings, manifold3d.FillRule.EvenOdd)
    return manifold3d.Manifold.extrude(section, top - bottom).translate((0, 0, bottom))


def blanks(plan: StackPlan) -> manifold3d.Manifold:
    """The stepped block of all blanks."""
    prisms = [
        extruded(shapely.union_all([polygon_of(o) for o in layer.blank]), layer.bottom, layer.top)
        for layer in plan.layers
    ]
    return manifold3d.Manifold.batch_boolean(prisms, manifold3d.OpType.Add)


def uncovered(mesh: Mesh, plan: StackPlan) -> float:
    """Volume of the form outside its blanks, mm³."""
    return float((solid(mesh, plan.frame) - blanks(plan)).volume())


def projected(mesh: Mesh, plan: StackPlan) -> list[float]:
    """Area of the shadow of every slab, by splitting the solid and projecting the pieces, mm²."""
    rest, areas = solid(mesh, plan.frame), []
    for layer in plan.layers:
        above, below = rest.split_by_plane((0, 0, 1), layer.top)
        areas.append(float(below.project().area()))
        rest = above
    return areas


def section_area(mesh: Mesh, plan: StackPlan, height: float) -> float:
    """Area of the form at one height by trimesh's own slicer, mm²."""
    form = trimesh.Trimesh(to_stack(plan.frame, mesh.vertices), mesh.triangles, process=False)
    cut = form.section(plane_origin=(0, 0, height), plane_normal=(0, 0, 1))
    if cut is None:
        return 0.0
    area = shapely.Polygon()
    for ring in cut.discrete:
        area = area.symmetric_difference(shapely.make_valid(shapely.Polygon(ring[:, :2])))
    return float(area.area)
