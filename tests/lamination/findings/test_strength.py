# SPDX-License-Identifier: LGPL-2.1-or-later

"""The records of strength."""

from __future__ import annotations

from dataclasses import replace

import pytest

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.findings.strength import JointFinding, LineFinding, StrengthFindings


def test_nothing_found_has_no_worst() -> None:
    assert StrengthFindings("glued", "stool", ()).worst() is None
    assert LineFinding("A", 1, 45.0, 0.0, 0.0).share == 0.0


def test_a_joint_is_used_the_way_it_holds_more() -> None:
    at = (0.0, 0.0, 0.0)
    joint = JointFinding("J", at, "push", at, False, "glued", 1e5, 0.0, 21.0, 105.0, 0.16, 7.4, 7.4, "A", 1.242, 2.484,
                         50.0, 1000.0, 10_000.0, None, None)  # fmt: skip
    assert joint.alone == pytest.approx(0.5)  # sheared at half, though the walls are pressed at all they bear
    assert joint.use == pytest.approx(0.1)
    dry = replace(joint, way="dry")
    assert dry.use == dry.alone == pytest.approx(1.0)


def test_a_load_is_found_by_its_name() -> None:
    guest = LoadCase("a guest", 800.0, 20.0, "edge", "own")
    found = StrengthFindings("glued", "stool", (), loads=(guest,))
    assert found.load_named("a guest") is guest
    assert found.load_named("a pot") is None


def test_a_line_where_layers_hardly_meet_and_one_with_little_left() -> None:
    # 300 of the smaller face's 1000 mm² meet; of them 240, four fifths, are left.
    step = LineFinding("A", 1, 45.0, 300.0, 240.0, 1000.0)
    assert (step.meets, step.share, step.least) == (0.3, 0.8, 0.3)
    assert LineFinding("A", 1, 45.0, 300.0, 30.0).least == 0.1
