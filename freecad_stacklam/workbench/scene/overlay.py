# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a window shows over the model while it is open: rings, arrows, coloured surfaces. Each window has its own, by an
owner's name; nothing of it is kept in the document.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import cos, pi, sin
from typing import Any

import FreeCADGui
import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.workbench.scene.ghost import Colour, Triple, label_node, views_of

#: A mark's colour: dark, and not of wood.
MARK: Colour = (0.05, 0.20, 0.55)
#: Width of its lines, pixels, and corners of a ring.
_WIDE, _CORNERS = 3.0, 48
#: How thick an arrow's shaft and head are, and how long the head, parts of the arrow's length.
_SHAFT, _HEAD, _HEAD_LONG = 0.035, 0.10, 0.28

_shown: dict[str, tuple[str, Any]] = {}


def show(document: Document, nodes: Iterable[Any], owner: str) -> None:
    """Show these instead of what this owner showed before."""
    from pivy import coin

    clear(owner)
    group = coin.SoSeparator()
    through = coin.SoPickStyle()  # what lies behind can still be picked
    through.style.setValue(coin.SoPickStyle.UNPICKABLE)
    group.addChild(through)
    for node in nodes:
        group.addChild(node)
    for view in views_of(document.Name):
        view.getSceneGraph().addChild(group)
    _shown[owner] = (document.Name, group)


def clear(owner: str) -> None:
    """Take away what this owner shows; once more does no harm."""
    name, node = _shown.pop(owner, ("", None))
    for view in views_of(name) if node is not None else ():
        graph = view.getSceneGraph()
        if graph.findChild(node) >= 0:
            graph.removeChild(node)


def shown(owner: str) -> int:
    """How many nodes this owner shows."""
    return int(_shown[owner][1].getNumChildren()) - 1 if owner in _shown else 0


def is_of(node: Any, owner: str) -> bool:
    """Whether a node of a view's graph is what this owner shows."""
    return owner in _shown and node == _shown[owner][1]


def ring_node(place: Triple, radius: float, words: str = "", colour: Colour = MARK) -> Any:
    """A ring round a place that always faces the maker, a cross in it, and words beside it; over all else. mm."""
    from pivy import coin

    turn = [2 * pi * n / _CORNERS for n in range(_CORNERS + 1)]
    lines: list[list[Triple]] = [
        [(radius * cos(a), radius * sin(a), 0.0) for a in turn],
        [(-radius / 2, 0.0, 0.0), (radius / 2, 0.0, 0.0)],
        [(0.0, -radius / 2, 0.0), (0.0, radius / 2, 0.0)],
    ]
    node, facing = _over_all(place, colour), coin.SoVRMLBillboard()
    facing.axisOfRotation.setValue(0.0, 0.0, 0.0)
    facing.addChild(_strips(lines, _WIDE))
    if words:
        beside = coin.SoTranslation()
        beside.translation.setValue(radius, radius, 0.0)
        facing.addChild(beside)
        facing.addChild(label_node(words, colour))
    node.addChild(facing)
    return node


def edges_node(ends: NDArray[np.float64], colour: Colour) -> Any:
    """Lines, (n, 2, 3), thin and without light and shade."""
    return lines_node(ends.tolist(), colour, 1.0)


def lines_node(lines: Sequence[Sequence[Sequence[float]]], colour: Colour, wide: float) -> Any:
    """Lines through their points, so many pixels wide and without light and shade."""
    from pivy import coin

    node = coin.SoSeparator()
    light, paint = coin.SoLightModel(), coin.SoBaseColor()
    light.model.setValue(coin.SoLightModel.BASE_COLOR)
    paint.rgb.setValue(*colour)
    for child in (light, paint, _strips(lines, wide)):
        node.addChild(child)
    return node


def _strips(lines: Sequence[Sequence[Sequence[float]]], wide: float) -> Any:
    from pivy import coin

    node, style, corners, strips = coin.SoSeparator(), coin.SoDrawStyle(), coin.SoCoordinate3(), coin.SoLineSet()
    flat = [point for line in lines for point in line]
    style.lineWidth.setValue(wide)
    corners.point.setValues(0, len(flat), flat)
    strips.numVertices.setValues(0, len(lines), [len(line) for line in lines])
    for child in (style, corners, strips):
        node.addChild(child)
    return node


