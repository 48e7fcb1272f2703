# SPDX-License-Identifier: LGPL-2.1-or-later

"""The record of a whole job."""

from __future__ import annotations

from typing import Any

import pytest

from freecad_stacklam.lamination.options.rows import rows_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.stack import StackSettings


def test_a_job_of_nothing_is_whole() -> None:
    assert Settings() == Settings(stacks=(), joints=(), boards=())
    assert Settings().carving is None
    assert {row.key for row in rows_of(Settings)} >= {"stack", "joint", "board", "shop", "carving"}


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"units": "cubit"}, "“Lengths in” of the job.*write mm or in"),
        ({"paper": "  "}, "have no paper"),
        ({"stacks": (1,)}, "Stacks"),
        ({"stacks": [StackSettings()]}, "Stacks"),
        ({"shop": None}, "Shop"),
        ({"title": 7}, "“Title”"),
    ],
)
def test_impossible_jobs(asked: dict[str, Any], says: str) -> None:
    with pytest.raises(Refusal, match=says):
        Settings(**asked)


def test_what_was_planned_for_a_job_can_be_kept_under_it() -> None:
    one = Settings(title="Stand", stacks=(StackSettings("Post", stock=(45.0, 27.0)),))
    same = Settings(title="Stand", stacks=(StackSettings("Post", stock=(45.0, 27.0)),))
    assert {one: "plan"}[same] == "plan"
