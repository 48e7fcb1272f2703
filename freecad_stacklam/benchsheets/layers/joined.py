# SPDX-License-Identifier: LGPL-2.1-or-later

"""Stacks that joints hold together, at their true places, from the front and from the right."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.dimension import chain
from freecad_stacklam.benchsheets.drawing.lettering import length_text, text_width
from freecad_stacklam.benchsheets.drawing.lines import rings
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, PLAIN, STRONG, Mark, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.layers.overview import fit_scale
from freecad_stacklam.benchsheets.pages.labels import Places
from freecad_stacklam.benchsheets.pages.strip import drawing_space, joined, plain_strip, sheet_line
from freecad_stacklam.lamination.form.frame import to_model
from freecad_stacklam.lamination.names import letters
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.tolerances import SAME_LINE
from freecad_stacklam.lamination.words import say, say_many

Floats = NDArray[np.float64]

#: Room left of and below each view for its dimensions, right of it for names, above it for its caption; mm of paper.
LEFT, BELOW, RIGHT, CAPTION = 18.0, 16.0, 12.0, 12.0
#: From a view to its dimension line, mm; room above the views for the heading and below them for the tenons.
AWAY, HEADING, TENONS = 9.0, 14.0, 5.0
#: Rows of tenons at the most; more are on their joint sheets.
MOST_ROWS = 8


def groups(plan: Plan) -> list[list[StackPlan]]:
    """The stacks of each piece that joints hold together, in the plan's order; none for stacks that stand alone."""
    member_of = {stack.name: {stack.name} for stack in plan.stacks}
    for joint in plan.joints:
        names = set().union(*(member_of[m.stack] for m in joint.members if m.stack in member_of))
        member_of.update(dict.fromkeys(names, names))
    found: list[list[StackPlan]] = []
    for stack in plan.stacks:
        if len(member_of[stack.name]) > 1 and not any(stack in group for group in found):
            found.append([s for s in plan.stacks if s.name in member_of[stack.name]])
    return found


def silhouette(stack: StackPlan, coordinate: int) -> BaseGeometry:
    """A stack in the model from the front (0: x, z) or from the right (1: y, z): its form's silhouette, or where
    that is not known what its layers reach at their faces."""
    if stack.in_model:
        return stack.in_model[coordinate].silhouette
    parts = []
    for layer in stack.layers:
        flat = shapely.get_coordinates(layer.shadow)
        ends = [np.column_stack([flat, np.full(len(flat), z)]) for z in (layer.bottom, layer.top)]
        parts.append(shapely.MultiPoint(to_model(stack.frame, np.vstack(ends))[:, [coordinate, 2]]).convex_hull)
    return shapely.union_all(parts)


def tenon_outline(joint: JointPlan, coordinate: int) -> BaseGeometry:
    """The tenon of a joint as it is seen there."""
    size = joint.tenon.size
    a, b = size[0] / 2, size[-1] / 2
    if joint.tenon.section == "round":
        turns = np.linspace(0.0, 2 * np.pi, 48, endpoint=False)
        rim = np.column_stack([a * np.cos(turns), a * np.sin(turns)])
    else:
        rim = np.array([(-a, -b), (a, -b), (a, b), (-a, b)])
    ends = [np.column_stack([rim, np.full(len(rim), at)]) for at in (joint.start, joint.end)]
    return shapely.MultiPoint(joint.axis.model(np.vstack(ends))[:, [coordinate, 2]]).convex_hull


def joined_sheets(book: Book) -> list[Sheet]:
    """A sheet for each piece of several stacks. Not yet numbered."""
    return [_sheet(book, group) for group in groups(book.plan)]


