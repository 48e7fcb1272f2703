# SPDX-License-Identifier: LGPL-2.1-or-later

"""Stave maps: how the strips of every glued-up layer lie, with the triangle drawn across them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import cos, radians, sin

import numpy as np
import shapely
from shapely import MultiLineString
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.boards.panel import panel_of
from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import Units, number, text_width, unit_name
from freecad_stacklam.benchsheets.drawing.lines import CROSS, arrow
from freecad_stacklam.benchsheets.drawing.paper import SCALES
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, NOTE, PLAIN, STRONG, Mark, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.pages.blocks import Block, notes
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.benchsheets.pages.tablepages import HEADING, table_pages
from freecad_stacklam.benchsheets.pages.titleblock import block_of, title_block
from freecad_stacklam.lamination.plan.boards import Stave
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.words import mark, say

#: Over a map for its name, and round it, mm.
CAPTION, ROUND = 8.0, 7.0
#: A map at 1:5 is large enough to read.
LEGIBLE = 5
#: Columns and rows of maps on a page; the largest scale wins, then the most maps.
GRIDS = ((2, 3), (2, 2), (1, 2), (1, 1))
#: A list of places is at least this wide, mm; twice that in two units.
LISTED = 88.0
HOW = (
    mark(
        "The panel lies with its upper face UP, the grain from left to right. R is its reference corner, the wide "
        "line its reference edge: joint that edge straight and measure all from it."
    ),
    mark(
        "Left end: along the grain from R to the end of the stave, trim included. Lower edge: across, from the "
        "reference edge. The axis is the cross on the map, from the same corner: strike it on the panel before the "
        "outline."
    ),
    mark(
        "Heart side: up and down in turn is a suggestion, no rule; good figure and sound wood in the face come "
        "first, and quarter-sawn staves need no turning. Write UP on every stave with its letter."
    ),
)


def triangle_of(staves: Sequence[Stave]) -> MultiLineString:
    """The cabinetmaker's triangle across a layer's staves, in the stack's frame: its point along the grain.

    Both of its long sides and its base cross every seam or reach past it, so each stave carries a part that fits only
    its neighbours. A layer of one stave has a small triangle of its own.
    """
    if not staves:
        return MultiLineString()
    grain = staves[0].grain
    c, s = cos(radians(grain)), sin(radians(grain))
    along, across = np.array([c, s]), np.array([-s, c])
    points = np.array([p for stave in staves for p in stave.region])
    u, v = points @ along, points @ across
    spans = [(np.array(stave.region) @ across) for stave in staves]
    outer = min(float(np.ptp(span)) for span in (spans[int(np.argmin([x.min() for x in spans]))],
                                                 spans[int(np.argmax([x.max() for x in spans]))]))  # fmt: skip
    low, high = float(v.min()) + 0.35 * outer, float(v.max()) - 0.35 * outer
    if high - low < 1.0:
        low, high = float(v.min()) + 0.25 * float(np.ptp(v)), float(v.max()) - 0.25 * float(np.ptp(v))
    middle = float(u.min() + u.max()) / 2
    reach = 0.22 * float(np.ptp(u))
    corners = [(middle - reach, low), (middle - reach, high), (middle + reach, (low + high) / 2)]
    xy = [tuple((a * along + b * across).tolist()) for a, b in corners]
    return MultiLineString([[xy[0], xy[1]], [xy[1], xy[2]], [xy[2], xy[0]]])


def letter_of(stave: Stave) -> str:
    """The part of a stave's name that tells it from the others of its layer."""
    return stave.id.removeprefix(f"{stave.stack} {stave.layer}").strip() or stave.id


