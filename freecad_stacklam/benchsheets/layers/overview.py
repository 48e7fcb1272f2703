# SPDX-License-Identifier: LGPL-2.1-or-later

"""One scaled sheet of a stack from the front and from the right: stepped blanks, the form, and what is cut into it."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

import shapely
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import (
    Units,
    in_inches,
    length_text,
    most_text,
    number,
    size_text,
    unit_name,
)
from freecad_stacklam.benchsheets.drawing.lines import rings
from freecad_stacklam.benchsheets.drawing.paper import SCALES
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, PLAIN, STRONG, FilledRegion, Mark, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.pages.strip import drawing_space, joined, plain_strip, sheet_line
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.lengths import INCH, format_move
from freecad_stacklam.lamination.names import any_of
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.outline import area_polygon, polygon_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.words import mark, say

#: Room beside the two views for the heights, the layer numbers and the gap between them, mm of paper.
HEIGHTS, NUMBERS, GAP = 34.0, 14.0, 16.0
#: Room above the views for their captions, and below for the totals.
CAPTION, TOTALS = 16.0, 24.0
#: A section is drawn where it lies this far inside the silhouette, mm: elsewhere both are one line.
OFF_RIM = 1.0


@dataclass(frozen=True)
class _View:
    """A stack seen along an axis: `coordinate` 0 (x, from the front) or 1 (y, from the right)."""

    coordinate: int
    low: float
    high: float
    blanks: tuple[tuple[tuple[float, float], ...], ...]  # per layer, the intervals its islands fill
    form: tuple[tuple[float, float, float], ...]  # height, least and greatest extent of the finished form


def _intervals(area: BaseGeometry, coordinate: int) -> tuple[tuple[float, float], ...]:
    """What the islands cover along a coordinate, as separate intervals."""
    boxes = [p.bounds for p in shapely.get_parts(area) if not p.is_empty]
    spans = sorted((box[coordinate], box[coordinate + 2]) for box in boxes)
    joined_spans: list[list[float]] = []
    for low, high in spans:
        if joined_spans and low <= joined_spans[-1][1]:
            joined_spans[-1][1] = max(joined_spans[-1][1], high)
        else:
            joined_spans.append([low, high])
    return tuple((low, high) for low, high in joined_spans)


def _view(stack: StackPlan, coordinate: int) -> _View:
    blanks = tuple(_intervals(area_polygon(layer.blank), coordinate) for layer in stack.layers)
    form: list[tuple[float, float, float]] = []
    for layer in stack.layers:
        for height, section in ((layer.bottom, layer.finished_bottom), (layer.top, layer.finished_top)):
            if section.is_empty and 0.0 < height < stack.height:
                continue
            if section.is_empty:  # the form ends inside the lowest or highest layer: as far as it reaches there
                section, height = layer.shadow, min(height, stack.form.height)
            if not section.is_empty:
                form.append((height, section.bounds[coordinate], section.bounds[coordinate + 2]))
    low = min(span[0] for spans in blanks for span in spans)
    high = max(span[1] for spans in blanks for span in spans)
    return _View(coordinate, low, high, blanks, tuple(form))


def fit_scale(width: float, height: float, room_width: float, room_height: float) -> int:
    """The largest standard scale, as 1:n, at which width × height fits the room."""
    for n in SCALES:
        if width / n <= room_width and height / n <= room_height:
            return n
    return SCALES[-1]


def _level_texts(levels: list[float], place: float, step: float) -> list[float]:
    """Places for texts beside their levels (page mm, rising), pushed apart to `step`."""
    places = list(levels)
    for _ in range(200):
        moved = False
        for i in range(1, len(places)):
            lack = step - (places[i] - places[i - 1])
            if lack > ROUNDING:
                places[i - 1] = max(place, places[i - 1] - lack / 2)
                places[i] = places[i - 1] + step if places[i - 1] == place else places[i] + lack / 2
                moved = True
        if not moved:
            break
    return places


def _draw_view(stack: StackPlan, view: _View, x: float, y: float, n: int) -> list[Mark]:
    """The view with the stack's axis coordinate `view.low` at page x and its foot at page y."""

    def at(across: float, height: float) -> tuple[float, float]:
        return x + (across - view.low) / n, y + height / n

    marks: list[Mark] = []
    for layer, spans in zip(stack.layers, view.blanks, strict=True):
        for low, high in spans:
            corners = (
                at(low, layer.bottom),
                at(high, layer.bottom),
                at(high, layer.top),
                at(low, layer.top),
            )
            marks.append(Polyline(corners, "cut", closed=True))
    for pen, lines in _form_lines(stack, view):
        marks += [Polyline([at(*point) for point in shapely.get_coordinates(line).tolist()], pen) for line in lines]
    foot, head = at(0.0, 0.0), at(0.0, stack.height)
    marks.append(Polyline(((foot[0], foot[1] - 4.0), (head[0], head[1] + 4.0)), "centre"))
    return marks


