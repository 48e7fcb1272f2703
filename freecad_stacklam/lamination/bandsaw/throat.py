# SPDX-License-Identifier: LGPL-2.1-or-later

"""Whether the blanks go through the band saw: under its guides, and between its blade and its column.

The column stands beside the blade, a throat away. While a line is cut, all wood on that side of it must pass the
column. The column is taken for a wall along the feed at every place of the line, so the room asked for is never too
small; a column is no wall, and a saw may pass a little more. The maker chooses by the way round the line is followed
which side turns to the column: the waste, or the blank.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from freecad_stacklam.lamination.lengths import INCH, format_length
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import Floats, Loop, Outline, sample
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.shop import BandSaw
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.words import mark, say

SOURCE = mark("geometry of the plan, and the shop's own band saw")


@dataclass(frozen=True)
class SawRoom:
    """What a cut line asks of the throat: `room` mm, with the waste turned to the column or the blank."""

    room: float
    waste_to_column: bool
    in_hole: bool


def throat_needed(layer: LayerPlan) -> SawRoom:
    """The throat that the widest going line of a layer needs, each line followed the better way round.

    Every piece of the blank is sawn from a rectangle along its grain that just holds it: wood left round that adds to
    the room. A hole is sawn with the blade joined inside it. A layer without wood needs none.
    """
    most = SawRoom(0.0, True, False)
    for outline in layer.blank:
        corners = _rectangle_round(outline, layer.grain)
        for loop, in_hole in ((outline.outer, False), *((h, True) for h in outline.holes)):
            waste, wood = _beside(loop, corners)
            found = SawRoom(min(waste, wood), waste <= wood, in_hole)
            most = max(most, found, key=lambda r: r.room)
    return most


def room_checks(plan: Plan, saw: BandSaw | None) -> tuple[Check, ...]:
    """For each stack the verdicts on the saw's height and its throat; none for what is not known of the saw."""
    if saw is None:
        return ()

    def shown(mm: float) -> str:
        return format_length(mm, plan.units)

    def up(mm: float) -> str:
        step = INCH / 32 if plan.units == "in" else 1.0
        return shown(float(np.ceil(mm / step - ROUNDING)) * step)

    found = []
    for stack in plan.stacks:
        if saw.height is not None and stack.layers:
            found.append(_height_check(stack, saw.height, shown))
        if saw.throat is not None and stack.layers:
            found.append(_throat_check(stack, saw.throat, shown, up))
    return tuple(found)


def _height_check(stack: StackPlan, height: float, shown: Callable[[float], str]) -> Check:
    thick = max(stack.layers, key=lambda layer: layer.thickness)
    small = thick.thickness > height + ROUNDING
    parts = {"stack": stack.name, "layer": thick.number, "thickness": shown(thick.thickness), "height": shown(height)}
    if small:
        says = say(
            "The thickest blank of {stack}, layer {layer}, is {thickness} thick; the band saw takes {height}: plan "
            "thinner stock or saw it on a larger saw, and follow the saw's manual.",
            **parts,
        )
    else:
        says = say(
            "The thickest blank of {stack}, layer {layer}, is {thickness} thick; the band saw takes {height}.", **parts
        )
    name = say("{stack}: height of the band saw", stack=stack.name)
    return Check(name, "caution" if small else "ok", thick.thickness, height, "mm", say(SOURCE), says)


def _throat_check(stack: StackPlan, throat: float, shown: Callable[[float], str], up: Callable[[float], str]) -> Check:
    rooms = [(throat_needed(layer), layer.number) for layer in stack.layers]
    need, number = max(rooms, key=lambda r: r[0].room)
    small = need.room > throat + ROUNDING
    line = say("a hole") if need.in_hole else say("the outline")
    side = say("the waste") if need.waste_to_column else say("the blank")
    parts = {
        "side": side,
        "line": line,
        "layer": number,
        "stack": stack.name,
        "room": up(need.room),
        "throat": shown(throat),
    }
    if not small:
        says = say(
            "Followed all round with {side} towards the column, {line} of layer {layer} of {stack} needs {room} "
            "between blade and column when it is sawn from the rectangle that just holds it; the band saw has "
            "{throat}.",
            **parts,
        )
    elif need.in_hole:
        says = say(
            "Followed all round with {side} towards the column, {line} of layer {layer} of {stack} needs {room} "
            "between blade and column when it is sawn from the rectangle that just holds it; the band saw has "
            "{throat}: bore and jigsaw the hole, or use a larger saw; follow the saw's manual.",
            **parts,
        )
    else:
        says = say(
            "Followed all round with {side} towards the column, {line} of layer {layer} of {stack} needs {room} "
            "between blade and column when it is sawn from the rectangle that just holds it; the band saw has "
            "{throat}: saw the corners off first where what is in the way is waste, or use a larger saw; follow "
            "the saw's manual.",
            **parts,
        )
    return Check(_throat_name(stack), "caution" if small else "ok", need.room, throat, "mm", say(SOURCE), says)


def throat_known(plan: Plan, stack: StackPlan) -> float | None:
    """The throat of the shop's band saw, mm, as the plan's checks have it; None where it is not known."""
    return next((check.limit for check in plan.checks if check.name == _throat_name(stack)), None)


def _throat_name(stack: StackPlan) -> str:
    return say("{stack}: throat of the band saw", stack=stack.name)


def _rectangle_round(outline: Outline, grain: float) -> Floats:
    """Corners of the least rectangle along the grain (degrees) that holds an outline, (4, 2) mm."""
    turn = np.radians(grain)
    axes = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    points = sample(outline.outer) @ axes.T
    (x0, y0), (x1, y1) = points.min(axis=0), points.max(axis=0)
    return np.asarray(np.array([[x0, y0], [x1, y0], [x1, y1], [x0, y1]]) @ axes)


def _beside(loop: Loop, corners: Floats) -> tuple[float, float]:
    """How far wood reaches beside the line, square to it: on the side of the waste, and on that of the blank, mm."""
    points = sample(loop)
    along = np.roll(points, -1, axis=0) - points
    long = np.hypot(*along.T)
    points, along = points[long > ROUNDING], along[long > ROUNDING] / long[long > ROUNDING, None]
    if not len(points):
        return 0.0, 0.0
    right = np.column_stack([along[:, 1], -along[:, 0]])
    reach = right @ corners.T - np.sum(right * points, axis=1)[:, None]
    return max(0.0, float(reach.max())), max(0.0, float((-reach).max()))
