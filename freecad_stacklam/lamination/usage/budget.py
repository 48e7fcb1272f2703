# SPDX-License-Identifier: LGPL-2.1-or-later

"""What each step of the work may take of the allowance. All first values: common practice, no source."""

from __future__ import annotations

from dataclasses import dataclass

from freecad_stacklam.lamination.options.kinds import length
from freecad_stacklam.lamination.options.quantities import percent
from freecad_stacklam.lamination.options.rows import Record, option

#: Most that one step may be given, mm.
_MOST = 50.0


@dataclass(frozen=True)
class BudgetSettings(Record):
    """By how much each step may be out, to the wrong side. Lengths mm; the print's scale in %."""

    saw: float = option(
        0.7,
        length(0.0, _MOST),
        "Saw",
        "How far the band saw strays inside its line",
        group="Budget",
        property="SawStrays",
    )
    layout: float = option(
        0.3, length(0.0, _MOST), "Layout", "How far the line is out as it is drawn or traced", group="Budget"
    )
    print_scale: float = option(
        0.1, percent(0.0, 5.0), "Print scale", "How far the check scales may be out, of the distance from the axis",
        group="Budget",
    )  # fmt: skip
    template_glue: float = option(
        0.3, length(0.0, _MOST), "Template glued", "How far a paper template creeps and stretches when it is glued on",
        group="Budget",
    )  # fmt: skip
    slip: float = option(
        0.5, length(0.0, _MOST), "Slip", "How far a layer slips under the clamps, pins or none", group="Budget"
    )
    hole_fit: float = option(
        0.2, length(0.0, _MOST), "Hole fit", "Play of the pins in their holes, and how far the holes are out",
        group="Budget",
    )  # fmt: skip
    moisture: float = option(
        0.3,
        length(0.0, _MOST),
        "Moisture",
        "How far the wood moves between sawing and carving",
        group="Budget",
        property="WoodStrays",
    )
    carving: float = option(
        1.0, length(0.0, _MOST), "Carving", "How far a tool goes in beyond where it should", group="Budget"
    )
    arc_fit: float = option(
        0.1, length(0.0, _MOST), "Arc fit", "How far a line struck with the compass is out", group="Budget"
    )

    def who(self) -> str:
        """See Record."""
        return "the budget"