def _form_lines(stack: StackPlan, view: _View) -> list[tuple[str, list[BaseGeometry]]]:
    """The form: its silhouette, and where its surface is hollowed on the axis; of a plan without them, how far it
    reaches at each glue line."""
    if not stack.sides:
        if not view.form:
            return []
        outline = [(low, h) for h, low, _ in view.form] + [(high, h) for h, _, high in reversed(view.form)]
        return [("finished", [LineString([*outline, outline[0]])])]
    side = stack.sides[view.coordinate]
    inner = shapely.intersection(side.section.boundary, shapely.buffer(side.silhouette, -OFF_RIM))
    lines = [part for part in shapely.get_parts(shapely.line_merge(inner)) if part.length > 2 * OFF_RIM]
    return [("finished", list(rings(side.silhouette).geoms)), ("hidden", lines)]


def _draw_joint(stack: StackPlan, joint: JointPlan, view: _View, x: float, y: float, n: int) -> list[Mark]:
    """The mortise of a joint as it is cut in this stack's layers, hidden."""
    left: list[tuple[float, float]] = []
    right: list[tuple[float, float]] = []
    for cut in sorted(
        (c for layer in stack.layers for c in layer.cuts if c.joint == joint.name), key=lambda c: c.start
    ):
        for height, outline in ((cut.start, cut.outline), (cut.end, cut.outline_end or cut.outline)):
            bounds = polygon_of(outline).bounds
            low, high = bounds[view.coordinate], bounds[view.coordinate + 2]
            left.append((x + (low - view.low) / n, y + height / n))
            right.append((x + (high - view.low) / n, y + height / n))
    return [Polyline((*left, *right[::-1]), "mortise hidden", closed=True)] if left else []


def _draw_insides(stack: StackPlan, view: _View, x: float, y: float, n: int) -> list[Mark]:
    """Voids as they reach across, hidden, and pins black at their places."""
    boxes: dict[str, list[BaseGeometry]] = {"hollow": [], "pin": []}
    for cut in (cut for layer in stack.layers for cut in layer.cuts if cut.kind in boxes):
        bounds = polygon_of(cut.outline).bounds
        boxes[cut.kind].append(shapely.box(bounds[view.coordinate], cut.start, bounds[view.coordinate + 2], cut.end))

    def page(shape: BaseGeometry) -> list[tuple[float, float]]:
        return [(x + (u - view.low) / n, y + v / n) for u, v in shapely.get_coordinates(shape).tolist()]

    voids = shapely.get_rings(shapely.get_parts(shapely.union_all(boxes["hollow"])))
    pins = shapely.get_parts(shapely.union_all(boxes["pin"]))
    marks: list[Mark] = [Polyline(page(ring), "mortise hidden") for ring in voids]
    return marks + [FilledRegion((page(pin),)) for pin in pins]


def _line_words(stack: StackPlan) -> tuple[str, str]:
    """What the lines of this stack's overview mean, those that are there, in two rows."""
    kinds = {cut.kind for layer in stack.layers for cut in layer.cuts}
    through = (
        mark("long dash, two dots = silhouette of the finished form")
        if stack.sides
        else mark("long dash, two dots = finished form at the glue lines")
    )
    names = [shown(kind) for kind in ("mortise", "hollow") if kind in kinds]
    words = [say("wide = blanks"), say(through)]
    words += [say("long dashes = {cuts}", cuts=any_of(names))] if names else []
    words += [say("short dashes = form cut through on the axis")] if any(s.section.area for s in stack.sides) else []
    words += [say("black = pins")] if "pin" in kinds else []
    words.append(say("dash, dot = axis"))
    return say("Lines: {meanings};", meanings="; ".join(words[:3])), f"{'; '.join(words[3:])}."