def _map(
    stack: StackPlan, layer: LayerPlan, staves: Sequence[Stave], cell: tuple[float, float, float, float], n: int,
    units: Units,
) -> list[Mark]:  # fmt: skip
    """One layer in its cell of the page (x0, y0, x1, y1)."""
    blank = area_polygon(layer.blank)
    regions = shapely.MultiPolygon([shapely.Polygon(s.region) for s in staves])
    bounds = shapely.total_bounds([blank, regions])
    x = (cell[0] + cell[2]) / 2 - (bounds[0] + bounds[2]) / 2 / n
    y = (cell[1] + cell[3] - CAPTION) / 2 - (bounds[1] + bounds[3]) / 2 / n

    def onto(shape: BaseGeometry) -> BaseGeometry:
        return shapely.transform(shape, lambda xy: xy / n + (x, y))

    marks: list[Mark] = []
    for part in shapely.get_parts(shapely.boundary(onto(blank))):
        marks.append(Polyline(shapely.get_coordinates(part), "cut"))
    for region in regions.geoms:
        marks.append(Polyline(shapely.get_coordinates(onto(region).exterior), "thin"))
    triangle = onto(triangle_of(staves))
    for part in triangle.geoms:
        marks.append(Polyline(shapely.get_coordinates(part), "mortise"))
    marks += _reference(staves, onto)
    shapely.prepare(triangle)
    for stave in staves:
        marks += _letter(stave, onto, triangle)
    name = say("{stack} {layer}, this face UP", stack=stack.name, layer=layer.number)
    marks.append(Text((cell[0] + 1.0, cell[3] - STRONG - 1.0), name, STRONG, bold=True, fit=cell[2] - cell[0] - 16.0))
    marks += arrow((cell[2] - 8.0, cell[3] - 5.0), layer.grain, 11.0, both=True)
    widths = " + ".join(number(stave.width, units) for stave in staves)
    marks.append(
        Text((cell[0] + 1.0, cell[1] + 1.0), f"{widths} {unit_name(units)}", NOTE, fit=cell[2] - cell[0] - 2.0)
    )
    return marks


def _reference(staves: Sequence[Stave], onto: Callable[[BaseGeometry], BaseGeometry]) -> list[Mark]:
    """The reference edge as a wide line with an R at its corner, and a cross at the stack's axis."""
    panel = panel_of(staves)
    edge = shapely.get_coordinates(onto(shapely.LineString([panel.corner, panel.edge_end])))
    long = edge[1] - edge[0]
    along = long / float(np.hypot(*long))
    out = np.array([along[1], -along[0]]) - along
    at = edge[0] + 2.6 * out
    x, y = shapely.get_coordinates(onto(shapely.Point(0.0, 0.0)))[0]
    return [
        Polyline(edge, "cut"),
        Text((float(at[0]), float(at[1]) - PLAIN / 2), "R", PLAIN, "centre", bold=True),
        Polyline(((x - CROSS / 2, y), (x + CROSS / 2, y)), "thin"),
        Polyline(((x, y - CROSS / 2), (x, y + CROSS / 2)), "thin"),
    ]


def _places(layer: LayerPlan, staves: Sequence[Stave], name: str, units: Units) -> Block:
    """Where each stave of a layer lies, from its reference corner."""
    panel = panel_of(staves)
    rows = [
        (
            letter_of(row.stave),
            number(row.left, units),
            number(row.lower, units),
            number(row.stave.length, units),
            number(row.stave.width, units),
            say("heart down") if row.heart == "down" else say("heart up"),
        )
        for row in panel.staves
    ]
    rows.append((say("axis"), number(panel.axis[0], units), number(panel.axis[1], units), "", "", ""))
    return Block(
        f"{name}, {unit_name(units)}",
        (say("stave"), say("left end"), say("lower edge"), say("long"), say("wide"), say("suggested")),
        (13.0, 17.0, 22.0, 16.0, 15.0, 24.0),
        (True, False, False, False, False, True),
        tuple(rows),
    )


def _letter(stave: Stave, onto: Callable[[BaseGeometry], BaseGeometry], triangle: BaseGeometry) -> list[Mark]:
    """The stave's letter, off the triangle's lines where that can be."""
    region = onto(shapely.Polygon(stave.region))
    words = letter_of(stave)
    width = text_width(words, PLAIN, bold=True)
    x0, y0, x1, y1 = region.bounds
    best = (region.centroid.x, region.centroid.y)
    for share in (0.5, 0.12, 0.88, 0.25, 0.75, 0.05, 0.95):
        c, s = abs(cos(radians(stave.grain))), abs(sin(radians(stave.grain)))
        at = (
            region.centroid.x + (share - 0.5) * (x1 - x0) * (c > s),
            region.centroid.y + (share - 0.5) * (y1 - y0) * (c <= s),
        )
        box = shapely.box(at[0] - width / 2 - 0.8, at[1] - 2.2, at[0] + width / 2 + 0.8, at[1] + 2.2)
        if region.buffer(0.5).contains(box) and not triangle.intersects(box):
            best = at
            break
    return [Text((best[0], best[1] - PLAIN / 2), words, PLAIN, "centre", bold=True)]


