# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is bored from a layer's underside: never on the sheets that show its upper face, but as steps or, seen from
below, on a mirrored full-size template.

A mirrored template shows the layer turned over left for right, as it then lies on the bench: FRONT stays in front and
RIGHT comes to the left.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from math import hypot

import shapely
from shapely import MultiLineString, MultiPolygon, Point
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import (
    Units,
    least_text,
    length_text,
    loose_bit_number,
    most_text,
    number,
    text_width,
)
from freecad_stacklam.benchsheets.drawing.lines import CROSS, OVERRUN, rings, turned
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, STRONG, Mark, Sheet, Text
from freecad_stacklam.benchsheets.layers.layerdrawing import (
    LayerDrawing,
    cross_at,
    direction_marks,
    grain_arrow,
    label_island,
)
from freecad_stacklam.benchsheets.pages.blocks import Block, notes, steps
from freecad_stacklam.benchsheets.pages.labels import Places
from freecad_stacklam.benchsheets.pages.strip import Fields, joined, sheet_line, title_strip
from freecad_stacklam.benchsheets.pages.tilepages import spaces_for, tile_pages
from freecad_stacklam.benchsheets.pages.tiling import Tiling, tile
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.names import any_of, each_of, letters, listed
from freecad_stacklam.lamination.plan.insides import PinPlan, pin_patterns
from freecad_stacklam.lamination.plan.layers import Cut, LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import polygon_of
from freecad_stacklam.lamination.words import apart, mark, say

#: Degrees on a mirrored sheet at which the layer's RIGHT lies.
_RIGHT = 180.0


def hole_words(diameter: float, units: Units) -> str:
    """A bored hole's diameter by its bit, without its unit where that is the plan's."""
    return f"Ø {loose_bit_number(diameter, units)}"


def template_cuts(stack: StackPlan, layer: LayerPlan) -> list[Cut]:
    """The stopped cuts of a layer's lower face that a mirrored template shows: mortises bored before glue-up, and pins
    where the maker asked for that."""
    asked = any(p.underside == "template" for p in stack.pins if p.interface == layer.number - 1)
    below = [c for c in layer.cuts if c.opens_bottom(layer) and not c.opens_top(layer)]
    return [c for c in below if c.kind == "mortise" or (asked and c.kind == "pin")]


def pin_blocks(stack: StackPlan, layer: LayerPlan, units: Units, width: float) -> list[Block]:
    """How the pins of a layer are bored: in its top, and in its underside by numbered steps; the jig for both."""
    upper = [p for p in stack.pins if p.interface == layer.number]
    lower = [p for p in stack.pins if p.interface == layer.number - 1]
    blocks = []
    if upper:
        said = [
            say(
                "Bore the pin holes of the table {radius_below}, square to the face, {upper}.",
                radius_below=hole_words(2 * upper[0].radius_below, units),
                upper=_depths(upper, False, units),
            ),
            *_jig_words(stack, layer.number, units),
            say(
                "Dowels {upper}, grooved and chamfered: glue them into this layer, dry into the next.",
                upper=_dowels(upper, units),
            ),
        ]
        blocks.append(notes(say("Pins in this face"), said, width))
    if lower:
        blocks.append(_steps(layer, lower, units, width))
    return blocks


def _depths(pins: list[PinPlan], up: bool, units: Units) -> str:
    found = []
    for depth in sorted({round(p.depth_up if up else p.depth_down, 3) for p in pins}):
        point = max(p.point for p in pins)
        found.append(
            say(
                "{depth} deep, to the bit's tip {tip}",
                depth=length_text(depth, units),
                tip=most_text(depth + point, units),
            )
        )
    return any_of(found)


def _dowels(pins: list[PinPlan], units: Units) -> str:
    sizes = sorted({(round(p.diameter, 3), round(p.dowel, 3)) for p in pins})
    return each_of([f"{hole_words(d, units)} × {least_text(length, units)}" for d, length in sizes])


