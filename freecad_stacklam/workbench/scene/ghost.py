# SPDX-License-Identifier: LGPL-2.1-or-later

"""A preview in the 3D view: shapes and marks that belong to no document, and vanish with the panel that shows them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import FreeCAD
import FreeCADGui

from freecad_stacklam.docobjects.base.protocols import Document

Colour = tuple[float, float, float]
Triple = tuple[float, float, float]

#: What will be added, and what will be taken away.
ADDED: Colour = (0.45, 0.28, 0.15)
TAKEN: Colour = (0.12, 0.37, 0.62)
VERDICTS: dict[str, Colour] = {"ok": (0.10, 0.45, 0.20), "caution": (0.85, 0.45, 0.0), "stop": (0.80, 0.05, 0.05)}
#: Part of the light that a ghost lets through, and how finely its round faces are drawn, mm.
_CLEAR, _SAG = 0.55, 0.5
#: Width of a line that marks a zone, pixels.
_WIDE = 2.5

_shown: list[tuple[str, Any]] = []


@dataclass(frozen=True)
class Part3D:
    """A shape in its place in the model, and its colour."""

    shape: Any
    colour: Colour = ADDED


@dataclass(frozen=True)
class Spot:
    """A dot at a place in the model with a few words beside it; the verdict gives the colour."""

    place: Triple
    words: str
    verdict: str = "ok"


def show(document: Document, parts: Sequence[Part3D], marks: Sequence[Spot] = ()) -> None:
    """Show these instead of what was shown before, over all else in the document's 3D views."""
    from pivy import coin

    clear()
    node = coin.SoAnnotation()  # drawn last, so that what lies inside the wood is seen
    for part in parts:
        if not part.shape.isNull():
            node.addChild(_body(part))
    for mark in marks:
        node.addChild(mark_node(mark))
    for view in views_of(document.Name):
        view.getSceneGraph().addChild(node)
    _shown.append((document.Name, node))


def clear() -> None:
    """Take away what is shown; once more does no harm."""
    for name, node in _shown:
        for view in views_of(name):
            graph = view.getSceneGraph()
            if graph.findChild(node) >= 0:
                graph.removeChild(node)
    _shown.clear()


def views_of(name: str) -> Iterator[Any]:
    """The document's 3D views; none when it was closed by now."""
    if name in FreeCAD.listDocuments():
        yield from FreeCADGui.getDocument(name).mdiViewsOfType("Gui::View3DInventor")


def _body(part: Part3D) -> Any:
    from pivy import coin

    points, triangles = part.shape.tessellate(_SAG)
    node = coin.SoSeparator()
    colour = coin.SoMaterial()
    colour.diffuseColor.setValue(*part.colour)
    colour.emissiveColor.setValue(*(c / 3 for c in part.colour))
    colour.transparency.setValue(_CLEAR)
    hints = coin.SoShapeHints()  # only what faces the maker is drawn, so that no face shows through another
    hints.vertexOrdering.setValue(coin.SoShapeHints.COUNTERCLOCKWISE)
    hints.shapeType.setValue(coin.SoShapeHints.SOLID)
    corners = coin.SoCoordinate3()
    corners.point.setValues(0, len(points), [(p.x, p.y, p.z) for p in points])
    faces = coin.SoIndexedFaceSet()
    flat = [i for t in triangles for i in (*t, -1)]
    faces.coordIndex.setValues(0, len(flat), flat)
    for child in (colour, hints, corners, faces, _edges(part)):
        node.addChild(child)
    return node


def _edges(part: Part3D) -> Any:
    from pivy import coin

    node = coin.SoSeparator()
    colour = coin.SoBaseColor()
    colour.rgb.setValue(*(0.6 * c for c in part.colour))
    lines = [[(p.x, p.y, p.z) for p in edge.discretize(Deflection=_SAG)] for edge in part.shape.Edges]
    flat = [p for line in lines for p in line]
    corners = coin.SoCoordinate3()
    corners.point.setValues(0, len(flat), flat)
    strips = coin.SoLineSet()
    strips.numVertices.setValues(0, len(lines), [len(line) for line in lines])
    style = coin.SoDrawStyle()
    style.lineWidth.setValue(1.5)
    for child in (colour, style, corners, strips):
        node.addChild(child)
    return node


def mark_node(mark: Spot) -> Any:
    """The Coin node of a mark: a dot of one size at any distance, with its words beside it."""
    from pivy import coin

    node = coin.SoAnnotation()
    place = coin.SoTranslation()
    place.translation.setValue(*mark.place)
    colour = coin.SoBaseColor()
    colour.rgb.setValue(*VERDICTS.get(mark.verdict, VERDICTS["stop"]))
    middle = coin.SoCoordinate3()
    middle.point.setValue(0.0, 0.0, 0.0)
    node.addChild(place)
    node.addChild(colour)
    node.addChild(middle)
    point = coin.SoMarkerSet()
    point.markerIndex.setValue(coin.SoMarkerSet.CIRCLE_FILLED_9_9)
    node.addChild(label_node(mark.words, VERDICTS.get(mark.verdict, VERDICTS["stop"])))
    node.addChild(point)
    return node


def lines_node(ends: Sequence[Triple], verdict: str) -> Any:
    """The Coin node of lines, two ends each, over all else and in the verdict's colour."""
    from pivy import coin

    node = coin.SoAnnotation()
    light, colour, style = coin.SoLightModel(), coin.SoBaseColor(), coin.SoDrawStyle()
    light.model.setValue(coin.SoLightModel.BASE_COLOR)
    colour.rgb.setValue(*VERDICTS.get(verdict, VERDICTS["stop"]))
    style.lineWidth.setValue(_WIDE)
    points, lines = coin.SoCoordinate3(), coin.SoLineSet()
    points.point.setValues(0, len(ends), ends)
    lines.numVertices.setValues(0, len(ends) // 2, [2] * (len(ends) // 2))
    for child in (light, colour, style, points, lines):
        node.addChild(child)
    return node


def label_node(words: str, colour: Colour) -> Any:
    """FreeCAD's own label in a frame, which can be read on any ground; its node is known to Coin by name only."""
    from pivy import coin

    label = coin.SoType.fromName("SoFrameLabel").createInstance()
    red, green, blue = colour
    plain = words.replace("\\", " ").replace('"', "″")
    label.set(f'string "  {plain}  " textColor {red} {green} {blue} backgroundColor 1 1 1 size 12 frame TRUE')
    return label
