# SPDX-License-Identifier: LGPL-2.1-or-later

"""One line of caution for each sheet that sends someone to a machine; page 2 of the book has the rest.

Common practice, no source. Each defers to the manual, to local rules and to licensed practice.
"""

from __future__ import annotations

_DEFER = "the manual, your local rules and licensed practice come first."

BAND_SAW = f"Band saw: guard just above the work, hands beside the line and never in it; {_DEFER}"
BOARDS = f"Table saw, jointer, planer: guards on, push sticks, nothing shorter than they may take; {_DEFER}"
DRILL = f"Drill: the work clamped, large bits slow and in a press; {_DEFER}"
GRINDER = f"Grinder: guard and side handle on, two hands, the work clamped, dust mask on; {_DEFER}"
GLUE = f"Glue, clamps: gloves, eye protection, fresh air; fingers out of the jaws, bars that cannot fall; {_DEFER}"
