# SPDX-License-Identifier: LGPL-2.1-or-later

"""Depth holes: the map, true size, to be laid on the wood, and the schedule that is read at the drill."""

from __future__ import annotations

import numpy as np
import shapely
from shapely import MultiLineString, MultiPolygon, Point, affinity
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import (
    Units,
    bit_text,
    fine_text,
    least_number,
    least_text,
    most_text,
    number,
    text_width,
    unit_name,
    unit_words,
)
from freecad_stacklam.benchsheets.drawing.lines import CROSS, OVERRUN, rings, turned
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, STRONG, Mark, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.pages.blocks import Block, notes
from freecad_stacklam.benchsheets.pages.labels import Places
from freecad_stacklam.benchsheets.pages.reminders import DRILL
from freecad_stacklam.benchsheets.pages.strip import Fields, joined, sheet_line, title_strip
from freecad_stacklam.benchsheets.pages.tablepages import table_pages
from freecad_stacklam.benchsheets.pages.tilepages import spaces_for, tile_pages
from freecad_stacklam.benchsheets.pages.tiling import tile
from freecad_stacklam.benchsheets.pages.titleblock import block_of
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.plan.carving import CarvingPlan, DepthMap
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.tolerances import SAME_LINE
from freecad_stacklam.lamination.words import mark, say, say_many

#: What is drawn in a hole's circle to tell the stops apart, in their order: its name, corners, and where each of its
#: figures has its first corner, degrees: told apart however the page is turned, the diamond from the square by its
#: corners on the cross. More stops begin again; their numbers stand beside the holes anyhow.
STOP_MARKS = (
    ("plain", 0, ()), ("triangle", 3, (90.0,)), ("square", 4, (45.0,)), ("diamond", 4, (0.0,)), ("hexagon", 6, (0.0,)),
    ("star", 3, (90.0, -90.0)),
)  # fmt: skip
#: Arms of the cross at a hole's centre, beyond its circle, mm.
ARM = 1.5


def mark_of(stop: int) -> str:
    """The name of what is drawn in the circles of a stop's holes."""
    return STOP_MARKS[(stop - 1) % len(STOP_MARKS)][0]


def _mirrored(geometry: BaseGeometry, face: str) -> BaseGeometry:
    """As seen on the face: the underside is seen with left and right exchanged."""
    return affinity.scale(geometry, -1.0, 1.0, origin=(0, 0)) if face == "bottom" else geometry


def _steps(stack: StackPlan, face: str) -> tuple[MultiPolygon, MultiLineString]:
    """The outermost layer's blank, and the edges of the layers beyond that stand out from under it."""
    layers = list(stack.layers) if face == "bottom" else list(stack.layers)[::-1]
    first = area_polygon(layers[0].without_tabs)
    covered: BaseGeometry = first
    lines: list[BaseGeometry] = []
    for layer in layers[1:]:
        area = area_polygon(layer.without_tabs)
        seen = shapely.difference(shapely.boundary(area), shapely.buffer(covered, SAME_LINE))
        lines += [p for p in shapely.get_parts(seen) if p.length > 0.5]
        covered = shapely.union(covered, area)
    return first, MultiLineString(lines)


def _drawing(stack: StackPlan, depth_map: DepthMap) -> list[tuple[str, MultiLineString]]:
    face = depth_map.face
    first, steps = _steps(stack, face)
    layer = stack.layers[0] if face == "bottom" else stack.layers[-1]
    finished = layer.finished_bottom if face == "bottom" else layer.finished_top
    lines = [("cut", rings(first))]
    if not steps.is_empty:
        lines.append(("next", steps))
    if not finished.is_empty:
        lines.append(("finished", rings(finished)))
    radius = depth_map.bit.diameter / 2
    for hole in depth_map.holes:
        arm = radius + ARM
        cross = [[(hole.x - arm, hole.y), (hole.x + arm, hole.y)], [(hole.x, hole.y - arm), (hole.x, hole.y + arm)]]
        _, sides, begins = STOP_MARKS[(hole.stop - 1) % len(STOP_MARKS)]
        for first_at in begins:
            turns = np.radians(first_at + 360.0 / sides * np.arange(sides + 1))
            # Left and right are exchanged below, which none of the marks minds.
            corners = np.column_stack([hole.x + radius * np.cos(turns), hole.y + radius * np.sin(turns)])
            lines.append(("thin", MultiLineString([corners])))
        lines += [("thin", rings(Point(hole.x, hole.y).buffer(radius, 8))), ("fine", MultiLineString(cross))]
    lines = [(pen, _mirrored(drawn, face)) for pen, drawn in lines]
    x0, y0, x1, y1 = shapely.total_bounds([drawn for _, drawn in lines]).tolist()
    x0, y0, x1, y1 = (
        min(x0, -CROSS) - OVERRUN,
        min(y0, -CROSS) - OVERRUN,
        max(x1, CROSS) + OVERRUN,
        max(y1, CROSS) + OVERRUN,
    )
    lines.append(("centre", MultiLineString([[(x0, 0), (x1, 0)], [(0, y0), (0, y1)]])))
    return lines


