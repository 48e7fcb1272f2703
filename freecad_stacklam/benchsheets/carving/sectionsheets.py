# SPDX-License-Identifier: LGPL-2.1-or-later

"""Section templates and gauges, true size: the finished profile at a plane, to be glued on card or thin plywood."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import shapely
import shapely.affinity
from shapely import MultiLineString, Point
from shapely.geometry import MultiPolygon

from freecad_stacklam.benchsheets.carving.together import places_on_pages
from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import size_text, text_width
from freecad_stacklam.benchsheets.drawing.lines import rings, turned
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, NOTE, PLAIN, STRONG, Mark, Sheet, Text
from freecad_stacklam.benchsheets.pages.labels import Places, Rows
from freecad_stacklam.benchsheets.pages.strip import Fields, joined, sheet_line, title_strip
from freecad_stacklam.benchsheets.pages.tilepages import spaces_for, tile_pages
from freecad_stacklam.benchsheets.pages.tiling import BORDER, DrawingSpace, tile
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.plan.carving import CarvingPlan, SectionTemplate
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.words import figure, mark, say

#: Glue lines and the axis run out over the profile by this, mm.
RUN_OUT = 4.0
#: Heights of the title's first line and of the others, as large as goes on the outline.
LETTERING = ((LARGE, STRONG), (STRONG, PLAIN), (PLAIN, NOTE))
#: Room round a title that stands under its outline, mm.
ROUND_TITLE = 3.0

#: What an outline is: said where it is shown.
PATTERN, GAUGE = mark("PATTERN"), mark("GAUGE")
_GAUGES = {
    "right": mark("gauge, right"),
    "left": mark("gauge, left"),
    "above": mark("gauge, above"),
    "below": mark("gauge, below"),
}
#: How a gauge is held, by its side in the plane of the template.
HELD = {
    "right": mark("hold it against the right side"),
    "left": mark("hold it against the left side"),
    "above": mark("hold it on from above"),
    "below": mark("hold it on from below"),
}


def _seen(template: SectionTemplate) -> str:
    """From where the template shows the piece, in the maker's words."""
    if template.kind == "level":
        return say("seen from above")
    if template.azimuth is None:
        return say("in the plane's own directions")
    return say("right is {azimuth:g}° (0° is RIGHT, 90° the back)", azimuth=template.azimuth)


def _lines(template: SectionTemplate, area: MultiPolygon, pen: str) -> list[tuple[str, MultiLineString]]:
    lines = [(pen, rings(area))]
    x0, y0, x1, y1 = area.bounds
    window = shapely.box(x0 - RUN_OUT, y0 - RUN_OUT, x1 + RUN_OUT, y1 + RUN_OUT)
    marks: list[shapely.LineString] = []
    axis: list[shapely.LineString] = []
    for placed in template.marks:
        line = shapely.LineString([placed.start, placed.end]).intersection(window)
        if line.geom_type == "LineString" and line.length > 1.0:
            (axis if placed.name in ("axis", "middle") else marks).append(line)
    if marks:
        lines.append(("fine", MultiLineString(marks)))
    if axis:
        lines.append(("centre", MultiLineString(axis)))
    return lines


def _label_marks(places: Places, template: SectionTemplate, area: MultiPolygon, turn: float) -> None:
    """The names of the glue lines on their lines, near the profile's edge."""
    for placed in template.marks:
        line = shapely.LineString([placed.start, placed.end]).intersection(area)
        parts = [p for p in shapely.get_parts(line) if p.geom_type == "LineString" and p.length > 0]
        if not parts:
            continue
        place = max(parts, key=lambda p: p.length).interpolate(0.85, normalized=True)
        x, y = shapely.get_coordinates(turned(place, turn))[0].tolist()
        words = shown(placed.name)
        width = text_width(words, NOTE)

        def rows(a: float, b: float, words: str = words) -> tuple[Mark, ...]:
            return (Text((a, b), words, NOTE),)

        # Level with the place or along the line to either side, over the line or under it.
        along = np.array([0.0, -4.0, 4.0, -8.0, 8.0, -12.0, -16.0, -20.0, -24.0, -28.0, -32.0])
        beside = np.array([(step, level) for step in along for level in (1.5, -3.6)])
        places.first(np.array([x - width / 2, y]) + beside, width, NOTE, rows)


