# SPDX-License-Identifier: LGPL-2.1-or-later

"""What panels and joints are glued with: all that their set-ups share."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from freecad_stacklam.lamination.settings.glue import Glue
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.wood.species import Species

#: Species → least and most pressure, MPa, that the glue wants on it.
Wanted = Callable[[str], tuple[float, float]]


@dataclass(frozen=True)
class Means:
    """The glue and the share of it that is squeezed out (`loss`), the room and its times, what the shop presses with,
    the pressure that each wood wants, the woods by name, and the units of sentences, "mm" or "in"."""

    glue: Glue
    loss: float
    room: GluingRoom
    presses: tuple[PressSettings, ...]
    wanted: Wanted
    table: Mapping[str, Species]
    units: str = "mm"

    @property
    def clamps(self) -> tuple[PressSettings, ...]:
        """Of what presses, the clamps alone: what pulls a panel together."""
        return tuple(p for p in self.presses if p.kind == "clamp")
