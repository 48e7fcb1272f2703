# SPDX-License-Identifier: LGPL-2.1-or-later

"""One line of caution for each sheet that sends someone to a machine; page 2 of the book has the rest. Said where used.

Common practice, no source. Each defers to the manual, to local rules and to licensed practice.
"""

from __future__ import annotations

from freecad_stacklam.lamination.words import mark

BAND_SAW = mark(
    "Band saw: guard just above the work, hands beside the line and never in it; the manual, your local rules and "
    "licensed practice come first."
)
BOARDS = mark(
    "Table saw, jointer, planer: guards on, push sticks, nothing shorter than they may take; the manual, your local "
    "rules and licensed practice come first."
)
DRILL = mark(
    "Drill: the work clamped, large bits slow and in a press; the manual, your local rules and licensed practice come "
    "first."
)
GRINDER = mark(
    "Grinder: guard and side handle on, two hands, the work clamped, dust mask on; the manual, your local rules and "
    "licensed practice come first."
)
GLUE = mark(
    "Glue, clamps: gloves, eye protection, fresh air; fingers out of the jaws, bars that cannot fall; the manual, your "
    "local rules and licensed practice come first."
)
