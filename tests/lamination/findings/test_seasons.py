# SPDX-License-Identifier: LGPL-2.1-or-later

"""Records of a year: which of two movements holds, and ranges, by plain arithmetic."""

from __future__ import annotations

from freecad_stacklam.lamination.findings.seasons import MONTHS, Following, Movement, even


def test_how_boards_are_sawn_chooses_the_movement_or_leaves_both() -> None:
    flat, quarter = (0.0, 1.0, -1.0), (0.5, 2.0, -2.0)
    assert Movement(flat, quarter, "flat").told == (flat,)
    assert Movement(flat, quarter, "quarter").worst == quarter
    assert Movement(flat, quarter).told == (flat, quarter)
    assert Movement(flat, quarter).range == (-2.0, 2.0)
    assert Movement(flat, quarter, "flat").range == (-1.0, 1.0)


def test_swings_are_ranges_of_the_settled_year() -> None:
    one = Following((8.0, 9.5), (8.2, 9.0), (1.0, 2.0), None, None)
    assert (one.swing, round(one.core_swing, 9)) == (1.5, 0.8)
    assert len(MONTHS) == 12


def test_a_year_is_even_where_its_months_read_alike() -> None:
    assert even((8.0,) * 11 + (8.04,))
    assert not even((8.0,) * 11 + (8.1,))
    assert even((0.0,) * 11 + (0.3,), within=0.5)
