# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where on its way a piece is, told by looking at it."""

from __future__ import annotations

from collections.abc import Collection

from freecad_stacklam.workbench.learning.seen import Seen
from freecad_stacklam.workbench.learning.steps import STEPS


def place_of(seen: Seen, passed: Collection[str] = ()) -> int:
    """The step that is on: the first that is not done, from 0. What the document does not show for good is past when a
    later step that it does show is done, or when it was seen, or left out; passed: the keys of those."""
    done = [step.check(seen) is None for step in STEPS]
    far = max((n for n, step in enumerate(STEPS) if step.lasting and done[n]), default=-1)
    if not done[0]:
        return 0
    for number, step in enumerate(STEPS):
        past = done[number] or step.key in passed or (not step.lasting and number < far)
        if not past:
            return number
    return len(STEPS) - 1


def minutes_left(at: int) -> int:
    """How long the rest takes from the beginning of a step, whole minutes, at least 1."""
    return max(1, round(sum(step.seconds for step in STEPS[at:]) / 60))
