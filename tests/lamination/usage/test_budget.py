# SPDX-License-Identifier: LGPL-2.1-or-later

from __future__ import annotations

import pytest

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.usage.budget import BudgetSettings


def test_impossible_amounts_are_refused() -> None:
    with pytest.raises(Refusal):
        BudgetSettings(saw=-1.0)
    with pytest.raises(Refusal):
        BudgetSettings(print_scale=50.0)
