# SPDX-License-Identifier: LGPL-2.1-or-later

"""The stepped block in elevation: its steps, the finished profile in them, and at every glue line how far in from the
step's outer corner the finished surface lies and how much wood stands over it at the inner corner."""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import Units, length_text, number, unit_words, wrapped
from freecad_stacklam.benchsheets.drawing.paper import SCALES, Paper
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, NOTE, PLAIN, STRONG, Circle, Mark, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.pages.strip import drawing_space, joined, plain_strip, sheet_line
from freecad_stacklam.lamination.lengths import rounded_down
from freecad_stacklam.lamination.plan.carving import CarvingPlan, Elevation
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.tolerances import HALF_SHOWN
from freecad_stacklam.lamination.words import mark, say

#: A column of figures beside a view, and that of the heights, mm; wider where each is written twice.
FIGURE, HEIGHT, BOTH = 15.0, 16.0, 2.0
#: Above a view for its caption and the heads of its columns, below it, and for the words at the foot of the page, mm.
HEAD, BELOW, WORDS, PAGE_HEAD = 18.0, 5.0, 22.0, 10.0
#: From the widest step to the first figure, mm.
CLEAR = 4.0
#: Steps of less than this, mm, are flush.
FLUSH = 0.5


def elevation_sheets(book: Book, stack: StackPlan, carving: CarvingPlan) -> list[Sheet]:
    """Both elevations on one page where they fit at the same scale, otherwise one on each. Not yet numbered."""
    views = [v for v in carving.elevations if v.stack == stack.name]
    if not views:
        return []
    wide = BOTH if book.units.both else 1.0
    aside = wide * (4 * FIGURE + HEIGHT) + 2 * CLEAR
    widths = [_extent(v)[1] - _extent(v)[0] for v in views]
    choices = []
    for page in (book.desk.portrait(), book.desk.portrait().turned()):
        space = drawing_space(page)
        for on_page in (2, 1):
            room = (space.height - PAGE_HEAD - WORDS) / on_page - HEAD - BELOW
            n = next(
                (s for s in SCALES if max(widths) / s <= space.width - aside and stack.height / s <= room), SCALES[-1]
            )
            choices.append((n, -on_page, page))
    n, on_page, page = min(choices, key=lambda c: c[:2])
    groups = [views] if on_page == -2 else [[v] for v in views]
    return [_sheet(book, stack, group, n, page, wide) for group in groups]


def _extent(view: Elevation) -> tuple[float, float]:
    ends = [end for layer in view.blanks for span in layer for end in span]
    return min(ends), max(ends)


#: The title of a sheet with one view, and the caption over a view.
_TITLES = {"front": mark("{stack}, elevation, from the front"), "right": mark("{stack}, elevation, from the right")}
_CAPTIONS = {"front": mark("from the front"), "right": mark("from the right")}


def _sheet(book: Book, stack: StackPlan, views: Sequence[Elevation], n: int, page: Paper, wide: float) -> Sheet:
    space = drawing_space(page)
    title = say(mark("{stack}, elevation") if len(views) > 1 else _TITLES[views[0].side], stack=stack.name)
    marks: list[Mark] = [
        Text(
            (space.x + 2.0, page.height - page.margin - LARGE),
            say("{title}, scale 1:{scale}", title=title, scale=n),
            LARGE,
            bold=True,
            fit=space.width - 4.0,
        )
    ]
    top = space.y + space.height - PAGE_HEAD
    for view in views:
        low, high = _extent(view)
        drawn = (high - low) / n
        foot = top - HEAD - stack.height / n
        left = space.x + wide * (2 * FIGURE + HEIGHT) + CLEAR
        left += (space.width - wide * (4 * FIGURE + HEIGHT) - 2 * CLEAR - drawn) / 2
        marks += _view(stack, view, left, foot, n, book.units, wide)
        top = foot - BELOW
    unit = unit_words(book.units)
    words = say(
        "Figures in {unit}, level in this view, rounded down. From corner: from the step's outer corner in to the "
        "finished surface. At inner corner (ringed): wood over the finished surface there, left when the step is gone. "
        "What stands out further in front or behind hides the rest: for other directions see the table of offsets. "
        "Gaps between pieces have no figures here.",
        unit=unit,
    )
    for i, line in enumerate(wrapped(words, PLAIN, 1.15 * space.width)):
        marks.append(Text((space.x + 2.0, space.y + WORDS - 7.0 - 4.4 * i), line, PLAIN, fit=space.width - 4.0))
    marks += plain_strip(
        page,
        (
            joined(book.plan.title, stack.name),
            say(
                "Elevation of the stepped block, {height} high, scale 1:{count}",
                height=length_text(stack.height, book.units),
                count=n,
            ),
            sheet_line(say("Carving guide")),
            joined(
                say("part {stack}", stack=stack.name),
                say("plan {revision}", revision=book.revision),
                book.plan.author,
                book.plan.date,
            ),
            say(
                "Line kinds: wide = blanks and glue lines, dash-dot-dot = finished profile, ring = inner corner, "
                "dash-dot = axis."
            ),
        ),
    )
    return Sheet(
        "carving", title, (page.width, page.height), tuple(marks), stack=stack.name, scale=1.0 / n,
        paper_name=page.name,
    )  # fmt: skip


