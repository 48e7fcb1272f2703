# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which boards, in which order: the sequence of layer thicknesses that needs the least wood for the form.

A layer's wood depends only on where it begins and ends, so the best sequence is a shortest path over the heights that
the stock can reach (dynamic programming, Bellman's principle), once for every number of layers. That gives the whole
curve wood ↔ layers. The shadows of all slabs come from a few passes over the surface, each serving the slabs that do
not overlap.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.layers.slabwood import Slab, SlabWood
from freecad_stacklam.lamination.layers.thickness import refuse_too_many
from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.tolerances import (
    GUARD,
    MOST_LAYERS,
    PLANE_SNAP,
    SAME_HEIGHT,
    SAVING,
    SHIFT_ROUNDING,
)
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: No layer is planed thinner than this, mm, to meet a plane that is asked for.
LEAST_LAYER = 6.0
#: Positions of the grid that are tried for a uniform stack.
SHIFTS = 16
#: Of more thicknesses than this, none is tried alone and shifted.
MOST_UNIFORM = 3
#: Where more slabs than this could be asked for, they are measured on a grid of heights, and no finer than FINEST mm.
MOST_SLABS = 300
FINEST = 0.5


@dataclass(frozen=True)
class SequencePoint:
    """One way to lay the stack: `thicknesses` from the bottom, mm, each `planed_from` a stock thickness (frozen layers
    from their own). `shift` is how far layer 1 reaches below the form. `wood` is what is left of the boards as blanks
    before planing, area × stock thickness, mm³."""

    layers: int
    wood: float
    thicknesses: tuple[float, ...]
    planed_from: tuple[float, ...]
    shift: float = 0.0

    @property
    def planes(self) -> tuple[float, ...]:
        """Heights of all planes in the stack, 0 at the bottom of layer 1, mm."""
        return (0.0, *(float(h) for h in np.cumsum(self.thicknesses)))


@dataclass(frozen=True)
class SequencePlan:
    """The curve wood ↔ layers: the least wood for every number of layers, fewest first, and which point was picked."""

    points: tuple[SequencePoint, ...]
    picked: int

    @property
    def best(self) -> SequencePoint:
        """The point that the settings ask for."""
        return self.points[self.picked]


def plan_sequence(
    points: Floats,
    triangles: Ints,
    twins: Ints,
    settings: StackSettings,
    *,
    shifts: int = SHIFTS,
    guard: float = GUARD,
) -> SequencePlan:
    """The curve of least wood for every number of layers, and the point the settings pick.

    points: N × 3 in the stack's frame with 0 at the form's bottom, mm; triangles, twins, guard as in Mesh. A uniform
    stack may also be shifted down to a better place on the form, unless layers are frozen or planes forced. Raises
    Refusal when no sequence meets the planes that are asked for.
    """
    height = float(points[:, 2].max())
    wood = SlabWood(points, triangles, twins, settings.allowance + guard, settings.fill_holes, settings.square)
    stock = tuple(sorted(set(settings.stock)))
    _check(height, stock, settings)
    frozen = _frozen(height, settings.thicknesses, settings.forbidden)
    curves = [_curve(height, stock, frozen, 0.0, settings, wood)]
    if not frozen and not settings.forced and len(stock) <= MOST_UNIFORM:
        for t in stock:
            spare = -height % t
            for shift in _shifts(points, triangles, t, spare, shifts // len(stock)) if spare > 1.0 else ():
                curves.append(_curve(height, (t,), (), shift, settings, wood))
    least: dict[int, SequencePoint] = {}
    for found in curves:
        for point in found:
            if point.layers not in least or point.wood < least[point.layers].wood * (1 - SAVING):
                least[point.layers] = point
    if not least:
        raise _no_way(height, stock, settings)
    curve = tuple(least[n] for n in sorted(least))
    return picked(curve, settings)


def picked(curve: tuple[SequencePoint, ...], settings: StackSettings) -> SequencePlan:
    """The same curve with the point that the settings pick: the fewest layers, or the least wood for the worth of a
    glue line."""
    if settings.pick == "fewest layers":
        return SequencePlan(curve, 0)
    costs = [p.wood + settings.glue_line_worth * p.layers for p in curve]
    return SequencePlan(curve, int(np.argmin(costs)))


def _shifts(points: Floats, triangles: Ints, stock: float, spare: float, count: int) -> list[float]:
    """How far a uniform stack is tried below the form: evenly, and where a plane meets a level face of the form."""
    z = points[triangles, 2]
    flat = np.ptp(z, axis=1) <= PLANE_SNAP
    levels, faces = np.unique(np.round(z[flat, 0], 2), return_counts=True)
    levels = levels[np.argsort(-faces, kind="stable")][:count]
    tried = {round(float(s), 6) for s in (*np.linspace(0.0, spare, count)[1:], *(-levels % stock))}
    return sorted(s for s in tried if 0.0 < s <= spare + SHIFT_ROUNDING)


def _check(height: float, stock: tuple[float, ...], settings: StackSettings) -> None:
    if not settings.thicknesses and stock[0] > height + PLANE_SNAP:
        raise Refusal(
            say(
                "Your thinnest stock ({stock}) is thicker than the form is high ({height} along the axis): plane it "
                "thinner, or stack along another axis.",
                stock=size(stock[0]),
                height=size(height),
            )
        )
    refuse_too_many(height, stock[0], settings.thicknesses)
    for plane in settings.forced:
        if not 0.0 < plane < height:
            raise Refusal(
                say(
                    "A glue line was asked for at {plane}, but the form reaches from 0 to {height}: give a height "
                    "inside it, measured from its bottom.",
                    plane=size(plane),
                    height=size(height),
                )
            )
        for low, high in settings.forbidden:
            if low < plane < high:
                raise Refusal(
                    say(
                        "A glue line is asked for at {plane}, where none may lie between {low} and {high}: change "
                        "one of the two.",
                        plane=size(plane),
                        low=size(low),
                        high=size(high),
                    )
                )


def _frozen(height: float, thicknesses: Sequence[float], forbidden: Sequence[Slab]) -> tuple[float, ...]:
    kept: list[float] = []
    for t in thicknesses:
        if sum(kept) >= height - PLANE_SNAP:
            break
        kept.append(t)
        for low, high in forbidden:
            if low + SAME_HEIGHT < sum(kept) < min(high, height) - SAME_HEIGHT:
                raise Refusal(
                    say(
                        "The layers already made have a glue line at {kept}, where none may lie ({low} to {high}): "
                        "change the zone.",
                        kept=size(sum(kept)),
                        low=size(low),
                        high=size(high),
                    )
                )
    return tuple(kept)


class _Ladder:
    """The heights a stack may reach above its frozen layers: exactly, or on a grid where stock makes too many of them.

    A rung stands for all heights near it: the wood of a layer is measured from its rung, its height is kept exactly.
    """

    def __init__(
        self, height: float, stock: tuple[float, ...], start: float, settings: StackSettings, finest: float
    ) -> None:
        self.height, self.stock, self.start = height, stock, start
        self.forced = sorted(f for f in settings.forced if f > start + SAME_HEIGHT)
        self.zones = settings.forbidden
        ends = (h for zone in settings.forbidden for h in zone)
        self.stops = sorted({*self.forced, *(h for h in ends if start + SAME_HEIGHT < h < height - SAME_HEIGHT)})
        self.step = SAME_HEIGHT
        self.rungs = self._reached()
        if len(self.rungs) * len(stock) > MOST_SLABS:
            self.step = max(finest, (height - start) * len(stock) / MOST_SLABS)
            self.rungs = {}
            for h in (start, *self.stops, *np.arange(start, height - PLANE_SNAP, self.step).tolist()):
                self.rungs.setdefault(self.rung(h), h)

    def rung(self, h: float) -> int:
        """The number of the rung that stands for height h."""
        return round((h - self.start) / self.step)

    def is_top(self, h: float) -> bool:
        """Whether the form is covered at height h."""
        return h >= self.height - PLANE_SNAP

    def _reached(self) -> dict[int, float]:
        known = {self.rung(h): h for h in (self.start, *self.stops)}
        queue = sorted(known.values())
        for here in queue:  # grows while it is walked
            for t in self.stock:
                above = here + t
                if self.rung(above) not in known and not self.is_top(above) and len(known) <= MOST_SLABS:
                    known[self.rung(above)] = above
                    queue.append(above)
        return known

    def steps(self, h: float) -> list[tuple[float, float]]:
        """Layers that may be laid on height h: (thickness, thickness of the board it comes from)."""
        barrier = next((f for f in self.forced if f > h + SAME_HEIGHT), np.inf)
        found = [(t, t) for t in self.stock if h + t <= barrier + SAME_HEIGHT and self._allowed(h + t)]
        # A layer planed thinner than its board, only to end on a height that was asked for.
        for stop in self.stops:
            thin = stop - h
            if LEAST_LAYER <= thin <= self.stock[-1] and stop <= barrier + SAME_HEIGHT and self._allowed(stop):
                board = next(t for t in self.stock if t >= thin - SAME_HEIGHT)
                if board - thin > 2 * SAME_HEIGHT:
                    found.append((thin, board))
        return found

    def _allowed(self, h: float) -> bool:
        return self.is_top(h) or not any(low + SAME_HEIGHT < h < high - SAME_HEIGHT for low, high in self.zones)

    def slab(self, h: float, thickness: float) -> Slab:
        """The slab that is measured for a layer laid on height h."""
        low = self.rungs.get(self.rung(h), h)
        top = h + thickness
        stop = next((s for s in self.stops if abs(s - top) <= SAME_HEIGHT), None)
        return low, (low + thickness if stop is None else stop)

    def slabs(self) -> list[Slab]:
        """Every slab that may be asked for."""
        return [self.slab(h, t) for h in self.rungs.values() for t, _ in self.steps(h)]


@dataclass(frozen=True)
class _Reach:
    """The least wood found for reaching a height, and the layer that was laid last."""

    wood: float
    height: float
    thickness: float = 0.0
    board: float = 0.0
    below: _Reach | None = None


def _curve(
    height: float,
    stock: tuple[float, ...],
    frozen: tuple[float, ...],
    shift: float,
    settings: StackSettings,
    wood: SlabWood,
) -> list[SequencePoint]:
    """The least wood for each number of layers with the first plane `shift` below the form's bottom."""
    start = sum(frozen) - shift
    bases = np.cumsum([0.0, *frozen]).tolist()
    lower = list(zip(bases[:-1], bases[1:]))
    ladder = _Ladder(height, stock, start, settings, FINEST)
    wood.measure([*lower, *ladder.slabs()])
    if ladder.is_top(start):
        return [SequencePoint(len(frozen), sum(wood.area(s) * (s[1] - s[0]) for s in lower), frozen, frozen, shift)]
    reached = {ladder.rung(start): _Reach(0.0, start)}
    found: list[SequencePoint] = []
    while reached and len(found) + len(frozen) <= MOST_LAYERS:
        after: dict[int, _Reach] = {}
        top: _Reach | None = None
        for here in reached.values():
            for thickness, board in ladder.steps(here.height):
                h = here.height + thickness
                slab = ladder.slab(here.height, thickness)
                if not wood.knows(slab):
                    wood.measure([slab])
                spent = here.wood + wood.area(slab) * board
                if ladder.is_top(h):
                    if top is None or spent < top.wood:
                        top = _Reach(spent, h, thickness, board, here)
                elif ladder.rung(h) not in after or spent < after[ladder.rung(h)].wood:
                    after[ladder.rung(h)] = _Reach(spent, h, thickness, board, here)
        reached = after
        if top is not None:
            found.append(_traced(top, frozen, shift))
    return _measured(found, wood)


def _traced(top: _Reach, frozen: tuple[float, ...], shift: float) -> SequencePoint:
    layers: list[float] = []
    boards: list[float] = []
    here: _Reach | None = top
    while here is not None and here.below is not None:
        layers.append(here.thickness)
        boards.append(here.board)
        here = here.below
    thicknesses = (*frozen, *reversed(layers))
    return SequencePoint(len(thicknesses), top.wood, thicknesses, (*frozen, *reversed(boards)), shift)


def _measured(found: list[SequencePoint], wood: SlabWood) -> list[SequencePoint]:
    """The same sequences, each with the wood of its own slabs."""
    slabs: list[list[Slab]] = []
    for point in found:
        planes = [round(h - point.shift, 9) for h in point.planes]
        slabs.append(list(zip(planes[:-1], planes[1:])))
    wood.measure(s for row in slabs for s in row)
    return [
        replace(point, wood=sum(wood.area(s) * b for s, b in zip(row, point.planed_from)))
        for point, row in zip(found, slabs)
    ]


def _no_way(height: float, stock: tuple[float, ...], settings: StackSettings) -> Refusal:
    for low, high in settings.forbidden:
        if high - low > stock[-1] + SAME_HEIGHT:
            return Refusal(
                say(
                    "No glue line may lie between {low} and {high}, but that is more than your thickest stock "
                    "({stock}): narrow the zone or add thicker stock.",
                    low=size(low),
                    high=size(high),
                    stock=size(stock[-1]),
                )
            )
    return Refusal(
        say(
            "No sequence of boards of {list} meets the glue lines asked for in a form {height} high with no layer "
            "under {least_layer}: move a plane, widen what is allowed, or add a thickness.",
            list=", ".join(map(size, stock)),
            height=size(height),
            least_layer=size(LEAST_LAYER),
        )
    )
