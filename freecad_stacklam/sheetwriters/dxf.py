# SPDX-License-Identifier: LGPL-2.1-or-later

"""Outlines as DXF for a plotter or a router: closed polylines with arcs, one DXF layer for each kind of line."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from importlib import import_module
from math import cos, radians, sin
from pathlib import Path
from typing import Any

from freecad_stacklam.benchsheets.drawing.backend import draw
from freecad_stacklam.benchsheets.drawing.sheet import Arc, Circle, FilledRegion, Mark, Polyline, Text
from freecad_stacklam.benchsheets.layers.layerdrawing import LayerDrawing, draw_layers
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.lengths import INCH, format_length, format_thickness
from freecad_stacklam.lamination.names import file_names
from freecad_stacklam.lamination.plan.insides import WayIn
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import Loop, loops_of, polygon_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import mark, say
from freecad_stacklam.packages.missing import need_dxf
from freecad_stacklam.sheetwriters.aside import aside

#: DXF layers by kind of line: name, colour index, line type, weight in 1/100 mm. Kinds are told apart without colour.
LAYERS = {
    "cut": ("CUT LINE", 7, "CONTINUOUS", 50),
    "finished top": ("FINISHED FORM TOP", 7, "PHANTOM", 25),
    "finished bottom": ("FINISHED FORM BOTTOM", 7, "DASHED", 25),
    "mortise": ("MORTISE", 7, "CONTINUOUS", 35),
    "pin": ("PIN", 7, "CONTINUOUS", 35),
    "hollow": ("HOLLOW", 7, "CONTINUOUS", 35),
    "way in": ("WAY INTO VOID", 7, "CONTINUOUS", 35),
    "little wood": ("LITTLE WOOD TOP", 7, "DOT", 18),
    "little wood below": ("LITTLE WOOD BOTTOM", 7, "DOT", 18),
    "seam": ("STAVE SEAM", 7, "DASHDOT", 25),
    "template": ("SECTION TEMPLATE", 7, "CONTINUOUS", 50),
    "axis": ("AXIS", 7, "CENTER", 18),
    "words": ("LETTERING", 7, "CONTINUOUS", 18),
}
#: Cuts that do not go through the layer stand on a DXF layer of their own, so that no router cuts them through.
STOPPED = " STOPPED"
#: A comment (group 999) that a file begins with, by which it is known as ours; other programs' saving drops it.
HEAD = b"999\nDrawn by StackLam\n"
#: Ends of the baseline, by DXF's names.
ALIGNMENTS = {"left": "LEFT", "centre": "CENTER", "right": "RIGHT"}


@cache
def _ezdxf() -> Any:
    """The package ezdxf, loaded when the first drawing is made. Raises PackagesMissing."""
    need_dxf()
    return import_module("ezdxf")


def _new(units: str) -> Any:
    """An empty drawing in mm or inches, with our layers."""
    ezdxf = _ezdxf()
    document = ezdxf.new("R2010", setup=["linetypes"])
    inches = units == "in"
    document.units = ezdxf.units.IN if inches else ezdxf.units.MM
    document.header["$MEASUREMENT"] = 0 if inches else 1
    document.header["$LUNITS"] = 5 if inches else 2  # fractional inches, decimal mm
    return document


def _layer(document: Any, kind: str, stopped: bool = False) -> str:
    """The DXF layer of a kind of line, made when it is first asked for."""
    name, colour, line, weight = LAYERS[kind]
    name += STOPPED if stopped else ""
    if name not in document.layers:
        document.layers.add(name, color=colour, linetype=line, lineweight=weight)
    return name


class DxfDrawing:
    """The backend: a drawing whose points are the stack's, in its own units. A mark's pen is a kind of LAYERS."""

    def __init__(self, units: str) -> None:
        if units not in ("mm", "in"):
            raise Refusal(say("A DXF file cannot be in “{units}”: choose mm or in.", units=units))
        self.document = _new(units)
        self.space = self.document.modelspace()
        self.one = INCH if units == "in" else 1.0

    def _at(self, point: Sequence[float]) -> tuple[float, float]:
        return point[0] / self.one, point[1] / self.one

    def _on(self, kind: str, stopped: bool = False) -> dict[str, Any]:
        return {"layer": _layer(self.document, kind, stopped)}

    def loop(self, loop: Loop, kind: str, stopped: bool = False) -> None:
        """A closed outline of straights and arcs; marks know no such thing, a saw and a router do."""
        points = [(*self._at(point), point[2]) for point in loop.points]
        self.space.add_lwpolyline(points, format="xyb", close=True, dxfattribs=self._on(kind, stopped))

    def polyline(self, mark: Polyline) -> None:
        points = [self._at(point) for point in mark.points]
        if len(points) == 2 and not mark.closed:
            self.space.add_line(*points, dxfattribs=self._on(mark.pen))
        else:
            self.space.add_lwpolyline(points, close=mark.closed, dxfattribs=self._on(mark.pen))

    def circle(self, mark: Circle) -> None:
        self.space.add_circle(self._at(mark.centre), mark.radius / self.one, dxfattribs=self._on(mark.pen))

    def arc(self, mark: Arc) -> None:
        ends = (mark.start, mark.start + mark.sweep)
        start, end = ends if mark.sweep >= 0 else ends[::-1]  # a DXF arc runs counter-clockwise
        self.space.add_arc(self._at(mark.centre), mark.radius / self.one, start, end, dxfattribs=self._on(mark.pen))

    def text(self, mark: Text) -> None:
        look: dict[str, Any] = {**self._on("words"), "height": mark.height / self.one}
        if mark.turn:
            look["rotation"] = mark.turn
        words = self.space.add_text(mark.text, dxfattribs=look)
        align = _ezdxf().enums.TextEntityAlignment[ALIGNMENTS[mark.align]]
        words.set_placement(self._at(mark.at), align=align)
        if mark.align == "left":
            words.dxf.discard("align_point")  # it has none by the standard: the insertion point says where it is

    def region(self, mark: FilledRegion) -> None:
        hatch = self.space.add_hatch(dxfattribs=self._on("words"))  # solid unless told otherwise; odd-even
        for points in mark.loops:
            hatch.paths.add_polyline_path([self._at(point) for point in points], is_closed=True)

    def save(self, path: str | Path) -> None:
        with aside(path) as temporary:
            self.document.saveas(temporary)
            temporary.write_bytes(HEAD + temporary.read_bytes())


def _notes(stack: StackPlan, drawn: LayerDrawing, units: str, under: bool = False) -> list[Mark]:
    """The axis, the grain and what layer it is, beside the outlines in the stack's frame, or as seen from below."""
    layer = drawn.layer
    x0, y0, x1, y1 = drawn.blank.bounds
    x0, x1 = (-x1, -x0) if under else (x0, x1)
    grain_at = 180.0 - layer.grain if under else layer.grain
    c, s = cos(radians(grain_at)), sin(radians(grain_at))
    below = min(y0, 0.0) - 16.0
    grain = ((x0 + 12 - 12 * c, below - 16 - 12 * s), (x0 + 12 + 12 * c, below - 16 + 12 * s))
    sentence = (
        mark("{stack} {layer}, {thickness}, UNDERSIDE up, right to the left, front below")
        if under
        else mark("{stack} {layer}, {thickness}, this face up, front below")
    )
    thickness = format_thickness(layer.thickness, units)
    words = say(sentence, stack=stack.name, layer=layer.number, thickness=thickness)
    return [
        Polyline(((min(x0, 0.0) - 10.0, 0.0), (max(x1, 0.0) + 10.0, 0.0)), "axis"),
        Polyline(((0.0, min(y0, 0.0) - 10.0), (0.0, max(y1, 0.0) + 10.0)), "axis"),
        Polyline(grain, "words"),
        Text((x0 + 28, below - 18), say("grain"), 4.0),
        Text((x0, below), words, 5.0),
    ]


