# SPDX-License-Identifier: LGPL-2.1-or-later

from __future__ import annotations

from freecad_stacklam.lamination.findings.weight import STACK, Body, WeightFindings


def test_a_body_of_no_known_weight_still_has_a_middle() -> None:
    body = Body("blank", "Post 1", "Post", 1, 1, STACK, 1e6, None, None, (0.0, 0.0, 22.5))
    assert (body.mass, body.middle_spread, body.inertia) == (None, None, None)
    findings = WeightFindings(12.0, (body,), (), (), (), None, ("bog oak",))
    assert findings.unknown == ("bog oak",)
