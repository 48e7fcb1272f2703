# SPDX-License-Identifier: LGPL-2.1-or-later

"""Layer sheets: each layer on one page to scale, with its sizes, its cuts, and its cut line by offsets or compass."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import inf, isfinite

import numpy as np
import shapely
from shapely import LineString, MultiLineString, Point
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.dimension import chain
from freecad_stacklam.benchsheets.drawing.lettering import (
    Units,
    length_text,
    number,
    range_text,
    text_width,
    thickness_text,
)
from freecad_stacklam.benchsheets.drawing.lines import HATCH, zone
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, NOTE, PLAIN, STRONG, Mark, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.layers.compass import Edge
from freecad_stacklam.benchsheets.layers.layerdrawing import (
    PENS_OF_THIN,
    LayerDrawing,
    edge_mark,
    grain_arrow,
    label_tab,
    shown_cuts,
)
from freecad_stacklam.benchsheets.layers.layerlayout import AROUND, DIMENSIONS, HEADING, Layout
from freecad_stacklam.benchsheets.layers.layertables import table_width
from freecad_stacklam.benchsheets.layers.sheettables import tables_of
from freecad_stacklam.benchsheets.pages.blocks import Column, flow
from freecad_stacklam.benchsheets.pages.continued import next_page
from freecad_stacklam.benchsheets.pages.labels import Places
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.benchsheets.pages.titleblock import block_of, title_block
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.names import letters
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import polygon_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.tolerances import HALF_SHOWN, PARALLEL, ROUNDING
from freecad_stacklam.lamination.words import mark, say

#: From the object to the first dimension line, and to the next, mm.
FIRST, NEXT = 10.0, 7.5


def _height_words(book: Book, stack: StackPlan, layer: LayerPlan) -> str:
    """Where the layer lies in the piece as it stands, when its stack stands upright."""
    units = book.units
    frame = np.array(stack.frame).reshape(4, 4)
    if abs(abs(frame[2, 2]) - 1.0) > PARALLEL:
        return say("in its stack from {heights}", heights=range_text(layer.bottom, layer.top, units))
    heights = [frame[2, 3] + frame[2, 2] * z for z in (layer.bottom, layer.top)]
    floor = _floor(book.plan)
    low, high = sorted(height - floor for height in heights)
    above, own = range_text(low, high, units), range_text(layer.bottom, layer.top, units)
    if abs(low - layer.bottom) > HALF_SHOWN:
        if frame[2, 2] < 0:
            return say(
                "{heights} above the floor, upside down in the piece, in its stack from {own}", heights=above, own=own
            )
        return say("{heights} above the floor, in its stack from {own}", heights=above, own=own)
    if frame[2, 2] < 0:
        return say("{heights} above the floor, upside down in the piece", heights=above)
    return say("{heights} above the floor", heights=above)


def _floor(plan: Plan) -> float:
    """The lowest height in the model that any finished form reaches."""
    lowest = inf
    for stack in plan.stacks:
        frame = np.array(stack.frame).reshape(4, 4)
        if abs(abs(frame[2, 2]) - 1.0) < PARALLEL:
            ends = (0.0, min(stack.height, stack.form.height))
            lowest = min(lowest, *(float(frame[2, 3] + frame[2, 2] * z) for z in ends))
            continue
        for layer in stack.layers:
            flat = shapely.get_coordinates(shapely.envelope(layer.shadow))
            for z in (layer.bottom, min(layer.top, stack.form.height)):
                heights = flat @ frame[2, :2] + frame[2, 2] * z + frame[2, 3]
                lowest = min(lowest, float(heights.min(initial=inf)))
    return lowest if isfinite(lowest) else 0.0


def _heading(book: Book, stack: StackPlan, layer: LayerPlan, layout: Layout) -> list[Mark]:
    f = drawing_space(layout.paper)
    x, y = f.x + 1.0, f.y + f.height
    first = text_width(str(layer.number), 10.0, bold=True) + 3.0
    room = f.width - first - 2.0
    facts = say(
        mark("{species}, {thickness} thick, make {copies}; {heights}")
        if stack.copies > 1
        else mark("{species}, {thickness} thick; {heights}"),
        species=shown(layer.species),
        thickness=thickness_text(layer.thickness, book.units),
        copies=stack.copies,
        heights=_height_words(book, stack, layer),
    )
    return [
        Text((x, y - 10.0), str(layer.number), 10.0, bold=True),
        Text(
            (x + first, y - LARGE + 0.5),
            say(
                "{stack}, layer {layer} of {layers} – THIS FACE UP – scale 1:{scale}",
                stack=stack.name,
                layer=layer.number,
                layers=len(stack.layers),
                scale=layout.n,
            ),
            LARGE - 0.8,
            bold=True,
            fit=room,
        ),
        Text((x + first, y - 10.0), facts, PLAIN, fit=room),
    ]


@dataclass(frozen=True)
class _Onto:
    """From the stack's frame onto the page at 1:n."""

    n: int
    x: float
    y: float

    def point(self, at: Sequence[float]) -> tuple[float, float]:
        return self.x + at[0] / self.n, self.y + at[1] / self.n

    def shape(self, geometry: BaseGeometry) -> BaseGeometry:
        return shapely.transform(geometry, lambda xy: xy / self.n + (self.x, self.y))


