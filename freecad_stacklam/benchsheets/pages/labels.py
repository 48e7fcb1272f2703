# SPDX-License-Identifier: LGPL-2.1-or-later

"""Finding room for a label: wholly on one page, on no line and on no other label."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from math import cos, pi, sin

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import MultiLineString
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.benchsheets.drawing.lettering import text_box
from freecad_stacklam.benchsheets.drawing.sheet import Arc, Circle, FilledRegion, Mark, Point, Polyline, Text
from freecad_stacklam.benchsheets.pages.tiling import CROSS_ARM, Tiling, registration_points

Rows = Callable[[float, float], tuple[Mark, ...]]
#: Clear room around a label, mm.
ROOM = 1.2
#: Candidate places on an island in each direction: enough to find a gap, few enough to stay quick.
_STEPS = 24


@dataclass(frozen=True)
class Label:
    """Marks that belong together, in the turned drawing's mm, and the box they fill (x0, y0, x1, y1)."""

    marks: tuple[Mark, ...]
    box: tuple[float, float, float, float]


class Shifted:
    """A backend that keeps the marks it is given, `dx`, `dy` mm from where they were."""

    def __init__(self, dx: float, dy: float) -> None:
        self.by = (dx, dy)
        self.marks: list[Mark] = []

    def _points(self, points: Iterable[Sequence[float]]) -> tuple[Point, ...]:
        dx, dy = self.by
        return tuple((p[0] + dx, p[1] + dy) for p in points)

    # A page has hundreds of labels, and dataclasses.replace takes three times as long as making a record.
    def polyline(self, mark: Polyline) -> None:
        """See Backend."""
        self.marks.append(Polyline(self._points(mark.points), mark.pen, mark.closed))

    def circle(self, mark: Circle) -> None:
        """See Backend."""
        self.marks.append(Circle(self._points([mark.centre])[0], mark.radius, mark.pen))

    def arc(self, mark: Arc) -> None:
        """See Backend."""
        self.marks.append(Arc(self._points([mark.centre])[0], mark.radius, mark.start, mark.sweep, mark.pen))

    def text(self, mark: Text) -> None:
        """See Backend."""
        at = (mark.at[0] + self.by[0], mark.at[1] + self.by[1])
        self.marks.append(Text(at, mark.text, mark.height, mark.align, mark.turn, mark.bold, mark.fit))

    def region(self, mark: FilledRegion) -> None:
        """See Backend."""
        self.marks.append(FilledRegion(tuple(self._points(loop) for loop in mark.loops)))