def _jig_words(stack: StackPlan, line: int, units: Units) -> list[str]:
    """Which glue lines share this pattern, and where the jig's holes lie."""
    pattern = next((p for p in pin_patterns(stack.pins) if line in p.interfaces), None)
    if pattern is None or len(pattern.interfaces) < 2:
        return []
    places = ("; " if apart() == ", " else " | ").join(
        apart().join((number(x, units), number(y, units))) for x, y in pattern.centres
    )
    distances = listed(
        [length_text(hypot(a[0] - b[0], a[1] - b[1]), units) for a, b in combinations(pattern.centres[:3], 2)]
    )
    return [
        say(
            "Same pattern at glue lines {interfaces}: one jig drills them. Its holes from the axis cross (x, y): "
            "{places}; {apart} apart. Mark its face and FRONT; on an underside lay it face down, FRONT to FRONT.",
            interfaces=_runs(pattern.interfaces),
            places=places,
            apart=distances,
        )
    ]


def _runs(numbers: tuple[int, ...]) -> str:
    """1 to 4, 6 and 8."""
    runs: list[list[int]] = []
    for n in numbers:
        if runs and n == runs[-1][-1] + 1:
            runs[-1].append(n)
        else:
            runs.append([n])
    parts = [
        str(r[0])
        if len(r) == 1
        else listed([str(r[0]), str(r[1])])
        if len(r) == 2
        else say("{first} to {last}", first=r[0], last=r[-1])
        for r in runs
    ]
    return ", ".join(parts)


def _steps(layer: LayerPlan, pins: list[PinPlan], units: Units, width: float) -> Block:
    below, hole = layer.number - 1, hole_words(2 * pins[0].radius_above, units)
    said = say("UNDERSIDE pins: bore nothing for them here")
    deep = _depths(pins, True, units)
    if pins[0].underside == "template":
        done = [
            say(
                "Turn this layer over, left for right. Fix the mirrored underside template on it, FRONT to FRONT, "
                "edges and axis lines together."
            ),
            say("Bore {hole}, looser than the dowel, {depths}, where the template shows it.", hole=hole, depths=deep),
        ]
    else:
        done = [
            say("Bore the top of layer {below} first, by its own sheet.", below=below),
            say(
                "Set dowel centres {diameter} in its {pins} holes.",
                diameter=hole_words(pins[0].diameter, units),
                pins=len(pins),
            ),
            say(
                "Lay this layer on it, this face up, FRONT line over FRONT line, its edge on the line drawn on layer "
                "{below}; press or tap it down.",
                below=below,
            ),
            say(
                "Turn this layer over. Bore {hole}, looser than the dowel, {depths}, on the marks.",
                hole=hole,
                depths=deep,
            ),
        ]
    done.append(say("Try it dry on dowels {pins}: FRONT over FRONT, and no other way.", pins=_dowels(pins, units)))
    return steps(said, done, width)


def _mirrored(geometry: BaseGeometry) -> BaseGeometry:
    return shapely.transform(geometry, lambda xy: xy * (-1.0, 1.0))


def underside_templates(book: Book, stack: StackPlan, drawing: LayerDrawing) -> list[Sheet]:
    """The mirrored full-size pages of a layer's underside; none where nothing is bored there by a template."""
    layer = drawing.layer
    cuts = template_cuts(stack, layer)
    if not cuts:
        return []
    blank = _mirrored(drawing.blank)
    areas = [_mirrored(polygon_of(cut.outline)) for cut in cuts]
    cross = MultiLineString([[(-CROSS, 0), (CROSS, 0)], [(0, -CROSS), (0, CROSS)]])
    marks = [rings(area) for area in areas]
    middles = [cross_at(area.centroid) for area in areas]
    needed = MultiLineString([part for lines in (rings(blank), *marks, cross) for part in lines.geoms])
    x0, y0, x1, y1 = needed.bounds
    centre = MultiLineString([[(x0 - OVERRUN, 0), (x1 + OVERRUN, 0)], [(0, y0 - OVERRUN), (0, y1 + OVERRUN)]])
    lines = [("cut", rings(blank)), *(("mortise", ring) for ring in marks), ("centre", centre), ("fine", cross)]
    lines += [("fine", middle) for middle in middles]
    tiling = tile(needed, spaces_for(book.full), shapely.union_all([Point(0, 0), *areas[:1]]))
    wood = shapely.difference(blank, shapely.union_all(areas))
    places = _labels(stack, layer, cuts, areas, lines, wood, tiling, book.units)
    strip = title_strip(tiling.paper, _fields(book, stack, layer, tiling.turn))
    lying = [(pen, turned(line, tiling.turn)) for pen, line in lines]
    title = say("{stack}, layer {layer}, underside", stack=stack.name, layer=layer.number)
    pages = tile_pages("template", title, tiling, lying, places, strip, stack.name, layer.number)
    return [replace(page, mirrored=True) for page in pages]


