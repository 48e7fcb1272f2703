# SPDX-License-Identifier: LGPL-2.1-or-later

"""Presses that are used together on one run, how many of them a line wants, and how many find room.

All clamps, go-bars, weights and rods that span a run press it together, the strongest first; a vacuum bag presses by
itself, everywhere with one pressure. Forces N, pressures MPa, lengths mm.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, inf, pi

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.pressing.clamping import GAP
from freecad_stacklam.lamination.pressing.faces import Slab
from freecad_stacklam.lamination.pressing.seats import BAR
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.tolerances import NO_AREA, ROUNDING, WHOLE

CLAMP, ROD, VACUUM = "clamp", "rod", "vacuum"
#: Share of a seat that discs cover which are laid on it one by one; the densest way covers π/√12, 0.907 (Lagrange).
COVERED = 0.75
#: How coarsely faces are drawn for counting pads on them, mm.
_COARSE = 1.0


@dataclass(frozen=True)
class PressSet:
    """Presses on one run. `of` holds places in the list of all that are owned; `names` every single press, the
    strongest first; `forces` what the first 0, 1, 2 … of them press with together. `air`: a vacuum bag's pressure."""

    of: tuple[int, ...]
    names: tuple[str, ...]
    forces: tuple[float, ...]
    air: float | None = None

    @property
    def owned(self) -> int:
        """How many single presses there are."""
        return len(self.names)

    @property
    def strongest(self) -> float:
        """Force of the strongest of them; 0 with none."""
        return self.forces[1] if self.owned else 0.0

    def enough(self, need: float, area: float) -> bool:
        """Whether all together press an area with a force."""
        return self.force(self.owned, area) >= need - ROUNDING

    def force(self, count: int, area: float) -> float:
        """Of the first `count` on a line of an area."""
        return self.forces[count] if self.air is None else self.air * area

    def count(self, need: float) -> int:
        """How many press with a force: at least one, at most all."""
        if self.air is not None:
            return 1
        return min(max(1, bisect_left(self.forces, need - ROUNDING)), self.owned)

    def wanted(self, need: float) -> int:
        """How many would be wanted for a force if there were more like the strongest."""
        if self.air is not None or not self.owned:
            return 1
        if self.forces[-1] >= need - ROUNDING:
            return self.count(need)
        return self.owned + ceil((need - self.forces[-1]) / self.strongest - WHOLE)

    def by_name(self, count: int) -> tuple[tuple[str, int], ...]:
        """The first `count` by their names."""
        tally: dict[str, int] = {}
        for name in self.names[:count]:
            tally[name] = tally.get(name, 0) + 1
        return tuple(tally.items())


def press_set(presses: Sequence[PressSettings], of: Sequence[int]) -> PressSet:
    """What the presses at places `of` are together: a vacuum bag is alone."""
    if len(of) == 1 and presses[of[0]].kind == VACUUM:
        bag = presses[of[0]]
        return PressSet(tuple(of), (bag.name,) * bag.count, (0.0,) * (bag.count + 1), bag.air)
    ordered = sorted(of, key=lambda i: (-presses[i].force, i))
    names = tuple(presses[i].name for i in ordered for _ in range(presses[i].count))
    forces = [0.0]
    for i in ordered:
        forces += [forces[-1] + presses[i].force * (n + 1) for n in range(presses[i].count)]
    return PressSet(tuple(sorted(of)), names, tuple(forces))


def sets_for(presses: Sequence[PressSettings], height: float, bored: bool) -> tuple[tuple[int, ...], ...]:
    """Which presses can be used on a run of a height, cauls counted in: those that open wide enough, without rods and
    then with them where the run is bored from face to face; each vacuum bag. Each set as places in `presses`; none
    where nothing opens wide enough."""
    spans = [i for i, p in enumerate(presses) if _opening(p) >= height - ROUNDING and (bored or p.kind != ROD)]
    together = tuple(i for i in spans if presses[i].kind != VACUUM)
    clamps = tuple(i for i in together if presses[i].kind != ROD)
    bags = tuple((i,) for i in spans if presses[i].kind == VACUUM)
    return tuple(of for of in dict.fromkeys((clamps, together)) if of) + bags


