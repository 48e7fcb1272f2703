# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a joint takes out of each layer, and how much the tenon moves in it over the season."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import ceil

import numpy as np
import shapely

from freecad_stacklam.lamination.boards.sawncut import FLAT, QUARTER
from freecad_stacklam.lamination.form.frame import direction_to_stack, to_stack
from freecad_stacklam.lamination.joints.axis import outline_at, section_outline
from freecad_stacklam.lamination.plan.jointaxis import JointAxis
from freecad_stacklam.lamination.plan.joints import JointMember, JointPlan
from freecad_stacklam.lamination.plan.layers import Cut, LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import Outline, polygon_of, sample
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import LEAST_CUT, NO_AREA, PLANE_SNAP, WHOLE
from freecad_stacklam.lamination.wood.species import Species, movement_coefficient
from freecad_stacklam.lamination.words import mark, say

#: Relief is cut in steps of this, mm, always upwards.
RELIEF_STEP = 0.1


def cut_layers(stack: StackPlan, joint: JointPlan) -> StackPlan:
    """The same stack with the joint's mortise cut into each layer that it crosses.

    In the layer that holds an open face the mortise runs on through the waste, so that it can be cut from the open
    side. Asked again, the joint's own cuts are made anew. Raises Refusal where a waste tab stands in its way.
    """
    member = next((m for m in joint.members if m.stack == stack.name), None)
    if member is None:
        return stack
    axis = joint.axis
    start, end = through_waste(stack, joint, member)
    _keep_tabs_off(stack, joint, member, start, end)
    down, up = _points(stack, joint, member)
    layers = []
    for layer in stack.layers:
        kept = tuple(c for c in layer.cuts if c.joint != joint.name)
        low, high = max(start, layer.bottom), min(end, layer.top)
        if high - low > LEAST_CUT:
            outline = _relieved(joint, member, axis, stack, layer)
            first, second = (outline_at(axis, stack.frame, outline, z) for z in (low, high))
            moved = np.array(first.outer.points) - np.array(second.outer.points)
            tilted = float(np.abs(moved).max()) > PLANE_SNAP
            made = Cut("mortise", first, low, high, joint.name, second if tilted else None)
            kept = (*kept, replace(made, point_down=down if low == start else 0.0, point_up=up if high == end else 0.0))
        layers.append(replace(layer, cuts=kept) if kept != layer.cuts else layer)
    return replace(stack, layers=tuple(layers))


_BELOW = mark(
    "A waste tab of layer {layer} of {stack} lies below the open end of the mortise of {joint}, where chisel, "
    "tenon and wedges go in: give the tab another direction or aside, or leave it off this layer."
)
_ABOVE = mark(
    "A waste tab of layer {layer} of {stack} lies above the open end of the mortise of {joint}, where chisel, "
    "tenon and wedges go in: give the tab another direction or aside, or leave it off this layer."
)
_IN = mark(
    "A waste tab of layer {layer} of {stack} lies in the mortise of {joint}, where chisel, tenon and wedges go "
    "in: give the tab another direction or aside, or leave it off this layer."
)


def _keep_tabs_off(stack: StackPlan, joint: JointPlan, member: JointMember, start: float, end: float) -> None:
    """Raises Refusal where a tab lies over or under an open end of the mortise, or in it: chisel, tenon and wedges go
    in there along the axis, and the walls are flared for the wedges."""
    open_low, open_high = _open_ends(stack, joint, member)
    flare, first = (member.wedge.flare, member.wedge.along_first) if member.wedge is not None else (0.0, True)
    room = section_outline(joint.section, joint.size, (flare, 0.0) if first else (0.0, flare))
    for layer in stack.layers:
        below, above = layer.top <= start + LEAST_CUT, layer.bottom >= end - LEAST_CUT
        if not layer.tabs or (below and not open_low) or (above and not open_high):
            continue
        ends = [polygon_of(outline_at(joint.axis, stack.frame, room, z)) for z in (layer.bottom, layer.top)]
        passes = shapely.union_all(ends).convex_hull
        if any(shapely.intersection(passes, tab.area).area > NO_AREA for tab in layer.tabs):
            words = _BELOW if below else _ABOVE if above else _IN
            raise Refusal(say(words, layer=layer.number, stack=stack.name, joint=joint.name))


def _relieved(joint: JointPlan, member: JointMember, axis: JointAxis, stack: StackPlan, layer: LayerPlan) -> Outline:
    """The section with the relief on this layer's two end-grain walls."""
    on_first = grain_side(axis, stack, layer.grain) == 0
    return section_outline(joint.section, joint.size, (member.relief, 0.0) if on_first else (0.0, member.relief))


def through_waste(stack: StackPlan, joint: JointPlan, member: JointMember) -> tuple[float, float]:
    """Heights of the mortise with the waste beyond the form's own faces counted in, to the layer's face."""
    start, end = member.start, member.end
    open_low, open_high = _open_ends(stack, joint, member)
    if open_low:
        start = max(
            (layer.bottom for layer in stack.layers if layer.bottom <= start + LEAST_CUT),
            default=stack.layers[0].bottom,
        )
    if open_high:
        end = min((layer.top for layer in stack.layers if layer.top >= end - LEAST_CUT), default=stack.height)
    return start, end


