# SPDX-License-Identifier: LGPL-2.1-or-later

"""A joint: a floating tenon through two or more stacks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, ClassVar

from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.options.kinds import (
    ANGLE,
    AXIS,
    BOOLEAN,
    POINT,
    SIZE,
    TEXT,
    Kind,
    length,
    number,
    one_of,
    several,
    shown,
)
from freecad_stacklam.lamination.options.rows import NEEDED, Record, option
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

#: Sections of a mortise, and how many sizes each has.
SECTIONS = {"square": 1, "rectangle": 2, "round": 1}
#: How a tenon's end is finished where it comes through.
ENDS = ("flush", "proud", "wedged")
#: Depth in each stack, mm, by its name; None: through.
Depths = tuple[tuple[str, float | None], ...]


def _read_depths(value: Any, unit: str) -> Depths:
    if not isinstance(value, dict):
        raise Refusal(
            say(
                'a depth for each stack is needed, as in {{Pedestal = "75mm", Top = "through"}}, not {value}.',
                value=shown(value),
            )
        )
    return tuple((stack, None if depth == "through" else SIZE.read(depth, unit)) for stack, depth in value.items())


def _write_depths(depths: Depths) -> dict[str, str]:
    return {stack: "through" if depth is None else SIZE.write(depth) for stack, depth in depths}


def _depths_fault(depths: Any) -> str:
    if not isinstance(depths, tuple) or any(len(pair) != 2 for pair in depths):
        return "give pairs of a stack's name and a depth"
    names = [name for name, _ in depths]
    if len(set(names)) < len(names):
        return "give one depth for each stack"
    return next(filter(None, (SIZE.fault(depth) for _, depth in depths if depth is not None)), "")


DEPTHS = Kind("depth for each stack", _read_depths, _write_depths, _depths_fault, "StringList", unit="mm")


@dataclass(frozen=True)
class JointSettings(Record):
    """A floating tenon to be placed. `embed` pairs a stack's name with a depth in mm, or with None for through.

    `size` is the mortise: one side (square), two sides (rectangle) or the diameter (round); `turn` turns the section
    about the axis. `ends` says how a through end is finished. `swing` is the season's change in moisture content,
    % points; `relief` on each end-grain wall (None: what the movement calls for). A mortise is cut layer by
    layer before glue-up with `before_glue_up`, else only where it is deeper than `chisel_reach`.
    """

    NOUN: ClassVar[str] = "joint"

    name: str = option(NEEDED, TEXT, "Name", "What the joint is called", by_hand="the object's label")
    through: tuple[float, float, float] = option(
        (0.0, 0.0, 0.0), POINT, "Through", "A point on the axis, in the model", by_hand="an anchor may stand for it"
    )
    axis: tuple[float, float, float] = option(
        (0.0, 0.0, 1.0), AXIS, "Axis", "Direction in which the tenon runs, in the model", group="Axis"
    )
    section: str = option("square", one_of(*SECTIONS), "Section", "Shape of the mortise across its axis", group="Tenon")
    size: tuple[float, ...] = option(
        (40.0,), several(SIZE), "Side or diameter", "Side of the mortise, both sides of a rectangle, or its diameter; "
        "the tenon is smaller by the clearance on each face", by_hand="two lengths, of which a square has one",
    )  # fmt: skip
    turn: float = option(0.0, ANGLE, "Turned by", "Turn of the section about the axis", group="Tenon")
    embed: Depths = option(
        (), DEPTHS, "Depths", "How deep the tenon goes into each stack, or “through”",
        by_hand="a list of texts, in the order of the stacks",
    )  # fmt: skip
    clearance: float = option(
        0.1, length(0.0, 2.0), "Clearance per face", "Room for glue on each face of the tenon", group="Tenon"
    )
    end_room: float = option(
        2.0, length(0.0, 50.0), "Room at the end", "Room for glue beyond the end of a stopped tenon", group="Tenon"
    )
    ends: str = option(
        "flush", one_of(*ENDS), "Through ends", "How the tenon ends where it comes through", group="Tenon"
    )
    proud: float = option(
        5.0,
        length(0.0, 100.0),
        "Stands out by",
        "How far a proud or wedged tenon stands out where it comes through",
        group="Tenon",
    )
    swing: float = option(
        4.0, number(0, 30, unit="% points"), "Moisture over the year",
        "How much the moisture in the wood changes over the year where "
        "the piece will stand, % points", group="Season",
    )  # fmt: skip
    relief: float | None = option(
        None, length(0.0, 10.0), "Relief",
        "Cut back from each end-grain wall of the mortise; left out: as the movement calls for",
        by_hand="none and 0 mm are two things",
    )  # fmt: skip
    chisel_reach: float = option(
        100.0, SIZE, "Chisels reach", "A mortise deeper than this is always cut layer by layer", group="Bench"
    )
    before_glue_up: bool = option(
        True, BOOLEAN, "Mortise before glue-up", "Each layer's mortise is cut before the layers are glued over a waxed "
        "dummy tenon, where the axis stands square to them", group="Bench",
    )  # fmt: skip
    species: str = option(
        "", TEXT, "Wood of the tenon", "Wood of the tenon; left out: that of the first stack", group="Tenon"
    )

    def who(self) -> str:
        """See Record."""
        return say("joint “{name}”", name=self.name)

    def check(self) -> None:
        """See Record."""
        if len(self.size) != SECTIONS[self.section]:
            wanted = say("two sides") if self.section == "rectangle" else say("one size")
            raise Refusal(
                say(
                    "A {section} mortise has {wanted}: joint “{name}” gives {size}.",
                    section=say(self.section),
                    wanted=wanted,
                    name=self.name,
                    size=len(self.size),
                )
            )
        if self.clearance <= 0:
            raise Refusal(
                say(
                    "A clearance of {clearance} leaves joint “{name}” no room for glue: give {size} to {most} a face.",
                    clearance=size(self.clearance),
                    name=self.name,
                    size=size(0.05),
                    most=size(0.15),
                )
            )
        if 2 * self.clearance >= min(self.size):
            raise Refusal(
                say(
                    "The clearance of joint “{name}” leaves no tenon: make it smaller than half of {size}.",
                    name=self.name,
                    size=size(min(self.size)),
                )
            )

    @property
    def stacks(self) -> tuple[str, ...]:
        """Names of the stacks that are joined."""
        return tuple(name for name, _ in self.embed)

    def depth_in(self, stack: str) -> float | None:
        """Depth in a stack, mm; None for through. KeyError where the joint does not go."""
        return dict(self.embed)[stack]