def overview_sheet(book: Book, stack: StackPlan) -> Sheet:
    """The stack from the front and from the right on one page, numbered, with the height of every glue line."""
    plan, units, upright = book.plan, book.units, book.desk.portrait()
    views = (_view(stack, 0), _view(stack, 1))
    widths = [view.high - view.low for view in views]
    choices = []
    for beside in (True, False):  # the second view to the right of the first, or above it
        wide, high = (sum(widths), stack.height) if beside else (max(widths), 2 * stack.height)
        for page in (upright, upright.turned()):
            space = drawing_space(page)
            room_x = space.width - HEIGHTS - NUMBERS - 4.0 - (GAP if beside else 0.0)
            room_y = space.height - TOTALS - CAPTION * (1 if beside else 2)
            choices.append((fit_scale(wide, high, room_x, room_y), not beside, page, space, room_x, room_y))
    n, above, page, space, room_x, room_y = min(choices, key=lambda choice: choice[:2])
    drawn_x = (max(widths) if above else sum(widths)) / n
    drawn_y = stack.height / n * (2 if above else 1)
    foot = space.y + TOTALS + max(0.0, min((room_y - drawn_y) / 2, 40.0))
    left = space.x + HEIGHTS + max(0.0, (room_x - drawn_x) / 2)
    beside_first = (left + widths[0] / n + NUMBERS + GAP, foot)
    second = (left, foot + stack.height / n + CAPTION) if above else beside_first
    marks: list[Mark] = []
    for view, (x, y) in ((views[0], (left, foot)), (views[1], second)):
        marks += _draw_view(stack, view, x, y, n)
        for joint in plan.joints:
            marks += _draw_joint(stack, joint, view, x, y, n)
        marks += _draw_insides(stack, view, x, y, n)
        words = say("from the front") if view.coordinate == 0 else say("from the right")
        middle = x + (view.high - view.low) / 2 / n
        marks.append(Text((middle, y + stack.height / n + 6.5), words, STRONG, "centre"))
    room = space.height - TOTALS
    marks += _numbers(stack, left, widths[0] / n, foot, n, room)
    marks += _heights(stack, left, foot, n, units, views[0], room)
    marks += _totals(plan, stack, space.x + 2.0, space.y + TOTALS - 8.0, space.width - 4.0, units)
    marks.append(
        Text(
            (space.x + 2.0, page.height - page.margin - LARGE),
            say("{stack}, scale 1:{scale}", stack=stack.name, scale=n),
            LARGE,
            bold=True,
        )
    )
    marks += plain_strip(
        page,
        (
            joined(plan.title, stack.name),
            say(
                "{layers} layers, {height} high, scale 1:{scale}",
                layers=len(stack.layers),
                height=length_text(stack.height, units),
                scale=n,
            ),
            sheet_line(say("Stack overview")),
            joined(
                say("part {stack}", stack=stack.name),
                say("plan {revision}", revision=book.revision),
                plan.author,
                plan.date,
            ),
            *_line_words(stack),
        ),
    )
    return Sheet(
        kind="overview",
        title=say("{stack}, overview", stack=stack.name),
        paper=(page.width, page.height),
        marks=tuple(marks),
        stack=stack.name,
        scale=1.0 / n,
        paper_name=page.name,
    )


def _spread(levels: list[float], least: float, step: float, room: float) -> list[tuple[int, float]]:
    """Which levels are lettered and where: all, or every second, third… when they do not all fit in the room."""
    every = max(1, ceil(len(levels) * step / room))
    chosen = list(range(0, len(levels), every))
    if chosen[-1] != len(levels) - 1:
        chosen[-1] = len(levels) - 1
    return list(zip(chosen, _level_texts([levels[i] for i in chosen], least, step), strict=True))


def _numbers(stack: StackPlan, left: float, width: float, foot: float, n: int, room: float) -> list[Mark]:
    """Layer numbers beside the front view, led to their layers when these are thin."""
    levels = [foot + (layer.bottom + layer.top) / 2 / n for layer in stack.layers]
    thinnest = min(layer.thickness for layer in stack.layers) / n
    height = min(STRONG, max(1.6, 0.62 * thinnest))
    marks: list[Mark] = []
    for i, place in _spread(levels, foot, height * 1.5, room):
        layer, level = stack.layers[i], levels[i]
        edge = left + width + 1.5
        marks.append(Polyline(((edge, level), (edge + 4.0, place)), "fine"))
        marks.append(Text((edge + 5.0, place - height / 2), str(layer.number), height, bold=True))
    return marks


