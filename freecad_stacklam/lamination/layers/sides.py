# SPDX-License-Identifier: LGPL-2.1-or-later

"""The form as it is seen from the front and from the right: its silhouette, and its section on the axis.

A silhouette is the shadow of the whole form along the line of sight, found as a layer's shadow is.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.plan.layers import SideView
from freecad_stacklam.lamination.tolerances import COARSE, FRAME_ROUNDING

Floats = NDArray[np.float64]

#: Rows that turn x, y, z into across, up, towards or away from the eye; right-handed, so that the form is not mirrored
#: in depth. From the front across is x; from the right it is y, the front on the left.
_FRONT = np.array([[1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]])
_RIGHT = np.array([[0.0, 1.0, 0.0], [0.0, 0.0, 1.0], [1.0, 0.0, 0.0]])


def side_views(points: Floats, mesh: Mesh) -> tuple[SideView, SideView]:
    """The form from the front and from the right. points: the vertices of the mesh in the frame wanted, N × 3, mm."""
    return _view(points @ _FRONT.T, mesh), _view(points @ _RIGHT.T, mesh)


def in_the_model(mesh: Mesh, frame: Sequence[float], views: Sequence[SideView]) -> tuple[SideView, ...]:
    """The same views in the model's own frame; those of the stack, shifted, where it is not turned in the model."""
    m = np.asarray(frame, dtype=np.float64).reshape(4, 4)
    if np.abs(m[:3, :3] - np.eye(3)).max() > FRAME_ROUNDING:
        return side_views(mesh.vertices, mesh)
    return tuple(
        SideView(*(shapely.transform(area, lambda xy, by=by: xy + by) for area in (view.silhouette, view.section)))
        for view, by in zip(views, (m[[0, 2], 3], m[[1, 2], 3]), strict=True)
    )


def _view(points: Floats, mesh: Mesh) -> SideView:
    low, high = float(points[:, 2].min()), float(points[:, 2].max())
    on_axis = low < 0.0 < high
    planes = (low, 0.0, high) if on_axis else (low, high)
    slices = slice_surface(points, mesh.triangles, mesh.twins, planes, sections=on_axis)
    return SideView(_drawn(slices.shadows), _drawn(slices.just_below[1:2] if on_axis else ()))


def _drawn(areas: Sequence[MultiPolygon]) -> MultiPolygon:
    """The areas as one, thinned for drawing."""
    whole = shapely.simplify(shapely.union_all(list(areas)), COARSE)
    return MultiPolygon([p for p in shapely.get_parts(whole) if p.geom_type == "Polygon" and not p.is_empty])