def _way(way: WayIn) -> Mark:
    """How the blade gets into a void: the line of a kerf, or a bored hole."""
    if way.kind == "kerf":
        return Polyline((way.start, way.end), "way in")
    return Circle(way.start, way.bit / 2, "way in")


def _draw_layer(drawing: DxfDrawing, stack: StackPlan, drawn: LayerDrawing, units: str) -> None:
    """All lines of one layer in the stack's frame, as its drawing for the bench has them."""
    for trace in drawn.traces:
        for loop in trace.loops:
            drawing.loop(loop, trace.kind, not trace.through)
    for zone, area in drawn.thin:
        for loop in loops_of(area):
            drawing.loop(loop, zone)
    draw([Polyline(seam, "seam") for seam in drawn.seams], drawing)
    draw([_way(way) for way in drawn.ways], drawing)
    draw(_notes(stack, drawn, units), drawing)


def layer_file_name(name: str, layer: LayerPlan) -> str:
    """A name for one layer's file that every system bears; `name`: of its stack, from `stack_file_names`."""
    return f"{name}_{layer.number:02d}.dxf"


def stack_file_names(plan: Plan) -> dict[str, str]:
    """A name for the files of each stack by the stack's own name; no two are the same for a system that takes large and
    small letters for one."""
    names = [stack.name for stack in plan.stacks]
    return dict(zip(names, file_names(names)))