def _lettered(words: tuple[str, str, str], first: float, other: float) -> tuple[float, float, Rows]:
    """The title in lettering of those heights: its width and height, and how it is drawn at a lower left corner."""
    kind = say(words[0])
    width = max(text_width(kind, first, bold=True), *(text_width(w, other) for w in words[1:]))

    def rows(x: float, y: float) -> tuple[Mark, ...]:
        return (
            Text((x, y + 3.4 * other), kind, first, bold=True),
            Text((x, y + 1.6 * other), words[1], other),
            Text((x, y), words[2], other),
        )

    return width, first + 3.4 * other, rows


def _title_within(places: Places, area: MultiPolygon, turn: float, words: tuple[str, str, str]) -> bool:
    """The title on the outline, as large as goes there; False where it does not at all."""
    largest = max(shapely.get_parts(turned(area, turn)), key=lambda p: p.area)
    return any(places.within(largest, *_lettered(words, *heights)) for heights in LETTERING)


def _title_on(places: Places, area: MultiPolygon, turn: float, words: tuple[str, str, str]) -> None:
    if not _title_within(places, area, turn, words):
        at = max(shapely.get_parts(turned(area, turn)), key=lambda p: p.area).representative_point()
        places.near((at.x, at.y), *_lettered(words, *LETTERING[-1]))


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
            f"{say(words[0])}, {template.name}",
            f"{size_text(x1 - x0, y1 - y0, book.units)}, {words[2]}",
            say("glue on card or thin plywood; cut on the wide line"),
            joined(sheet_line(say("Section template")), book.plan.date),
            joined(
                say("part {stack}", stack=stack.name), say("plan {revision}", revision=book.revision), book.plan.author
            ),
        ),
        legend=(
            ("cut", say("cut here")),
            ("fine", say("glue lines")),
            ("centre", say("axis")),
            ("trim", say("trim, join on the crosses")),
        ),
        number=figure(f"{template.azimuth:g}°") if template.azimuth is not None else "S",
        above_number=say(words[0]),
        below_number=say("inside") if words[0] == GAUGE else say("outside"),
        front=None if template.kind == "plane" else -90.0 - tiling.turn,
        front_word=say("FLOOR") if template.kind == "vertical" else say("FRONT"),
    )
    strip = title_strip(tiling.paper, fields)
    title = say("{stack}, section {template}, {name}", stack=stack.name, template=template.name, name=name)
    return tile_pages("section", title, tiling, lying, places, strip, stack.name, in_plan=template.kind == "level")


@dataclass(frozen=True)
class _Outline:
    """What is cut out along one wide line: the profile itself or one gauge."""

    template: SectionTemplate
    area: MultiPolygon
    words: tuple[str, str, str]
    name: str

    @cached_property
    def lines(self) -> list[tuple[str, MultiLineString]]:
        """Its lines by pen."""
        return _lines(self.template, self.area, "cut")

    @cached_property
    def bounds(self) -> tuple[float, float, float, float]:
        """Around all its lines."""
        x0, y0, x1, y1 = MultiLineString([part for _, drawn in self.lines for part in drawn.geoms]).bounds
        return x0, y0, x1, y1

    @cached_property
    def under(self) -> tuple[float, float]:
        """Width and height of the title that stands under an outline too slim for it; nothing where it stands on it."""
        x0, y0, x1, y1 = self.bounds
        alone = Places([(x0, y0, x1, y1)], MultiLineString([g for _, d in self.lines for g in d.geoms]), self.area)
        if _title_within(alone, self.area, 0.0, self.words):
            return 0.0, 0.0
        width, height, _ = _lettered(self.words, *LETTERING[-1])
        return width + 2 * ROUND_TITLE, height + 2 * ROUND_TITLE

    @property
    def size(self) -> tuple[float, float]:
        """Width and height with its lines and what is written under it, mm."""
        x0, y0, x1, y1 = self.bounds
        return max(x1 - x0, self.under[0]), y1 - y0 + self.under[1]

    def named(self, places: Places) -> None:
        """Its title on it, or in the room kept under it."""
        if not self.under[1]:
            _title_on(places, self.area, 0.0, self.words)
            return
        corner = np.array([[self.bounds[0] + ROUND_TITLE, self.bounds[1] - self.under[1] + ROUND_TITLE]])
        places.first(corner, *_lettered(self.words, *LETTERING[-1]))

    def moved(self, x: float, y: float) -> _Outline:
        """With the lower left corner of all that belongs to it there."""
        dx, dy = x - self.bounds[0], y + self.under[1] - self.bounds[1]
        marks = tuple(
            replace(m, start=(m.start[0] + dx, m.start[1] + dy), end=(m.end[0] + dx, m.end[1] + dy))
            for m in self.template.marks
        )
        area = shapely.affinity.translate(self.area, dx, dy)
        return replace(self, template=replace(self.template, marks=marks), area=area)


