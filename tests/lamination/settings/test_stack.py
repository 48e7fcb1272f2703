# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is asked of one stack."""

from __future__ import annotations

from typing import Any

import pytest

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.file import facts_of, read_settings
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.stack import StackSettings, TabSettings


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


def test_a_waste_tab_is_read_from_the_file_and_written_back() -> None:
    text = (
        '[[stack]]\ntabs = [{layers = "3-5, 8", direction = "45deg", width = "60mm", out = "2in"}, {layers = [2, 1]}]'
    )
    (stack,) = read_settings(text).stacks
    assert stack.tabs == (TabSettings((3, 4, 5, 8), 45.0, 60.0, 50.8), TabSettings((1, 2)))
    assert facts_of(stack.tabs[0])["layers"] == "3-5, 8"
    assert facts_of(stack)["tabs"][1] == facts_of(TabSettings((1, 2)))
    assert stack.tabs[0].called == "the tab of layers 3-5, 8 at 45°"


@pytest.mark.parametrize(
    ("tab", "says"),
    [
        ('layers = "5-3"', 'line 2: layers: “5-3” are no layers: write their numbers from the bottom, as in "3-5"'),
        ('layers = "top"', "“top” are no layers"),
        ("layers = []", "give the number of a layer"),
        ("layers = 0", "give 1 or more"),
        ('layers = "1-4000"', "a list of at most 1000 values"),
        ('width = "60mm"', 'this tab has no layers: add one, as in layers = "3-5"'),
        ('layers = "2", out = "0mm"', "give 1 mm to"),
        ('layers = "2", wide = "60mm"', "did you mean “width”"),
    ],
)  # fmt: skip
def test_impossible_tabs(tab: str, says: str) -> None:
    with pytest.raises(Refusal, match=says):
        read_settings(f"[[stack]]\ntabs = [{{{tab}}}]")