def _label_holes(places: Places, depth_map: DepthMap, turn: float, units: Units) -> None:
    """Stop number and depth beside every hole."""
    radius = depth_map.bit.diameter / 2
    for hole in depth_map.holes:
        x, y = shapely.get_coordinates(turned(_mirrored(Point(hole.x, hole.y), depth_map.face), turn))[0].tolist()
        words = f"{hole.stop}: {least_number(hole.depth, units)}"
        width = text_width(words, PLAIN)
        reach = radius + ARM + 1.4
        beside = np.array([(reach, -PLAIN / 2), (-reach - width, -PLAIN / 2), (-width / 2, reach + 0.8),
                           (-width / 2, -reach - PLAIN), (reach, 2.5), (reach, -5.0), (-reach - width, 2.5),
                           (-reach - width, -5.0), (-width / 2, reach + 4.0), (-width / 2, -reach - 6.0)])  # fmt: skip

        def rows(
            a: float, b: float, words: str = words, width: float = width, at: tuple[float, float] = (x, y)
        ) -> tuple[Mark, ...]:
            box = shapely.box(a - 0.5, b - 0.5, a + width + 0.5, b + PLAIN + 0.5)
            line = shapely.shortest_line(box, Point(at).buffer(radius))
            text = Text((a, b), words, PLAIN)
            return (text,) if line.length < ARM + 1.2 else (text, Polyline(tuple(line.coords), "fine"))

        if not places.first(np.array([x, y]) + beside, width, PLAIN, rows):
            places.near((x, y), width, PLAIN, rows)


def _map_sheets(book: Book, stack: StackPlan, depth_map: DepthMap) -> list[Sheet]:
    plan, units = book.plan, book.units
    lines = _drawing(stack, depth_map)
    every = MultiLineString([part for pen, drawn in lines for part in drawn.geoms])
    needed = MultiLineString([part for pen, drawn in lines if pen != "centre" for part in drawn.geoms])
    tiling = tile(needed, spaces_for(book.full), Point(0, 0))
    turn = tiling.turn
    lying = [(pen, turned(drawn, turn)) for pen, drawn in lines]
    wood = turned(_mirrored(_steps(stack, depth_map.face)[0], depth_map.face), turn)
    places = Places.on_tiles(tiling, turned(every, turn), wood)
    _label_holes(places, depth_map, turn, units)
    places.near((0.0, 0.0), text_width(say("axis"), PLAIN), PLAIN, lambda x, y: (Text((x, y), say("axis"), PLAIN),))
    x0, y0, x1, y1 = wood.bounds
    side = say("RIGHT") if depth_map.face == "top" else say("LEFT")
    for words, at in ((say("FRONT"), (0.0, -1.0)), (side, (1.0, 0.0))):
        end = turned(Point(at[0] * (x1 - x0), at[1] * (y1 - y0)), turn)
        ray = shapely.intersection(shapely.LineString([(0, 0), end.coords[0]]), wood)
        spot = shapely.get_coordinates(ray)[-1] if not ray.is_empty else np.array([0.0, 0.0])

        def rows(x: float, y: float, words: str = words) -> tuple[Mark, ...]:
            return (Text((x, y), words, STRONG, bold=True),)

        places.near((float(spot[0]), float(spot[1])), text_width(words, STRONG, bold=True), STRONG, rows)
    below = depth_map.face == "bottom"
    bit = depth_map.bit
    fields = Fields(
        (
            joined(plan.title, stack.name),
            say(
                mark("Depth holes from below, seen from below: {holes} holes")
                if below
                else mark("Depth holes from the top: {holes} holes"),
                holes=len(depth_map.holes),
            ),
            say(
                "bit {bit}, Ø {diameter}; leaves {leave}",
                bit=bit.name,
                diameter=bit_text(bit.diameter, units),
                leave=least_text(depth_map.leave, units),
            ),
            say("beside each hole: stop, depth to the tip in {unit}", unit=unit_words(units)),
            say(
                "marks: {marks}",
                marks=", ".join(f"{s.stop} {shown(mark_of(s.stop))}" for s in depth_map.stops[: len(STOP_MARKS)]),
            ),
            joined(sheet_line(say("Depth holes")), plan.date),
            joined(say("part {stack}", stack=stack.name), say("plan {revision}", revision=book.revision), plan.author),
        ),
        number="D",
        above_number=say("DEPTH HOLES"),
        below_number=say("UNDERSIDE") if below else say("TOP"),
        legend=(
            ("cut", say("edge of the outermost layer")),
            ("next", say("edges of the layers under it")),
            ("finished", say("finished form at this face")),
            ("thin", say("hole")),
            ("trim", say("trim, join on the crosses")),
        ),
        front=-90.0 - turn,
    )
    title = say(
        mark("{stack}, depth holes, underside") if below else mark("{stack}, depth holes, top"), stack=stack.name
    )
    strip = title_strip(tiling.paper, fields)
    return tile_pages("depth holes", title, tiling, lying, places, strip, stack.name, in_plan=not below)