def _sheet(book: Book, group: Sequence[StackPlan]) -> Sheet:
    plan, units, upright = book.plan, book.units, book.desk.portrait()
    names = {stack.name for stack in group}
    joints = [joint for joint in plan.joints if names & {m.stack for m in joint.members}]
    views = [[silhouette(stack, i) for stack in group] for i in (0, 1)]
    boxes = [shapely.total_bounds(view) for view in views]
    widths = [float(box[2] - box[0]) for box in boxes]
    high = float(boxes[0][3] - boxes[0][1])
    rows = [
        say(
            "{i}: tenon of “{joint}”, {length} long; see its joint sheet",
            i=letters(i),
            joint=joint.name,
            length=length_text(joint.tenon.length, units),
        )
        for i, joint in enumerate(joints[:MOST_ROWS])
    ]
    choices = []
    for beside in (True, False):
        for page in (upright, upright.turned()):
            f = drawing_space(page)
            across, up = (2, 1) if beside else (1, 2)
            room_x = f.width - across * (LEFT + RIGHT)
            room_y = f.height - HEADING - TENONS * (len(rows) + 1) - up * (BELOW + CAPTION)
            n = fit_scale(sum(widths) if beside else max(widths), up * high, room_x, room_y)
            choices.append((n, not beside, page, f))
    n, above, page, f = min(choices, key=lambda choice: choice[:2])
    top = f.y + f.height - HEADING
    marks: list[Mark] = []
    left = f.x + LEFT
    for i, view in enumerate(views):
        foot = top - CAPTION - high / n
        marks += _view(book, group, joints, view, boxes[i], (left, foot), n, i, page.width - page.margin)
        if above:
            top = foot - BELOW
        else:
            left += widths[i] / n + RIGHT + LEFT
    low = f.y + 3.0
    for i, row in enumerate(reversed(rows)):
        marks.append(Text((f.x + 2.0, low + TENONS * i), row, PLAIN, fit=f.width - 4.0))
    title = say("{stacks}: put together", stacks=", ".join(stack.name for stack in group))
    heading = Text(
        (f.x + 2.0, page.height - page.margin - LARGE),
        say("{title}, scale 1:{scale}", title=title, scale=n),
        LARGE,
        bold=True,
        fit=f.width - 4.0,
    )
    strip = plain_strip(
        page,
        (
            joined(plan.title, say("put together")),
            say_many(
                "{count} stack, {height} high, scale 1:{scale}",
                "{count} stacks, {height} high, scale 1:{scale}",
                len(group),
                height=length_text(high, units),
                scale=n,
            ),
            sheet_line(say("Overview of the whole")),
            joined(say("plan {revision}", revision=book.revision), plan.author, plan.date),
            say("Lines: continuous = finished stacks as they stand, what is behind left out; long dashes = tenons."),
        ),
    )
    every = (*marks, heading, *strip)
    return Sheet("overview", title, (page.width, page.height), every, scale=1.0 / n, paper_name=page.name)


def _view(
    book: Book, group: Sequence[StackPlan], joints: Sequence[JointPlan], view: Sequence[BaseGeometry], box: Floats,
    corner: tuple[float, float], n: int, coordinate: int, right: float,
) -> list[Mark]:  # fmt: skip
    """One view: the silhouettes, the tenons in them, names, and how wide and high the whole is."""
    x, y = corner

    def laid(shape: BaseGeometry) -> BaseGeometry:
        return shapely.transform(shape, lambda uv: (uv - box[:2]) / n + corner)

    shapes = [laid(shape) for shape in view]
    tenons = [laid(tenon_outline(joint, coordinate)) for joint in joints]
    order = _from_near(group, coordinate)
    seen = _seen(shapes, order)
    lines = [("mortise", part) for line in seen for part in shapely.get_parts(line)]
    lines += [("mortise hidden", part) for tenon in tenons for part in rings(tenon).geoms]
    marks: list[Mark] = [Polyline(shapely.get_coordinates(part), pen) for pen, part in lines]
    width, high = float(box[2] - box[0]) / n, float(box[3] - box[1]) / n
    marks += chain([(x, y), (x + width, y)], y - AWAY, False, 1 / n, book.units)
    marks += chain([(y, x), (y + high, x)], x - AWAY, True, 1 / n, book.units)
    words = say("from the front") if coordinate == 0 else say("from the right")
    marks.append(Text((x + width / 2, y + high + 5.0), words, STRONG, "centre"))
    window = (x - 4.0, y - 2.0, min(x + width + RIGHT, right), y + high + 3.0)
    places = Places([window], shapely.MultiLineString([part for _, part in lines]), shapely.union_all(shapes))
    for i, tenon in enumerate(tenons[:MOST_ROWS]):
        _label(places, tenon, letters(i), True)
    for stack, shape in zip(group, shapes, strict=True):
        _label(places, shape, stack.name, False)
    return [*marks, *(mark for label in places.labels for mark in label.marks)]


def _from_near(group: Sequence[StackPlan], coordinate: int) -> list[int]:
    """The stacks from the nearest to the farthest: from the front the least y is near, from the right the greatest x.
    Each counts by its nearest point, which is exact for pieces that stand clear of each other."""
    nearest = []
    for stack in group:
        if stack.in_model:
            x0, _, x1, _ = stack.in_model[1 - coordinate].silhouette.bounds
        else:
            x0, _, x1, _ = silhouette(stack, 1 - coordinate).bounds
        nearest.append(x0 if coordinate == 0 else -x1)
    return sorted(range(len(group)), key=lambda i: (nearest[i], i))


def _seen(shapes: Sequence[BaseGeometry], order: Sequence[int]) -> list[BaseGeometry]:
    """The outlines of silhouettes, less what a nearer one stands before."""
    seen: list[BaseGeometry] = [shapely.MultiLineString()] * len(shapes)
    before: BaseGeometry = shapely.Polygon()
    for i in order:
        left = shapely.difference(rings(shapes[i]), shapely.buffer(before, -SAME_LINE))
        seen[i] = shapely.line_merge(left) if left.geom_type == "MultiLineString" else left
        before = shapely.union(before, shapes[i])
    return seen


def _label(places: Places, area: BaseGeometry, words: str, bold: bool) -> None:
    def rows(a: float, b: float) -> tuple[Mark, ...]:
        return (Text((a, b), words, PLAIN, bold=bold),)

    places.beside(area, text_width(words, PLAIN, bold), PLAIN, rows)