def arrow_node(tip: Triple, along: Triple, length: float, words: str = "", colour: Colour = MARK) -> Any:
    """An arrow of this length, mm, its tip at a place, that points along a direction, with words at its tail."""
    from pivy import coin

    node = _over_all(tip, colour)
    turn = coin.SoRotation()
    turn.rotation.setValue(coin.SbRotation(coin.SbVec3f(0, 1, 0), coin.SbVec3f(*along)))
    node.addChild(turn)
    head_long = _HEAD_LONG * length
    head, shaft = coin.SoCone(), coin.SoCylinder()
    head.bottomRadius.setValue(_HEAD * length)
    head.height.setValue(head_long)
    shaft.radius.setValue(_SHAFT * length)
    shaft.height.setValue(length - head_long)
    for back, shape in ((head_long / 2, head), (length / 2, shaft)):
        moved = coin.SoTranslation()
        moved.translation.setValue(0.0, -back, 0.0)
        node.addChild(moved)
        node.addChild(shape)
    if words:
        tail = coin.SoTranslation()
        tail.translation.setValue(0.0, -length / 2, 0.0)
        node.addChild(tail)
        node.addChild(label_node(words, colour))
    return node


def _over_all(place: Triple, colour: Colour) -> Any:
    from pivy import coin

    node = coin.SoAnnotation()
    light, paint, moved = coin.SoLightModel(), coin.SoBaseColor(), coin.SoTranslation()
    light.model.setValue(coin.SoLightModel.BASE_COLOR)
    paint.rgb.setValue(*colour)
    moved.translation.setValue(*place)
    for child in (light, paint, moved):
        node.addChild(child)
    return node


def faces_node(corners: NDArray[np.float64], colour: Colour, clear_part: float = 0.0) -> Any:
    """Triangles, (n, 3, 3), in one colour without light and shade, so that it is the legend's."""
    from pivy import coin

    node = coin.SoSeparator()
    light, paint, hints = coin.SoLightModel(), coin.SoMaterial(), coin.SoShapeHints()
    light.model.setValue(coin.SoLightModel.BASE_COLOR)
    paint.diffuseColor.setValue(*colour)
    paint.transparency.setValue(clear_part)
    hints.vertexOrdering.setValue(coin.SoShapeHints.COUNTERCLOCKWISE)
    points, faces = coin.SoCoordinate3(), coin.SoFaceSet()
    flat = corners.reshape(-1, 3).tolist()
    points.point.setValues(0, len(flat), flat)
    faces.numVertices.setValues(0, len(corners), [3] * len(corners))
    for child in (light, paint, hints, points, faces):
        node.addChild(child)
    return node


def walls_node(corners: NDArray[np.float64], colour: Colour, clear_part: float) -> Any:
    """Triangles of a closed block, (n, 3, 3), counter-clockwise from outside, in light and shade; only what faces the
    maker is drawn, so that no wall shows through another of the same block."""
    from pivy import coin

    node = coin.SoSeparator()
    paint, hints = coin.SoMaterial(), coin.SoShapeHints()
    paint.diffuseColor.setValue(*colour)
    paint.emissiveColor.setValue(*(c / 3 for c in colour))
    paint.transparency.setValue(clear_part)
    hints.vertexOrdering.setValue(coin.SoShapeHints.COUNTERCLOCKWISE)
    hints.shapeType.setValue(coin.SoShapeHints.SOLID)
    points, faces = coin.SoCoordinate3(), coin.SoFaceSet()
    flat = corners.reshape(-1, 3).tolist()
    points.point.setValues(0, len(flat), flat)
    faces.numVertices.setValues(0, len(corners), [3] * len(corners))
    for child in (paint, hints, points, faces):
        node.addChild(child)
    return node


def look_at(document: Document, place: Triple, across: float) -> None:
    """Turn no view, but bring this place to the middle of the document's 3D views, `across` mm of the model to see."""
    from pivy import coin

    for view in views_of(document.Name):
        camera = view.getCameraNode()
        away = across
        if camera.isOfType(coin.SoOrthographicCamera.getClassTypeId()):
            camera.height.setValue(across)
        else:
            away = across / 2 / np.tan(camera.heightAngle.getValue() / 2)
        direction = camera.orientation.getValue().multVec(coin.SbVec3f(0, 0, -1)).getValue()
        camera.focalDistance.setValue(away)
        camera.position.setValue(*(p - away * d for p, d in zip(place, direction)))


def select(document: Document, names: Sequence[str]) -> None:
    """Select these objects and nothing else."""
    FreeCADGui.Selection.clearSelection()
    for name in names:
        FreeCADGui.Selection.addSelection(document.Name, name)
