# SPDX-License-Identifier: LGPL-2.1-or-later

"""How a stack is hollowed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from math import isfinite
from typing import Any

from freecad_stacklam.lamination.refusal import Refusal


@dataclass(frozen=True)
class HollowSettings:
    """How a stack is hollowed; mm and mm². All defaults are common practice without a source.

    wall: least wood around a void. caps: solid layers at both ends. vent: diameter of a hole from the underside into
    each void, 0 for none. margin: least wood to a joint. web: width of a bar left standing across the grain, 0 for
    none. turn: radius that the saw needs to turn. least: a void smaller than this in plan is not worth sawing.
    """

    wall: float = 50.0
    caps: int = 2
    vent: float = 0.0
    margin: float = 10.0
    web: float = 0.0
    turn: float = 16.0
    least: float = 2500.0

    def __post_init__(self) -> None:
        if not isfinite(self.wall) or self.wall <= 0:
            raise Refusal(f"A wall of {self.wall:g} mm cannot be left standing: give more than 0.")
        if self.caps < 0:
            raise Refusal(f"{self.caps} solid end layers cannot be: give 0 or more.")
        for value, what in ((self.vent, "vent"), (self.margin, "margin to joints"), (self.web, "web"),
                            (self.turn, "saw's turning radius"), (self.least, "smallest void")):  # fmt: skip
            if not isfinite(value) or value < 0:
                raise Refusal(f"The {what} of the hollow cannot be {value:g}: give 0 or more.")

    @staticmethod
    def of(asked: Mapping[str, Any]) -> HollowSettings:
        """From the settings' own mapping. Raises Refusal for a key that is not known."""
        known = [f.name for f in fields(HollowSettings)]
        for key in asked:
            if key not in known:
                raise Refusal(f"A hollow has no “{key}”: its keys are {', '.join(known)}.")
        return HollowSettings(**asked)
