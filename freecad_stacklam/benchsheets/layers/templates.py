# SPDX-License-Identifier: LGPL-2.1-or-later

"""Full-size templates of every layer, tiled over the paper."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin

import numpy as np
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.labels import Label, Places, moved
from freecad_stacklam.benchsheets.drawing.lettering import AnyUnits, length_text, range_text, size_text, text_width
from freecad_stacklam.benchsheets.drawing.paper import Paper
from freecad_stacklam.benchsheets.drawing.sheet import NOTE, Mark, Polyline, Sheet, Text, number_sheets
from freecad_stacklam.benchsheets.drawing.strip import Fields, frame_of, joined, sheet_line, tile_map, title_strip
from freecad_stacklam.benchsheets.drawing.tiling import (
    CROSS_ARM,
    Frame,
    Tile,
    Tiling,
    Trim,
    clipped,
    registration_points,
    tile,
    turned,
)
from freecad_stacklam.benchsheets.fingerprint import plan_mark
from freecad_stacklam.benchsheets.layers.layerdrawing import LayerDrawing, cuts_line, draw_layers, layer_labels
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.whole import Plan


def frames_for(paper: Paper) -> tuple[Frame, ...]:
    """The ways the page may lie."""
    papers = (paper, paper.turned()) if paper.turnable and not paper.roll else (paper,)
    return tuple(frame_of(p) for p in papers)


def _legend(drawing: LayerDrawing, units: AnyUnits) -> tuple[tuple[str, str], ...]:
    layer = drawing.layer
    rows = [("cut", "cut here: the blank")]
    if not layer.finished_top.is_empty:
        rows.append(("finished", f"finished, top, at {length_text(layer.top, units)}"))
    elif not layer.shadow.is_empty:
        rows.append(("finished", "finished, widest in this layer"))
    if not layer.finished_bottom.is_empty:
        rows.append(("hidden", f"finished, bottom, at {length_text(layer.bottom, units)}"))
    if drawing.above is not None:
        rows.append(("next", f"layer {drawing.above.number} is glued here"))
    kinds = " or ".join(dict.fromkeys(cut.kind for cut in layer.cuts))
    pens = {pen for pen, _ in drawing.lines}
    if "mortise" in pens:
        rows.append(("mortise", f"{kinds}, from above"))
    if "mortise hidden" in pens:
        rows.append(("mortise hidden", f"{kinds}, hidden"))
    if "seam" in pens:
        rows.append(("seam", "seam between staves"))
    rows.append(("trim", "trim, join on the crosses"))
    return tuple(rows)


def _fields(plan: Plan, stack: StackPlan, drawing: LayerDrawing, turn: float, units: AnyUnits, mark: str) -> Fields:
    layer = drawing.layer
    along, across = drawing.extents(layer.grain)
    copies = f"make {stack.copies}" if stack.copies > 1 else ""
    lines = (
        joined(plan.title, stack.name),
        f"Height {range_text(layer.bottom, layer.top, units)}, stock {length_text(layer.thickness, units)}",
        joined(layer.species, f"blank {size_text(along, across, units)}, grain first", copies),
        cuts_line(layer, units),
        joined(sheet_line("Full-size template"), plan.date),
        joined(f"part {stack.name}-{layer.number}", f"plan {mark}", plan.author),
    )
    return Fields(
        lines,
        number=str(layer.number),
        above_number=f"LAYER of {len(stack.layers)}",
        below_number="THIS FACE UP",
        legend=_legend(drawing, units),
        front=-90.0 - turn,
        grain=layer.grain - turn,
    )


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
    words = f"trim · {trim.neighbour} joins here"
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
    return [moved(mark, dx, dy) for mark in label.marks]


def stack_sheets(plan: Plan, stack: StackPlan, paper: Paper, units: AnyUnits, mark: str) -> list[Sheet]:
    """The template pages of all layers of a stack, from the bottom, not yet numbered."""
    return [
        sheet
        for drawing in draw_layers(plan, stack)
        for sheet in layer_templates(plan, stack, drawing, paper, units, mark)
    ]


def layer_templates(
    plan: Plan, stack: StackPlan, drawing: LayerDrawing, paper: Paper, units: AnyUnits, mark: str
) -> list[Sheet]:
    """The pages of one layer, row by row."""
    tiling = tile(drawing.needed, frames_for(paper), drawing.whole)
    turn = tiling.turn
    places = layer_labels(drawing, stack, tiling, units)
    strip = title_strip(tiling.paper, _fields(plan, stack, drawing, turn, units, mark))
    lying = [(pen, turned(lines, turn)) for pen, lines in drawing.lines]
    title = f"{stack.name}, layer {drawing.layer.number}"
    return tile_pages("template", title, tiling, lying, places, strip, stack.name, drawing.layer.number)


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
    turn, frame = tiling.turn, tiling.frame
    c, s = cos(radians(turn)), sin(radians(turn))
    sheets = []
    for spot in tiling.tiles:
        dx, dy = frame.x - spot.window[0], frame.y - spot.window[1]
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


def template_sheets(plan: Plan, paper: Paper, units: AnyUnits = "mm") -> tuple[Sheet, ...]:
    """Every layer of every stack, from the bottom, full size on as many pages of `paper` as it takes."""
    mark = plan_mark(plan)
    return number_sheets(sheet for stack in plan.stacks for sheet in stack_sheets(plan, stack, paper, units, mark))


def count_pages(plan: Plan, paper: Paper) -> dict[tuple[str, int], int]:
    """How many pages the full-size templates will take, by stack and layer, before any is drawn.

    Raises Refusal, with the count in it, for a layer that needs more than a book can hold.
    """
    return {
        (stack.name, drawing.layer.number): len(tile(drawing.needed, frames_for(paper), drawing.whole).tiles)
        for stack in plan.stacks
        for drawing in draw_layers(plan, stack)
    }
