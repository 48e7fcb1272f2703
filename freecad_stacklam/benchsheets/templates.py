"""Full-size templates of every layer, tiled over the paper."""

from __future__ import annotations

from math import cos, radians, sin

import numpy as np

from freecad_stacklam.benchsheets.fingerprint import plan_mark
from freecad_stacklam.benchsheets.labels import Label, moved
from freecad_stacklam.benchsheets.layerdrawing import LayerDrawing, cuts_line, draw_layer, layer_labels
from freecad_stacklam.benchsheets.lettering import length_text, range_text, size_text, text_width
from freecad_stacklam.benchsheets.paper import Paper
from freecad_stacklam.benchsheets.sheet import NOTE, Mark, Polyline, Sheet, Text, number_sheets
from freecad_stacklam.benchsheets.strip import Fields, frame_of, joined, sheet_line, tile_map, title_strip
from freecad_stacklam.benchsheets.tiling import (
    CROSS_ARM,
    Frame,
    Tile,
    Tiling,
    clipped,
    registration_points,
    tile,
    turned,
)
from freecad_stacklam.lamination.outline import extents
from freecad_stacklam.lamination.plan import Plan, StackPlan


def frames_for(paper: Paper) -> tuple[Frame, ...]:
    """The ways the page may lie."""
    papers = (paper, paper.turned()) if paper.turnable and not paper.roll else (paper,)
    return tuple(frame_of(p) for p in papers)


def _legend(drawing: LayerDrawing, units: str) -> tuple[tuple[str, str], ...]:
    layer = drawing.layer
    rows = [("cut", "cut here: the blank")]
    if not layer.finished_top.is_empty:
        rows.append(("finished", f"finished, top, at {length_text(layer.top, units)}"))
    if not layer.finished_bottom.is_empty:
        rows.append(("hidden", f"finished, bottom, at {length_text(layer.bottom, units)}"))
    if drawing.above is not None:
        rows.append(("next", f"layer {drawing.above.number} is glued here"))
    if layer.cuts:
        hidden = any(pen == "mortise hidden" for pen, _ in drawing.lines)
        rows.append(("mortise hidden", "mortise, from below") if hidden else ("mortise", "mortise"))
    rows.append(("trim", "trim, join on the crosses") if len(rows) < 6 else ("centre", "centre line"))
    return tuple(rows)