def _outlines(stack: StackPlan, carving: CarvingPlan) -> list[_Outline]:
    found = []
    for template in carving.templates:
        if template.stack != stack.name:
            continue
        words = (PATTERN, f"{stack.name}, {template.name}", _seen(template))
        found.append(_Outline(template, template.form, words, say("profile")))
        for gauge in template.gauges:
            held = say(HELD[gauge.side])
            if gauge.spans:
                held = say("{held}; it bridges hollows there", held=held)
            words = (GAUGE, f"{stack.name}, {template.name}", held)
            found.append(_Outline(template, gauge.area, words, say(_GAUGES[gauge.side])))
    return found


def _shared(book: Book, stack: StackPlan, outlines: Sequence[_Outline], space: DrawingSpace, n: int) -> list[Sheet]:
    """One page with several outlines, each with its own words on it or under it."""
    lines = [line for o in outlines for line in o.lines]
    every = MultiLineString([part for _, drawn in lines for part in drawn.geoms])
    width, height = _room(space)
    window = shapely.box(0.0, 0.0, width, height).boundary  # so that the page lies as it was filled
    tiling = tile(MultiLineString([window.coords]), (space,), Point(0, 0))
    areas = MultiPolygon([part for o in outlines for part in o.area.geoms])
    places = Places([tiling.tiles[0].window], every, areas)  # one page: nothing of it is trimmed away
    for outline in outlines:
        outline.named(places)
    for outline in outlines:
        _label_marks(places, outline.template, outline.area, 0.0)
    kind = outlines[0].template.kind
    fields = Fields(
        (
            joined(book.plan.title, stack.name),
            say(
                mark("{count} patterns and gauges, level")
                if kind == "level"
                else mark("{count} patterns and gauges, upright"),
                count=len(outlines),
            ),
            say("what each is stands on it: cut them apart first"),
            say("glue on card or thin plywood; cut on the wide line"),
            joined(sheet_line(say("Section templates")), book.plan.date),
            joined(
                say("part {stack}", stack=stack.name), say("plan {revision}", revision=book.revision), book.plan.author
            ),
        ),
        legend=(("cut", say("cut here")), ("fine", say("glue lines")), ("centre", say("axis"))),
        number="S",
        above_number=say("PATTERNS"),
        front=-90.0,
        front_word=say("FLOOR") if kind == "vertical" else say("FRONT"),
    )
    title = say("{stack}, sections together, {number}", stack=stack.name, number=n)
    strip = title_strip(tiling.paper, fields)
    return tile_pages("section", title, tiling, lines, places, strip, stack.name, in_plan=False)


def _on_one_page(book: Book, outline: _Outline) -> bool:
    """Whether it lies, unturned, on one page with its lines."""
    return any(_goes_on(outline, space) for space in spaces_for(book.full))


def _room(space: DrawingSpace) -> tuple[float, float]:
    """What a page has for outlines within its border, mm."""
    return space.width - 2 * BORDER, space.height - 2 * BORDER


def _goes_on(outline: _Outline, space: DrawingSpace) -> bool:
    return all(size <= room for size, room in zip(outline.size, _room(space)))


def section_sheets(book: Book, stack: StackPlan, carving: CarvingPlan) -> list[Sheet]:
    """All section templates of a stack and their gauges: what is larger than a page tiled over several, small ones of a
    kind together. Not yet numbered."""
    outlines = _outlines(stack, carving)
    small = [o for o in outlines if o.template.kind != "plane" and _on_one_page(book, o)] if not book.full.roll else []
    sheets: list[Sheet] = []
    for o in outlines:
        if o not in small:
            sheets += _one(book, stack, o.template, o.area, o.words, o.name)
    for kind in dict.fromkeys(o.template.kind for o in small):
        # What is too wide for the page upright goes on pages that lie, and what is too high for those stands.
        left, count = [o for o in small if o.template.kind == kind], 0
        for space in spaces_for(book.full):
            here = [o for o in left if _goes_on(o, space)]
            left = [o for o in left if o not in here]
            places = places_on_pages([o.size for o in here], *_room(space)) or []
            for page in range(max((p for p, _, _ in places), default=-1) + 1):
                lie = [o.moved(x, y) for o, (p, x, y) in zip(here, places) if p == page]
                if len(lie) == 1:
                    (own,) = (o for o, (p, _, _) in zip(here, places) if p == page)
                    sheets += _one(book, stack, own.template, own.area, own.words, own.name)
                else:
                    count += 1
                    sheets += _shared(book, stack, lie, space, count)
    return sheets
