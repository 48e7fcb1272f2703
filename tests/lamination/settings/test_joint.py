# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is asked of a joint."""

from __future__ import annotations

from typing import Any

import pytest

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.joint import DEPTHS, JointSettings


def test_depths_by_stack() -> None:
    joint = JointSettings("Neck", embed=(("Post", 75.0), ("Top", None)))
    assert joint.stacks == ("Post", "Top")
    assert (joint.depth_in("Post"), joint.depth_in("Top")) == (75.0, None)
    with pytest.raises(KeyError):
        joint.depth_in("Leg")


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"section": "rectangle"}, "rectangle mortise has two sides: joint “Neck” gives 1"),
        ({"section": "square", "size": (40.0, 20.0)}, "one size"),
        ({"section": "oval"}, "write square, rectangle or round"),
        ({"clearance": 0.0}, "no room for glue"),
        ({"clearance": 1.5, "size": (3.0,)}, "smaller than half of 3 mm"),
        ({"clearance": 2.0, "section": "rectangle", "size": (90.0, 4.0)}, "smaller than half of 4 mm"),
        ({"axis": (0.0, 0.0, 0.0)}, "joint “Neck”"),
        ({"embed": (("Post", 0.0),)}, "joint “Neck”"),
        ({"embed": (("Post", 5.0), ("Post", None))}, "one depth for each stack"),
        ({"swing": 31.0}, "“Moisture over the year”"),
        ({"relief": -0.1}, "“Relief”"),
        ({"chisel_reach": 0.0}, "“Chisels reach”"),
    ],
)
def test_impossible_joints(asked: dict[str, Any], says: str) -> None:
    with pytest.raises(Refusal, match=says):
        JointSettings("Neck", **asked)


def test_no_relief_and_none_asked_for_are_two_things() -> None:
    assert JointSettings("Neck", relief=0.0) != JointSettings("Neck", relief=None)


def test_depths_are_read_in_the_files_unit_and_written_with_theirs() -> None:
    held = DEPTHS.read({"Post": "3in", "Top": "through", "Foot": 2}, "in")
    assert held == (("Post", pytest.approx(76.2)), ("Top", None), ("Foot", pytest.approx(50.8)))
    assert DEPTHS.read(DEPTHS.write(held), "mm") == held
    with pytest.raises(Refusal, match="a depth for each stack is needed"):
        DEPTHS.read("75mm", "mm")