class Places:
    """The room left on one layer's pages. Each method adds a label where it finds a place and says whether it did."""

    def __init__(
        self, windows: Sequence[tuple[float, float, float, float]], lines: MultiLineString, wood: BaseGeometry
    ) -> None:
        self._windows = np.array(windows)
        self._lines = lines
        self._wood = wood
        shapely.prepare(lines)
        shapely.prepare(wood)
        self._taken: list[tuple[float, float, float, float]] = []
        self.labels: list[Label] = []

    @classmethod
    def on_tiles(cls, tiling: Tiling, lines: MultiLineString, wood: BaseGeometry) -> Places:
        """The room on the pages of a tiling, clear of the registration crosses."""
        crosses = {point for t in tiling.tiles for point in registration_points(tiling, t)[0]}
        a = CROSS_ARM
        arms = [[(x + i * a, y + j * a), (x - i * a, y - j * a)] for x, y in crosses for i, j in ((1, 0), (0, 1))]
        # Cells, not the windows with the overlap: labels are not trimmed away.
        return cls([t.cell for t in tiling.tiles], MultiLineString([*lines.geoms, *arms]), wood)

    def free(self, boxes: NDArray[np.float64]) -> NDArray[np.bool_]:
        """Which boxes (n × 4: x0, y0, x1, y1) lie inside one page's cell and on nothing."""
        w = self._windows
        inside = (
            (boxes[:, None, 0] >= w[None, :, 0])
            & (boxes[:, None, 1] >= w[None, :, 1])
            & (boxes[:, None, 2] <= w[None, :, 2])
            & (boxes[:, None, 3] <= w[None, :, 3])
        ).any(axis=1)
        if self._taken:
            t = np.array(self._taken)
            inside &= (
                (boxes[:, None, 2] < t[None, :, 0])
                | (boxes[:, None, 0] > t[None, :, 2])
                | (boxes[:, None, 3] < t[None, :, 1])
                | (boxes[:, None, 1] > t[None, :, 3])
            ).all(axis=1)
        left = np.flatnonzero(inside)
        inside[left] = ~self.crossed(boxes[left])
        return np.asarray(inside)

    def crossed(self, boxes: NDArray[np.float64]) -> NDArray[np.bool_]:
        """Which boxes a line of the drawing runs through."""
        crossed: NDArray[np.bool_] = shapely.intersects(self._lines, shapely.box(*boxes.T))
        return crossed

    def take(self, x: float, y: float, width: float, height: float, marks: tuple[Mark, ...]) -> None:
        """Put a label there, whatever lies under it."""
        box = (x - ROOM, y - 0.3 * ROOM - ROOM, x + width + ROOM, y + height + ROOM)
        self._taken.append(box)
        self.labels.append(Label(marks, box))

    def keep_off(self, text: Text) -> None:
        """Keep labels off a text that is drawn elsewhere."""
        self._taken.append(text_box(text, 0.6).bounds)

    def fix(self, mark: Polyline | FilledRegion) -> None:
        """Put a mark that cannot be moved, and keep labels off it."""
        points = np.array(mark.loops[0] if isinstance(mark, FilledRegion) else mark.points)
        box = (*points.min(axis=0).tolist(), *points.max(axis=0).tolist())
        self._taken.append(box)
        self.labels.append(Label((mark,), box))

    def first(
        self, corners: NDArray[np.float64], width: float, height: float, rows: Rows, within: BaseGeometry | None = None
    ) -> bool:
        """The first of the lower left corners (n × 2, best first) at which the label is free."""
        boxes = np.column_stack(
            [
                corners[:, 0] - ROOM,
                corners[:, 1] - 1.3 * ROOM,
                corners[:, 0] + width + ROOM,
                corners[:, 1] + height + ROOM,
            ]
        )
        good = self.free(boxes)
        if within is not None and good.any():
            left = np.flatnonzero(good)
            good[left] = shapely.contains_properly(within, shapely.box(*boxes[left].T))
        if not good.any():
            return False
        x, y = corners[int(np.argmax(good))].tolist()
        self.take(x, y, width, height, rows(x, y))
        return True

    def near(self, at: tuple[float, float], width: float, height: float, rows: Rows) -> bool:
        """A label as near to a point as there is room, on wood where that can be."""
        angles = np.arange(16) * pi / 8
        far = np.repeat([7.0, 11.0, 16.0, 24.0, 36.0], len(angles))
        angle = np.tile(angles, 5)
        reach = np.column_stack([far + width / 2, far])
        corners = (
            np.asarray(at) + reach * np.column_stack([np.cos(angle), np.sin(angle)]) - np.array([width, height]) / 2
        )
        return self.first(corners, width, height, rows, self._wood) or self.first(corners, width, height, rows)

    def within(self, island: BaseGeometry, width: float, height: float, rows: Rows) -> bool:
        """A label on the island, in the place nearest its middle."""
        x0, y0, x1, y1 = island.bounds
        xs = np.linspace(x0, max(x0, x1 - width), _STEPS)
        ys = np.linspace(y0, max(y0, y1 - height), _STEPS)
        corners = np.column_stack([axis.ravel() for axis in np.meshgrid(xs, ys)])
        centre = np.array([island.centroid.x - width / 2, island.centroid.y - height / 2])
        corners = corners[np.argsort(np.hypot(*(corners - centre).T), kind="stable")]
        shapely.prepare(island)
        return self.first(corners, width, height, rows, island)

    def beside(self, area: BaseGeometry, width: float, height: float, rows: Rows) -> bool:
        """A label inside `area`, or beside it with a leader to its edge."""
        if self.within(area, width, height, rows):
            return True
        x0, y0, x1, y1 = area.bounds
        middle = ((x0 + x1) / 2, (y0 + y1) / 2)
        for gap in (5.0, 10.0, 18.0, 30.0, 50.0):
            for step in range(16):
                angle = pi / 4 + step * pi / 8
                reach_x, reach_y = (x1 - x0) / 2 + width / 2 + gap, (y1 - y0) / 2 + height / 2 + gap
                x = middle[0] + reach_x * cos(angle) - width / 2
                y = middle[1] + reach_y * sin(angle) - height / 2

                def led(x: float, y: float) -> tuple[Mark, ...]:
                    return (*rows(x, y), _leader((x - 1, y - 1, x + width + 1, y + height + 1), area))

                if self.first(np.array([[x, y]]), width, height, led):
                    return True
        return False


def _leader(box: tuple[float, float, float, float], area: BaseGeometry) -> Polyline:
    """A narrow line from the label to the edge it speaks of."""
    start, end = shapely.shortest_line(shapely.boundary(shapely.box(*box)), shapely.boundary(area)).coords
    return Polyline((tuple(start), tuple(end)), "fine")
