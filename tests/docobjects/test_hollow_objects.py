# SPDX-License-Identifier: LGPL-2.1-or-later

"""The hollow of a stack: voids with a true wall, cut through the inner layers, and pins and joints beside them.

The judges: the volume of a hollow cylinder in closed form, and FreeCAD's own booleans and distances.
"""

from __future__ import annotations

from dataclasses import replace
from math import pi
from pathlib import Path
from typing import Any

import pytest

from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.pins import PinSettings

pytestmark = pytest.mark.freecad

RADIUS, HEIGHT, STOCK, WALL, CAPS = 150.0, 200.0, 25.0, 40.0, 2
ASKED = {"wall": WALL, "caps": CAPS}
#: The computation's own guard for the mesh (tolerances.GUARD), so that the true wall is never thinner than asked.
GUARD = 0.2


@pytest.fixture
def stack(document: Any) -> Any:
    """A drum of eight layers."""
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    drum = document.addObject("Part::Cylinder", "Drum")
    drum.Radius, drum.Height = RADIUS, HEIGHT
    document.recompute()
    made = make_stack(document, drum, StackSettings(stock=(STOCK,), allowance=3.0))
    document.recompute()
    return made


def hollowed(stack: Any, **other: Any) -> Any:
    from freecad_stacklam.docobjects.making.insides import make_hollow

    document = stack.Document
    document.openTransaction("Hollow")
    hollow = make_hollow(stack, HollowSettings(**{**ASKED, **other}))
    document.recompute()
    document.commitTransaction()
    return hollow


def taken(stack: Any) -> list[float]:
    return [float(layer.BlankVolume.Value - layer.Shape.Volume) for layer in stack.Layers]


def all_well(document: Any) -> bool:
    return all(o.State == ["Up-to-date"] for o in document.Objects)


def test_a_drum_s_void_is_a_smaller_drum(document: Any, stack: Any) -> None:
    hollow = hollowed(stack)
    # π (R − wall)² × the four inner layers; mesh, guard and fitting take a little more wall, never less.
    ideal = pi * (RADIUS - WALL) ** 2 * 4 * STOCK
    assert ideal * 0.985 < hollow.WoodSaved.Value < ideal
    assert hollow.Shape.isValid()
    assert hollow.Shape.Volume == pytest.approx(hollow.WoodSaved.Value, rel=1e-6)
    each = hollow.WoodSaved.Value / 4
    assert taken(stack) == pytest.approx([0, 0, each, each, each, each, 0, 0], rel=1e-4, abs=0.01)
    assert hollow.VoidCount == 1
    form = document.Drum.Shape
    assert hollow.Shape.common(form).Volume == pytest.approx(hollow.Shape.Volume, rel=1e-9)
    wall = hollow.Shape.distToShape(form.Shells[0])[0]
    assert WALL <= wall <= WALL + GUARD + 0.5
    assert WALL <= hollow.LeastWall.Value <= wall + 1e-6
    # The glue line between two hollow layers keeps a ring: π (R² − r²), r from the void's own volume.
    ring = pi * RADIUS**2 - each / STOCK
    assert hollow.GlueArea.Value == pytest.approx(ring, rel=1e-3)
    assert len(hollow.GlueLines) == 5
    assert hollow.Verdict == "caution"
    assert any("vent" in note for note in hollow.Notes)


def test_the_place_of_the_thinnest_wall_is_where_it_says(document: Any, stack: Any) -> None:
    import Part

    hollow = hollowed(stack)
    place = Part.Vertex(hollow.CoverPlace)
    assert place.distToShape(hollow.Shape)[0] == pytest.approx(0, abs=0.1)
    assert place.distToShape(document.Drum.Shape.Shells[0])[0] == pytest.approx(hollow.LeastWall.Value, abs=0.6)


