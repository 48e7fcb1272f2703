# SPDX-License-Identifier: LGPL-2.1-or-later

"""The clock of a set-up of layers: how long glue waits, and how many lines it leaves time for.

The clock runs from the first glue on a face. *Open time* binds each line by itself, from its spread to its contact;
*assembly time* from the first glue to the last clamp. The upper caul is laid while the clock runs; the lower one lies
there before. Times s, areas mm².
"""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.lamination.gluing.pile import PileLine
from freecad_stacklam.lamination.joining.timeline import Spread, pin_seconds, spread_seconds, timeline
from freecad_stacklam.lamination.plan.gluing import Clock
from freecad_stacklam.lamination.settings.glue import Glue
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom


def contact_seconds(room: GluingRoom, line: PileLine, faces: int) -> float:
    """From the first glue on a line's face to its contact."""
    return spread_seconds(room, line.area, faces) + pin_seconds(room, line.pins) + room.place


def line_seconds(room: GluingRoom, line: PileLine, faces: int) -> float:
    """A whole line, from beginning it."""
    return room.start + contact_seconds(room, line, faces)


def cauls_laid(room: GluingRoom) -> int:
    """Cauls that are laid while the clock runs: the upper one, or none where none are used."""
    return 1 if room.caul_thickness > 0.0 else 0


def set_up_seconds(lines: Sequence[float], closing: float, start: float) -> float:
    """From the first glue to the last clamp: all lines with their beginnings, but the first's, which is before the
    clock. `lines` as line_seconds."""
    return sum(lines) - start + closing if lines else closing


def clock_of(glue: Glue, room: GluingRoom, lines: Sequence[PileLine], clamps: int, cauls: int | None = None) -> Clock:
    """The timeline of a set-up that spreads `lines` in their order. cauls: laid while the clock runs (None: as the room
    has them)."""
    spreads = [Spread(line.lower, line.area, line.pins) for line in lines]
    return timeline(glue, room, spreads, cauls_laid(room) if cauls is None else cauls, clamps)