def _dimensions(onto: _Onto, blank: BaseGeometry, units: Units) -> list[Mark]:
    """Overall sizes, and where the axis lies between the edges."""
    x0, y0, x1, y1 = blank.bounds
    corners = shapely.get_coordinates(blank)
    low, left = onto.point((x0, y0))[1], onto.point((x0, y0))[0]
    marks: list[Mark] = []
    for upright, a, b, edge in ((False, x0, x1, low), (True, y0, y1, left)):
        origin = onto.y if upright else onto.x

        def page(v: float, origin: float = origin) -> float:
            return origin + v / onto.n

        along, across = (corners[:, 1], corners[:, 0]) if upright else (corners[:, 0], corners[:, 1])
        foot = {
            v: (onto.x if upright else onto.y) + float(across[np.argmin(np.abs(along - v))]) / onto.n for v in (a, b)
        }
        ends = [(page(a), foot[a]), (page(b), foot[b])]
        if min(abs(a), abs(b)) > ROUNDING:
            stops = sorted([*ends, (page(0.0), edge)])
            marks += chain(stops, edge - FIRST, upright, 1 / onto.n, _that_fit(stops, onto.n, units))
            marks += chain([(at, edge - FIRST) for at, _ in ends], edge - FIRST - NEXT, upright, 1 / onto.n, units)
        else:
            marks += chain(ends, edge - FIRST, upright, 1 / onto.n, units)
    return marks


def _that_fit(stops: Sequence[tuple[float, float]], n: int, units: Units) -> Units:
    """Both units where every dimension of the chain has room for them, else the first alone."""
    short = any(b - a < text_width(number((b - a) * n, units), NOTE) + 1.0 for (a, _), (b, _) in zip(stops, stops[1:]))
    return replace(units, both=False) if short else units


def _joints_of_arcs(onto: _Onto, arcs: Sequence[Edge]) -> list[Mark]:
    """A tick across the cut line wherever an arc ends, and a cross at the centre of a full circle."""
    marks: list[Mark] = []
    for edge in arcs:
        if edge.whole:
            x, y = onto.point(edge.centre)
            marks += [
                Polyline(((x - 2.0, y), (x + 2.0, y)), "fine"),
                Polyline(((x, y - 2.0), (x, y + 2.0)), "fine"),
            ]
            continue
        x, y = onto.point(edge.end)
        dx, dy = np.subtract(edge.end, edge.centre if edge.radius else edge.start)
        if not edge.radius:
            dx, dy = dy, -dx
        length = float(np.hypot(dx, dy)) or 1.0
        u, v = dx / length * 1.1, dy / length * 1.1
        marks.append(Polyline(((x - u, y - v), (x + u, y + v)), "fine"))
    return marks


