# SPDX-License-Identifier: LGPL-2.1-or-later

"""Places and loads marked on a view of the piece, with names that keep off one another."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, cos, degrees, hypot, radians, sin

import shapely
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.lettering import text_box, text_width
from freecad_stacklam.benchsheets.drawing.lines import arrow
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, Circle, FilledRegion, Mark, Point, Polyline, Text
from freecad_stacklam.benchsheets.views.pieceviews import PieceView
from freecad_stacklam.lamination.tolerances import WHOLE

#: Radii of the circle about a place and of the ring about the worst, half size of a load's mark, length of its arrow,
#: and what stands between a mark and its name; mm.
PLACE, RING, LOAD, ARROW, AWAY = 1.2, 2.6, 1.1, 11.0, 0.6
#: Names nearer than this on the page are told as one, mm.
NEAR = 4.0
#: So many of the places where a name may stand are close to its own.
CLOSE = 16


def place_marks(at: Sequence[Point]) -> list[Mark]:
    """Circles about places, the worst of which comes first and has a wide ring."""
    return [Circle(one, RING if i == 0 else PLACE, "cut" if i == 0 else "thin") for i, one in enumerate(at)]


def load_arrow(view: PieceView, place: Sequence[float], force: Sequence[float]) -> list[Mark]:
    """An arrow that ends where the load stands, as the view sees its direction; a triangle where it sees none."""
    tip = view.at(place)
    across, up = force[view.way[0]], force[view.way[1]]
    if hypot(across, up) <= WHOLE * max(map(abs, force), default=0.0):
        return load_mark(tip)
    turn = degrees(atan2(up, across))
    middle = tip[0] - ARROW / 2 * cos(radians(turn)), tip[1] - ARROW / 2 * sin(radians(turn))
    tail = tip[0] - ARROW * cos(radians(turn)), tip[1] - ARROW * sin(radians(turn))
    return [*arrow(middle, turn, ARROW), Polyline((tail, middle), "cut")]


def load_mark(at: Point) -> list[Mark]:
    """A black triangle where a load presses."""
    x, y = at
    return [FilledRegion((((x - LOAD, y - LOAD), (x + LOAD, y - LOAD), (x, y + LOAD)),))]


def told_apart(places: Sequence[tuple[str, Point]]) -> list[tuple[str, Point]]:
    """Names at their places on the page, those too near to each other to be told apart as one: "1, 3"."""
    found: list[tuple[str, Point]] = []
    for name, at in places:
        near = next((k for k, (_, o) in enumerate(found) if hypot(at[0] - o[0], at[1] - o[1]) < NEAR), None)
        if near is None:
            found.append((name, at))
        else:
            found[near] = f"{found[near][0]}, {name}", found[near][1]
    return found


def named(places: Sequence[tuple[str, Point]], taken: Sequence[Mark] = (), lines: Sequence[Mark] = ()) -> list[Text]:
    """The names beside their places: right, left, over or under, where none of them covers another or a mark of
    `taken`, and close by, where it can be, none of the `lines`. Names of neighbours are told as one."""
    blocked: list[BaseGeometry] = [_covered(mark) for mark in taken]
    drawn = [_covered(mark) for mark in lines]
    texts: list[Text] = []
    for name, at in told_apart(places):
        options = _options(name, at)
        boxes = [text_box(text, 0.2) for text in options]
        free = [i for i, box in enumerate(boxes) if not any(box.intersects(b) for b in blocked)]
        clear = (i for i in free if i < CLOSE and not any(boxes[i].intersects(line) for line in drawn))
        best = next(clear, free[0] if free else 0)
        blocked.append(boxes[best])
        texts.append(options[best])
    return texts


def _options(name: str, at: Point) -> list[Text]:
    """Where a name may stand, the best first: nearer, then further from its place."""
    found = []
    for out in (RING + AWAY, 2 * RING, 3 * RING, 4.5 * RING):
        half = text_width(name, PLAIN, True) / 2
        places = (
            (at[0] + out, at[1] - PLAIN / 2, "left"), (at[0] - out, at[1] - PLAIN / 2, "right"),
            (at[0], at[1] + out, "centre"), (at[0], at[1] - out - PLAIN, "centre"),
            (at[0] + out * 0.7, at[1] + out * 0.7, "left"), (at[0] - out * 0.7, at[1] + out * 0.7, "right"),
            (at[0] + out * 0.7, at[1] - out * 0.7 - PLAIN, "left"), (at[0] - half, at[1] - out - PLAIN, "left"),
        )  # fmt: skip
        found += [Text((x, y), name, PLAIN, align, bold=True) for x, y, align in places]
    return found


def _covered(mark: Mark) -> BaseGeometry:
    """What a mark takes of the page."""
    if isinstance(mark, Text):
        return text_box(mark, 0.2)
    if isinstance(mark, Circle):
        return shapely.Point(mark.centre).buffer(mark.radius)
    if isinstance(mark, FilledRegion):
        return shapely.union_all([shapely.Polygon(loop) for loop in mark.loops])
    if isinstance(mark, Polyline):
        return shapely.LineString(mark.points)
    return shapely.Polygon()
