# SPDX-License-Identifier: LGPL-2.1-or-later

"""Bars across a panel of staves: how many, where along it, how hard, and what its seams get. mm, N, MPa."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, radians, sin

import numpy as np
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.joining.panels import (
    FIRST,
    FURTHEST,
    Panel,
    PanelSeam,
    clamps_along,
)
from freecad_stacklam.lamination.plan.gluing import ClampPlace, LinePressure
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.tolerances import ROUNDING, WHOLE
from freecad_stacklam.lamination.wood.loadspread import bell_shape, cone_width

#: Points along a seam at which its pressure is worked out.
_POINTS = 201
#: So many clamps more than the cones want are tried.
_MORE = 40
#: A clamp as its first values say, where there is none to count with.
_USUAL = PressSettings("clamp")


@dataclass(frozen=True)
class Bars:
    """Bars across a panel, evenly spaced: each stands at `along` the grain, with `ease` of its force, which spares the
    seam that would be starved. `served`: the share of the least pressure wanted that the weakest seam gets, up to 1;
    `reached`: the least share of any seam that lies within their cones."""

    used: tuple[PressSettings, ...]
    along: tuple[float, ...]
    ease: float
    served: float
    reached: float

    @property
    def enough(self) -> bool:
        """Whether every seam gets what it wants, everywhere."""
        return bool(self.used) and min(self.served, self.reached) >= 1.0 - WHOLE


def spacing_for(panel: Panel, able: Sequence[PressSettings], caul: float) -> float:
    """How far apart bars may stand, by the cones of the smallest pad on the nearest seam, mm."""
    pad = min((p.pad for p in able), default=_USUAL.pad)
    return min(cone_width(pad, panel.shallowest + caul), FURTHEST)


def bars_for(panel: Panel, able: Sequence[PressSettings], wanted: tuple[float, float], caul: float) -> tuple[Bars, int]:
    """As few of these clamps as press every seam, the strongest first, from as many as the cones want; where that
    cannot be, those that press the weakest seam best. And how many are wanted, as many more like the weakest of them;
    where no number would do, as many as are used."""
    single = [p for p in sorted(able, key=lambda p: -p.force) for _ in range(p.count)]
    low, high = panel.ends
    count = clamps_along(high - low, spacing_for(panel, able, caul))
    best = bars(panel, single[:count], wanted, caul)
    for n in range(count + 1, min(len(single), count + _MORE) + 1):
        if best.enough:
            break
        best = max(best, bars(panel, single[:n], wanted, caul), key=lambda found: (found.served, found.reached))
    if best.enough and len(best.used) >= count:
        return best, len(best.used)
    more = [*single, *[single[-1] if single else _USUAL] * (count + _MORE)]
    tried = range(max(count, len(single) + 1), max(count, len(single)) + _MORE)
    return best, next((n for n in tried if bars(panel, more[:n], wanted, caul).enough), max(count, len(best.used)))


def bars(panel: Panel, used: Sequence[PressSettings], wanted: tuple[float, float], caul: float) -> Bars:
    """These clamps, evenly along the panel, the first FIRST in from its ends."""
    low, high = panel.ends
    edge = min(FIRST, (high - low) / 2)
    first, last = (low + edge, high - edge) if len(used) > 1 else ((low + high) / 2, high)
    along = np.linspace(first, last, len(used)).tolist()
    thickness = panel.staves[0].thickness
    jaws = [panel.jaws(x) for x in along]
    forces, shares = [], []
    for seam in panel.seams:
        over = [(p, x, j) for p, x, j in zip(used, along, jaws) if seam.low <= x <= seam.high]
        forces.append(sum(p.force for p, _, _ in over) / (seam.length * thickness))
        cones = [(x, cone_width(p.pad, _depth(seam, foot, head, caul)) / 2) for p, x, (foot, head) in over]
        shares.append(_covered(seam, cones))
    ease = min(1.0, wanted[1] / max(forces)) if max(forces) > 0 else 1.0
    served = min(1.0, ease * min(forces) / wanted[0]) if wanted[0] > 0 else 1.0
    return Bars(tuple(used), tuple(along), ease, served, min(shares))


def _depth(seam: PanelSeam, foot: float, head: float, caul: float) -> float:
    """Wood and caul between a seam and the nearer jaw."""
    return max(min(seam.across - foot, head - seam.across) + caul, ROUNDING)


def _covered(seam: PanelSeam, cones: Sequence[tuple[float, float]]) -> float:
    """Share of a seam that lies within some of the spans, each a middle and half a length."""
    covered, at = 0.0, seam.low
    for low, high in sorted((x - half, x + half) for x, half in cones):
        low, high = max(low, at), min(high, seam.high)
        if high > low:
            covered, at = covered + high - low, high
    return covered / seam.length


def places_of(panel: Panel, found: Bars) -> tuple[ClampPlace, ...]:
    """Each bar where it crosses the middle of the panel; `foot` and `head` are its jaws across the grain."""
    turn = radians(panel.staves[0].grain)
    c, s = cos(turn), sin(turn)
    places = []
    for press, x in zip(found.used, found.along):
        foot, head = panel.jaws(x)
        y = (foot + head) / 2
        at = (x * c - y * s, x * s + y * c)
        places.append(ClampPlace(press.name, at, press.force * found.ease, press.pad, foot, head))
    return tuple(places)


def pressures_of(
    panel: Panel, found: Bars, places: Sequence[ClampPlace], wanted: tuple[float, float], caul: float
) -> tuple[LinePressure, ...]:
    """What reaches each seam, numbered from 1 across the grain: a bell-shaped share of every clamp that crosses it,
    (1 + x²/z²)^−2.5 along the seam with z the wood and caul to the nearer jaw, and the 45° cones for what none
    reaches."""
    return tuple(_on_seam(panel, i, list(zip(found.along, places)), wanted, caul) for i in range(len(panel.seams)))


def _on_seam(
    panel: Panel, index: int, clamps: Sequence[tuple[float, ClampPlace]], wanted: tuple[float, float], caul: float
) -> LinePressure:
    seam, thickness = panel.seams[index], panel.staves[0].thickness
    x = np.linspace(seam.low, seam.high, _POINTS)
    value, force, cones = np.zeros_like(x), 0.0, []
    for at, place in clamps:
        if not seam.low <= at <= seam.high:
            continue
        depth = _depth(seam, place.foot, place.head, caul)
        bell = bell_shape((x - at) ** 2, depth)
        whole = float((bell[1:] + bell[:-1]).sum()) / 2 * (x[1] - x[0])  # so that the pressure sums up to the force
        value += place.force * bell / (whole * thickness)
        cones.append((at, cone_width(place.pad, depth) / 2))
        force += place.force
    area = seam.length * thickness
    return LinePressure(
        index + 1, area, force / area, float(value.min()), float(np.quantile(value, 0.05)), _covered(seam, cones),
        MultiPolygon(), wanted,
    )  # fmt: skip