def widest_for(presses: Sequence[PressSettings], bored: bool) -> tuple[tuple[int, ...], float]:
    """Presses that open widest of those that can be used at all, as places in `presses`, and their opening; () and 0
    where there are none."""
    of = [i for i, p in enumerate(presses) if bored or p.kind != ROD]
    if not of:
        return (), 0.0
    widest = max(_opening(presses[i]) for i in of)
    together = [i for i in of if _opening(presses[i]) == widest and presses[i].kind != VACUUM]
    return tuple(together or of[:1]), widest


def _opening(press: PressSettings) -> float:
    return inf if press.opening is None else press.opening


def pads_that_fit(slabs: Sequence[Slab], presses: Sequence[PressSettings]) -> tuple[NDArray[np.int64], ...]:
    """How many pads of each press find room on each run [a, b] of slabs, counted from 0: an estimate by area, n × n.

    A clamp's pad needs flat wood above and below within its throat of the outline of the whole run, or one end of a
    pair of bars across it, each between two clamps beside the wood, whose throat does not matter. What presses from
    above needs the upper face alone. A vacuum bag and a rod need no room here.
    """
    count = len(slabs)
    found = tuple(np.full((count, count), press.count, dtype=np.int64) for press in presses)
    seated = [(press, room) for press, room in zip(presses, found) if press.kind not in (ROD, VACUUM)]
    pads = {press.pad for press, _ in seated}
    lower, upper = ({pad: [_seat(face, pad) for face in faces] for pad in pads} for faces in
                    ([s.lower for s in slabs], [s.upper for s in slabs]))  # fmt: skip
    throats = {press.throat for press, _ in seated if press.kind == CLAMP and press.throat is not None}
    blanks = [shapely.simplify(s.blocks, _COARSE) for s in slabs]
    for a in range(count):
        whole, beyond = blanks[a], {throat: _beyond(blanks[a], throat) for throat in throats}
        for b in range(a + 1, count):
            wider = shapely.union(whole, blanks[b])
            if wider.area > whole.area + NO_AREA:
                whole, beyond = wider, {throat: _beyond(wider, throat) for throat in throats}
            for press, room in seated:
                flat = upper[press.pad][b]
                if press.kind != CLAMP:
                    room[a, b] = _discs(flat, press.pad)
                    continue
                flat = shapely.intersection(lower[press.pad][a], flat)
                within = flat if press.throat is None else shapely.difference(flat, beyond[press.throat])
                room[a, b] = max(_discs(within, press.pad), 2 * _bars(flat, press.pad))
    return found


def _seat(face: shapely.Geometry, pad: float) -> shapely.Geometry:
    """Where a pad's middle may lie on a face."""
    return shapely.simplify(shapely.buffer(shapely.simplify(face, _COARSE), -pad / 2), _COARSE)


def _beyond(whole: shapely.Geometry, throat: float) -> shapely.Geometry:
    """What no clamp from outside, or from a hole that takes its bar, reaches."""
    closed = shapely.buffer(shapely.buffer(whole, BAR / 2), -BAR / 2)
    return shapely.buffer(closed, -throat)


def _discs(seat: shapely.Geometry, pad: float) -> int:
    """About how many pads lie beside each other with their middles on a seat."""
    if seat.is_empty:
        return 0
    apart = pad + GAP
    return max(1, int(shapely.buffer(seat, apart / 2).area * COVERED / (pi / 4 * apart**2)))


def _bars(flat: shapely.Geometry, pad: float) -> int:
    """How many bars lie beside each other across a seat's longer side."""
    if flat.is_empty:
        return 0
    ring = shapely.get_coordinates(shapely.minimum_rotated_rectangle(flat))
    longer = max((float(np.hypot(*(ring[i + 1] - ring[i]))) for i in range(min(2, len(ring) - 1))), default=0.0)
    return int((longer + pad + GAP) // (pad + GAP))
