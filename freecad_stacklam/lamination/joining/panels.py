# SPDX-License-Identifier: LGPL-2.1-or-later

"""Panels: staves that hang together by seams, where their edges are, and how many clamps a seam wants by its cones.

"Along" is along the grain and "across" is across it, mm from the stack's datum.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, cos, radians, sin

from freecad_stacklam.lamination.plan.boards import Stave
from freecad_stacklam.lamination.tolerances import ROUNDING, SEAM_TOUCH, WHOLE

#: How far the first clamp stands in from the end of a seam, mm (a glue maker's guide: 38 to 50), and how far apart the
#: others stand at most (the same: 200 to 300).
FIRST, FURTHEST = 45.0, 300.0


@dataclass(frozen=True)
class PanelSeam:
    """A seam of a panel: `across` the grain, from `low` to `high` along it, mm from the stack's datum."""

    across: float
    low: float
    high: float

    @property
    def length(self) -> float:
        """Along the grain, mm."""
        return self.high - self.low


@dataclass(frozen=True)
class Panel:
    """Staves that hang together by seams, from one side to the other. `strips` are theirs: low and high along the
    grain, low and high across it, mm from the stack's datum."""

    staves: tuple[Stave, ...]
    strips: tuple[tuple[float, float, float, float], ...]
    seams: tuple[PanelSeam, ...]

    @property
    def area(self) -> float:
        """Of all seams, mm²."""
        return sum(s.length for s in self.seams) * self.staves[0].thickness

    @property
    def width(self) -> float:
        """Across the grain, mm."""
        return max(s[3] for s in self.strips) - min(s[2] for s in self.strips)

    @property
    def ends(self) -> tuple[float, float]:
        """Where its seams begin and end along the grain."""
        return min(s.low for s in self.seams), max(s.high for s in self.seams)

    @property
    def shallowest(self) -> float:
        """Width of the narrower of its two outermost staves: the wood between a jaw and the nearest seam, mm."""
        first, last = self.strips[0], self.strips[-1]
        return min(first[3] - first[2], last[3] - last[2])

    def jaws(self, along: float) -> tuple[float, float]:
        """The panel's two edges where a bar crosses it, mm across the grain."""
        met = [s for s in self.strips if s[0] - ROUNDING <= along <= s[1] + ROUNDING] or list(self.strips)
        return min(s[2] for s in met), max(s[3] for s in met)


def panels_of(staves: Sequence[Stave], touch: float = SEAM_TOUCH) -> tuple[Panel, ...]:
    """The panels of more than one stave, by stack and layer. touch: edges this near, mm, are one seam."""
    layers: dict[tuple[str, int], list[Stave]] = {}
    for stave in staves:
        if stave.stack:
            layers.setdefault((stave.stack, stave.layer), []).append(stave)
    return tuple(panel for mine in layers.values() for panel in _panels(mine, touch))


def _panels(staves: Sequence[Stave], touch: float) -> list[Panel]:
    """The panels of one layer."""
    pairs = sorted(((_strip(s), s) for s in staves), key=lambda p: (p[0][2], p[0][0]))
    strips, order = [p[0] for p in pairs], [p[1] for p in pairs]
    groups = [{i} for i in range(len(order))]
    seams: dict[tuple[int, int], PanelSeam] = {}
    for i, one in enumerate(strips):
        for k, other in enumerate(strips):
            low, high = max(one[0], other[0]), min(one[1], other[1])
            if abs(one[3] - other[2]) <= touch and high - low > touch:
                seams[i, k] = PanelSeam(one[3], low, high)
                whole = groups[i] | groups[k]
                for n in whole:
                    groups[n] = whole
    found = []
    for mine in sorted({tuple(sorted(g)) for g in groups if len(g) > 1}):
        held = tuple(seam for (i, _), seam in sorted(seams.items()) if i in mine)
        found.append(Panel(tuple(order[n] for n in mine), tuple(strips[n] for n in mine), held))
    return found


def _strip(stave: Stave) -> tuple[float, float, float, float]:
    c, s = cos(radians(stave.grain)), sin(radians(stave.grain))
    along = [x * c + y * s for x, y in stave.region]
    across = [y * c - x * s for x, y in stave.region]
    return min(along), max(along), min(across), max(across)


def clamps_along(length: float, spacing: float, first: float = FIRST) -> int:
    """How many clamps a seam of `length` mm wants so that none stands further from the next than `spacing`."""
    inner = length - 2 * first
    return 1 if inner <= 0 else ceil(inner / spacing - WHOLE) + 1
