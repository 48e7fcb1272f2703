# SPDX-License-Identifier: LGPL-2.1-or-later

"""Depth holes: gauge holes bored from the rough stack that stop short of the finished surface.

The maker bores them, blackens their bottoms, and carves until they vanish. The bottom of a hole is the bit's whole
point: tip, cone and shoulder, as a cone of the bit's diameter that is as high as its point is long. All of it, and the
hole's wall above, keeps `leave` from the finished surface in space. For a surface point at distance ρ from the hole's
axis and height z that asks for a tip no lower than z − g(ρ), where g is the lower outline of the bit's end grown by
`leave`: a ball about the tip, a cone, and a ring about the shoulder, closed formulas all. The highest z − g(ρ) over the
triangles near the hole is bounded from above to 0.01 mm by halving them.

The rough surface is the stepped stack: the top of the highest blank at that place, flat all round under the drill stop.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import floor, pi, tan

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.form.frame import lying
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.plan.areas import cut_plan
from freecad_stacklam.lamination.plan.carving import Bit, DepthHole, DepthMap, Stop
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.carving import CarvingSettings
from freecad_stacklam.lamination.tolerances import (
    COARSE,
    ROUNDING,
    SAME_HEIGHT,
    TINY,
    TINY_SQUARE,
    TIP_TOLERANCE,
    WHOLE,
)

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: More holes than this on one face are a slip of the keyboard.
MOST_HOLES = 5000

NO_FORM = "no finished surface under them"
NO_LANDING = "no flat wood for the drill stop"
GAP = "a gap between the blanks in the way"
SHALLOW = "too shallow"
TOO_DEEP = "deeper than the bit reaches"
NEAR = "nearer than the cover to a joint, pin, void or seam"


def point_length(kind: str, diameter: float, angle: float = 118.0, measured: float | None = None) -> float:
    """How far a bit's tip leads its full width, mm.

    A twist bit's point is a cone: (D / 2) / tan(angle / 2), 0.3004 · D at 118° and 0.2071 · D at 135°. Brad points and
    rim bits differ from maker to maker: the measured value. Raises Refusal when it is not given.
    """
    if kind == "twist":
        return diameter / 2 / tan(angle * pi / 360)
    if measured is None:
        raise Refusal(f"The point of a {kind} bit must be measured: give its length from the rim to the tip.")
    return measured


def bit_of(settings: CarvingSettings) -> Bit:
    """The bit that the settings choose."""
    angle = f" {settings.angle:g}°" if settings.point == "twist" else ""
    length = point_length(settings.point, settings.bit, settings.angle, settings.point_length)
    return Bit(f"{settings.point}{angle} {settings.bit:g} mm", settings.point, settings.bit, length)


def depth_map(
    stack: StackPlan,
    mesh: Mesh,
    face: str,
    settings: CarvingSettings,
    *,
    units: str = "mm",
    seams: Mapping[int, Sequence[shapely.Geometry]] | None = None,
) -> DepthMap:
    """Depth holes on the "top" or the "bottom" of a stack, on a grid through its axis cross.

    mesh: the form in the model. seams: layer number to the seams between its staves, as lines in plan. Raises Refusal
    when the grid is too fine.
    """
    sign = -1.0 if face == "bottom" else 1.0
    bit = bit_of(settings)
    points = lying(mesh, stack.frame) * np.array([1.0, 1.0, sign])
    grid = _grid(stack, settings.pitch)
    levels = _Levels(stack, sign, grid, bit.diameter / 2, settings.landing)
    dropped: Counter[str] = Counter()
    tip = np.full(len(grid), -np.inf)
    landed = np.flatnonzero(levels.landed)
    # The mesh may lie inside the form by as much as the guard.
    leave = settings.leave + stack.guard
    tip[landed] = least_tips(points, mesh.triangles, grid[landed], bit.diameter / 2, bit.point, leave)
    under = np.zeros(len(grid), dtype=bool)
    under[landed] = _form_under(stack, grid[landed])
    step = settings.step(units)
    least = max(settings.least_depth, bit.point)
    found: list[DepthHole] = []
    for i, (x, y) in enumerate(grid.tolist()):
        if not levels.covered[i]:
            continue
        if not levels.landed[i]:
            dropped[NO_LANDING] += 1
            continue
        if not under[i] or not np.isfinite(tip[i]):
            dropped[NO_FORM] += 1
            continue
        rough = float(levels.height[i])
        deepest = rough - float(tip[i])
        depth = floor(deepest / step + WHOLE) * step
        if depth < least:
            dropped[SHALLOW] += 1
            continue
        if settings.bit_length is not None and depth > settings.bit_length:
            dropped[TOO_DEEP] += 1
            continue
        if not levels.solid(i, rough - depth):
            dropped[GAP] += 1
            continue
        body = sorted((sign * (rough - depth), sign * rough))
        if _nearest_cut(stack, x, y, bit.diameter / 2, body[0], body[1], seams or {}) < settings.cover:
            dropped[NEAR] += 1
            continue
        found.append(DepthHole(stack.name, face, x, y, sign * rough, depth, deepest, 0, bit.name))
    depths = sorted({h.depth for h in found})
    number = {depth: n for n, depth in enumerate(depths, 1)}
    holes = tuple(replace(h, stop=number[h.depth]) for h in found)
    count = Counter(h.stop for h in holes)
    stops = tuple(Stop(stack.name, face, n, depth, count[n], bit.name) for depth, n in number.items())
    return DepthMap(stack.name, face, bit, settings.leave, settings.pitch, holes, stops, tuple(dropped.items()))


def _grid(stack: StackPlan, pitch: float) -> Floats:
    x0, y0, x1, y1 = shapely.union_all([shapely.box(*layer.shadow.bounds) for layer in stack.layers
                                        if not layer.shadow.is_empty]).bounds  # fmt: skip
    steps = [np.arange(np.ceil(a / pitch), np.floor(b / pitch) + 1) * pitch for a, b in ((x0, x1), (y0, y1))]
    if len(steps[0]) * len(steps[1]) > MOST_HOLES:
        raise Refusal(
            f"A grid of {pitch:g} mm gives {len(steps[0]) * len(steps[1])} depth holes on {stack.name}, more than "
            f"{MOST_HOLES}: give a wider pitch."
        )
    x, y = np.meshgrid(*steps)
    return np.column_stack([x.ravel(), y.ravel()])


def _form_under(stack: StackPlan, grid: Floats) -> NDArray[np.bool_]:
    shadow = shapely.union_all([layer.shadow for layer in stack.layers])
    return np.asarray(shapely.contains_xy(shadow, grid[:, 0], grid[:, 1]))


class _Levels:
    """The rough surface at each place of the grid. With sign −1 the stack is seen from below, heights turned round.

    `covered`: some blank is there. `landed`: all wood within radius + landing is one flat top, with nothing higher.
    """

    def __init__(self, stack: StackPlan, sign: float, grid: Floats, radius: float, landing: float) -> None:
        layers = stack.layers[:: int(sign)]  # from the far side to the one that is bored
        self._low = [min(sign * n.bottom, sign * n.top) for n in layers]
        self._high = [max(sign * n.bottom, sign * n.top) for n in layers]
        centres = shapely.points(grid)
        mouths, bores = shapely.buffer(centres, radius + landing), shapely.buffer(centres, radius)
        count = len(grid)
        self.height = np.full(count, -np.inf)
        self.covered = np.zeros(count, dtype=bool)
        self.landed = np.zeros(count, dtype=bool)
        self._full = np.zeros((len(layers), count), dtype=bool)
        for k, layer in enumerate(layers):
            blank: MultiPolygon = area_polygon(layer.blank, COARSE)
            for part in blank.geoms:
                shapely.prepare(part)
                self._full[k] |= shapely.contains(part, bores)
            touched = np.any([shapely.intersects(part, mouths) for part in blank.geoms], axis=0)
            flat = np.any([shapely.contains(part, mouths) for part in blank.geoms], axis=0)
            # Layers come with the highest last: whatever touches the mouth from above decides.
            self.height[flat] = self._high[k]
            self.landed = np.where(touched, flat, self.landed)
            self.covered |= np.any([shapely.contains(part, centres) for part in blank.geoms], axis=0)

    def solid(self, i: int, tip: float) -> bool:
        """Whether every layer from the rough surface down to the height `tip` has wood all round the bit."""
        through = [
            k for k in range(len(self._low)) if self._low[k] < self.height[i] - SAME_HEIGHT and self._high[k] > tip
        ]
        return all(self._full[k, i] for k in through)


def _nearest_cut(
    stack: StackPlan,
    x: float,
    y: float,
    radius: float,
    low: float,
    high: float,
    seams: Mapping[int, Sequence[shapely.Geometry]],
) -> float:
    """Least distance in space from a hole's cylinder to any cut or seam, mm (a lower bound)."""
    here, nearest = shapely.Point(x, y), float("inf")
    for layer in stack.layers:
        things = [(cut_plan(cut), cut.start, cut.end) for cut in layer.cuts]
        things += [(line, layer.bottom, layer.top) for line in seams.get(layer.number, ())]
        for plan, start, end in things:
            aside = max(0.0, float(plan.distance(here)) - radius)
            nearest = min(nearest, float(np.hypot(aside, max(0.0, low - end, start - high))))
    return nearest


