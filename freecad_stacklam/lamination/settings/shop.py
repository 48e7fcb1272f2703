# SPDX-License-Identifier: LGPL-2.1-or-later

"""How the shop saws boards and makes staves."""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite

from freecad_stacklam.lamination.refusal import Refusal


@dataclass(frozen=True)
class ShopSettings:
    """How boards are sawn and staves are made; lengths mm. Defaults are common shop practice, no published source.

    kerf: of the saw. end_trim: lost at each end of a board. jointing: added in width for every edge that is glued.
    stave_trim: added at each end of a stave. stagger: least distance of a seam from one in the layer below.
    first_cut: "crosscut", "rip", or "better" for the cheaper of the two. planing: thickness that may be planed away.
    spare_staves: how many of the largest staves of each stock are cut once more. glue_spread: g/m² on one face.
    """

    kerf: float = 3.0
    end_trim: float = 25.0
    jointing: float = 1.5
    stave_trim: float = 5.0
    stagger: float = 25.0
    max_stave: float = 150.0
    min_stave: float = 40.0
    seam_margin: float = 8.0
    planing: float = 8.0
    first_cut: str = "crosscut"
    spare_staves: int = 0
    glue_spread: float = 180.0

    def __post_init__(self) -> None:
        rooms = ("kerf", "end_trim", "jointing", "stave_trim", "stagger", "seam_margin", "planing", "glue_spread")
        for what in rooms:
            size = getattr(self, what)
            if not isfinite(size) or size < 0:
                raise Refusal(f"The shop's {what.replace('_', ' ')} cannot be {size:g}: give 0 or more.")
        if not 0 < self.min_stave <= self.max_stave:
            raise Refusal(
                f"Staves cannot be at least {self.min_stave:g} mm and at most {self.max_stave:g} mm wide: give a least "
                "width above 0 and below the greatest."
            )
        if self.first_cut not in ("crosscut", "rip", "better"):
            raise Refusal(f"The first cut cannot be “{self.first_cut}”: write crosscut, rip or better.")
        if self.spare_staves < 0:
            raise Refusal(f"{self.spare_staves} spare staves cannot be cut: give 0 or more.")
