# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where two stacks meet around a tenon, what waste keeps them apart, and what is measured to see them square.

Plans of a joint lie in its own frame, across its axis; heights in a stack are the stack's own, mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import dist

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString, MultiPolygon

from freecad_stacklam.lamination.form.frame import direction_to_stack, to_model, to_stack
from freecad_stacklam.lamination.joints.axis import section_outline
from freecad_stacklam.lamination.joints.mortise import through_waste
from freecad_stacklam.lamination.lengths import format_length
from freecad_stacklam.lamination.plan.areas import areas_of, blank_area
from freecad_stacklam.lamination.plan.jointaxis import JointAxis
from freecad_stacklam.lamination.plan.joints import JointMember, JointPlan
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import polygon_of
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.words import mark, say

Floats = NDArray[np.float64]
#: Layers whose grain is turned by less than this, degrees, may be glued face to face (common practice, no source).
ALIKE = 15.0
#: A stack whose axis leans further from upright than this (its cosine) has no rim to measure a height at.
_UPRIGHT = 0.7
#: Directions of the model, as the drawings name them.
_SIDES = {"RIGHT": (1.0, 0.0, 0.0), "back": (0.0, 1.0, 0.0), "left": (-1.0, 0.0, 0.0), "FRONT": (0.0, -1.0, 0.0)}
_OPPOSITE = {"RIGHT": mark("left"), "left": mark("RIGHT"), "FRONT": mark("back"), "back": mark("FRONT")}


@dataclass(frozen=True)
class JointSeat:
    """Where two neighbours of a joint meet. `contact` is the wood of both at the mouth, less the mortise; `outline`
    all their blanks together, both in the joint's plan; `height` from the lowest to the highest along the axis, cuts
    not counted. `alike`: whether their grain there runs the same way."""

    contact: MultiPolygon
    outline: MultiPolygon
    height: float
    alike: bool

    def reach(self, pad: float) -> float:
        """Least throat of a clamp that reaches round both and sets its pad over the contact, mm: from the outline to
        the nearest place where a pad lies on it whole, or to its middle where it is smaller than a pad."""
        inner = self.contact.buffer(-pad / 2)
        to = inner if not inner.is_empty else self.contact.centroid
        return 0.0 if self.contact.is_empty else float(shapely.distance(self.outline.boundary, to))


def along_axis(axis: JointAxis, stack: StackPlan, height: float) -> float:
    """Where the axis passes a height of the stack: mm along it from the joint's point."""
    at = to_stack(stack.frame, axis.point[None, :])[0]
    rise = float(direction_to_stack(stack.frame, axis.along)[2])
    return (height - float(at[2])) / rise if abs(rise) > ROUNDING else 0.0


def seat_of(joint: JointPlan, one: JointMember, other: JointMember, first: StackPlan, second: StackPlan) -> JointSeat:
    """Where the two neighbours meet. first, second: the members' stacks."""
    axis = joint.axis
    layers = _mouth(joint, one, first, other, second), _mouth(joint, other, second, one, first)
    mine, theirs = (_flat(axis, stack, layer, height) for stack, (layer, height) in zip((first, second), layers))
    hole = polygon_of(section_outline(joint.section, joint.size))
    outlines, ends = [], []
    for stack in (first, second):
        for layer in stack.layers:
            outlines.append(_flat(axis, stack, layer, layer.bottom))
            ends += [along_axis(axis, stack, layer.bottom), along_axis(axis, stack, layer.top)]
    turns = [_grain(axis, stack, layer) for stack, (layer, _) in zip((first, second), layers)]
    apart = abs(turns[0] - turns[1]) % 180.0
    return JointSeat(
        areas_of(mine.intersection(theirs).difference(hole)), areas_of(shapely.union_all(outlines)),
        max(ends) - min(ends), min(apart, 180.0 - apart) <= ALIKE,
    )  # fmt: skip


def seat_waste(joint: JointPlan, one: JointMember, other: JointMember, first: StackPlan, second: StackPlan) -> float:
    """Waste of `first` above its own face of the seat, mm along its axis: it is cut away before the stacks can meet."""
    start, end = through_waste(first, joint, one)
    return end - one.end if _opens_up(joint, one, first, other, second) else one.start - start


def tenon_below(joint: JointPlan, member: JointMember, stack: StackPlan) -> float:
    """How far a through tenon ends below the rough face of its stack, mm along the stack; 0 where it does not."""
    if not member.through or joint.end - joint.start <= ROUNDING:
        return 0.0
    if member.wedge is not None:
        return max(0.0, member.wedge.buried)
    axis, (start, end) = joint.axis, through_waste(stack, joint, member)
    faces = sorted((along_axis(axis, stack, start), along_axis(axis, stack, end)))
    return max(0.0, joint.start - faces[0] if joint.members[0] is member else faces[1] - joint.end)


def _opens_up(joint: JointPlan, one: JointMember, first: StackPlan, other: JointMember, second: StackPlan) -> bool:
    """Whether the mortise of `one` meets `other` at its upper end."""
    middle = sum(along_axis(joint.axis, second, h) for h in (other.start, other.end)) / 2
    ends = [abs(along_axis(joint.axis, first, h) - middle) for h in (one.start, one.end)]
    return ends[1] <= ends[0]


