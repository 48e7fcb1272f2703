# SPDX-License-Identifier: LGPL-2.1-or-later

"""A joint: a floating tenon through two or more stacks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import isfinite

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.sizes import not_negative, positive
from freecad_stacklam.lamination.tolerances import NO_DIRECTION

#: Sections of a mortise, and how many sizes each has.
SECTIONS = {"square": 1, "rectangle": 2, "round": 1}
#: How a tenon's end is finished where it comes through.
ENDS = ("flush", "proud", "wedged")


@dataclass(frozen=True)
class JointSettings:
    """A floating tenon to be placed. `embed` maps a stack's name to a depth in mm, or to None for through.

    `size` is the mortise: one side (square), two sides (rectangle) or the diameter (round); `turn` turns the section
    about the axis. `ends` says how a through end is finished. `swing` is the season's change in moisture content,
    % points; `relief` on each end-grain wall (None: what the movement calls for). A mortise deeper than `chisel_reach`
    is cut layer by layer before glue-up. `bits` are the diameters at hand.
    """

    name: str
    through: tuple[float, float, float] = (0.0, 0.0, 0.0)
    axis: tuple[float, float, float] = (0.0, 0.0, 1.0)
    section: str = "square"
    size: tuple[float, ...] = (40.0,)
    turn: float = 0.0
    embed: Mapping[str, float | None] = field(default_factory=dict)
    clearance: float = 0.1
    end_room: float = 2.0
    ends: str = "flush"
    proud: float = 5.0
    swing: float = 4.0
    relief: float | None = None
    chisel_reach: float = 100.0
    bits: tuple[float, ...] = ()
    species: str = ""

    def __post_init__(self) -> None:
        if self.section not in SECTIONS:
            raise Refusal(f"Joint “{self.name}” cannot be “{self.section}”: choose {', '.join(SECTIONS)}.")
        if len(self.size) != SECTIONS[self.section]:
            wanted = "two sides" if self.section == "rectangle" else "one size"
            raise Refusal(f"A {self.section} mortise has {wanted}: joint “{self.name}” gives {len(self.size)}.")
        if self.ends not in ENDS:
            raise Refusal(f"The through ends of joint “{self.name}” cannot be “{self.ends}”: choose {', '.join(ENDS)}.")
        for s in self.size:
            positive(s, f"The tenon size of joint “{self.name}”")
        if not isfinite(self.clearance) or self.clearance <= 0:
            raise Refusal(
                f"A clearance of {self.clearance:g} mm leaves joint “{self.name}” no room for glue: give 0.05 to "
                f"0.15 mm a face."
            )
        if 2 * self.clearance >= min(self.size):
            raise Refusal(
                f"The clearance of joint “{self.name}” leaves no tenon: make it smaller than half of "
                f"{min(self.size):g} mm."
            )
        not_negative(self.end_room, f"The end room of joint “{self.name}”")
        not_negative(self.proud, f"How far joint “{self.name}” stands proud")
        if self.relief is not None:
            not_negative(self.relief, f"The relief of joint “{self.name}”")
        if not 0 <= self.swing <= 30:
            raise Refusal(f"A moisture swing of {self.swing:g} % points cannot be: give 0 to 30.")
        positive(self.chisel_reach, "The chisel's reach")
        for bit in self.bits:
            positive(bit, "A bit's diameter")
        if not isfinite(self.turn):
            raise Refusal(f"The turn of joint “{self.name}” must be an angle in degrees.")
        if not all(map(isfinite, (*self.axis, *self.through))) or sum(c * c for c in self.axis) < NO_DIRECTION**2:
            raise Refusal(f"The axis of joint “{self.name}” has no length: give x, y or z, or a direction.")
        for stack, depth in self.embed.items():
            if depth is not None:
                positive(depth, f"The depth of joint “{self.name}” in {stack}")