def _scale(wide: float, high: float, cell_x: float, cell_y: float) -> int:
    return next(
        (n for n in SCALES if wide / n <= cell_x - ROUND and high / n <= cell_y - CAPTION - 2 * ROUND), SCALES[-1]
    )


def _grid(wide: float, high: float, room_x: float, room_y: float, columns: int, rows: int) -> tuple[int, int, int, int]:
    """The scale 1:n of the largest map in this many cells; fewer pages, then, are better."""
    n = _scale(wide, high, room_x / columns, room_y / rows)
    return max(n, LEGIBLE), -columns * rows, columns, rows


def stave_sheets(book: Book, stack: StackPlan) -> list[Sheet]:
    """The stave maps of a stack's glued-up layers, all to one scale. Not yet numbered."""
    if book.plan.boards is None:
        return []
    mine = [stave for stave in book.plan.boards.staves if stave.stack == stack.name]
    layers = [(layer, [s for s in mine if s.layer == layer.number]) for layer in stack.layers]
    layers = [(layer, staves) for layer, staves in layers if len(staves) > 1]
    if not layers:
        return []
    page = book.desk.portrait()
    f = drawing_space(page)
    wide = high = 0.0
    for layer, staves in layers:
        bounds = shapely.total_bounds([area_polygon(layer.blank), *(shapely.Polygon(s.region) for s in staves)])
        wide, high = max(wide, float(bounds[2] - bounds[0])), max(high, float(bounds[3] - bounds[1]))
    room_x, room_y = f.width - 1.0, f.height - HEADING
    _, _, columns, rows = min(_grid(wide, high, room_x, room_y, c, r) for c, r in GRIDS)
    cell_x, cell_y = room_x / columns, room_y / rows
    n = _scale(wide, high, cell_x, cell_y)
    title = say("{stack}, stave maps", stack=stack.name)
    block = block_of(
        book,
        say("Stave map"),
        say("{stack}-staves", stack=stack.name),
        title,
        f"1:{n}",
        say("from above, FRONT below; R: corner"),
    )
    sheets = []
    for first in range(0, len(layers), columns * rows):
        marks: list[Mark] = [
            Text(
                (f.x + 1.0, f.y + f.height - LARGE),
                say("{title}, scale 1:{scale}", title=title, scale=n),
                LARGE,
                bold=True,
                fit=f.width - 2.0,
            )
        ]
        for i, (layer, staves) in enumerate(layers[first : first + columns * rows]):
            row, column = divmod(i, columns)
            top = f.y + room_y - row * cell_y
            cell = (f.x + 1.0 + column * cell_x, top - cell_y, f.x + 1.0 + (column + 1) * cell_x, top)
            marks += _map(stack, layer, staves, cell, n, book.units)
        marks += title_block(page, block)
        size = (page.width, page.height)
        sheets.append(Sheet("boards", title, size, tuple(marks), stack=stack.name, scale=1.0 / n, paper_name=page.name))
    width = LISTED if unit_name(book.units) == book.units.first else 2 * LISTED
    words = notes(say("How to lay the staves"), [say(sentence) for sentence in HOW], width)
    lists = [_places(layer, staves, f"{stack.name} {layer.number}", book.units) for layer, staves in layers]
    block = block_of(
        book,
        say("Stave list"),
        say("{stack}-staves", stack=stack.name),
        say("{stack}, staves", stack=stack.name),
        note=book.sizes_note,
    )
    title = say("{stack}, places of the staves", stack=stack.name)
    return [*sheets, *table_pages("boards", title, book.desk, block, [words, *lists], width, stack=stack.name)]
