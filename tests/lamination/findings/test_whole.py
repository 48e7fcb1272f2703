# SPDX-License-Identifier: LGPL-2.1-or-later

from __future__ import annotations

from freecad_stacklam.lamination.findings.weight import Body, WeightFindings
from freecad_stacklam.lamination.findings.whole import PieceFindings


def test_the_mass_is_that_of_the_whole_piece_and_unknown_without_one() -> None:
    whole = Body("whole", "Stool", "", 0, 0, "model", 1e7, 7.62, 0.8, (0.0, 0.0, 200.0))
    weight = WeightFindings(12.0, (), (), (), (), whole)
    assert PieceFindings(weight=weight).mass == 7.62
    assert PieceFindings(weight=WeightFindings(12.0, (), (), (), (), None)).mass is None
    assert PieceFindings().mass is None