def _fields(plan: Plan, stack: StackPlan, drawing: LayerDrawing, turn: float, units: str, mark: str) -> Fields:
    layer = drawing.layer
    along, across = extents(layer.blank, layer.grain)
    copies = f"make {stack.copies}" if stack.copies > 1 else ""
    lines = (
        joined(plan.title, stack.name),
        f"Height {range_text(layer.bottom, layer.top, units)}, stock {length_text(layer.thickness, units)}",
        joined(layer.species, f"blank {size_text(along, across, units)} (grain × across)", copies),
        cuts_line(layer, units),
        sheet_line("Full-size template"),
        joined(f"part {stack.name}-{layer.number}", f"plan {mark}", plan.author, plan.date),
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


def _join_marks(tiling: Tiling, spot: Tile, dx: float, dy: float, lines: np.ndarray) -> list[Mark]:
    """Registration crosses, trim lines and the neighbours' names."""
    marks: list[Mark] = []
    crosses, trims = registration_points(tiling, spot)
    a = CROSS_ARM
    for x, y in crosses:
        x, y = x + dx, y + dy
        marks += [Polyline(((x - a, y), (x + a, y)), "fine"), Polyline(((x, y - a), (x, y + a)), "fine")]
    for axis, level, start, end in trims:
        upright = axis == "x"
        if upright:
            marks.append(Polyline(((level + dx, start + dy), (level + dx, end + dy)), "trim"))
            step = 1 if level > (spot.cell[0] + spot.cell[2]) / 2 else -1
            name = next(t.name for t in tiling.tiles if (t.row, t.column) == (spot.row, spot.column + step))
        else:
            marks.append(Polyline(((start + dx, level + dy), (end + dx, level + dy)), "trim"))
            step = -1 if level > (spot.cell[1] + spot.cell[3]) / 2 else 1
            name = next(t.name for t in tiling.tiles if (t.row, t.column) == (spot.row + step, spot.column))
        outward = step if upright else -step
        words = f"trim · {name} joins here"
        marks += _trim_words(words, upright, level, start, end, outward, dx, dy, lines)
    return marks


def _trim_words(
    words: str,
    upright: bool,
    level: float,
    start: float,
    end: float,
    outward: int,
    dx: float,
    dy: float,
    lines: np.ndarray,
) -> list[Mark]:
    """The words along a trim line, in the part that is trimmed away, where fewest lines of the drawing run.

    `lines` are points along all lines of this page (n × 2, drawing mm).
    """
    length = text_width(words, NOTE)
    near = 1.2 if outward > 0 else -1.2 - NOTE
    low = level + near
    level_of, along_of = (lines[:, 0], lines[:, 1]) if upright else (lines[:, 1], lines[:, 0])
    band = along_of[(level_of > low - 1.0) & (level_of < low + NOTE + 1.0)]
    first, last = start + 8.0, end - 8.0 - length
    places = [first + part * (last - first) for part in (0.5, 0.3, 0.7, 0.15, 0.85, 0.4, 0.6)]
    at = min(places, key=lambda p: int(((band > p - 2.0) & (band < p + length + 2.0)).sum()))
    if upright:
        return [Text((low + NOTE + dx, at + dy), words, NOTE, turn=90.0)]
    return [Text((at + dx, low + dy), words, NOTE)]


def _page_marks(label: Label, window: tuple[float, float, float, float], dx: float, dy: float) -> list[Mark]:
    x0, y0, x1, y1 = label.box
    if x0 < window[0] or y0 < window[1] or x1 > window[2] or y1 > window[3]:
        return []
    return [moved(mark, dx, dy) for mark in label.marks]


def layer_sheets(plan: Plan, stack: StackPlan, index: int, paper: Paper, units: str, mark: str) -> list[Sheet]:
    """The template pages of one layer, row by row, not yet numbered."""
    drawing = draw_layer(stack, index)
    tiling = tile(drawing.needed, frames_for(paper), drawing.whole)
    turn, frame = tiling.turn, tiling.frame
    labels = layer_labels(drawing, stack, tiling, units)
    strip = title_strip(tiling.paper, _fields(plan, stack, drawing, turn, units, mark))
    lying = [(pen, turned(lines, turn)) for pen, lines in drawing.lines]
    c, s = cos(radians(turn)), sin(radians(turn))
    sheets = []
    for spot in tiling.tiles:
        dx, dy = frame.x - spot.window[0], frame.y - spot.window[1]
        marks: list[Mark] = []
        run = [np.empty((0, 2))]
        for pen, lines in lying:
            for chain in clipped(lines, spot.window):
                marks.append(Polyline((chain + (dx, dy)).round(4).tolist(), pen))
                run.append(_along(chain))
        marks += _join_marks(tiling, spot, dx, dy, np.concatenate(run))
        for label in labels:
            marks += _page_marks(label, spot.window, dx, dy)
        marks += strip + tile_map(tiling, spot)
        left, low = -dx, -dy  # the page's lower left corner in the turned drawing
        sheets.append(
            Sheet(
                kind="template",
                title=f"{stack.name}, layer {drawing.layer.number}, {spot.name}",
                paper=(tiling.paper.width, tiling.paper.height),
                marks=tuple(marks),
                stack=stack.name,
                layer=drawing.layer.number,
                tile=spot.name,
                origin=(c * left - s * low, s * left + c * low),
                turn=turn,
                scale=1.0,
                paper_name=tiling.paper.name,
            )
        )
    return sheets


def _along(chain: np.ndarray, step: float = 2.0) -> np.ndarray:
    """Points along a chain, no further apart than `step`."""
    lengths = np.hypot(*np.diff(chain, axis=0).T)
    run = np.concatenate([[0.0], np.cumsum(lengths)])
    at = np.linspace(0.0, run[-1], max(2, int(run[-1] / step) + 2))
    return np.column_stack([np.interp(at, run, chain[:, 0]), np.interp(at, run, chain[:, 1])])


def template_sheets(plan: Plan, paper: Paper, units: str = "mm") -> tuple[Sheet, ...]:
    """Every layer of every stack, from the bottom, full size on as many pages of `paper` as it takes."""
    mark = plan_mark(plan)
    return number_sheets(
        sheet
        for stack in plan.stacks
        for index in range(len(stack.layers))
        for sheet in layer_sheets(plan, stack, index, paper, units, mark)
    )
