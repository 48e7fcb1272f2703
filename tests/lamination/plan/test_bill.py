# SPDX-License-Identifier: LGPL-2.1-or-later

"""A line of the bill as a record: what it does not know it leaves unsaid, and it is told as JSON (RFC 8259)."""

from __future__ import annotations

import json
from dataclasses import FrozenInstanceError, asdict

import pytest

from freecad_stacklam.lamination.plan.bill import BillRow


def test_a_line_leaves_unsaid_what_it_does_not_know() -> None:
    """A missing figure must never be read as 0 mm or 0 kg: a spreadsheet's sum skips it."""
    told = json.loads(json.dumps(asdict(BillRow("total", "All wood", "white oak", 1)), allow_nan=False))
    figures = {"thickness", "length", "width", "area", "volume", "board_feet", "mass", "cost"}
    assert {k for k, v in told.items() if v is None} == figures
    assert set(told) - figures == {"item", "name", "species", "count", "how", "rough", "per"}


def test_a_line_stands_as_it_was_made() -> None:
    row = BillRow("blank", "Seat 1", "white oak", 2, volume=1.0)
    with pytest.raises(FrozenInstanceError):
        row.volume = 2.0  # type: ignore[misc]
    assert row == BillRow(**asdict(row))
