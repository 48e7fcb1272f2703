# SPDX-License-Identifier: LGPL-2.1-or-later

"""How one form is stacked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite
from typing import Any

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.sizes import not_negative, positive
from freecad_stacklam.lamination.tolerances import NO_DIRECTION


@dataclass(frozen=True)
class StackSettings:
    """How one form is stacked. `stock` holds the planed thicknesses that are available (one: uniform);
    `thicknesses` are as planed, from the bottom, and win over `stock` for as many layers as are listed."""

    form: str = ""
    stock: tuple[float, ...] = (45.0,)
    thicknesses: tuple[float, ...] = ()
    axis: tuple[float, float, float] = (0.0, 0.0, 1.0)
    allowance: float = 3.0
    species: str = "white oak"
    grain: float = 0.0
    copies: int = 1
    fill_holes: bool = False
    pick: str = ""  # "", "least wood", "fewest layers"
    glue_line_worth: float = 0.0  # mm³
    forced: tuple[float, ...] = ()  # heights in the form at which a glue line must lie
    forbidden: tuple[tuple[float, float], ...] = ()  # from and to, heights between which none may lie
    hollow: Mapping[str, Any] | None = None
    pins: Mapping[str, Any] | None = None

    def __post_init__(self) -> None:
        if not self.stock:
            raise Refusal("No stock thickness was given: say how thick your planed boards are, for instance 45 mm.")
        for t in self.stock:
            positive(t, "Stock thickness")
        for t in self.thicknesses:
            positive(t, "A layer's planed thickness")
        not_negative(self.allowance, "The allowance")
        length = sum(c * c for c in self.axis) ** 0.5
        if not isfinite(length) or length < NO_DIRECTION:
            raise Refusal("The stacking axis has no length: pick a face or an edge, or give x, y or z.")
        if not isfinite(self.grain):
            raise Refusal("The grain direction must be an angle in degrees.")
        if self.copies < 1:
            raise Refusal(f"{self.copies} copies cannot be made: give 1 or more.")
        for low, high in self.forbidden:
            if not (isfinite(low) and isfinite(high)) or low >= high:
                raise Refusal(
                    f"A zone without glue lines runs from its lower to its upper height, not from {low:g} to "
                    f"{high:g} mm."
                )
