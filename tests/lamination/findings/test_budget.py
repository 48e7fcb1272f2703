# SPDX-License-Identifier: LGPL-2.1-or-later

from __future__ import annotations

from freecad_stacklam.lamination.findings.budget import AllowanceBudget


def test_what_is_lacking_is_never_negative() -> None:
    assert AllowanceBudget("Top", (), 3.0, 5.0, 4.0).more == 0.0
    assert AllowanceBudget("Top", (), 3.0, 5.0, 2.5).more == 0.5