def test_a_vent_opens_the_void_to_the_underside(document: Any, stack: Any) -> None:
    hollow = hollowed(stack, vent=8.0)
    bore = pi / 4 * 8**2
    assert taken(stack)[:2] == pytest.approx([bore * STOCK] * 2, rel=1e-6)
    assert taken(stack)[-1] == pytest.approx(0, abs=0.01)
    assert hollow.Shape.BoundBox.ZMin == pytest.approx(0, abs=1e-6)
    assert hollow.Verdict == "ok"


def test_pins_and_voids_keep_clear_of_each_other_in_either_order(document: Any, stack: Any) -> None:
    from freecad_stacklam.docobjects.making.insides import make_pins

    pins = make_pins(stack, PinSettings(8.0, 10.0, 8.0))
    document.recompute()
    hollow = hollowed(stack)
    assert pins.Hollow == hollow
    assert pins.Shape.distToShape(hollow.Shape)[0] >= 8.0
    places = sorted((round(s.CenterOfMass.x, 4), round(s.CenterOfMass.y, 4)) for s in pins.Shape.Solids)
    document.removeObject(pins.Name)
    document.recompute()
    again = make_pins(stack, PinSettings(8.0, 10.0, 8.0))
    document.recompute()
    assert sorted((round(s.CenterOfMass.x, 4), round(s.CenterOfMass.y, 4)) for s in again.Shape.Solids) == places
    # Gone with its wood: the pins are placed anew, and the layers whole.
    document.removeObject(hollow.Name)
    document.recompute()
    assert max(taken(stack)) < 5000
    assert all_well(document)


def test_a_void_keeps_clear_of_a_tenon(document: Any, stack: Any) -> None:
    import FreeCAD

    from freecad_stacklam.docobjects.making.joints import make_joint
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.settings.joint import JointSettings
    from freecad_stacklam.lamination.settings.stack import StackSettings

    hollow = hollowed(stack, margin=12.0)
    before = hollow.WoodSaved.Value
    lid = document.addObject("Part::Box", "Lid")
    lid.Length, lid.Width, lid.Height = 400, 400, 50
    lid.Placement.Base = FreeCAD.Vector(-200, -200, HEIGHT)
    document.recompute()
    top = make_stack(document, lid, StackSettings(stock=(STOCK,), allowance=3.0))
    settings = JointSettings("Drum to lid", (0.0, 0.0, HEIGHT), size=(40.0,), embed=(("Drum", 75.0), ("Lid", 25.0)))
    joint = make_joint(document, [stack, top], settings)
    document.recompute()
    assert all_well(document)
    assert hollow.WoodSaved.Value < before
    assert joint.Shape.distToShape(hollow.Shape)[0] >= 12.0
    joint.Suppressed = True
    document.recompute()
    assert hollow.WoodSaved.Value == pytest.approx(before, rel=1e-9)
    assert joint.Shape.isNull()
    assert taken(top) == pytest.approx([0, 0], abs=0.01)
    assert all_well(document)


def test_follows_its_settings_and_its_form(document: Any, stack: Any) -> None:
    hollow = hollowed(stack)
    before = hollow.WoodSaved.Value
    hollow.Wall = "1.5 in"
    document.recompute()
    ideal = pi * (RADIUS - 38.1) ** 2 * 4 * STOCK
    assert ideal * 0.985 < hollow.WoodSaved.Value < ideal
    hollow.Wall = WALL
    document.Drum.Height = 250
    document.recompute()
    assert len(stack.Layers) == 10
    assert hollow.WoodSaved.Value == pytest.approx(before * 6 / 4, rel=1e-3)
    hollow.Suppressed = True
    document.recompute()
    assert max(taken(stack)) == pytest.approx(0, abs=0.01)
    assert hollow.Verdict == "suppressed"
    assert all_well(document)