def _heights(stack: StackPlan, left: float, foot: float, n: int, units: Units, view: _View, room: float) -> list[Mark]:
    """The height of every glue line above the foot of the stack, to the left of the front view."""
    levels = [0.0, *(layer.top for layer in stack.layers)]
    edges = [view.blanks[0][0][0]]
    for i in range(len(stack.layers)):
        near = view.blanks[i : i + 2]
        edges.append(min(spans[0][0] for spans in near))
    on_page = [foot + level / n for level in levels]
    thin = min(b - a for a, b in zip(on_page[:-1], on_page[1:], strict=True))
    height = PLAIN if thin >= 0.5 * PLAIN else 1.8
    marks: list[Mark] = []
    for i, place in _spread(on_page, foot - 8.0, height * 1.45, room):
        level, at, edge = levels[i], on_page[i], edges[i]
        start = left + (edge - view.low) / n - 1.0
        marks.append(Polyline(((start, at), (left - 6.0, at), (left - 11.0, place)), "fine"))
        marks.append(Text((left - 12.0, place - height / 2), number(level, units), height, "right"))
    marks.append(
        Text(
            (left - 12.0, on_page[-1] + 6.5),
            say("height, {unit}", unit=unit_name(units)),
            PLAIN,
            "right",
            fit=22.0,
        )
    )
    return marks


def _totals(plan: Plan, stack: StackPlan, x: float, y: float, width: float, units: Units) -> list[Mark]:
    """What the whole stack measures."""
    blanks = sum(layer.blank_volume for layer in stack.layers)
    bounds = shapely.total_bounds([area_polygon(layer.blank) for layer in stack.layers])
    across = size_text(float(bounds[2] - bounds[0]), float(bounds[3] - bounds[1]), units)
    carved = 100 * (1 - stack.form.volume / blanks) if blanks else 0.0
    unit = INCH**3 if in_inches(units) else 1e6
    whole = {
        (False, False): mark("Stack {across} × {height} high, allowance {allowance}, {species}"),
        (True, False): mark("Stack {across} × {height} high, allowance {allowance} square to the surface, {species}"),
        (False, True): mark("Stack {across} × {height} high, allowance {allowance}, {species}, make {copies}"),
        (True, True): mark(
            "Stack {across} × {height} high, allowance {allowance} square to the surface, {species}, make {copies}"
        ),
    }[stack.square, stack.copies > 1]
    volumes = (
        mark("Blanks {blanks:.1f} cubic inches, form {form:.1f} cubic inches, carved away {carved:.0f} %")
        if in_inches(units)
        else mark("Blanks {blanks:.1f} litres, form {form:.1f} litres, carved away {carved:.0f} %")
    )
    rows = [
        say(
            whole,
            across=across,
            height=length_text(stack.height, units),
            allowance=most_text(stack.allowance, units),
            species=shown(stack.species),
            copies=stack.copies,
        ),
        say(volumes, blanks=blanks / unit, form=stack.form.volume / unit, carved=carved),
    ]
    if stack.movement is not None:
        moves = stack.movement
        sentence = (
            mark(
                "Height over {swing:g} points of moisture: {flat} flat sawn, {quarter} quarter sawn (its boards are "
                "all {cut} sawn)"
            )
            if moves.cut
            else mark("Height over {swing:g} points of moisture: {flat} flat sawn, {quarter} quarter sawn")
        )
        flat, quarter = format_move(moves.flat, units.first), format_move(moves.quarter, units.first)
        rows.append(say(sentence, swing=moves.swing, flat=flat, quarter=quarter, cut=shown(moves.cut)))
    for joint in plan.joints:
        member = next((m for m in joint.members if m.stack == stack.name), None)
        if member is not None:
            sentence = (
                mark("Joint “{joint}”: mortise through, tenon {tenon} long")
                if member.through
                else mark("Joint “{joint}”: mortise from {start} to {end}, tenon {tenon} long")
            )
            start, end = number(member.start, units), length_text(member.end, units)
            tenon = length_text(joint.tenon.length, units)
            rows.append(say(sentence, joint=joint.name, start=start, end=end, tenon=tenon))
    return [Text((x, y - 4.4 * i), row, PLAIN, fit=width) for i, row in enumerate(rows[:4])]
