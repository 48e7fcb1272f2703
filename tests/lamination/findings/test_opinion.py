# SPDX-License-Identifier: LGPL-2.1-or-later

from __future__ import annotations

from freecad_stacklam.lamination.findings.deep import DeepFindings
from freecad_stacklam.lamination.findings.opinion import SecondOpinion


def test_none_is_had_unless_it_is_asked_for() -> None:
    assert DeepFindings().second_opinion is None
    assert SecondOpinion(refused="No.").index == 0.0