def _schedule(book: Book, stack: StackPlan, depth_map: DepthMap) -> list[Sheet]:
    """By stop: the depth, how many holes, and where they are."""
    units = book.units
    width = 134.0 if units.both else 90.0
    bit = depth_map.bit
    words = [
        say(
            "Bit: {bit}, {diameter} wide; its point leads by {point} and is counted: depths are to the tip.",
            bit=bit.name,
            diameter=bit_text(bit.diameter, units),
            point=most_text(bit.point, units),
        ),
        say(
            "Every hole stops {leave} or more above the finished surface. Set the stop once for each group, measure "
            "it on the bit, and bore a trial hole in waste.",
            leave=least_text(depth_map.leave, units),
        ),
        say("Depths count from the rough surface where the hole begins, before anything is carved."),
        say("Colour the bottoms; carve until the colour is about to vanish."),
    ]
    most = depth_map.leave + max((h.deepest - h.depth for h in depth_map.holes), default=0.0)
    words.append(
        say(
            "Depths are rounded up towards you, to {stops} settings of the stop: up to {most} of wood is left under "
            "a hole whose colour is gone; go on by template.",
            stops=len(depth_map.stops),
            most=fine_text(most, units, "up"),
        )
    )
    words += [
        say_many("Left out: {count} place, {reason}.", "Left out: {count} places, {reason}.", count, reason=reason)
        for reason, count in depth_map.dropped
    ]
    blocks = [notes(say("How to bore them"), [*words, say(DRILL)], width - 6.0)]
    stops = tuple(
        (str(s.stop), shown(mark_of(s.stop)), least_number(s.depth, units), str(s.count), s.bit)
        for s in depth_map.stops
    )
    blocks.append(
        Block(
            say("Stops, {unit}", unit=unit_name(units)),
            (say("stop"), say("mark"), say("to the tip"), say("holes"), say("bit")),
            (9.0, 21.0, 18.0, 12.0, 30.0),
            (True, True, False, False, True),
            stops,
        )
    )
    for stop in depth_map.stops:
        holes = sorted((h for h in depth_map.holes if h.stop == stop.stop), key=lambda h: (-h.y, h.x))
        rows = tuple((number(h.x, units), number(h.y, units), number(h.surface, units)) for h in holes)
        blocks.append(
            Block(
                say(
                    "Stop {stop} ({mark}): {depth} deep",
                    stop=stop.stop,
                    mark=shown(mark_of(stop.stop)),
                    depth=least_text(stop.depth, units),
                ),
                ("x", "y", say("begins at height")),
                (26.0, 26.0, 38.0),
                (False, False, False),
                rows,
            )
        )
    title = say(
        mark("{stack}, depth holes, underside, schedule")
        if depth_map.face == "bottom"
        else mark("{stack}, depth holes, top, schedule"),
        stack=stack.name,
    )
    block = block_of(
        book, say("Depth-hole schedule"), say("{stack}-depth", stack=stack.name), title, note=book.sizes_note
    )
    return table_pages("depth holes", title, book.desk, block, blocks, width, stack.name)


def depth_sheets(book: Book, stack: StackPlan, carving: CarvingPlan) -> list[Sheet]:
    """Schedule and full-size map of every bored face of a stack. Not yet numbered."""
    sheets: list[Sheet] = []
    for depth_map in carving.depth_maps:
        if depth_map.stack == stack.name and depth_map.holes:
            sheets += _schedule(book, stack, depth_map)
            sheets += _map_sheets(book, stack, depth_map)
    return sheets
