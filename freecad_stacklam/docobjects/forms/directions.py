# SPDX-License-Identifier: LGPL-2.1-or-later

"""Directions in the model: those that faces and edges give, and an object's own x, y and z."""

from __future__ import annotations

from typing import Any

import FreeCAD

from freecad_stacklam.docobjects.forms.form import place_of
from freecad_stacklam.lamination.tolerances import NO_DIRECTION, TINY

Triple = tuple[float, float, float]


def direction_of(target: Any, element: str) -> Triple | None:
    """The direction of a face or edge of an object ("Face1", "Body.Face1"), in the model and of length 1: of a flat
    face its normal, of a round one its axis; of a straight edge its line, of a circle its axis. It turns with them and
    is never turned about to point up. None where there is no such face or edge, or it gives no direction."""
    shape = target.getSubObject(element)
    if shape is None or getattr(shape, "isNull", lambda: True)():
        return None
    found = direction_of_shape(shape)
    parent = target.getParentGeoFeatureGroup()
    if found is None or parent is None:
        return found
    return unit(parent.getGlobalPlacement().Rotation.multVec(FreeCAD.Vector(*found)))


def direction_of_shape(shape: Any) -> Triple | None:
    """The same of a face or edge as it lies."""
    direction = None
    if shape.ShapeType == "Face":
        direction = getattr(shape.Surface, "Axis", None)
    elif shape.ShapeType == "Edge":
        direction = getattr(shape.Curve, "Axis", None) or getattr(shape.Curve, "Direction", None)
    return None if direction is None or direction.Length < NO_DIRECTION else unit(direction)


def from_own(source: Any, path: str, axis: Triple) -> Triple:
    """A direction given in an object's own x, y and z, in the model and of length 1. path: to what is meant inside the
    object ("Body.")."""
    return unit(place_of(source, path).Rotation.multVec(FreeCAD.Vector(*axis)))


def into_own(source: Any, path: str, axis: Triple) -> Triple:
    """The way back."""
    return unit(place_of(source, path).Rotation.inverted().multVec(FreeCAD.Vector(*axis)))


def unit(vector: Any) -> Triple:
    """A vector of FreeCAD's with length 1, what is left of rounding taken out."""
    x, y, z = (0.0 if abs(c) < TINY * vector.Length else c / vector.Length for c in (vector.x, vector.y, vector.z))
    whole = next((c for c in (x, y, z) if abs(abs(c) - 1.0) < TINY), None)
    return (x, y, z) if whole is None else (_sign(x), _sign(y), _sign(z))


def _sign(part: float) -> float:
    return float(round(part)) + 0.0
