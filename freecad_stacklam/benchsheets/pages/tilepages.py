# SPDX-License-Identifier: LGPL-2.1-or-later

"""The pages of a full-size drawing: its lines and labels tile by tile, with what is needed to join them."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin

import numpy as np
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.backend import draw
from freecad_stacklam.benchsheets.drawing.lettering import text_width
from freecad_stacklam.benchsheets.drawing.lines import clipped
from freecad_stacklam.benchsheets.drawing.paper import Paper
from freecad_stacklam.benchsheets.drawing.sheet import NOTE, Mark, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.pages.labels import Label, Places, Shifted
from freecad_stacklam.benchsheets.pages.strip import drawing_space, tile_map
from freecad_stacklam.benchsheets.pages.tiling import CROSS_ARM, DrawingSpace, Tile, Tiling, Trim, registration_points
from freecad_stacklam.lamination.words import say


def spaces_for(paper: Paper) -> tuple[DrawingSpace, ...]:
    """The ways the page may lie."""
    papers = (paper, paper.turned()) if paper.turnable and not paper.roll else (paper,)
    return tuple(drawing_space(p) for p in papers)


def _join_marks(tiling: Tiling, spot: Tile, dx: float, dy: float, places: Places) -> list[Mark]:
    """Registration crosses, trim lines and the neighbours' names."""
    marks: list[Mark] = []
    crosses, trims = registration_points(tiling, spot)
    a = CROSS_ARM
    for x, y in crosses:
        x, y = x + dx, y + dy
        marks += [Polyline(((x - a, y), (x + a, y)), "fine"), Polyline(((x, y - a), (x, y + a)), "fine")]
    for trim in trims:
        if trim.upright:
            marks.append(Polyline(((trim.level + dx, trim.start + dy), (trim.level + dx, trim.end + dy)), "trim"))
        else:
            marks.append(Polyline(((trim.start + dx, trim.level + dy), (trim.end + dx, trim.level + dy)), "trim"))
        marks.append(_trim_words(trim, dx, dy, places))
    return marks


def _trim_words(trim: Trim, dx: float, dy: float, places: Places) -> Text:
    """The words along a trim line, off the drawing's lines where that can be, at best in the part to trim away."""
    words = say("trim · {neighbour} joins here", neighbour=trim.neighbour)
    length = text_width(words, NOTE)
    first, last = trim.start + 8.0, trim.end - 8.0 - length
    starts = first + np.array([0.5, 0.3, 0.7, 0.15, 0.85, 0.4, 0.6, 0.22, 0.78, 0.05, 0.95]) * (last - first)
    after, before = trim.level + 1.2, trim.level - 1.2 - NOTE
    sides = (after, before) if trim.outward > 0 else (before, after)
    low, start = np.repeat(sides, len(starts)), np.tile(starts, 2)
    across = np.column_stack([low - 0.5, low + NOTE + 0.5])
    along = np.column_stack([start - 2.0, start + length + 2.0])
    boxes = np.column_stack([across, along] if trim.upright else [along, across])[:, [0, 2, 1, 3]]
    best = int(np.argmin(places.crossed(boxes)))
    level, at = float(low[best]), float(start[best])
    if trim.upright:
        return Text((level + NOTE + dx, at + dy), words, NOTE, turn=90.0)
    return Text((at + dx, level + dy), words, NOTE)


def _page_marks(label: Label, window: tuple[float, float, float, float], dx: float, dy: float) -> list[Mark]:
    x0, y0, x1, y1 = label.box
    if x0 < window[0] or y0 < window[1] or x1 > window[2] or y1 > window[3]:
        return []
    shifted = Shifted(dx, dy)
    draw(label.marks, shifted)
    return shifted.marks


def tile_pages(
    kind: str,
    title: str,
    tiling: Tiling,
    lying: Sequence[tuple[str, BaseGeometry]],
    places: Places,
    strip: Sequence[Mark],
    stack: str,
    layer: int | None = None,
    in_plan: bool = True,
) -> list[Sheet]:
    """The pages of a full-size drawing, row by row, not yet numbered.

    lying: its lines by pen, as they lie on the page. in_plan: the drawing's coordinates are those of the stack, so that
    the pages say where they lie on it.
    """
    turn, space = tiling.turn, tiling.space
    c, s = cos(radians(turn)), sin(radians(turn))
    sheets = []
    for spot in tiling.tiles:
        dx, dy = space.x - spot.window[0], space.y - spot.window[1]
        marks: list[Mark] = []
        for pen, lines in lying:
            for chain in clipped(lines, spot.window):
                marks.append(Polyline(chain + (dx, dy), pen))
        marks += _join_marks(tiling, spot, dx, dy, places)
        for label in places.labels:
            marks += _page_marks(label, spot.window, dx, dy)
        marks += [*strip, *tile_map(tiling, spot)]
        left, low = -dx, -dy  # the page's lower left corner in the turned drawing
        sheets.append(
            Sheet(
                kind=kind,
                title=f"{title}, {spot.name}",
                paper=(tiling.paper.width, tiling.paper.height),
                marks=tuple(marks),
                stack=stack,
                layer=layer,
                tile=spot.name,
                origin=(c * left - s * low, s * left + c * low) if in_plan else None,
                turn=turn if in_plan else 0.0,
                scale=1.0,
                paper_name=tiling.paper.name,
            )
        )
    return sheets