def _labels(
    stack: StackPlan, layer: LayerPlan, cuts: list[Cut], areas: list[BaseGeometry],
    lines: list[tuple[str, MultiLineString]], wood: BaseGeometry, tiling: Tiling, units: Units,
) -> Places:  # fmt: skip
    turn = tiling.turn
    every = MultiLineString([part for _, line in lines for part in line.geoms])
    islands = turned(MultiPolygon([p for p in shapely.get_parts(wood) if p.geom_type == "Polygon"]), turn)
    places = Places.on_tiles(tiling, turned(every, turn), islands)
    ordered = sorted(islands.geoms, key=lambda p: -p.area)
    for island in ordered:
        start = (0.0, 0.0) if len(ordered) == 1 else (island.centroid.x, island.centroid.y)
        direction_marks(places, island, start, turn, right=_RIGHT)
    for cut, area in zip(cuts, areas):
        x0, _, x1, _ = area.bounds
        what = shown(cut.kind)
        if cut.kind == "pin":
            what = say("{kind} {size}", kind=what, size=hole_words(x1 - x0, units))
        elif cut.joint:
            what = say("{kind} “{joint}”", kind=what, joint=cut.joint)
        depth = say("{depth} deep, from this face", depth=length_text(cut.end - cut.start, units))
        width = max(text_width(what, PLAIN), text_width(depth, PLAIN))

        def rows(x: float, y: float, what: str = what, depth: str = depth) -> tuple[Mark, ...]:
            return Text((x, y + PLAIN * 1.6), what, PLAIN), Text((x, y), depth, PLAIN)

        on_page = turned(area, turn)
        if not places.beside(on_page, width, PLAIN * 2.6, rows):
            at = on_page.representative_point()
            places.near((at.x, at.y), width, PLAIN * 2.6, rows)
    for i, island in enumerate(ordered):
        letter = letters(i).lower() if len(ordered) > 1 else ""
        label_island(places, island, f"{layer.number}{letter}", stack.name, face=mark("UNDERSIDE UP"))
        grain_arrow(places, island, 180.0 - layer.grain - turn)
    places.near((0.0, 0.0), text_width(say("axis"), STRONG), STRONG, lambda x, y: (Text((x, y), say("axis"), PLAIN),))
    return places


def _fields(book: Book, stack: StackPlan, layer: LayerPlan, turn: float) -> Fields:
    plan = book.plan
    lines = (
        joined(plan.title, stack.name),
        say("Mirrored: the layer turned over, left for right"),
        say("RIGHT lies to the left; FRONT stays in front"),
        say("Only what is bored from the underside is shown"),
        joined(sheet_line(say("Underside template")), plan.date),
        joined(
            say("part {stack}-{layer}", stack=stack.name, layer=layer.number),
            say("plan {revision}", revision=book.revision),
            plan.author,
        ),
    )
    legend = (
        ("cut", say("edge of the blank")),
        ("mortise", say("bore from this face")),
        ("trim", say("trim, join on the crosses")),
    )
    return Fields(
        lines,
        number=str(layer.number),
        above_number=say("LAYER of {layers}", layers=len(stack.layers)),
        below_number=say("UNDERSIDE UP"),
        legend=legend,
        front=-90.0 - turn,
        grain=180.0 - layer.grain - turn,
    )
