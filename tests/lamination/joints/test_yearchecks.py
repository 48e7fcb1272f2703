# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a year does to a joint, told in any language. Figures: see test_checks.py."""

from __future__ import annotations

from dataclasses import replace

import pytest
from joined import joint, post_and_top
from pseudo import same_but_marked

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.joints.checks import joint_checks
from freecad_stacklam.lamination.joints.yearchecks import ACROSS_MOVE, FLUSH_MOVE, over_the_year
from freecad_stacklam.lamination.plan.checks import Check


@pytest.mark.parametrize("more", [{}, {"relief": 0.0}, {"section": "round", "relief": 0.0}, {"ends": "wedged"}])
def test_every_verdict_on_a_joint_is_said_whole_in_any_language(more: dict[str, object]) -> None:
    made = joint(post_and_top(), species_table(), size=(60.0,), embed=(("Post", 120.0), ("Top", None)), **more)

    def checks() -> list[Check]:
        return joint_checks(made, cover=200.0, embed_ratio=3.0)

    assert len(same_but_marked(checks)) >= 10


def test_a_flush_end_and_glued_walls_that_move_ask_for_care() -> None:
    made = joint(post_and_top(), species_table(), size=(60.0,))
    top = made.members[-1]
    for times, verdict in ((0.9, "ok"), (1.1, "caution")):
        moved = replace(top, movement_height=times * FLUSH_MOVE, movement_across=times * ACROSS_MOVE)
        found = {c.name: c.verdict for c in over_the_year(replace(made, members=(made.members[0], moved)), moved, "mm")}
        assert found["j: flush end in Top"] == found["j: movement across in Top"] == verdict
