# SPDX-License-Identifier: LGPL-2.1-or-later

"""Outlines of lines and arcs as Part shapes: wires, faces, blanks, tenons, pins and voids."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, sin
from typing import Any

import FreeCAD
import Part

from freecad_stacklam.docobjects.base.properties import set_results
from freecad_stacklam.lamination.joints.axis import section_outline
from freecad_stacklam.lamination.plan.joints import JointPlan, Wedge
from freecad_stacklam.lamination.plan.layers import Cut, LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import Loop, Outline, arc_of, edges_of
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
    start = cut.start - _OVERSHOOT if cut.opens_bottom(layer, PLANE_SNAP) else cut.start
    end = cut.end + _OVERSHOOT if cut.opens_top(layer, PLANE_SNAP) else cut.end
    return slab_of((cut.outline,), start, end)


def placement_of(frame: Sequence[float]) -> Any:
    """A 4 × 4 row-major matrix, stack → model, as a FreeCAD placement."""
    return FreeCAD.Placement(FreeCAD.Matrix(*frame))


def show(obj: Any, shape: Any, placement: Any) -> None:
    """Give an object its shape, placed. Inside execute a shape takes the object's placement, so that is set first."""
    obj.Placement = placement
    obj.Shape = shape


def show_idle(obj: Any, word: str, sentence: str, **empty: Any) -> None:
    """Give an object that does nothing no shape, its word as verdict, the sentence that says why, and empty results."""
    obj.Shape = Part.Shape()
    set_results(obj, {**empty, "Notes": [sentence], "CoverVerdict": word, "Verdict": word})


def pin_shape(stack: StackPlan) -> Any:
    """The holes of the pins in the stack's frame, the looser above; a null shape when there is none."""
    solids = []
    for pin in stack.pins:
        height = stack.layers[pin.interface - 1].top
        low = Part.makeCylinder(pin.radius_below, pin.depth_down, Vector(*pin.centre, height - pin.depth_down))
        solids.append(
            low.fuse(Part.makeCylinder(pin.radius_above, pin.depth_up, Vector(*pin.centre, height))).Solids[0]
        )
    return Part.Compound(solids) if solids else Part.Shape()


def hollow_shape(stack: StackPlan) -> Any:
    """The wood that voids and vents take out of the layers, in the stack's frame; a null shape when there is none."""
    cuts = [cut for layer in stack.layers for cut in layer.cuts if cut.kind == "hollow"]
    return Part.Compound([slab_of((c.outline,), c.start, c.end) for c in cuts]) if cuts else Part.Shape()


def tenon_shape(joint: JointPlan) -> tuple[Any, Any]:
    """The floating tenon, standing on the origin, and its placement in the model; kerfs for wedges are sawn into it."""
    axis = joint.axis
    tenon = slab_of((section_outline(joint.section, joint.tenon.size),), 0.0, joint.tenon.length)
    for member, at_start in ((joint.members[0], True), (joint.members[-1], False)):
        if member.wedge is not None:
            tenon = tenon.cut(Part.Compound(_kerfs(joint, member.wedge, at_start)))
    columns = (axis.side, axis.other, axis.along, axis.point + joint.start * axis.along)
    rows = [[float(c[i]) for c in columns] for i in range(3)]
    return tenon, FreeCAD.Placement(FreeCAD.Matrix(*rows[0], *rows[1], *rows[2], 0, 0, 0, 1))


def _kerfs(joint: JointPlan, wedge: Wedge, at_start: bool) -> list[Any]:
    """The saw kerfs in one end of a tenon that stands on the origin."""
    width, depth = joint.tenon.size[0], joint.tenon.size[-1]
    across = width if wedge.along_first else depth
    kerfs = []
    for offset in wedge.kerfs(across):
        x, y = (wedge.kerf_width, 2 * depth) if wedge.along_first else (2 * width, wedge.kerf_width)
        kerf = Part.makeBox(x, y, wedge.kerf_depth + _OVERSHOOT)
        z = -_OVERSHOOT if at_start else joint.tenon.length - wedge.kerf_depth
        kerf.translate(Vector(offset - x / 2, -y / 2, z) if wedge.along_first else Vector(-x / 2, offset - y / 2, z))
        kerfs.append(kerf)
    return kerfs