def least_tips(
    points: Floats,
    triangles: Ints,
    places: Floats,
    radius: float,
    point: float,
    leave: float,
    tolerance: float = TIP_TOLERANCE,
) -> Floats:
    """The lowest height that a bit's tip may reach at each place (Q × 2), boring downwards, mm.

    points: N × 3 of the surface. radius, point: of the bit, mm. leave: least distance in space from the bit's end to
    the surface. Bounded from above to `tolerance` mm; −inf where no surface is near.
    """
    reach = radius + leave
    corner = points[triangles]
    low, high = corner[:, :, :2].min(axis=1), corner[:, :, :2].max(axis=1)
    owner, tri = _near(low, high, places, reach)
    piece = corner[tri] - np.column_stack([places[owner], np.zeros(len(owner))])[:, None, :]
    best = np.full(len(places), -np.inf)
    bound = np.full(len(places), -np.inf)
    while len(piece):
        most = piece[:, :, 2].max(axis=1) - bit_end(_distance(piece[:, :, :2]), radius, point, leave)
        at_corner = piece[:, :, 2] - bit_end(np.hypot(piece[:, :, 0], piece[:, :, 1]), radius, point, leave)
        np.maximum.at(best, owner, at_corner.max(axis=1))
        # Where the middle lies under the bit, the limit is concave there and nowhere above its tangent.
        middle = piece.mean(axis=1)
        rho = np.hypot(middle[:, 0], middle[:, 1])
        inside = rho < reach - ROUNDING
        value = middle[:, 2] - bit_end(rho, radius, point, leave)
        np.maximum.at(best, owner, np.where(inside, value, -np.inf))
        slope = _bit_slope(rho, radius, point, leave) / np.maximum(rho, TINY)
        off = piece - middle[:, None]
        rise = off[:, :, 2] - slope[:, None] * (off[:, :, :2] * middle[:, None, :2]).sum(axis=2)
        most = np.where(inside, np.minimum(most, value + rise.max(axis=1)), most)
        open_ = most > np.where(np.isfinite(best[owner]), best[owner], -np.inf) + tolerance
        span = np.ptp(piece[:, :, :2], axis=1).max(axis=1) + np.ptp(piece[:, :, 2], axis=1)
        done = open_ & (span < tolerance / 4)
        np.maximum.at(bound, owner[done], most[done])
        keep = open_ & ~done & np.isfinite(most)
        piece, owner = _halved(piece[keep]), np.tile(owner[keep], 2)
    return np.maximum(bound, np.where(np.isfinite(best), best + tolerance, -np.inf))


