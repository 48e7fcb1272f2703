# SPDX-License-Identifier: LGPL-2.1-or-later

"""Spread maps: for every glue line the face from above, where glue goes hatched, what stays free of it left white."""

from __future__ import annotations

from math import ceil

import shapely
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.lettering import Units
from freecad_stacklam.benchsheets.drawing.lines import HATCH, rings, zone
from freecad_stacklam.benchsheets.drawing.sheet import NOTE, PLAIN, Mark, Polyline, Text
from freecad_stacklam.benchsheets.gluing.gluewords import area_text, line_grams_text, line_name
from freecad_stacklam.benchsheets.gluing.picture import Box, Picture, fit_scale
from freecad_stacklam.benchsheets.gluing.runs import blank_of, meeting, stack_named
from freecad_stacklam.lamination.plan.gluing import SetUp
from freecad_stacklam.lamination.plan.layers import LayerPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.words import mark, say

#: Under a map for its words, and round it, mm of paper.
WORDS, ROUND = 8.0, 2.0
#: Maps on a page at the most; more lines than this in one set-up are drawn by their layer sheets alone.
MOST = 16
#: Scales of maps, 1:n: steps between the usual ones too, where half the size would be too small to read.
SCALES = (1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 100, 200)
KEY = mark("Hatched: glue. White inside a heavier line: keep free (mortise, pin, void).")


def _grid(count: int, wide: float, high: float, room_x: float, room_y: float) -> tuple[int, int]:
    """The scale 1:n and the number of columns with which `count` maps are largest; then fewest columns."""
    found = []
    for columns in range(1, count + 1):
        rows = ceil(count / columns)
        n = fit_scale(wide, high, room_x / columns - 2 * ROUND, room_y / rows - WORDS - ROUND, SCALES)
        found.append((n, abs(columns - rows), columns))
    n, _, columns = min(found)
    return n, columns


def spread_maps(plan: Plan, set_up: SetUp, units: Units, box: Box) -> Picture:
    """The lines of a set-up of layers, from the bottom. Nothing where they are not known."""
    stack = stack_named(plan, set_up.stack)
    if stack is None:
        return Picture()
    by_number = {layer.number: layer for layer in stack.layers}
    lines = [n for n in set_up.lines if n in by_number and n + 1 in by_number][:MOST]
    if not lines:
        return Picture()
    blanks = [blank_of(by_number[n]) for n in lines]
    wide = max(b.bounds[2] - b.bounds[0] for b in blanks)
    high = max(b.bounds[3] - b.bounds[1] for b in blanks)
    room_x, room_y = box[2] - box[0], box[3] - box[1]
    n, columns = _grid(len(lines), wide, high, room_x, room_y)
    rows = ceil(len(lines) / columns)
    cell_x, cell_y = room_x / columns, min(room_y / rows, high / n + WORDS + 2 * ROUND)
    grams = set_up.glue / set_up.area if set_up.area else 0.0
    marks: list[Mark] = []
    for i, line in enumerate(lines):
        row, column = divmod(i, columns)
        left, top = box[0] + column * cell_x, box[3] - row * cell_y
        middle = ((blanks[i].bounds[0] + blanks[i].bounds[2]) / 2, (blanks[i].bounds[1] + blanks[i].bounds[3]) / 2)
        x = left + cell_x / 2 - middle[0] / n
        y = top - ROUND - high / 2 / n - middle[1] / n
        area = _map(by_number[line], by_number[line + 1], x, y, n, marks)
        words = f"{area_text(area, units)}, {line_grams_text(area * grams, units)}"
        at, level = left + cell_x / 2, top - ROUND - high / n - PLAIN - 1.6
        marks.append(Text((at, level), line_name(set_up, line), PLAIN, "centre", bold=True, fit=cell_x - 2.0))
        marks.append(Text((at, level - NOTE - 1.3), words, NOTE, "centre", fit=cell_x - 2.0))
    return Picture(tuple(marks), n, say(KEY))


def _map(below: LayerPlan, above: LayerPlan, x: float, y: float, n: int, marks: list[Mark]) -> float:
    """Draw one line; its area, mm²."""
    contact, free = meeting(below, above)

    def onto(shape: BaseGeometry) -> BaseGeometry:
        return shapely.transform(shape, lambda xy: xy / n + (x, y))

    for part in rings(onto(blank_of(below))).geoms:
        marks.append(Polyline(shapely.get_coordinates(part), "thin"))
    for part in zone(onto(contact), HATCH / 2).geoms:
        marks.append(Polyline(shapely.get_coordinates(part), "fine"))
    for part in rings(onto(free)).geoms:
        marks.append(Polyline(shapely.get_coordinates(part), "mortise"))
    return float(contact.area)
