# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pins that the maker set by hand are kept, judged, and refused only where they cannot be bored."""

from __future__ import annotations

from typing import Any

import pytest
import solids

from freecad_stacklam.lamination.inside.checks import pin_checks
from freecad_stacklam.lamination.inside.pins import pin_stack
from freecad_stacklam.lamination.joints.joint import place_joint
from freecad_stacklam.lamination.joints.mortise import cut_layers
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.stack import StackSettings

DRUM = solids.cylinder(100, 135, 120)
LID = solids.box(100, 100, 45, (-50, -50, 135))


def planned(**asked: Any) -> StackPlan:
    return plan_stack(DRUM, StackSettings(stock=(45.0,), **asked), name="Drum")


def verdicts(stack: StackPlan) -> dict[str, str]:
    return {c.name.removeprefix("Drum: "): c.verdict for c in pin_checks(stack)}


def test_a_pin_stays_where_it_was_put_and_the_other_glue_line_gets_its_own() -> None:
    at = ((1.0, 60.0, 10.0), (1.0, -50.0, 30.0))
    stack = pin_stack(planned(), DRUM, PinSettings(at=at))
    assert [(p.interface, *p.centre) for p in stack.pins if p.by_hand] == list(at)
    assert {p.interface for p in stack.pins if not p.by_hand} == {2}
    first = next(p for p in stack.pins if p.by_hand)
    # The tip comes nearest, to the underside: 45 - 12 - 4 = 29 mm; to the side it is 100 - 60.8 - 5.2 = 34 mm.
    assert first.least_cover == pytest.approx(29.0, abs=0.05)
    assert {m.interface for m in stack.misfits} == {1, 2}


def test_pins_that_tell_no_wrong_way_are_cautioned() -> None:
    """Two pins opposite each other on a round layer fit it turned by 180°."""
    stack = pin_stack(planned(), DRUM, PinSettings(at=((1.0, 60.0, 0.0), (1.0, -60.0, 0.0))))
    assert stack.misfits[0].distance == pytest.approx(0.0, abs=2.2)  # turns are tried every 2°
    assert verdicts(stack)["pins keep layers the right way round"] == "caution"
    assert verdicts(stack)["cover of the pins"] == "ok"


def test_little_wood_is_cautioned_and_a_pin_that_comes_out_stops() -> None:
    near = pin_stack(planned(), DRUM, PinSettings(at=((1.0, 90.0, 0.0), (1.0, -60.0, 20.0))))
    assert min(p.least_cover for p in near.pins) == pytest.approx(100 - 90 - 5.2, abs=0.1)
    assert verdicts(near)["cover of the pins"] == "caution"
    out = pin_stack(planned(allowance=20.0), DRUM, PinSettings(at=((1.0, 99.0, 0.0), (1.0, -60.0, 20.0))))
    assert verdicts(out)["cover of the pins"] == "stop"
    waste = pin_stack(planned(allowance=20.0), DRUM, PinSettings(at=((1.0, 110.0, 0.0), (1.0, -60.0, 20.0))))
    assert [p.waste for p in waste.pins if p.by_hand] == [True, False]


@pytest.mark.parametrize(
    ("at", "says"),
    [
        (((3.0, 0.0, 0.0),), "glue lines 1 to 2"),
        (((1.0, 99.0, 0.0),), r"at \(99, 0\) mm is not in the wood of both layers"),
        (((1.0, 50.0, 0.0), (1.0, 56.0, 0.0)), r"would be bored into the one at \(50, 0\) mm"),
    ],
)
def test_what_cannot_be_bored_is_refused(at: Any, says: str) -> None:
    with pytest.raises(Refusal, match=says):
        pin_stack(planned(), DRUM, PinSettings(at=at))


def test_a_pin_in_a_mortise_is_refused() -> None:
    stacks = {"Drum": planned(), "Lid": plan_stack(LID, StackSettings(stock=(45.0,)), name="Lid")}
    joint = place_joint(
        JointSettings("lid", size=(36.0,), embed=(("Drum", 100.0), ("Lid", 30.0)), through=(0, 0, 135.0)), stacks,
        {"Drum": DRUM, "Lid": LID},
    )  # fmt: skip
    with pytest.raises(Refusal, match="bored into the mortise of “lid”"):
        pin_stack(cut_layers(stacks["Drum"], joint), DRUM, PinSettings(at=((2.0, 20.0, 0.0), (2.0, 60.0, 0.0))))
