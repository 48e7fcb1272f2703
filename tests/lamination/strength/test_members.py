# SPDX-License-Identifier: LGPL-2.1-or-later

"""What hangs together above and below."""

from __future__ import annotations

import shapely

from freecad_stacklam.lamination.strength.members import feet_of, levels_of

LEG = [shapely.box(x, 0, x + 40, 40) for x in (0, 360)]
BEAM = shapely.box(0, 0, 400, 40)


def arch():
    legs = shapely.MultiPolygon(LEG)
    return levels_of([10.0, 100.0, 200.0, 300.0], [[legs], [legs], [legs], [BEAM]])


def test_two_legs_are_one_group_that_carries_the_beam() -> None:
    levels = arch()
    (group,) = levels[1].groups
    assert len(group.members) == 2 and not group.hanging
    assert group.top == 300.0 and group.shadow.area == BEAM.area
    at, height, floor = feet_of(levels, 2, group)[0]
    assert (at[1], height, floor) == (20.0, 10.0, True)


def test_arms_on_a_back_are_groups_of_their_own_and_lips_hang() -> None:
    back, seat = shapely.box(0, 300, 400, 340), shapely.box(0, 0, 400, 340)
    arm = shapely.box(0, 0, 40, 300)
    levels = levels_of([10, 200, 400, 500, 600], [[seat], [seat], [back], [arm.union(back)], [back]])
    assert [len(one.members) for one in levels[2].groups] == [1]
    assert levels[2].groups[0].shadow.area == arm.union(back).area
    lip = shapely.MultiPolygon([back, shapely.box(0, 0, 40, 100)])
    levels = levels_of([10, 200, 400, 500], [[seat], [back], [lip], [arm.union(back)]])
    (group,) = levels[2].groups
    assert len(group.members) == 1 and len(group.hanging) == 1
    assert levels[3].groups[0].below == 0


def test_stacks_that_touch_are_one_member() -> None:
    (level,) = levels_of([10], [[shapely.box(0, 0, 10, 10), shapely.box(10.1, 0, 20, 10)]])
    assert len(level.members) == 1 and len(level.members[0].islands) == 2