def _number_arcs(places: Places, onto: _Onto, arcs: Sequence[Edge], few: bool, units: Units) -> None:
    """The arcs' numbers outside the cut line, or inside it, with a leader where neither is free."""
    height = PLAIN if few else NOTE + 0.2
    for i, edge in enumerate(arcs, start=1):
        words = str(i)
        if few and edge.radius:
            words = f"{i}: R {length_text(edge.radius, units)}"
        width = text_width(words, height)
        x, y = onto.point(edge.middle)
        u, v = edge.outward
        away = np.array([2.4, 3.4, 4.6, 6.0, -2.6, -4.0, -6.0, 9.0, 13.0, 18.0, -10.0])
        spread = np.array([0.0, 0.25, -0.25, 0.5, -0.5])
        slide = float(np.hypot(*np.subtract(edge.end, edge.start))) / onto.n if not edge.whole else 0.0
        centre = np.array([x, y]) + (
            away[:, None, None] * np.array([u, v]) + (spread * slide)[None, :, None] * np.array([-v, u])
        )
        reach = np.array([abs(u) * width / 2, abs(v) * height / 2]) * np.sign(away)[:, None, None]
        corners = (centre + np.sign([u, v]) * reach).reshape(-1, 2) - np.array([width, height]) / 2

        def rows(
            a: float, b: float, words: str = words, width: float = width, at: tuple[float, float] = (x, y)
        ) -> tuple[Mark, ...]:
            text = Text((a, b), words, height)
            box = shapely.box(a - 0.6, b - 0.6, a + width + 0.6, b + height + 0.6)
            line = shapely.shortest_line(box, Point(at))
            return (text,) if line.length < 4.5 else (text, Polyline(tuple(line.coords), "fine"))

        places.first(corners, width, height, rows)


def _face_up(places: Places, island: BaseGeometry, number: str) -> None:
    """The layer's number and UP on the wood, as large as there is room; the heading says both anyway."""
    for height in (LARGE, STRONG, PLAIN):
        words = say("{layer} UP", layer=number)

        def rows(x: float, y: float, words: str = words, height: float = height) -> tuple[Mark, ...]:
            return (Text((x, y), words, height, bold=True),)

        if places.within(island, text_width(words, height, bold=True), height, rows):
            return


def _sides(places: Places, island: BaseGeometry, start: tuple[float, float]) -> None:
    """FRONT below and RIGHT beside: a mark on the edge, and the word as near to it as there is room."""
    for name, degrees in (("FRONT", -90.0), ("RIGHT", 0.0)):
        at, triangle = edge_mark(island, start, degrees, name == "FRONT", 0.7)
        places.fix(triangle)
        words = say(name)
        width = text_width(words, PLAIN, bold=True)
        if name == "FRONT":
            offsets = [
                (5.0, 2.0),
                (-5.0 - width, 2.0),
                (4.0, -4.5),
                (-4.0 - width, -4.5),
                (7.0, 5.0),
                (-7.0 - width, 5.0),
            ]
        else:
            offsets = [(3.0, 1.6), (3.0, -4.2), (-width - 5.0, 4.0), (-width - 5.0, -6.5), (4.0, 4.0), (4.0, -7.0)]
        corners = np.array(at) + np.array([(dx * k, dy * k) for k in (1.0, 1.4, 2.0) for dx, dy in offsets])

        def rows(x: float, y: float, words: str = words) -> tuple[Mark, ...]:
            return (Text((x, y), words, PLAIN, bold=True),)

        if not places.first(corners, width, PLAIN, rows):
            places.near(at, width, PLAIN, rows)


def _label_cuts(places: Places, onto: _Onto, drawing: LayerDrawing) -> None:
    """A letter beside every cut, the one that its row in the table has."""
    for i, cut in enumerate(shown_cuts(drawing.layer)):
        letter = letters(i)
        width = text_width(letter, STRONG, bold=True)
        area = onto.shape(polygon_of(cut.outline))

        def rows(x: float, y: float, letter: str = letter) -> tuple[Mark, ...]:
            return (Text((x, y), letter, STRONG, bold=True),)

        places.beside(area, width, STRONG, rows)


