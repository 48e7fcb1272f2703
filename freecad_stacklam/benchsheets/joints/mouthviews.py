# SPDX-License-Identifier: LGPL-2.1-or-later

"""The mortises of a joint as they are laid out: each on the face it is bored from, as cut, with FRONT beside it."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, cos, degrees, hypot, radians

import numpy as np
import shapely.affinity
from numpy.typing import NDArray
from shapely import Polygon

from freecad_stacklam.benchsheets.drawing.lettering import Units, bit_number, number
from freecad_stacklam.benchsheets.drawing.lines import arrow
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, FilledRegion, Mark, Polyline, Text
from freecad_stacklam.benchsheets.joints.jointwords import members_of
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import Cut, StackPlan
from freecad_stacklam.lamination.plan.outline import Outline, polygon_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.words import say

#: Caption over a view; the triangle and the word FRONT under it; the grain's arrow beside it; mm.
_OVER, _UNDER, _BESIDE = 6.5, 7.0, 20.0
#: The triangle's height and half its width; the centre lines stand out so far; length of the grain's arrow; mm.
_TRIANGLE, _WING, _OUT, _ARROW = 3.5, 2.1, 2.0, 10.0


@dataclass(frozen=True)
class MouthView:
    """A mortise in one member. `shape` lies about the joint's axis, mm, as seen on the face that is laid out, FRONT
    below; `grain` of the layer there, degrees to the left from the page's x."""

    stack: str
    seen: str
    size: str
    shape: Polygon
    grain: float

    @property
    def half(self) -> tuple[float, float]:
        """How far it goes from the axis, sideways and up, mm."""
        x0, y0, x1, y1 = self.shape.bounds
        return max(-x0, x1), max(-y0, y1)


def _size(joint: JointPlan, outline: Outline, units: Units) -> str:
    x0, y0, x1, y1 = polygon_of(outline).bounds
    across, deep = x1 - x0, y1 - y0
    points = outline.outer.points
    if joint.section == "round":
        a, b = number(across, units), number(deep, units)
        return f"Ø {bit_number(joint.size[0], units)}" if a == b else f"{a} × {b}"
    if len(points) == 4:
        ways = [(points[i + 1][0] - points[i][0], points[i + 1][1] - points[i][1]) for i in (0, 1)]
        ways.sort(key=lambda way: abs(degrees(atan2(way[1], way[0]) % radians(180.0)) - 90.0), reverse=True)
        across, deep = (hypot(*way) for way in ways)
    return f"{number(across, units)} × {number(deep, units)}"


def _mouth(stack: StackPlan, joint: JointPlan, below: bool) -> tuple[Cut, Outline, float] | None:
    """The cut that opens on the bored face, its outline there, and the grain of its layer."""
    found = [(layer, cut) for layer in stack.layers for cut in layer.cuts if cut.joint == joint.name]
    found = [(layer, cut) for layer, cut in found if cut.kind == "mortise"]
    if not found:
        return None
    layer, cut = found[0] if below else found[-1]
    return cut, cut.outline if below or cut.outline_end is None else cut.outline_end, layer.grain


def mouth_views(plan: Plan, joint: JointPlan, units: Units) -> list[MouthView]:
    """The mortise of every member, on the face that the boring table names; as seen looking down on that face, a face
    below once the wood is turned over left for right, so that FRONT is in front in all of them."""
    views = []
    for _, stack in members_of(plan, joint):
        below = any(row.stack == stack.name and row.side == "bottom" for row in joint.drilling)
        found = _mouth(stack, joint, below)
        if found is None:
            continue
        _, outline, grain = found
        shape = polygon_of(outline)
        at: NDArray[np.float64] = np.array(shape.envelope.centroid.coords[0])
        shape = shapely.affinity.translate(shape, *(-at))
        if below:
            shape, grain = shapely.affinity.scale(shape, -1.0, 1.0, origin=(0.0, 0.0)), 180.0 - grain
        seen = say("from below, turned over") if below else say("from above")
        views.append(MouthView(stack.name, seen, _size(joint, outline, units), shape, grain))
    return views


def room_for(views: list[MouthView], n: int, width: float) -> float:
    """Height of the row of views at 1:n, mm; infinite where they do not go into `width` mm."""
    if not views:
        return 0.0
    cell = width / len(views)
    if any(2 * (view.half[0] / n + _BESIDE) > cell for view in views):
        return float("inf")
    return _OVER + _UNDER + 2 * max(view.half[1] for view in views) / n


def mouth_marks(views: list[MouthView], x: float, top: float, width: float, n: int) -> list[Mark]:
    """The row of views at 1:n under page height `top`, from page x on."""
    marks: list[Mark] = []
    tall = max((view.half[1] for view in views), default=0.0) / n
    for i, view in enumerate(views):
        cell = width / len(views)
        at, y = x + (i + 0.5) * cell, top - _OVER - tall
        fit = cell - 4.0
        words = say("mortise in {stack}, {size}, {seen}", stack=view.stack, size=view.size, seen=view.seen)
        marks.append(Text((at, top - PLAIN), words, PLAIN, "centre", fit=fit))
        corners = np.asarray(view.shape.exterior.coords)[:-1] / n + (at, y)
        marks.append(Polyline(tuple((float(a), float(b)) for a, b in corners), "mortise", closed=True))
        across, high = view.half[0] / n, view.half[1] / n
        marks.append(Polyline(((at - across - _OUT, y), (at + across + _OUT, y)), "centre"))
        marks.append(Polyline(((at, y - high - _OUT), (at, y + high + 1.0)), "centre"))
        tip = y - high - _OUT - _TRIANGLE
        marks.append(FilledRegion((((at, tip), (at - _WING, tip + _TRIANGLE), (at + _WING, tip + _TRIANGLE)),)))
        marks.append(Text((at + _WING + 2.0, tip + 0.4), say("FRONT"), PLAIN, bold=True))
        reach = abs(cos(radians(view.grain))) * _ARROW / 2
        beside = at + across + _OUT + 2.0 + reach
        marks += arrow((beside, y), view.grain, _ARROW, both=True)
        marks.append(Text((beside + reach + 1.5, y - 1.0), say("grain"), PLAIN, fit=_BESIDE))
    return marks
