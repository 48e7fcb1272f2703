"""What the maker chooses: the records that the settings file, the panels and the document objects all fill.

Lengths mm, angles degrees. A record refuses impossible values when it is made, with a sentence that says what to do.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import isfinite
from typing import Any

from freecad_stacklam.lamination.refusal import Refusal

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


@dataclass(frozen=True)
class JointSettings:
    """A floating tenon to be placed. `embed` maps a stack's name to a depth in mm, or to None for through."""

    name: str
    through: tuple[float, float, float] = (0.0, 0.0, 0.0)
    axis: tuple[float, float, float] = (0.0, 0.0, 1.0)
    section: str = "square"
    size: tuple[float, ...] = (40.0,)
    embed: Mapping[str, float | None] = field(default_factory=dict)
    clearance: float = 0.1
    end_room: float = 2.0
    species: str = ""

    def __post_init__(self) -> None:
        for s in self.size:
            _positive(s, f"The tenon size of joint “{self.name}”")
        _not_negative(self.clearance, f"The clearance of joint “{self.name}”")
        _not_negative(self.end_room, f"The end room of joint “{self.name}”")
        if sum(c * c for c in self.axis) < 1e-18:
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
