# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on joints, with figures set by hand; their limits are common practice, no source."""

from __future__ import annotations

import pytest
from joined import joint, post_and_top

from freecad_stacklam.data import species_table


def test_verdicts_on_proportion_and_movement():
    pieces = post_and_top()
    from freecad_stacklam.lamination.joints.checks import joint_checks

    found = joint(pieces, species_table(), size=(60.0,))
    post, top = found.members
    assert post.share == pytest.approx(60 / 160, rel=1e-3)
    assert top.share == pytest.approx(60 / 300, rel=1e-3)
    verdicts = {c.name: c for c in joint_checks(found)}
    # a third for the tenon, a third for each wall: common practice, no source
    assert verdicts["j: width in Post"].verdict == "caution"
    assert verdicts["j: width in Top"].verdict == "ok"
    movement = verdicts["j: movement in Post"]
    assert movement.verdict == "ok"
    assert movement.limit == pytest.approx(2 * (0.1 + 0.4))
    bare = joint(pieces, species_table(), size=(60.0,), relief=0.0)
    assert {c.name: c.verdict for c in joint_checks(bare)}["j: movement in Post"] == "caution"
