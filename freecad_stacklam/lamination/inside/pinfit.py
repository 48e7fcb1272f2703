# SPDX-License-Identifier: LGPL-2.1-or-later

"""How a dowel fits its two holes: the bits they are bored with, and its own length.

The hole in the lower layer is as wide as the dowel, so that it stays there; the one in the upper layer is looser, so
that the layer finds it; and the dowel is shorter than both holes together (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from freecad_stacklam.lamination.plan.insides import PinPlan
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.shop import Bit
from freecad_stacklam.lamination.tolerances import SAME_BIT, WHOLE_FLOOR


@dataclass(frozen=True)
class PinFit:
    """The bits for the lower and the upper hole of a pin, how much shorter than both holes its dowel is, mm, and how
    the upper hole is found."""

    below: Bit
    above: Bit
    room: float
    underside: str

    @property
    def lead(self) -> float:
        """How far the longer point of the two goes beyond the wall of its hole, mm."""
        return max(self.below.lead, self.above.lead)

    @property
    def radius(self) -> float:
        """Of the wider hole, mm."""
        return max(self.below.diameter, self.above.diameter) / 2

    @property
    def floor(self) -> float:
        """Wood that must be left beyond the wall of a stopped hole, mm, so that no point comes out."""
        return self.lead + WHOLE_FLOOR

    def fitted(self, pin: PinPlan) -> PinPlan:
        """The pin with its holes and its dowel."""
        kind = max((self.below, self.above), key=lambda bit: bit.lead).kind
        return replace(
            pin, hole_below=self.below.diameter, hole_above=self.above.diameter, bit=kind, point=self.lead,
            dowel=pin.depth_down + pin.depth_up - self.room, underside=self.underside,
        )  # fmt: skip


def fit_of(settings: PinSettings, bits: Sequence[Bit] = ()) -> PinFit:
    """The fit that is asked for. bits: those of the shop; one of a hole's own size bores it with its own point."""
    below, above = (_bit(d, settings.bit, bits) for d in (settings.diameter, settings.diameter + settings.loose))
    return PinFit(below, above, settings.dowel_room, settings.underside)


def _bit(diameter: float, kind: str, bits: Sequence[Bit]) -> Bit:
    mine = [b for b in bits if abs(b.diameter - diameter) < SAME_BIT]
    own = min(mine, key=lambda b: abs(b.diameter - diameter), default=Bit(diameter, kind))
    return replace(own, diameter=diameter, point=own.lead)
