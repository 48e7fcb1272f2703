# SPDX-License-Identifier: LGPL-2.1-or-later

"""Depth holes: gauge holes bored from the rough stack that stop short of the finished surface.

The maker bores them, blackens their bottoms, and carves until they vanish. The bottom of a hole is the bit's whole
point: tip, cone and shoulder, as a cone of the bit's diameter that is as high as its point is long. All of it, and the
hole's wall above, keeps `leave` from the finished surface in space (`bitends`).

The rough surface is the stepped stack: the top of the highest blank at that place, flat all round under the drill stop.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import floor, pi, tan

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.carving.bitends import least_tips
from freecad_stacklam.lamination.carving.contours import contours, spaced
from freecad_stacklam.lamination.carving.stopsettings import merged_depths
from freecad_stacklam.lamination.form.frame import lying
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.lengths import format_length
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
    WHOLE,
)
from freecad_stacklam.lamination.words import figure, mark, say, say_of

Floats = NDArray[np.float64]

#: More holes than this on one face are a slip of the keyboard.
MOST_HOLES = 5000
#: Contours are found on a grid this many times finer than that of the holes.
FINER = 3

NO_FORM = mark("no finished surface under them")
NO_LANDING = mark("no flat wood for the drill stop")
GAP = mark("a gap between the blanks in the way")
SHALLOW = mark("too shallow")
TOO_DEEP = mark("deeper than the bit reaches")
NEAR = mark("nearer than the cover to a joint, pin, void or seam")


def point_length(kind: str, diameter: float, angle: float = 118.0, measured: float | None = None) -> float:
    """How far a bit's tip leads its full width, mm.

    A twist bit's point is a cone: (D / 2) / tan(angle / 2), 0.3004 · D at 118° and 0.2071 · D at 135°. Brad points and
    rim bits differ from maker to maker: the measured value. Raises Refusal when it is not given.
    """
    if kind == "twist":
        return diameter / 2 / tan(angle * pi / 360)
    if measured is None:
        raise Refusal(
            say(
                "The point of a {kind} bit must be measured: give its length from the rim to the tip.",
                kind=_kind(kind),
            )
        )
    return measured


def bit_of(settings: CarvingSettings, units: str = "mm") -> Bit:
    """The bit that the settings choose, its name in the maker's units."""
    angle = figure(f" {settings.angle:g}°") if settings.point == "twist" else ""
    length = point_length(settings.point, settings.bit, settings.angle, settings.point_length)
    name = f"{_kind(settings.point)}{angle} {format_length(settings.bit, units)}"
    return Bit(name, settings.point, settings.bit, length)


def _kind(kind: str) -> str:
    """What a bit is called by its point."""
    named = {
        "rim": say_of("a bit", "rim"),
        "brad point": say_of("a bit", "brad point"),
        "twist": say_of("a bit", "twist"),
        "spade": say_of("a bit", "spade"),
    }
    return named.get(kind, kind)


def depth_map(
    stack: StackPlan,
    mesh: Mesh,
    face: str,
    settings: CarvingSettings,
    *,
    units: str = "mm",
    seams: Mapping[int, Sequence[shapely.Geometry]] | None = None,
) -> DepthMap:
    """Depth holes on the "top" or the "bottom" of a stack, on a grid through its axis cross, or along contours of equal
    depth with the grid filling what lies between them.

    mesh: the form in the model. seams: layer number to the seams between its staves, as lines in plan. Raises Refusal
    when the grid is too fine.
    """
    bit = bit_of(settings, units)
    asked = _Face(stack, mesh, face, settings, bit, units, seams or {})
    grid = _grid(stack, settings.pitch, units)
    dropped: Counter[str] = Counter()
    found: list[DepthHole] = []
    if settings.hole_pattern == "contours":
        fine = _grid(stack, settings.pitch / FINER, units, MOST_HOLES * FINER**2)
        places = asked.ground(fine)
        lines = contours(fine, places.deepest, places.levels.height, asked.step, asked.least)
        rings = [spaced(line, settings.pitch) for _, line in reversed(lines)]
        rung = np.concatenate(rings) if rings else np.empty((0, 2))
        # The deepest come first; where contours crowd, the next ones keep half a pitch away.
        found = apart([h for h in asked.holes(rung, Counter()) if h is not None], settings.pitch / 2)
    filling = [hole for hole in asked.holes(grid, dropped) if hole is not None]
    # Between contours the grid fills what lies a whole pitch from every hole.
    found = apart([*found, *filling], settings.pitch, first=len(found)) if found else filling
    if settings.stop_step is None:  # the maker's own step is kept, however many stops it gives
        shallower = merged_depths([h.depth for h in found])
        found = [replace(h, depth=shallower[h.depth]) for h in found]
    depths = sorted({h.depth for h in found})
    number = {depth: n for n, depth in enumerate(depths, 1)}
    holes = tuple(replace(h, stop=number[h.depth]) for h in found)
    count = Counter(h.stop for h in holes)
    stops = tuple(Stop(stack.name, face, n, depth, count[n], bit.name) for depth, n in number.items())
    return DepthMap(stack.name, face, bit, settings.leave, settings.pitch, holes, stops, tuple(dropped.items()))


@dataclass(frozen=True, eq=False)
class _Ground:
    """What is known of each place before a hole is judged there: the rough surface, whether the form lies under it, and
    how deep the tip may go (nan where there is no hole)."""

    levels: _Levels
    under: NDArray[np.bool_]
    deepest: Floats


@dataclass(frozen=True, eq=False)
class _Bodies:
    """What holes keep clear of: B plans, and the heights they reach from and to, mm."""

    plans: NDArray[np.object_]
    low: Floats
    high: Floats


