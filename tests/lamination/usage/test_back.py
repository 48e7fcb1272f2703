# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where one leans on a back. An armchair of boxes: places and directions by its measures."""

from __future__ import annotations

import pytest
from weakforms import armchair, mushroom

from freecad_stacklam.lamination.tops.seat import seat_of
from freecad_stacklam.lamination.usage.back import back_points, with_backs
from freecad_stacklam.lamination.usage.use import UseSettings, load_cases


def test_an_armchairs_back_is_pushed_backward_near_its_top() -> None:
    chair = armchair()  # a seat 400 high, a back 460 wide and 40 deep about y = 200, 800 high
    seat = seat_of([chair]).sat
    points = back_points([chair], seat)
    assert len(points) == 3
    for (x, y, z), turn in points:
        assert z == pytest.approx(700.0, abs=1.0) and turn == pytest.approx(90.0, abs=5.0)
        assert y == pytest.approx(180.0, abs=2.0) and abs(x) <= 230.0
    assert sorted(round(p[0][0]) for p in points) == pytest.approx([-184, 0, 184], abs=15)
    cases = with_backs(load_cases(UseSettings(kind="seat")), [chair], seat)
    backs = [c for c in cases if c.name == "leaning hard against the back"]
    assert [c.place for c in backs] == ["point"] * 3 and all(c.push == 450.0 and c.at is not None for c in backs)


def test_a_seat_without_a_back_has_no_such_load() -> None:
    stool = mushroom()
    seat = seat_of([stool]).sat
    assert back_points([stool], seat) == ()
    kept = with_backs(load_cases(UseSettings(kind="seat")), [stool], seat)
    assert [c.name for c in kept] == [c.name for c in load_cases(UseSettings(kind="stool"))]