def _view(stack: StackPlan, view: Elevation, left: float, foot: float, n: int, units: Units, wide: float) -> list[Mark]:
    low, high = _extent(view)

    def at(across: float, height: float) -> tuple[float, float]:
        return left + (across - low) / n, foot + height / n

    marks: list[Mark] = []
    for layer, spans in zip(stack.layers, view.blanks):
        for a, b in spans:
            box = (at(a, layer.bottom), at(b, layer.bottom), at(b, layer.top), at(a, layer.top))
            marks.append(Polyline(box, "cut", closed=True))
    marks += [Polyline(tuple(at(*p) for p in line), "finished") for line in profile_lines(view)]
    axis = at(0.0, 0.0)[0]
    if low < 0.0 < high:
        marks.append(Polyline(((axis, foot - 3.0), (axis, foot + stack.height / n + 3.0)), "centre"))
    caption = say(_CAPTIONS[view.side])
    marks.append(
        Text((left + (high - low) / 2 / n, foot + stack.height / n + HEAD - 6.0), caption, STRONG, "centre", bold=True)
    )
    return marks + _figures(stack, view, left, left + (high - low) / n, at, units, wide, n, foot)


def profile_lines(view: Elevation) -> list[list[tuple[float, float]]]:
    """The finished profile as lines of (across, height): the left and right end of every span, followed upwards while
    the number of spans stays the same, and closed by level lines where it changes, and at the ends."""
    lines: list[list[tuple[float, float]]] = []
    running: list[list[tuple[float, float]]] = []
    last: tuple[float, tuple[tuple[float, float], ...]] | None = None
    for height, spans in view.profile:
        ends = [(end, height) for span in spans for end in span]
        if last is None or len(last[1]) != len(spans):
            lines += running
            level = [] if last is None else [*last[1]]
            lines += [[(a, last[0] if last else height), (b, last[0] if last else height)] for a, b in level]
            lines += [[(a, height), (b, height)] for a, b in spans]
            running = [[end] for end in ends]
        else:
            for line, end in zip(running, ends):
                line.append(end)
        last = height, spans
    if last is not None:
        lines += [[(a, last[0]), (b, last[0])] for a, b in last[1]]
    return [line for line in [*lines, *running] if len(line) > 1]


def _figures(  # type: ignore[no-untyped-def]
    stack: StackPlan, view: Elevation, left: float, right: float, at, units: Units, wide: float, n: int, foot: float
) -> list[Mark]:  # fmt: skip
    """Heights to the left, and on both sides, row for row, how far in the finished surface lies."""
    heights = [layer.top for layer in stack.layers[:-1]]
    letter = PLAIN if min(layer.thickness for layer in stack.layers) / n >= 1.5 * PLAIN else NOTE
    rows = spread([foot + h / n for h in heights], 1.5 * letter, foot, foot + stack.height / n + 2.0)
    column = wide * FIGURE
    marks: list[Mark] = []
    head = foot + stack.height / n + 4.0
    places = {"left": (left - CLEAR, -1.0), "right": (right + CLEAR, 1.0)}
    for edge, sign in places.values():
        align = "right" if sign < 0 else "left"
        for i, (first, second) in enumerate(((say("at inner"), say("corner")), (say("from"), say("corner")))):
            x = edge + sign * i * column
            marks.append(Text((x, head + 2.6), first, NOTE, align))
            marks.append(Text((x, head), second, NOTE, align))
    x = left - CLEAR - 2 * column
    marks.append(Text((x, head), say("height"), NOTE, "right"))
    row_of = dict(zip([layer.number for layer in stack.layers[:-1]], rows))
    for number_of, height in zip(row_of, heights):
        marks.append(Text((x, row_of[number_of] - letter / 2), number(height, units), letter, "right"))
    for corner in view.corners:
        edge, sign = places[corner.side]
        row = row_of[corner.interface]
        ring = at(corner.inner, corner.height)
        flush = abs(corner.outer - corner.inner) < FLUSH
        if not flush:
            marks.append(Circle(ring, 0.7, "thin"))
        outer = at(corner.outer, corner.height)
        marks.append(Polyline((outer, (edge - sign * 2.6, outer[1]), (edge - sign * 0.6, row)), "fine"))
        align = "right" if sign < 0 else "left"
        shown = ["–" if v is None else _down(v, units) for v in (corner.at_inner, corner.from_outer)]
        if flush:
            shown[0] = say("flush")
        for i, text in enumerate(shown):
            marks.append(Text((edge + sign * i * column, row - letter / 2), text, letter, align, fit=column - 1.5))
    return marks


def _down(length: float, units: Units) -> str:
    """Rounded down in the first unit; what is nothing by the tenth printed is nothing."""
    if length < HALF_SHOWN:
        return "0"
    return number(rounded_down(length, units.first, units.fraction), units)


def spread(levels: Sequence[float], step: float, low: float, high: float) -> list[float]:
    """Places for rising levels at least `step` apart, as near to them as that allows, between `low` and `high` while
    there is room."""
    places: list[float] = []
    for level in levels:
        places.append(level if not places else max(level, places[-1] + step))
    over = places[-1] - high if places else 0.0
    if over > 0:
        places[-1] = high
        for i in range(len(places) - 2, -1, -1):
            places[i] = min(places[i], places[i + 1] - step)
    return places