def bit_end(rho: Floats, radius: float, point: float, leave: float) -> Floats:
    """Height over the tip of the lower outline of a bit's end grown by `leave`, at distances ρ from its axis, mm;
    inf beyond radius + leave."""
    tip, rim, slope, cosine = _parts(radius, point, leave)
    ball = -np.sqrt(np.maximum(leave**2 - rho**2, 0.0))
    cone = -leave * cosine + (rho - tip) * slope
    ring = point - np.sqrt(np.maximum(leave**2 - (rho - radius) ** 2, 0.0))
    out = np.where(rho <= tip, ball, np.where(rho <= rim, cone, ring))
    return np.where(rho >= radius + leave, np.inf, out)


def _bit_slope(rho: Floats, radius: float, point: float, leave: float) -> Floats:
    """Derivative of `bit_end`."""
    tip, rim, slope, _ = _parts(radius, point, leave)
    ball = rho / np.sqrt(np.maximum(leave**2 - rho**2, TINY_SQUARE))
    ring = (rho - radius) / np.sqrt(np.maximum(leave**2 - (rho - radius) ** 2, TINY_SQUARE))
    return np.where(rho <= tip, ball, np.where(rho <= rim, slope, ring))


def _parts(radius: float, point: float, leave: float) -> tuple[float, float, float, float]:
    """Where the ball ends, where the ring begins, the cone's slope, and the cosine of its angle."""
    slant = float(np.hypot(radius, point))
    return leave * point / slant, radius + leave * point / slant, point / radius, radius / slant


def _near(low: Floats, high: Floats, places: Floats, reach: float) -> tuple[Ints, Ints]:
    """Pairs of a place and a triangle whose box in plan comes within reach of it."""
    tree = shapely.STRtree(shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1]))
    owner, tri = tree.query(shapely.box(*(places - reach).T, *(places + reach).T))
    return owner.astype(np.int64), tri.astype(np.int64)


def _distance(corner: Floats) -> Floats:
    """Distance in plan from the origin to triangles (M × 3 × 2); 0 where they hold it."""
    least = np.full(len(corner), np.inf)
    sides = []
    for i in range(3):
        a, b = corner[:, i], corner[:, (i + 1) % 3]
        edge = b - a
        share = np.clip(-(a * edge).sum(axis=1) / np.maximum((edge**2).sum(axis=1), TINY_SQUARE), 0.0, 1.0)
        least = np.minimum(least, np.hypot(*(a + share[:, None] * edge).T))
        sides.append(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])
    turn = np.stack(sides)
    holds = (turn > 0).all(axis=0) | (turn < 0).all(axis=0)
    return np.where(holds, 0.0, least)


def _halved(corner: Floats) -> Floats:
    """Each triangle as two, through the middle of its longest side, so that slivers grow stout; all first halves come
    before all second ones."""
    length = ((np.roll(corner, -1, axis=1) - corner) ** 2).sum(axis=2)
    first = length.argmax(axis=1)
    a, b, c = (np.take_along_axis(corner, ((first + i) % 3)[:, None, None], axis=1)[:, 0] for i in range(3))
    middle = (a + b) / 2
    return np.concatenate([np.stack((a, middle, c), axis=1), np.stack((middle, b, c), axis=1)])
