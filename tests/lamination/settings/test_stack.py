# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is asked of one stack."""

from __future__ import annotations

from typing import Any

import pytest

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.stack import StackSettings


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"stock": ()}, "No stock thickness was given"),
        ({"stock": (45.0, 0.0)}, "“Stock thickness” of stack “Seat”"),
        ({"thicknesses": (45.0, -1.0)}, "“As planed, from layer 1”"),
        ({"forbidden": ((30.0, 30.0),)}, "not from 30 mm to 30 mm"),
        ({"forbidden": ((30.0,),)}, "“No glue lines between”"),
        ({"pick": "nonsense"}, "write least wood or fewest layers"),
        ({"axis": (0.0, 0.0, 0.0)}, "“Stacking axis”"),
        ({"copies": 0}, "“Copies”"),
        ({"allowance": -0.1}, "“Allowance all round”"),
        ({"hollow": {"wal": 3}}, "Hollow"),
        ({"grain": float("nan")}, "“Grain from x”"),
    ],
)
def test_impossible_stacks(asked: dict[str, Any], says: str) -> None:
    with pytest.raises(Refusal, match=says):
        StackSettings("Seat", **asked)


def test_a_stack_is_called_by_its_form() -> None:
    assert (StackSettings("Seat").who(), StackSettings().who()) == ("stack “Seat”", "the stack")


def test_forced_lines_may_lie_below_nothing_and_allowance_may_be_none() -> None:
    made = StackSettings("Seat", allowance=0.0, forced=(90.0, 45.0), forbidden=((10.0, 20.0),), hollow=HollowSettings())
    assert (made.allowance, made.forced, made.hollow) == (0.0, (90.0, 45.0), HollowSettings())
