# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the shop presses with: clamps, and whatever else it has."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from freecad_stacklam.lamination.options.kinds import SIZE, TEXT, length, number, one_of
from freecad_stacklam.lamination.options.quantities import force
from freecad_stacklam.lamination.options.rows import NEEDED, Record, option
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

#: A clamp spans the pile from face to face and reaches in as far as its throat. A rod runs through a bore; a weight
#: lies on top; a go-bar is sprung under a ceiling or a frame; a vacuum bag presses everywhere with one pressure.
PRESS_KINDS = ("clamp", "rod", "go-bar", "weight", "vacuum")
#: MPa: what a perfect vacuum would press with, the pressure of the air (ISO 2533 standard atmosphere 0.101325 MPa).
AIR = 0.1
NO_CLAMPS = "There are no clamps: list those that the shop owns, with the force and the opening of each."
_CELL = "a cell of the sheet of clamps"


@dataclass(frozen=True)
class PressSettings(Record):
    """`count` presses alike. force N each (of a vacuum: not used); opening, throat and pad mm."""

    NOUN: ClassVar[str] = "clamp"

    name: str = option(NEEDED, TEXT, "Name", "What the clamp is called in the shop", by_hand=_CELL)
    kind: str = option("clamp", one_of(*PRESS_KINDS), "Kind", "A clamp, or another press", by_hand=_CELL)
    count: int = option(1, number(1, 999, whole=True), "Count", "How many alike", by_hand=_CELL)
    force: float = option(
        4670.0, force(), "Force", "What one presses with when tightened as usual; of a vacuum bag not used",
        by_hand=_CELL,
    )  # fmt: skip
    opening: float | None = option(
        None, SIZE, "Opening", "Greatest height between its jaws, or length of a rod between its nuts; left out: any",
        by_hand=_CELL,
    )  # fmt: skip
    throat: float | None = option(
        None, SIZE, "Throat", "From the bar to the middle of the pad; left out: it reaches everywhere", by_hand=_CELL
    )
    pad: float = option(40.0, length(5.0, 1000.0), "Pad", "Diameter, or shorter side, of its pad", by_hand=_CELL)
    air: float = option(
        0.085, number(0.001, AIR, unit="MPa"), "Vacuum", "Of a vacuum bag: what its pump reaches, MPa; the air has 0.1",
        by_hand=_CELL,
    )  # fmt: skip

    def who(self) -> str:
        """See Record."""
        return say("the clamp “{name}”", name=self.name)

    def check(self) -> None:
        """See Record."""
        if not self.name.strip():
            raise Refusal(say("A clamp has no name: give it one, such as bar clamp 600."))
