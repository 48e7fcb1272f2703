"""Outlines of lines and arcs as Part shapes: wires, faces, blanks and tenons."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, sin
from typing import Any

import FreeCAD
import Part

from freecad_stacklam.lamination.outline import Loop, Outline, arc_of, edges_of, rectangle
from freecad_stacklam.lamination.plan import Cut, JointPlan, LayerPlan
from freecad_stacklam.lamination.tolerances import PLANE_SNAP

# Where FreeCAD 1.0 is imported into a plain Python, Part.makeCompound ends the process; Part.Compound is sound.

Vector = FreeCAD.Vector
#: How far a mortise's tool stands out of the faces it opens, mm, so that no two faces of the cut coincide.
_OVERSHOOT = 1.0


def wire_of(loop: Loop, z: float) -> Any:
    """A closed Part.Wire of straight lines and arcs at height z, mm."""
    edges = []
    for a, b in edges_of(loop):
        start, end = Vector(a[0], a[1], z), Vector(b[0], b[1], z)
        if a[2] == 0.0:
            edges.append(Part.LineSegment(start, end).toShape())
        else:
            cx, cy, radius, first, sweep = arc_of(a, b)
            middle = first + sweep / 2
            top = Vector(cx + radius * cos(middle), cy + radius * sin(middle), z)
            edges.append(Part.Arc(start, top, end).toShape())
    return Part.Wire(edges)


def faces_of(outlines: Sequence[Outline], z: float) -> list[Any]:
    """One flat face per island, with its holes, normal up."""
    faces = []
    for outline in outlines:
        wires = [wire_of(outline.outer, z), *(wire_of(h, z) for h in outline.holes)]
        face = Part.Face(wires, "Part::FaceMakerBullseye") if len(wires) > 1 else Part.Face(wires[0])
        faces.extend(face.Faces)
    return faces


def slab_of(outlines: Sequence[Outline], bottom: float, top: float) -> Any:
    """The islands extruded from `bottom` to `top`: one solid, or a compound of several."""
    solids = [face.extrude(Vector(0, 0, top - bottom)) for face in faces_of(outlines, bottom)]
    return solids[0] if len(solids) == 1 else Part.Compound(solids)


def layer_shape(layer: LayerPlan) -> Any:
    """A layer in the stack's frame: its blank with every cut taken out."""
    blank = slab_of(layer.blank, layer.bottom, layer.top)
    tools = [_tool(cut, layer) for cut in layer.cuts]
    return blank.cut(tools[0] if len(tools) == 1 else Part.Compound(tools)) if tools else blank


def _tool(cut: Cut, layer: LayerPlan) -> Any:
    if cut.outline_end is not None:
        ends = [wire_of(cut.outline.outer, cut.start), wire_of(cut.outline_end.outer, cut.end)]
        return Part.makeLoft(ends, True, True)
    start = cut.start - _OVERSHOOT if cut.start - layer.bottom < PLANE_SNAP else cut.start
    end = cut.end + _OVERSHOOT if layer.top - cut.end < PLANE_SNAP else cut.end
    return slab_of((cut.outline,), start, end)


def placement_of(frame: Sequence[float]) -> Any:
    """A 4 × 4 row-major matrix, stack → model, as a FreeCAD placement."""
    return FreeCAD.Placement(FreeCAD.Matrix(*frame))


def show(obj: Any, shape: Any, placement: Any) -> None:
    """Give an object its shape, placed. Inside execute a shape takes the object's placement, so that is set first."""
    obj.Placement = placement
    obj.Shape = shape


def tenon_shape(joint: JointPlan) -> tuple[Any, Any]:
    """The floating tenon, standing on the origin, and its placement in the model. Its first side runs along the
    model's x, or along y when the axis is x."""
    direction = Vector(*joint.direction)
    across = Vector(1, 0, 0) if abs(direction.x) < 0.9 else Vector(0, 1, 0)
    across = across - direction * across.dot(direction)
    turn = FreeCAD.Rotation(across, direction.cross(across), direction, "ZXY")
    # The forms may stand a hair apart where they meet; the tenon spans that gap too.
    lower = joint.members[0].embed
    gap = joint.tenon.length - sum(m.embed for m in joint.members)
    size = joint.tenon.size
    if joint.section == "round":
        tenon = Part.makeCylinder(size[0] / 2, joint.tenon.length)
    else:
        tenon = slab_of((rectangle(size[0], size[-1]),), 0.0, joint.tenon.length)
    start = Vector(*joint.point) - direction * (lower + gap / 2)
    return tenon, FreeCAD.Placement(start, turn)