def underside_file_name(name: str, layer: LayerPlan) -> str:
    """A name for the file of one layer's underside; `name` as for `layer_file_name`."""
    return f"{name}_{layer.number:02d}_underside.dxf"


def _turned_over(loop: Loop) -> Loop:
    """A loop seen from below: left and right exchanged, and gone round the other way so that wood stays on its left."""
    points = loop.points[::-1]
    bulges = [point[2] for point in loop.points]
    # An arc belongs to the point it leaves; the way back leaves from its other end. Turned over and turned round, it
    # bulges to the same side.
    back = [bulges[(len(bulges) - 2 - i) % len(bulges)] for i in range(len(bulges))]
    return Loop(tuple((-x, y, bulge) for (x, y, _), bulge in zip(points, back, strict=True)))


def write_underside_dxf(stack: StackPlan, drawn: LayerDrawing, path: str | Path, units: str = "mm") -> bool:
    """What is bored or milled in one layer's underside, as it lies turned over left for right: FRONT stays in front and
    x runs towards LEFT. Nothing is written, and False given back, where there is nothing to do from below."""
    layer = drawn.layer
    cuts = [cut for cut in layer.cuts if cut.opens_bottom(layer) and not cut.opens_top(layer)]
    if not cuts:
        return False
    drawing = DxfDrawing(units)
    for outline in layer.blank:
        for loop in (outline.outer, *outline.holes):
            drawing.loop(_turned_over(loop), "cut")
    for cut in cuts:
        for loop in (cut.outline.outer, *cut.outline.holes):
            drawing.loop(_turned_over(loop), cut.kind, stopped=True)
        x0, y0, _, _ = polygon_of(cut.outline).bounds
        depth = format_length(cut.end - cut.start, units)
        deep = say("{cut} {depth} deep", cut=shown(cut.kind), depth=depth)
        draw([Text((-x0 + 2.0, y0), deep, 3.5)], drawing)
    draw(_notes(stack, drawn, units, under=True), drawing)
    drawing.save(path)
    return True


def write_layer_dxf(stack: StackPlan, drawn: LayerDrawing, path: str | Path, units: str = "mm") -> None:
    """One layer, full size in its stack's frame (the axis at 0, 0). `units`: mm or in."""
    drawing = DxfDrawing(units)
    _draw_layer(drawing, stack, drawn, units)
    drawing.save(path)


def write_layer_dxfs(plan: Plan, folder: str | Path, units: str = "mm") -> tuple[Path, ...]:
    """One file for each layer of each stack in `folder`, and one more for each underside that is bored; their paths."""
    written, names = [], stack_file_names(plan)
    for stack in plan.stacks:
        for drawn in draw_layers(plan, stack):
            path = Path(folder) / layer_file_name(names[stack.name], drawn.layer)
            write_layer_dxf(stack, drawn, path, units)
            written.append(path)
            under = Path(folder) / underside_file_name(names[stack.name], drawn.layer)
            if write_underside_dxf(stack, drawn, under, units):
                written.append(under)
    return tuple(written)


def write_loops_dxf(loops: Iterable[Loop], path: str | Path, kind: str = "template", units: str = "mm") -> None:
    """Closed outlines alone, full size, for instance a section template."""
    drawing = DxfDrawing(units)
    count = 0
    for loop in loops:
        drawing.loop(loop, kind)
        count += 1
    if not count:
        raise Refusal("There is no outline to write: choose a plane that meets the form.")
    drawing.save(path)
