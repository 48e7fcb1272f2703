# SPDX-License-Identifier: LGPL-2.1-or-later

"""What goes on what, seen from the front: the parts of a set-up drawn apart, glue between them."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.lettering import text_width
from freecad_stacklam.benchsheets.drawing.lines import arrow
from freecad_stacklam.benchsheets.drawing.sheet import NOTE, PLAIN, FilledRegion, Mark, Polyline, Text
from freecad_stacklam.benchsheets.gluing.gluewords import line_name
from freecad_stacklam.benchsheets.gluing.picture import Box, Picture, fit_scale
from freecad_stacklam.benchsheets.gluing.runs import Part, blank_of, intervals, meeting, parts_of, stack_named, triangle
from freecad_stacklam.lamination.form.frame import to_model
from freecad_stacklam.lamination.plan.gluing import Caul, SetUp
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.words import mark, say

Floats = NDArray[np.float64]

#: Beside the view for the names of lines and of layers, below it for the word FRONT, mm of paper.
LINES, NUMBERS, FOOT = 17.0, 15.0, 6.0
#: Between parts that are not yet glued, mm of paper, and the least of it.
GAP, LEAST_GAP = 5.0, 2.6
#: Height and half width of a pad's arrow, mm.
PAD_HIGH, PAD_HALF = 3.2, 1.4
KEY = mark("Slanting thin lines: the triangle in pencil on the FRONT edges. Dashed: cauls. Black triangles: pads.")


def _wide(parts: Sequence[Part], cauls: Sequence[Caul]) -> tuple[float, float]:
    areas = [blank_of(layer) for part in parts for layer in part.layers] + [c.outline for c in cauls]
    box = shapely.total_bounds([area for area in areas if not area.is_empty])
    return float(box[0]), float(box[2])


def side_view(plan: Plan, set_up: SetUp, box: Box) -> Picture:
    """The set-up from the front, at the top of a box of the page. Nothing where the stack is not known.

    The wide line is glue, on the face that is spread; the slanting lines are the triangle on the FRONT edges.
    """
    stack = stack_named(plan, set_up.stack)
    parts = parts_of(stack, set_up) if stack else ()
    if stack is None or not parts:
        return Picture()
    low, high = _wide(parts, set_up.cauls)
    tops = [c for c in set_up.cauls if c.side == "top"]
    feet = [c for c in set_up.cauls if c.side != "top"]
    over, under = (max((c.thickness for c in some), default=0.0) for some in (tops, feet))
    wood = sum(layer.thickness for part in parts for layer in part.layers) + over + under
    gaps = len(parts) - 1
    room_x, room_y = box[2] - box[0] - LINES - NUMBERS, box[3] - box[1] - FOOT - 2 * PAD_HIGH
    n = fit_scale(high - low, wood, room_x, room_y - gaps * LEAST_GAP)
    gap = max(LEAST_GAP, min(GAP, (room_y - wood / n) / gaps)) if gaps else 0.0
    drawn = wood / n + gaps * gap
    x = box[0] + LINES + (room_x - (high - low) / n) / 2 - low / n
    y = box[3] - PAD_HIGH - 1.0 - drawn
    foot = y
    marks: list[Mark] = []
    if under:
        marks += _cauls(feet, x, y, n)
        y += under / n
    strokes = triangle(stack)
    front = {line: _glue(stack, line) for line in set_up.lines}
    for i, part in enumerate(parts):
        down = y - part.layers[0].bottom / n
        marks += _part(part, strokes, x, down, n, x + high / n)
        y = down + part.layers[-1].top / n
        if i < gaps:
            line = part.layers[-1].number
            ends = front.get(line, ())
            marks += [Polyline(((x + a / n, y), (x + b / n, y)), "cut") for a, b in ends]
            edge = x + (ends[0][0] if ends else low) / n
            start = box[0] + LINES - 3.0
            level = y + gap / 2
            words = line_name(set_up, line)
            marks.append(Text((start, level - NOTE / 2), words, NOTE, "right", bold=True, fit=LINES - 4.0))
            marks.append(Polyline(((start + 0.6, level), (edge - 0.6, y)), "fine"))
            y += gap
    if over:
        marks += _cauls(tops, x, y, n)
        y += over / n
    marks += _pads(set_up, x, foot, y, n)
    marks += _words(box, (x + low / n, x + high / n), foot, y)
    return Picture(tuple(marks), n, say(KEY))


def _glue(stack: StackPlan, line: int) -> tuple[tuple[float, float], ...]:
    """Where glue is seen from the front on a line."""
    if not 1 <= line < len(stack.layers):
        return ()
    contact, _ = meeting(stack.layers[line - 1], stack.layers[line])
    return tuple(intervals(contact))


def _part(part: Part, strokes: BaseGeometry, x: float, y: float, n: int, right: float) -> list[Mark]:
    """One part with its layers' numbers beside it; `y` is where the stack's height 0 would lie."""
    marks: list[Mark] = []
    for i, layer in enumerate(part.layers):
        spans = intervals(blank_of(layer))
        boxes = [shapely.box(a, layer.bottom, b, layer.top) for a, b in spans]
        for one in boxes:
            corners = [(x + u / n, y + v / n) for u, v in shapely.get_coordinates(one).tolist()]
            marks.append(Polyline(corners, "mortise" if len(part.layers) == 1 else "thin"))
        for piece in shapely.get_parts(shapely.intersection(strokes, shapely.union_all(boxes))):
            if piece.geom_type == "LineString" and piece.length / n > 0.3:
                marks.append(
                    Polyline([(x + u / n, y + v / n) for u, v in shapely.get_coordinates(piece).tolist()], "thin")
                )
        level, step = y + (layer.bottom + layer.top) / 2 / n, layer.thickness / n
        if step >= NOTE + 0.7 or i % max(1, int((NOTE + 0.7) / step) + 1) == 0:
            height = PLAIN if step >= PLAIN + 1.0 else NOTE
            edge = x + spans[-1][1] / n if spans else right
            marks.append(Polyline(((edge + 0.8, level), (right + 2.0, level)), "fine"))
            marks.append(Text((right + 3.0, level - height / 2), str(layer.number), height, bold=True))
    if len(part.layers) > 1:
        foot, head = part.layers[0].bottom / n, part.layers[-1].top / n
        marks.append(Polyline(((right + 9.0, y + foot + 0.3), (right + 10.2, y + foot + 0.3),
                               (right + 10.2, y + head - 0.3), (right + 9.0, y + head - 0.3)), "thin"))  # fmt: skip
    return marks


def _cauls(cauls: Sequence[Caul], x: float, y: float, n: int) -> list[Mark]:
    marks: list[Mark] = []
    for caul in cauls:
        for a, b in intervals(caul.outline):
            high = caul.thickness / n
            left, right = x + a / n, x + b / n
            marks.append(Polyline(((left, y), (right, y), (right, y + high), (left, y + high)), "hidden", closed=True))
    return marks


def _pads(set_up: SetUp, x: float, foot: float, head: float, n: int) -> list[Mark]:
    """Where clamps press, as black points above and below, those that stand behind one another once."""
    marks: list[Mark] = []
    seen: list[float] = []
    for place in sorted(set_up.places, key=lambda p: p.at[0]):
        at = x + place.at[0] / n
        if seen and at - seen[-1] < 2 * PAD_HALF:
            continue
        seen.append(at)
        for tip, way in ((head + 0.4, 1.0), (foot - 0.4, -1.0)):
            back = tip + way * PAD_HIGH
            marks.append(FilledRegion((((at, tip), (at - PAD_HALF, back), (at + PAD_HALF, back)),)))
    return marks


def _words(box: Box, span: tuple[float, float], foot: float, head: float) -> list[Mark]:
    """UP beside the view, FRONT under it."""
    at = box[0] + 3.0
    middle = (foot + head) / 2
    marks: list[Mark] = []
    marks += arrow((at, middle), 90.0, min(14.0, max(7.0, head - foot)))
    marks.append(
        Text((at - 1.3, middle - text_width(say("UP"), PLAIN, True) / 2), say("UP"), PLAIN, turn=90.0, bold=True)
    )
    marks.append(
        Text(
            ((span[0] + span[1]) / 2, foot - PAD_HIGH - 1.6 - PLAIN),
            say("seen from the FRONT"),
            PLAIN,
            "centre",
            bold=True,
        )
    )
    return marks


def joint_view(plan: Plan, set_up: SetUp, box: Box) -> Picture:
    """The stacks of a joint drawn apart along its axis, the tenon between them, from the front."""
    joint = next((j for j in plan.joints if j.name == set_up.joint), None)
    stacks = [s for name in set_up.stacks if (s := stack_named(plan, name)) is not None]
    if joint is None or not stacks:
        return Picture()
    along = np.asarray(joint.direction, dtype=float)
    order = sorted(stacks, key=lambda s: float(np.mean(_corners(s)[:, :3] @ along)))
    apart = 0.6 * joint.tenon.length
    shapes: list[tuple[str, str, BaseGeometry | None]] = []
    for i, stack in enumerate(order):
        shift = 2 * apart * i * along[[0, 2]]
        shapes += [("thin", stack.name if j == 0 else "", _seen(points, shift))
                   for j, points in enumerate(_by_layer(stack))]  # fmt: skip
    shapes.append(("mortise", say("tenon"), _tenon(joint, apart * along[[0, 2]])))
    bounds = shapely.total_bounds([shape for _, _, shape in shapes if shape is not None])
    room_x, room_y = box[2] - box[0] - 2 * NUMBERS - LINES, box[3] - box[1] - FOOT
    n = fit_scale(float(bounds[2] - bounds[0]), float(bounds[3] - bounds[1]), room_x, room_y)
    x = (box[0] + box[2]) / 2 - (bounds[0] + bounds[2]) / 2 / n
    y = box[3] - 1.0 - bounds[3] / n
    right = x + bounds[2] / n
    marks: list[Mark] = []
    for pen, name, shape in shapes:
        if shape is None:
            continue
        placed = shapely.transform(shape, lambda uv: uv / n + (x, y))
        marks.append(Polyline(shapely.get_coordinates(placed), pen))
        if name:
            level = placed.centroid.y
            marks.append(Polyline(((placed.bounds[2] + 0.8, level), (right + 2.0, level)), "fine"))
            room = max(4.0, box[2] - right - 3.5)
            marks.append(Text((right + 3.0, level - PLAIN / 2), name, PLAIN, bold=True, fit=room))
    words = _words(box, (x + bounds[0] / n, right), y + bounds[1] / n, y + bounds[3] / n)
    return Picture((*marks, *words), n)


def _by_layer(stack: StackPlan) -> list[Floats]:
    """The corners of every layer's blank in the model."""
    found = []
    for layer in stack.layers:
        flat = shapely.get_coordinates(blank_of(layer).convex_hull)
        ends = [np.column_stack([flat, np.full(len(flat), z)]) for z in (layer.bottom, layer.top)]
        found.append(to_model(stack.frame, np.vstack(ends)))
    return found


def _corners(stack: StackPlan) -> Floats:
    return np.vstack(_by_layer(stack))


def _seen(points: Floats, shift: Floats) -> BaseGeometry | None:
    """The outline from the front; None of what has no breadth there."""
    return shapely.get_exterior_ring(shapely.MultiPoint(points[:, [0, 2]] + shift).convex_hull)


def _tenon(joint: JointPlan, shift: Floats) -> BaseGeometry | None:
    size = joint.tenon.size
    a, b = size[0] / 2, size[-1] / 2
    rim = np.array([(-a, -b), (a, -b), (a, b), (-a, b)])
    ends = np.vstack([np.column_stack([rim, np.full(4, at)]) for at in (joint.start, joint.end)])
    return _seen(joint.axis.model(ends), shift)