def ends_on_glue_line(stack: StackPlan, member: JointMember) -> bool:
    """Whether a stopped mortise has its bottom on a glue line of its stack."""
    inner = [layer.top for layer in stack.layers[:-1]]
    return not member.through and any(abs(z - end) < LEAST_CUT for z in inner for end in (member.start, member.end))


def _open_ends(stack: StackPlan, joint: JointPlan, member: JointMember) -> tuple[bool, bool]:
    """Whether the mortise opens downwards, and upwards."""
    meet = float(to_stack(stack.frame, np.array([joint.point]))[0, 2])
    low = member.through or abs(member.start - meet) < abs(member.end - meet)
    return low, member.through or not low


def _points(stack: StackPlan, joint: JointPlan, member: JointMember) -> tuple[float, float]:
    """How far the bit's point goes below and above the mortise, mm: beyond its closed end, unless that lies on a glue
    line, for there the layer is bored through by itself."""
    lead = max((row.point for row in joint.drilling if row.stack == stack.name), default=0.0)
    if member.through or ends_on_glue_line(stack, member):
        return 0.0, 0.0
    open_low, open_high = _open_ends(stack, joint, member)
    return (0.0 if open_low else lead), (0.0 if open_high else lead)


def mortise_span(stack: StackPlan, axis: JointAxis, plan: Outline, span: tuple[float, float]) -> tuple[float, float]:
    """Heights in the stack between which the prism of `plan` runs from span[0] to span[1] along the axis."""
    flat = sample(plan.outer)
    ends = np.concatenate([np.column_stack([flat, np.full(len(flat), along)]) for along in span])
    z = to_stack(stack.frame, axis.model(ends))[:, 2]
    return float(z.min()), float(z.max())


def grain_side(axis: JointAxis, stack: StackPlan, grain: float | None = None) -> int:
    """Which of the section's two directions lies nearer to the layers' grain: 0 the first side, 1 the second."""
    turn = np.radians(stack.layers[0].grain if grain is None else grain)
    along = np.array([np.cos(turn), np.sin(turn), 0.0])
    first, second = (abs(float(direction_to_stack(stack.frame, d) @ along)) for d in (axis.side, axis.other))
    return 0 if first >= second else 1


def movements(
    along: float, across: float, tenon: Species | None, layer: Species | None, swing: float, cut: str = ""
) -> tuple[float | None, float | None]:
    """How much a tenon moves in its mortise over a swing of `swing` % points of moisture, mm.

    along, across: the tenon's sizes along and across the layers' grain. Along it the mortise does not move:
    size · C · swing. Across it both do, size · |C − C′| · swing, at worst a tangential face against a radial one. cut:
    how the layers' boards are sawn, where that is known: flat-sawn ones move tangentially in their width, quarter-sawn
    ones radially; how the tenon lies in its board is the maker's choice and not known. C by
    Eq. 13-2 of FPL-GTR-282 (2021) from total shrinkage. None: the shrinkage is not known.
    """
    if tenon is None or not tenon.shrink_tangential:
        return None, None
    free = along * movement_coefficient(tenon.shrink_tangential) * swing
    if layer is None or not layer.shrink_tangential or not layer.shrink_radial or not tenon.shrink_radial:
        return free, None
    either = (layer.shrink_radial, layer.shrink_tangential)
    widths = {FLAT: either[1:], QUARTER: either[:1]}.get(cut, either)
    worst = max(
        abs(movement_coefficient(mine) - movement_coefficient(theirs))
        for mine in (tenon.shrink_radial, tenon.shrink_tangential)
        for theirs in widths
    )
    return free, across * worst * swing


def moving(
    member: JointMember, axis: JointAxis, stack: StackPlan, size: Sequence[float], tenon: Species | None,
    layers: Species | None, swing: float,
) -> JointMember:  # fmt: skip
    """The member with its movement over a swing of `swing` % points of moisture.

    size: of the mortise, mm. tenon, layers: their wood. By how the stack's boards are sawn, where its movement knows
    it: the layers move along the tenon as in their thickness, radially where they are flat sawn, else tangentially.
    """
    cut = stack.movement.cut if stack.movement is not None else ""
    thick = None if layers is None else layers.shrink_tangential
    if layers is not None and cut == FLAT and layers.shrink_radial:
        thick = layers.shrink_radial
    side = grain_side(axis, stack)
    along, across = movements(
        size[side if len(size) == 2 else 0], size[1 - side if len(size) == 2 else 0], tenon, layers, swing, cut
    )
    height = member.embed * movement_coefficient(thick) * swing if thick else None
    return replace(member, movement_along=along, movement_across=across, movement_height=height)


def as_sawn(joint: JointPlan, stacks: Mapping[str, StackPlan], table: Mapping[str, Species]) -> JointPlan:
    """The same joint with its movement told anew, once it is known how the boards of its stacks are sawn."""
    tenon = table.get(joint.tenon.species)
    members = [
        moving(m, joint.axis, stacks[m.stack], joint.size, tenon, table.get(stacks[m.stack].species), joint.swing)
        for m in joint.members
    ]
    return replace(joint, members=tuple(members))


def relief_for(along: float | None, clearance: float) -> float:
    """Relief on each of the two end-grain walls, mm: half of the movement less the clearance, rounded up."""
    if along is None or along / 2 <= clearance:
        return 0.0
    return ceil((along / 2 - clearance) / RELIEF_STEP - WHOLE) * RELIEF_STEP
