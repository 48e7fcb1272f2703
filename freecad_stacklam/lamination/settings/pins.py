# SPDX-License-Identifier: LGPL-2.1-or-later

"""How the layers of a stack are pinned."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from math import isfinite
from typing import Any

from freecad_stacklam.lamination.refusal import Refusal


@dataclass(frozen=True)
class PinSettings:
    """How layers are pinned; mm. All defaults are common practice without a source.

    depth: of the hole in each of the two layers. margin: least wood to the surface, to joints and to voids. count: pins
    for each piece at each glue line; one more where so many cannot tell a wrong way from the right one. waste: two more
    in waste wood outside the form. skip: numbers of the layers whose upper glue line gets none. share: outlines that
    differ from themselves by less than this part of their area, laid a wrong way, do not show it. ratio: least misfit
    in diameters.
    """

    diameter: float = 10.0
    depth: float = 12.0
    margin: float = 8.0
    count: int = 2
    waste: bool = False
    skip: tuple[int, ...] = ()
    share: float = 0.1
    ratio: float = 1.5

    def __post_init__(self) -> None:
        for value, what in ((self.diameter, "diameter"), (self.depth, "depth"), (self.ratio, "least misfit")):
            if not isfinite(value) or value <= 0:
                raise Refusal(f"The {what} of the pins cannot be {value:g}: give more than 0.")
        if not isfinite(self.margin) or self.margin < 0:
            raise Refusal(f"The margin of the pins cannot be {self.margin:g} mm: give 0 or more.")
        if not 2 <= self.count <= 6:
            raise Refusal(f"{self.count} pins for each piece do not hold it: give 2 to 6, for one lets a layer turn.")
        if not 0 <= self.share < 1:
            raise Refusal(f"The share by which outlines may differ cannot be {self.share:g}: give 0 to 1, as in 0.1.")

    @staticmethod
    def of(asked: Mapping[str, Any]) -> PinSettings:
        """From the settings' own mapping. Raises Refusal for a key that is not known."""
        known = [f.name for f in fields(PinSettings)]
        for key in asked:
            if key not in known:
                raise Refusal(f"Pins have no “{key}”: their keys are {', '.join(known)}.")
        return PinSettings(**asked)

    @property
    def misfit(self) -> float:
        """Least distance, mm, by which the worst pin must miss in a wrong way."""
        return self.ratio * self.diameter