def layer_sheets(book: Book, stack: StackPlan, drawing: LayerDrawing) -> list[Sheet]:
    """The dimensioned page of one layer, and pages that carry on its tables where they are long. Not yet numbered."""
    units, layer = book.units, drawing.layer
    width = table_width(units)
    x0, y0, x1, y1 = drawing.needed.bounds
    every, listed, layout = tables_of(book, stack, drawing, (x1 - x0, y1 - y0), width)
    page, n, room = layout.paper, layout.n, layout.room
    onto = _Onto(n, (room[0] + room[2]) / 2 - (x0 + x1) / 2 / n, (room[1] + room[3]) / 2 - (y0 + y1) / 2 / n)
    drawn = [(pen, onto.shape(lines)) for pen, lines in drawing.lines if pen != "next" and "little wood" not in pen]
    drawn += [(pen, zone(onto.shape(area), HATCH / 2, pen == PENS_OF_THIN[-1])) for pen, area in drawing.thin]
    marks: list[Mark] = [Polyline(shapely.get_coordinates(part), pen) for pen, lines in drawn for part in lines.geoms]
    fixed = _dimensions(onto, drawing.blank, units) + _joints_of_arcs(onto, listed)
    marks += fixed
    chains = [LineString(shapely.get_coordinates(part)) for _, lines in drawn for part in lines.geoms]
    chains += [LineString(m.points) for m in fixed if isinstance(m, Polyline)]
    wood = onto.shape(drawing.wood)
    window = (room[0] - DIMENSIONS, room[1] - DIMENSIONS, room[2] + AROUND - 1.0, room[3] + AROUND - 1.0)
    places = Places([window], MultiLineString(chains), wood)
    for m in fixed:
        if isinstance(m, Text):
            places.keep_off(m)
    _label_cuts(places, onto, drawing)
    for tab in layer.tabs:
        label_tab(places, onto.shape(tab.area))
    islands = sorted(wood.geoms, key=lambda p: -p.area)
    for island in islands if len(islands) > 1 else [onto.shape(drawing.blank)]:
        middle = (onto.x, onto.y) if len(islands) == 1 else (island.centroid.x, island.centroid.y)
        _sides(places, island, middle)
    places.near(
        (onto.x, onto.y), text_width(say("axis"), PLAIN), PLAIN, lambda x, y: (Text((x, y), say("axis"), PLAIN),)
    )
    for i, island in enumerate(islands):
        letter = letters(i).lower() if len(islands) > 1 else ""
        _face_up(places, island, f"{layer.number}{letter}")
        grain_arrow(places, island, layer.grain, (24.0, 14.0))
    _number_arcs(places, onto, listed, True, units)
    marks += [m for label in places.labels for m in label.marks]
    tables, over = flow(every, layout.columns, size=layout.size)
    marks += tables + _heading(book, stack, layer, layout)
    scale = f"1:{n}"
    block = block_of(
        book,
        say("Layer sheet"),
        f"{stack.name}-{layer.number}",
        say("{stack}, layer {layer}", stack=stack.name, layer=layer.number),
        scale,
        say("{note}; do not measure on the paper", note=book.sizes_note),
    )
    name = say("{stack}, layer {layer}, layer sheet", stack=stack.name, layer=layer.number)
    sheets = [
        Sheet(
            kind="layer",
            title=name,
            paper=(page.width, page.height),
            marks=(*marks, *title_block(page, block)),
            stack=stack.name,
            layer=layer.number,
            origin=(-onto.x * n, -onto.y * n),
            scale=1.0 / n,
            paper_name=page.name,
        )
    ]
    while over:
        page = book.desk.portrait()
        f = drawing_space(page)
        across = max(1, int(f.width // width))
        wide = f.width / across
        columns = [Column(f.x + 1.0 + i * wide, f.y + f.height - HEADING, wide - 3.0, f.height - HEADING - 2.0)
                   for i in range(across)]  # fmt: skip
        tables, over = flow(over, columns)
        head = Text((f.x + 1.0, f.y + f.height - LARGE), next_page(name), LARGE, bold=True, fit=f.width)
        sheets.append(
            Sheet("layer", next_page(name), (page.width, page.height), (head, *tables, *title_block(page, block)),
                  stack=stack.name, layer=layer.number, paper_name=page.name)
        )  # fmt: skip
    return sheets
