# SPDX-License-Identifier: LGPL-2.1-or-later

"""Everything that is known before the first cut, as one record."""

from __future__ import annotations

from dataclasses import dataclass, field

from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.plan.bill import BillRow
from freecad_stacklam.lamination.plan.boards import BoardsPlan
from freecad_stacklam.lamination.plan.carving import CarvingPlan
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.gluing import GlueUpPlan
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import StackPlan


@dataclass(frozen=True)
class Plan:
    """Everything that is known before the first cut."""

    title: str
    units: str  # "mm" or "in": how lengths are shown, never how they are stored
    stacks: tuple[StackPlan, ...]
    joints: tuple[JointPlan, ...] = ()
    bill: tuple[BillRow, ...] = ()
    checks: tuple[Check, ...] = ()
    author: str = ""
    date: str = ""
    notes: tuple[str, ...] = field(default=())
    boards: BoardsPlan | None = None
    carving: CarvingPlan | None = None
    glue_up: GlueUpPlan | None = None
    piece: PieceFindings | None = None
    station_step: float = 0.0  # between the offsets of a cut line, mm; 0: as the units suit
    compass_within: float = 1.0  # how far outside a cut line the arcs of its compass table may stand, mm

    @property
    def proven(self) -> bool:
        """True when every stack contains its form and no check says stop."""
        return all(s.containment.proven for s in self.stacks) and all(c.verdict != "stop" for c in self.checks)