@dataclass(frozen=True, eq=False)
class _Face:
    """One face of a stack with the bit that bores it."""

    stack: StackPlan
    mesh: Mesh
    face: str
    settings: CarvingSettings
    bit: Bit
    units: str
    seams: Mapping[int, Sequence[shapely.Geometry]]

    @property
    def sign(self) -> float:
        return -1.0 if self.face == "bottom" else 1.0

    @property
    def step(self) -> float:
        return self.settings.step(self.units)

    @property
    def least(self) -> float:
        return max(self.settings.least_depth, self.bit.point)

    @cached_property
    def kept_clear(self) -> _Bodies:
        """The cuts and seams of every layer, once for all holes."""
        found = []
        for layer in self.stack.layers:
            found += [(cut_plan(cut), cut.lowest, cut.highest) for cut in layer.cuts]
            found += [(line, layer.bottom, layer.top) for line in self.seams.get(layer.number, ())]
        plans: list[shapely.Geometry] = [plan for plan, _, _ in found]
        shapely.prepare(plans)
        low, high = (np.array([body[k] for body in found], dtype=np.float64) for k in (1, 2))
        return _Bodies(np.array(plans, dtype=object), low, high)

    def ground(self, places: Floats) -> _Ground:
        points = lying(self.mesh, self.stack.frame) * np.array([1.0, 1.0, self.sign])
        levels = _Levels(self.stack, self.sign, places, self.bit.diameter / 2, self.settings.landing)
        landed = np.flatnonzero(levels.landed)
        tip = np.full(len(places), -np.inf)
        # The mesh may lie inside the form by as much as the guard.
        leave = self.settings.leave + self.stack.guard
        tip[landed] = least_tips(
            points, self.mesh.triangles, places[landed], self.bit.diameter / 2, self.bit.point, leave
        )
        under = np.zeros(len(places), dtype=bool)
        under[landed] = _form_under(self.stack, places[landed])
        good = under & np.isfinite(tip)
        deepest = np.full(len(places), np.nan)
        deepest[good] = levels.height[good] - tip[good]
        return _Ground(levels, under, deepest)

    def holes(self, places: Floats, dropped: Counter[str]) -> list[DepthHole | None]:
        """A hole for each place, or None where none can be; `dropped` counts why."""
        if not len(places):
            return []
        ground = self.ground(places)
        return [self._hole(ground, i, x, y, dropped) for i, (x, y) in enumerate(places.tolist())]

    def _hole(self, ground: _Ground, i: int, x: float, y: float, dropped: Counter[str]) -> DepthHole | None:
        levels, settings, sign = ground.levels, self.settings, self.sign
        if not levels.covered[i]:
            return None
        rough, deepest = float(levels.height[i]), float(ground.deepest[i])
        depth = floor(deepest / self.step + WHOLE) * self.step if np.isfinite(deepest) else 0.0
        body = sorted((sign * (rough - depth), sign * rough))
        why = (
            NO_LANDING if not levels.landed[i]
            else NO_FORM if not np.isfinite(deepest)
            else SHALLOW if depth < self.least
            else TOO_DEEP if settings.bit_length is not None and depth > settings.bit_length
            else GAP if not levels.solid(i, rough - depth)
            else NEAR
            if _nearest(self.kept_clear, x, y, self.bit.diameter / 2, body[0], body[1]) < settings.cover
            else ""
        )  # fmt: skip
        if why:
            dropped[why] += 1
            return None
        return DepthHole(self.stack.name, self.face, x, y, sign * rough, depth, deepest, 0, self.bit.name)


def apart(holes: Sequence[DepthHole], distance: float, first: int = 0) -> list[DepthHole]:
    """The holes in their order, without those nearer than `distance` mm to one that was kept. The `first` of them are
    kept however near they are."""
    if not holes:
        return []
    places = np.array([(hole.x, hole.y) for hole in holes])
    free = np.ones(len(holes), dtype=bool)
    kept: list[DepthHole] = []
    for i, hole in enumerate(holes):
        if free[i] or i < first:
            kept.append(hole)
            free &= np.hypot(*(places - places[i]).T) >= distance - ROUNDING
    return kept


def _grid(stack: StackPlan, pitch: float, units: str, most: int = MOST_HOLES) -> Floats:
    x0, y0, x1, y1 = shapely.union_all([shapely.box(*layer.shadow.bounds) for layer in stack.layers
                                        if not layer.shadow.is_empty]).bounds  # fmt: skip
    steps = [np.arange(np.ceil(a / pitch), np.floor(b / pitch) + 1) * pitch for a, b in ((x0, x1), (y0, y1))]
    if len(steps[0]) * len(steps[1]) > most:
        raise Refusal(
            say(
                "A grid of {pitch} gives {count} depth holes on {stack}, more than {most}: give a wider pitch.",
                pitch=format_length(pitch, units),
                count=len(steps[0]) * len(steps[1]),
                stack=stack.name,
                most=most,
            )
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
            blank: MultiPolygon = area_polygon(layer.without_tabs, COARSE)
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


def _nearest(bodies: _Bodies, x: float, y: float, radius: float, low: float, high: float) -> float:
    """Least distance in space from a hole's cylinder to any of the bodies, mm (a lower bound)."""
    if not len(bodies.plans):
        return np.inf
    aside = np.maximum(0.0, shapely.distance(bodies.plans, shapely.Point(x, y)) - radius)
    above = np.maximum(0.0, np.maximum(low - bodies.high, bodies.low - high))
    return float(np.hypot(aside, above).min())
