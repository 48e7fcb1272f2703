# SPDX-License-Identifier: LGPL-2.1-or-later

"""The deep check drawn on the form: a ring, an arrow, and the surface in the colours of a map."""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot
from typing import Any

import numpy as np

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.quantities import format_force
from freecad_stacklam.workbench.scene import apart, overlay
from freecad_stacklam.workbench.scene.deepmap import Picture
from freecad_stacklam.workbench.scene.setups import drawn_around
from freecad_stacklam.workbench.scene.skin import creases, finer, spacing_of, values_at

OWNER = "deep check"
#: Radius of the ring and length of the arrow, parts of the model's size.
RING, ARROW = 0.035, 0.2
#: How far a map's point colours the surface, and how small its triangles are cut, times the spacing of its points.
_REACH, _CUT = 2.5, 2.0
#: Where a map says nothing the form is drawn so, and this part of the light goes through.
_UNASKED: overlay.Colour = (0.55, 0.58, 0.62)
_CLEAR = 0.75
#: Edges of the form at which it turns by more than so many degrees are drawn, in this colour.
_CREASE, _EDGE = 25.0, (0.25, 0.22, 0.20)


def size_of(meshes: Mapping[str, Mesh]) -> float:
    """The longest side of the whole model, mm."""
    corners = np.concatenate([mesh.vertices for mesh in meshes.values()])
    return float((corners.max(axis=0) - corners.min(axis=0)).max())


def show(document: Document, picture: Picture, meshes: Mapping[str, Mesh], units: str = "mm") -> None:
    """Draw a picture instead of the one before. meshes: the forms in the model. A coloured surface stands alone: forms
    and layers are out of sight until it goes."""
    size = size_of(meshes)
    nodes = [] if picture.map is None else _coloured(picture, meshes)
    spot = picture.spot
    if spot is not None:
        nodes.append(overlay.ring_node(spot.place, RING * size, f"{100 * spot.index:.0f} %"))
    if spot is not None and picture.load and any(spot.force):
        force = hypot(*spot.force)
        nodes.append(overlay.arrow_node(spot.load_place, spot.force, ARROW * size, format_force(force, units)))
    if picture.map is None:
        apart.clear(OWNER)
    else:
        apart.show(document, dict.fromkeys(drawn_around(document)), OWNER)
    overlay.show(document, nodes, OWNER)


def clear() -> None:
    """Take the picture away."""
    overlay.clear(OWNER)
    apart.clear(OWNER)


def _coloured(picture: Picture, meshes: Mapping[str, Mesh]) -> list[Any]:
    assert picture.map is not None and picture.bands is not None
    points = np.array(picture.map.points, dtype=np.float64)
    spacing = spacing_of(points) or 1.0
    faces = np.concatenate([finer(m.vertices, m.triangles, _CUT * spacing) for m in meshes.values()])
    values = values_at(faces.mean(axis=1), points, picture.map.values, _REACH * spacing)
    asked = np.isfinite(values)
    band = np.full(len(faces), -1)
    band[asked] = picture.bands.of(values[asked])
    nodes = [
        overlay.faces_node(faces[band == n], colour)
        for n, colour in enumerate(picture.bands.colours) if (band == n).any()
    ]  # fmt: skip
    ends = np.concatenate([creases(m.vertices, m.triangles, _CREASE) for m in meshes.values()])
    if len(ends):
        nodes.append(overlay.edges_node(ends, _EDGE))
    if not asked.all():
        nodes.append(overlay.faces_node(faces[~asked], _UNASKED, _CLEAR))
    return nodes