def test_one_undo_step_saved_and_opened_again(document: Any, stack: Any, tmp_path: Path) -> None:
    import FreeCAD

    from freecad_stacklam.docobjects.reading.whole import plan_of

    steps = document.UndoCount
    name = hollowed(stack, web=20.0).Name
    assert document.UndoCount == steps + 1
    document.undo()
    document.recompute()
    assert document.getObject(name) is None
    assert max(taken(stack)) == pytest.approx(0, abs=0.01)
    document.redo()
    document.recompute()
    plan, cut = plan_of(document), taken(stack)
    assert len(document.getObject(name).Shape.Solids) == 8, "the web parts each layer's void in two"
    document.saveAs(str(tmp_path / "hollow.FCStd"))
    FreeCAD.closeDocument(document.Name)
    again = FreeCAD.openDocument(str(tmp_path / "hollow.FCStd"))
    try:
        for obj in again.Objects:
            obj.touch()
        again.recompute()
        assert all_well(again)
        assert plan_of(again).stacks == plan.stacks
        assert taken(again.getObject("Stack")) == pytest.approx(cut)
    finally:
        FreeCAD.closeDocument(again.Name)


@pytest.mark.parametrize(
    ("name", "key", "value", "sentence"),
    [
        ("Wall", "wall", 160, "thicker than the body"),
        ("Wall", "wall", 0, "“Wall” of the hollow cannot be 0"),
        ("Caps", "caps", 4, "leave none to hollow"),
        ("SawTurn", "turn", 140, "too narrow for a saw"),
    ],
)
def test_bad_values_are_the_object_s_error_in_one_sentence(
    document: Any, stack: Any, name: str, key: str, value: Any, sentence: str
) -> None:
    from freecad_stacklam.docobjects.making.insides import change_hollow
    from freecad_stacklam.docobjects.reading.insides import settings_of_hollow
    from freecad_stacklam.lamination.refusal import Refusal

    hollow = hollowed(stack)
    good, cut = getattr(hollow, name), taken(stack)
    setattr(hollow, name, value)
    document.recompute()
    assert "Invalid" in hollow.State
    assert sentence in str(hollow.getStatusString())
    assert taken(stack) == pytest.approx(cut), "the layers stay as they were"
    setattr(hollow, name, good)
    document.recompute()
    assert all_well(document)
    with pytest.raises(Refusal, match=sentence):
        change_hollow(hollow, replace(settings_of_hollow(hollow), **{key: value}))
    assert getattr(hollow, name) == good


def test_a_hollow_that_leaves_no_room_for_the_pins_is_refused_before_anything_is_made(
    document: Any, stack: Any
) -> None:
    from freecad_stacklam.docobjects.making.insides import make_pins
    from freecad_stacklam.lamination.refusal import Refusal

    make_pins(stack, PinSettings(margin=13.0))
    document.recompute()
    before = [o.Name for o in document.Objects]
    with pytest.raises(Refusal, match="joints, voids and the kerfs into them leave no"):
        hollowed(stack, wall=35.0)
    document.abortTransaction()
    assert [o.Name for o in document.Objects] == before
    assert all_well(document)


@pytest.mark.parametrize("wanted", [20.0, 50.0, 500.0])
def test_a_panel_begins_with_the_thickest_wall_that_leaves_a_void(document: Any, stack: Any, wanted: float) -> None:
    from freecad_stacklam.docobjects.making.insides import WALL_STEP, try_hollow, wall_that_works
    from freecad_stacklam.lamination.refusal import Refusal

    wall = wall_that_works(stack, wanted)
    assert try_hollow(stack, HollowSettings(wall=wall)).hollow is not None
    if wall < wanted:
        with pytest.raises(Refusal):
            try_hollow(stack, HollowSettings(wall=wall + WALL_STEP["mm"]))


def test_a_form_that_no_wall_hollows_begins_with_the_wall_asked_for(document: Any) -> None:
    from freecad_stacklam import api
    from freecad_stacklam.docobjects.making.insides import wall_that_works

    form = document.addObject("Part::Box", "Board")
    form.Length, form.Width, form.Height = 300, 200, 40
    document.recompute()
    assert wall_that_works(api.slice_form(form, stock=["20 mm"]), 50.0) == 50.0
