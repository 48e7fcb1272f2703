# SPDX-License-Identifier: LGPL-2.1-or-later

"""Section templates and gauges, true size: the finished profile at a plane, to be glued on card or thin plywood."""

from __future__ import annotations

import numpy as np
import shapely
from shapely import MultiLineString, Point
from shapely.geometry import MultiPolygon

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import size_text, text_width
from freecad_stacklam.benchsheets.drawing.lines import rings, turned
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, NOTE, PLAIN, STRONG, Mark, Sheet, Text
from freecad_stacklam.benchsheets.pages.labels import Places
from freecad_stacklam.benchsheets.pages.strip import Fields, joined, sheet_line, title_strip
from freecad_stacklam.benchsheets.pages.tilepages import spaces_for, tile_pages
from freecad_stacklam.benchsheets.pages.tiling import tile
from freecad_stacklam.lamination.plan.carving import CarvingPlan, SectionTemplate
from freecad_stacklam.lamination.plan.layers import StackPlan

#: How a gauge is held, by its side in the plane of the template.
HELD = {
    "right": "hold it against the right side",
    "left": "hold it against the left side",
    "above": "hold it on from above",
    "below": "hold it on from below",
}


def _seen(template: SectionTemplate) -> str:
    """From where the template shows the piece, in the maker's words."""
    if template.kind == "level":
        return "seen from above"
    if template.azimuth is None:
        return "in the plane's own directions"
    return f"right is {template.azimuth:g}° (0° is RIGHT, 90° the back)"


def _lines(template: SectionTemplate, area: MultiPolygon, pen: str) -> list[tuple[str, MultiLineString]]:
    lines = [(pen, rings(area))]
    x0, y0, x1, y1 = area.bounds
    window = shapely.box(x0 - 4.0, y0 - 4.0, x1 + 4.0, y1 + 4.0)
    marks: list[shapely.LineString] = []
    axis: list[shapely.LineString] = []
    for mark in template.marks:
        line = shapely.LineString([mark.start, mark.end]).intersection(window)
        if line.geom_type == "LineString" and line.length > 1.0:
            (axis if mark.name in ("axis", "middle") else marks).append(line)
    if marks:
        lines.append(("fine", MultiLineString(marks)))
    if axis:
        lines.append(("centre", MultiLineString(axis)))
    return lines


def _label_marks(places: Places, template: SectionTemplate, area: MultiPolygon, turn: float) -> None:
    """The names of the glue lines on their lines, near the profile's edge."""
    for mark in template.marks:
        line = shapely.LineString([mark.start, mark.end]).intersection(area)
        parts = [p for p in shapely.get_parts(line) if p.geom_type == "LineString" and p.length > 0]
        if not parts:
            continue
        place = max(parts, key=lambda p: p.length).interpolate(0.85, normalized=True)
        x, y = shapely.get_coordinates(turned(place, turn))[0].tolist()
        width = text_width(mark.name, NOTE)

        def rows(a: float, b: float, name: str = mark.name) -> tuple[Mark, ...]:
            return (Text((a, b), name, NOTE),)

        beside = np.array([(0.0, 1.5), (0.0, -3.6), (-8.0, 1.5), (8.0, 1.5), (-8.0, -3.6), (8.0, -3.6), (-16.0, 1.5),
                           (-24.0, 1.5), (-32.0, 1.5)])  # fmt: skip
        places.first(np.array([x - width / 2, y]) + beside, width, NOTE, rows)


def _title_on(places: Places, area: MultiPolygon, turn: float, words: tuple[str, str, str]) -> None:
    largest = max(shapely.get_parts(turned(area, turn)), key=lambda p: p.area)
    for first, other in ((LARGE, STRONG), (STRONG, PLAIN), (PLAIN, NOTE)):
        width = max(text_width(words[0], first, bold=True), *(text_width(w, other) for w in words[1:]))

        def rows(x: float, y: float, first: float = first, other: float = other) -> tuple[Mark, ...]:
            return (
                Text((x, y + 3.4 * other), words[0], first, bold=True),
                Text((x, y + 1.6 * other), words[1], other),
                Text((x, y), words[2], other),
            )

        if places.within(largest, width, first + 3.4 * other, rows):
            return
    at = largest.representative_point()
    places.near((at.x, at.y), width, first + 3.4 * other, rows)


def _one(
    book: Book, stack: StackPlan, template: SectionTemplate, area: MultiPolygon, words: tuple[str, str, str], name: str,
) -> list[Sheet]:  # fmt: skip
    """The pages of one outline: the profile itself or one gauge."""
    lines = _lines(template, area, "cut")
    every = MultiLineString([part for _, drawn in lines for part in drawn.geoms])
    tiling = tile(every, spaces_for(book.full), Point(0, 0))
    lying = [(pen, turned(drawn, tiling.turn)) for pen, drawn in lines]
    places = Places.on_tiles(tiling, turned(every, tiling.turn), turned(area, tiling.turn))
    _title_on(places, area, tiling.turn, words)
    _label_marks(places, template, area, tiling.turn)
    x0, y0, x1, y1 = area.bounds
    fields = Fields(
        (
            joined(book.plan.title, stack.name),
            f"{words[0]}, {template.name}",
            f"{size_text(x1 - x0, y1 - y0, book.units)}, {words[2]}",
            "glue on card or thin plywood; cut on the wide line",
            joined(sheet_line("Section template"), book.plan.date),
            joined(f"part {stack.name}", f"plan {book.revision}", book.plan.author),
        ),
        legend=(("cut", "cut here"), ("fine", "glue lines"), ("centre", "axis"), ("trim", "trim, join on the crosses")),
        number=f"{template.azimuth:g}°" if template.azimuth is not None else "S",
        above_number=words[0],
        below_number="inside" if words[0] == "GAUGE" else "outside",
        front=None if template.kind == "plane" else -90.0 - tiling.turn,
        front_word="FLOOR" if template.kind == "vertical" else "FRONT",
    )
    strip = title_strip(tiling.paper, fields)
    title = f"{stack.name}, section {template.name}, {name}"
    return tile_pages("section", title, tiling, lying, places, strip, stack.name, in_plan=template.kind == "level")


def section_sheets(book: Book, stack: StackPlan, carving: CarvingPlan) -> list[Sheet]:
    """All section templates of a stack and their gauges, tiled over the paper. Not yet numbered."""
    sheets: list[Sheet] = []
    for template in carving.templates:
        if template.stack != stack.name:
            continue
        seen = _seen(template)
        words = ("PATTERN", f"{stack.name}, {template.name}", seen)
        sheets += _one(book, stack, template, template.form, words, "profile")
        for gauge in template.gauges:
            held = HELD[gauge.side] + ("; it bridges hollows there" if gauge.spans else "")
            words = ("GAUGE", f"{stack.name}, {template.name}", held)
            sheets += _one(book, stack, template, gauge.area, words, f"gauge, {gauge.side}")
    return sheets