def _mouth(
    joint: JointPlan, one: JointMember, first: StackPlan, other: JointMember, second: StackPlan
) -> tuple[LayerPlan, float]:
    """The layer of `first` at the seat, and the height of the seat in it."""
    if _opens_up(joint, one, first, other, second):
        found = next((x for x in first.layers if x.bottom < one.end - ROUNDING <= x.top), first.layers[-1])
        return found, one.end
    found = next((x for x in reversed(first.layers) if x.bottom <= one.start + ROUNDING < x.top), first.layers[0])
    return found, one.start


def _flat(axis: JointAxis, stack: StackPlan, layer: LayerPlan, height: float) -> shapely.Geometry:
    """A layer's blank in the joint's plan."""

    def turned(points: Floats) -> Floats:
        lifted = np.column_stack([points, np.full(len(points), height)])
        return axis.local(to_model(stack.frame, lifted))[:, :2]

    return shapely.make_valid(shapely.transform(blank_area(layer.without_tabs), turned))


def _grain(axis: JointAxis, stack: StackPlan, layer: LayerPlan) -> float:
    """Direction of a layer's grain in the joint's plan, degrees."""
    turn = np.radians(layer.grain)
    along = to_model(stack.frame, np.array([[np.cos(turn), np.sin(turn), 0.0], [0.0, 0.0, 0.0]]))
    way = along[0] - along[1]
    return float(np.degrees(np.arctan2(way @ axis.other, way @ axis.side)))


# --- square -----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Squareness:
    """What is measured while the glue is soft. `heights`: side → height, mm, of the upper stack's lowest edge there
    above the floor on which the lower stands; `diagonals`: side of the foot → mm from its edge there to the opposite
    edge above. All as the plan has them, in the model."""

    lower: str
    upper: str
    heights: tuple[tuple[str, float], ...]
    diagonals: tuple[tuple[str, float], ...]


def squareness_of(joint: JointPlan, lower: StackPlan, upper: StackPlan) -> Squareness | None:
    """Four heights of the rim above the floor and four diagonals, through the joint's axis. None where a stack does not
    stand upright, or the axis does not meet its edge faces."""
    foot, rim = _rim(joint, lower), _rim(joint, upper)
    if foot is None or rim is None:
        return None
    floor = floor_of(lower)
    return Squareness(
        lower.name, upper.name, tuple((side, rim[side][2] - floor) for side in _SIDES),
        tuple((side, dist(foot[side], rim[_OPPOSITE[side]])) for side in _SIDES),
    )  # fmt: skip


def squareness_words(square: Squareness, units: str) -> str:
    """One sentence with all its figures."""
    heights = ", ".join(f"{say(side)} {format_length(h, units)}" for side, h in square.heights)
    crossed = ", ".join(
        say(
            "{side} to {opposite} {length}",
            side=say(side),
            opposite=say(_OPPOSITE[side]),
            length=format_length(d, units),
        )
        for side, d in square.diagonals
    )
    return say(
        "Square it while the glue is soft, {lower} on a flat bench, both as sawn: from the bench up to "
        "the lower edge of {upper}: {heights}; across, from the edge of the foot to the opposite lower "
        "edge above: {crossed}.",
        lower=square.lower,
        upper=square.upper,
        heights=heights,
        crossed=crossed,
    )


def floor_of(stack: StackPlan) -> float:
    """Height in the model of the lowest place of a stack's blanks."""
    return float(min(_points(stack, layer, z)[:, 2].min() for layer in stack.layers for z in (layer.bottom, layer.top)))


def _points(stack: StackPlan, layer: LayerPlan, height: float) -> Floats:
    flat = shapely.get_coordinates(blank_area(layer.without_tabs))
    return to_model(stack.frame, np.column_stack([flat, np.full(len(flat), height)]))


def _rim(joint: JointPlan, stack: StackPlan) -> dict[str, tuple[float, float, float]] | None:
    """Side → the outermost place of the stack's lowest face there, in the model."""
    up = direction_to_stack(stack.frame, (0.0, 0.0, 1.0))
    if abs(float(up[2])) < _UPRIGHT:
        return None
    layer, height = (stack.layers[0], stack.layers[0].bottom) if up[2] > 0 else (stack.layers[-1], stack.layers[-1].top)
    shape = blank_area(layer.without_tabs)
    x0, y0, x1, y1 = shape.bounds
    axis = joint.axis
    at = to_stack(stack.frame, (axis.point + axis.along * along_axis(axis, stack, height))[None, :])[0, :2]
    far = 2 * (x1 - x0 + y1 - y0) + float(np.abs(at).sum())
    found = {}
    for side, way in _SIDES.items():
        ray = direction_to_stack(stack.frame, way)[:2]
        met = shapely.get_coordinates(LineString([at, at + far * ray / np.hypot(*ray)]).intersection(shape.boundary))
        if not len(met):
            return None
        out = met[int(np.argmax(((met - at) ** 2).sum(axis=1)))]
        x, y, z = to_model(stack.frame, np.array([[out[0], out[1], height]]))[0].tolist()
        found[side] = (x, y, z)
    return found


def lowest_first(stacks: Sequence[StackPlan]) -> list[StackPlan]:
    """The stacks from the floor up."""
    return sorted(stacks, key=floor_of)
