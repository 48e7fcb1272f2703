# SPDX-License-Identifier: LGPL-2.1-or-later

"""The axis of a stack stays in the model, turns with its form, or follows a face or edge.

Outside check: a box of 100 by 60 by 40 mm has 4, 2.4 or 1.6 layers of 25 mm along its sides, rounded up.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.freecad

ALONG = {"x": 4, "y": 3, "z": 2}


@pytest.fixture
def box(document: Any) -> Any:
    form = document.addObject("Part::Box", "Block")
    form.Length, form.Width, form.Height = 100, 60, 40
    document.recompute()
    return form


def sliced(form: Any, axis: Any = "z", **more: Any) -> Any:
    from freecad_stacklam import api

    return api.slice_form(form, stock=["25 mm"], axis=axis, **more)


def turned(obj: Any, axis: tuple[float, float, float], degrees: float, place: str = "Placement") -> None:
    import FreeCAD

    where = FreeCAD.Placement(FreeCAD.Vector(10, 20, 30), FreeCAD.Rotation(FreeCAD.Vector(*axis), degrees))
    setattr(obj, place, where)
    obj.Document.recompute()


def well(document: Any) -> bool:
    return not any("Invalid" in o.State for o in document.Objects)


def test_an_axis_that_follows_nothing_stays_in_the_model(document: Any, box: Any) -> None:
    stack = sliced(box)
    turned(box, (0, 1, 0), 90)
    assert (stack.AxisFollows, stack.LayerCount, len(stack.Layers)) == ("nothing", ALONG["x"], ALONG["x"])


@pytest.mark.parametrize("letter", "xyz")
def test_an_axis_of_the_form_turns_with_it(document: Any, box: Any, letter: str) -> None:
    from freecad_stacklam import api

    stack = api.follow(sliced(box, letter), box)
    for axis, degrees in (((0, 1, 0), 90), ((1, 2, 3), 77), ((1, 0, 0), 180)):
        turned(box, axis, degrees)
        assert (stack.AxisFollows, stack.LayerCount) == ("the form", ALONG[letter]), (axis, degrees)
    assert well(document)


def test_an_axis_of_the_form_turns_with_the_part_it_sits_in_and_with_a_link(document: Any, box: Any) -> None:
    from freecad_stacklam import api

    part, link = document.addObject("App::Part", "Frame"), document.addObject("App::Link", "Again")
    link.LinkedObject = box
    document.recompute()
    linked = api.follow(sliced(link), link)
    turned(link, (1, 0, 0), 90)
    assert linked.LayerCount == ALONG["z"]
    still = sliced(link)
    assert still.LayerCount == ALONG["y"]
    part.addObject(box)
    document.recompute()
    inside = api.follow(sliced(box), box)
    turned(part, (0, 1, 0), 90)
    assert inside.LayerCount == ALONG["z"]
    assert well(document)


def test_an_axis_follows_a_face_and_an_edge_of_another_thing(document: Any, box: Any, tmp_path: Path) -> None:
    import FreeCAD

    from freecad_stacklam import api

    guide = document.addObject("Part::Cylinder", "Guide")
    document.recompute()
    stack = sliced(box)
    assert api.follow(stack, guide, "Face1").LayerCount == ALONG["z"]
    turned(guide, (0, 1, 0), 90)
    assert (stack.AxisFollows, stack.LayerCount) == ("a face or edge", ALONG["x"])
    guide.Placement = FreeCAD.Placement()
    document.recompute()
    assert stack.LayerCount == ALONG["z"]
    api.follow(stack, guide, "Edge1")  # a circle at the end
    turned(guide, (1, 0, 0), 90)
    assert stack.LayerCount == ALONG["y"]
    path = str(tmp_path / "followed.FCStd")
    document.saveAs(path)
    FreeCAD.closeDocument(document.Name)
    again = FreeCAD.openDocument(path)
    try:
        stack = again.getObject("Stack")
        assert (stack.AxisFollows, stack.AxisFrom[0].Name, stack.LayerCount) == ("a face or edge", "Guide", ALONG["y"])
        turned(again.Guide, (0, 1, 0), 90)
        assert stack.LayerCount == ALONG["x"] and well(again)
    finally:
        FreeCAD.closeDocument(again.Name)


def test_layer_1_stays_at_its_end_when_the_whole_is_turned_over(document: Any, box: Any) -> None:
    """A face's direction is taken as it lies, never turned about to point up."""
    from freecad_stacklam import api
    from freecad_stacklam.docobjects.reading.stacks import axis_of

    guide = document.addObject("Part::Cylinder", "Guide")
    document.recompute()
    stack = api.follow(sliced(box, [0, 0, -1]), guide, "Face1")
    assert axis_of(stack) == (0.0, 0.0, -1.0)
    turned(guide, (1, 0, 0), 180)
    assert axis_of(stack) == (0.0, 0.0, 1.0)


def test_other_options_leave_the_axis_following_and_another_axis_lets_go(document: Any, box: Any) -> None:
    from freecad_stacklam import api
    from freecad_stacklam.docobjects.reading.stacks import settings_of_stack

    stack = api.follow(sliced(box), box)
    turned(box, (0, 1, 0), 90)
    now = list(settings_of_stack(stack).axis)
    api.change_layers(stack, stock=["25 mm"], axis=now, allowance="5 mm")
    assert (stack.AxisFollows, stack.LayerCount, tuple(stack.Axis)) == ("the form", ALONG["z"], (0, 0, 1))
    api.change_layers(stack, stock=["25 mm"], axis="z")
    assert (stack.AxisFollows, stack.LayerCount) == ("nothing", ALONG["x"])
    api.follow(api.follow(stack, box, "Face6"))
    assert (stack.AxisFollows, stack.AxisFrom) == ("nothing", None)


def test_what_is_followed_may_go_and_one_sentence_says_what_to_do(document: Any, box: Any) -> None:
    from freecad_stacklam import api
    from freecad_stacklam.docobjects.reading.stacks import settings_to_change

    guide = document.addObject("Part::Cylinder", "Guide")
    document.recompute()
    stack = api.follow(sliced(box), guide, "Face1")
    document.removeObject(guide.Name)
    document.recompute()
    stack.touch()
    document.recompute()
    sentence = (
        "The face or edge that the stacking axis of “Block stack” follows is gone: open its layers and pick another, "
        "or let the axis follow nothing."
    )
    assert "Invalid" in stack.State and sentence in stack.getStatusString()
    assert (stack.Verdict, list(stack.Notes)) == ("stop", [sentence])
    assert settings_to_change(stack).axis == (0.0, 0.0, 1.0)  # the panel opens
    api.follow(stack)
    assert stack.LayerCount == ALONG["z"] and well(document)


def test_what_gives_no_direction_is_refused_and_nothing_is_changed(document: Any, box: Any) -> None:
    from freecad_stacklam import api

    ball = document.addObject("Part::Sphere", "Ball")
    document.recompute()
    stack = sliced(box)
    layer = stack.Layers[0]
    for target, part, says in (
        (box, "Face17", "gives the stacking axis no direction"),
        (box, "Vertex1", "gives the stacking axis no direction"),
        (layer, "Face1", "of the model itself"),
        (ball, "", "name one"),
    ):
        with pytest.raises(api.Refusal, match=says):
            api.follow(stack, target, part)
        assert (stack.AxisFollows, stack.AxisFrom, stack.LayerCount) == ("nothing", None, ALONG["z"])
