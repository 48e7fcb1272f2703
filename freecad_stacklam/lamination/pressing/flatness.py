# SPDX-License-Identifier: LGPL-2.1-or-later

"""What pressure closes a gap between two layers, and how stiff wood is across its grain.

A strip of a layer, simply supported at two places `width` apart and bent by an even load p, gives way in its middle by
δ = 5·p·b⁴ / (384·E·t³/12), so p = 6.4·E·t³·δ / b⁴ (beam formula of any handbook). mm, MPa.
"""

from __future__ import annotations

from collections.abc import Mapping

from freecad_stacklam.lamination.wood.species import Species

#: Stiffness across the grain (tangential) over the stiffness in bending along it. FPL-GTR-190 (2010), Table 5-1, from
#: memory except sugar maple; the softer direction, so that no gap is promised that does not close.
ACROSS = {
    "white oak": 0.072, "northern red oak": 0.082, "sugar maple": 0.065, "black walnut": 0.056, "black cherry": 0.086,
    "white ash": 0.080, "yellow birch": 0.050, "yellow-poplar": 0.043,
}  # fmt: skip
#: The same where nothing is known: about the middle of these.
USUALLY_ACROSS = 0.065
#: The hollow that is asked about is this wide across the grain, mm, or as the line where that is narrower: a wider one
#: takes far less pressure (by the fourth power of its width), and a narrower one is a matter of planing.
HOLLOW = 100.0
#: Gaps wider than this, mm, are no matter of pressure: the layer is planed again.
WIDEST = 1.0
GIGA = 1000.0


def stiffness_across(species: str, table: Mapping[str, Species]) -> float | None:
    """Stiffness across the grain, MPa; None where the table does not know the wood's stiffness."""
    wood = table.get(species)
    if wood is None or wood.stiffness is None:
        return None
    return ACROSS.get(species, USUALLY_ACROSS) * wood.stiffness * GIGA


def gap_closed(pressure: float, thickness: float, width: float, stiffness: float) -> float:
    """The gap that a pressure closes over a `width`, mm, never told as more than WIDEST."""
    return min(WIDEST, pressure * width**4 / (6.4 * stiffness * thickness**3))
