# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the maker chooses: the records that the settings file, the panels and the document objects all fill.

Lengths mm, angles degrees. A record refuses impossible values when it is made, with a sentence that says what to do.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import isfinite
from typing import Any

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.carving import CarvingSettings

#: Sections of a mortise, and how many sizes each has.
SECTIONS = {"square": 1, "rectangle": 2, "round": 1}
#: How a tenon's end is finished where it comes through.
ENDS = ("flush", "proud", "wedged")
AXES = {"x": (1.0, 0.0, 0.0), "y": (0.0, 1.0, 0.0), "z": (0.0, 0.0, 1.0)}


def _positive(value: float, what: str) -> None:
    if not isfinite(value) or value <= 0:
        raise Refusal(f"{what} must be more than 0 mm, not {value:g} mm: give the size you have at the bench.")


def _not_negative(value: float, what: str) -> None:
    if not isfinite(value) or value < 0:
        raise Refusal(f"{what} cannot be {value:g} mm: give 0 or more.")


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
            _positive(t, "Stock thickness")
        for t in self.thicknesses:
            _positive(t, "A layer's planed thickness")
        _not_negative(self.allowance, "The allowance")
        length = sum(c * c for c in self.axis) ** 0.5
        if not isfinite(length) or length < 1e-9:
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
            _positive(s, f"The tenon size of joint “{self.name}”")
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
        _not_negative(self.end_room, f"The end room of joint “{self.name}”")
        _not_negative(self.proud, f"How far joint “{self.name}” stands proud")
        if self.relief is not None:
            _not_negative(self.relief, f"The relief of joint “{self.name}”")
        if not 0 <= self.swing <= 30:
            raise Refusal(f"A moisture swing of {self.swing:g} % points cannot be: give 0 to 30.")
        _positive(self.chisel_reach, "The chisel's reach")
        for bit in self.bits:
            _positive(bit, "A bit's diameter")
        if not isfinite(self.turn):
            raise Refusal(f"The turn of joint “{self.name}” must be an angle in degrees.")
        if not all(map(isfinite, (*self.axis, *self.through))) or sum(c * c for c in self.axis) < 1e-18:
            raise Refusal(f"The axis of joint “{self.name}” has no length: give x, y or z, or a direction.")
        for stack, depth in self.embed.items():
            if depth is not None:
                _positive(depth, f"The depth of joint “{self.name}” in {stack}")


@dataclass(frozen=True)
class Settings:
    """A whole job."""

    title: str = "Stacked form"
    units: str = "mm"
    paper: str = "A4"
    paper_full: str = ""
    date: str = ""
    author: str = ""
    stacks: tuple[StackSettings, ...] = ()
    joints: tuple[JointSettings, ...] = ()
    shop: Mapping[str, Any] = field(default_factory=dict)
    boards: tuple[Mapping[str, Any], ...] = ()
    carving: CarvingSettings | None = None
