# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pins of a stack: drawn where they stand, bored into both layers, clear of the tenon, and following all of them.

The judges: the closed form of a cylinder, and FreeCAD's own booleans and distances between pins, layers and form.
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

DIAMETER, DEPTH, MARGIN = 8.0, 10.0, 8.0
ASKED = {"diameter": DIAMETER, "depth": DEPTH, "margin": MARGIN}
#: What one pin takes out of its lower layer, and out of its upper one, where the hole is 0.4 mm looser, mm³.
BORE, WIDE = pi / 4 * DIAMETER**2 * DEPTH, pi / 4 * (DIAMETER + 0.4) ** 2 * DEPTH


def boxed(document: Any, name: str, at: tuple[float, float, float], sizes: tuple[float, float, float]) -> Any:
    """A stack of 25 mm layers for a block."""
    import FreeCAD

    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    box = document.addObject("Part::Box", name)
    box.Length, box.Width, box.Height = sizes
    box.Placement.Base = FreeCAD.Vector(*at)
    document.recompute()
    made = make_stack(document, box, StackSettings(stock=(25.0,), allowance=3.0))
    document.recompute()
    return made


@pytest.fixture
def stack(document: Any) -> Any:
    """A foot of 160 × 120 × 100 mm: four layers, three glue lines."""
    return boxed(document, "Foot", (-80, -60, 0), (160, 120, 100))


def pinned(stack: Any, **other: Any) -> Any:
    from freecad_stacklam.docobjects.making.insides import make_pins

    document = stack.Document
    document.openTransaction("Pins")
    pins = make_pins(stack, PinSettings(**{**ASKED, **other}))
    document.recompute()
    document.commitTransaction()
    return pins


def taken(stack: Any) -> list[float]:
    return [float(layer.BlankVolume.Value - layer.Shape.Volume) for layer in stack.Layers]


def all_well(document: Any) -> bool:
    return all(o.State == ["Up-to-date"] for o in document.Objects)


def test_pins_stand_in_their_holes(document: Any, stack: Any) -> None:
    pins = pinned(stack)
    assert (pins.PinCount, pins.Verdict in ("ok", "caution")) == (6, True)
    assert pins.Shape.isValid()
    assert pins.Shape.Volume == pytest.approx(6 * (BORE + WIDE), rel=1e-9)
    # The lowest and the highest layer meet one glue line, the others two.
    assert taken(stack) == pytest.approx([2 * BORE, 2 * (BORE + WIDE), 2 * (BORE + WIDE), 2 * WIDE], rel=1e-6)
    layers = [layer.Shape for layer in stack.Layers]
    assert all(shape.isValid() for shape in layers)
    assert pins.Shape.common(layers[0].multiFuse(layers[1:])).Volume == pytest.approx(0, abs=1e-6)
    # All of it lies in the finished form, with the margin around it.
    form = document.Foot.Shape
    assert pins.Shape.common(form).Volume == pytest.approx(pins.Shape.Volume, rel=1e-9)
    measured = pins.Shape.distToShape(form.Shells[0])[0]
    assert measured >= MARGIN
    # A brad point goes 4 mm further than the walls that are drawn.
    assert measured - 4.1 <= pins.LeastCover.Value <= measured + 0.1
    assert len(pins.Misfits) == 3


def test_its_lines_follow_the_units_of_the_commission(document: Any, stack: Any) -> None:
    from freecad_stacklam.docobjects.making.project import make_job
    from freecad_stacklam.lamination.settings.job import Settings

    pins = pinned(stack)
    assert all(" mm, " in line for line in pins.Misfits)
    job = make_job(document, Settings())
    document.recompute()
    job.Units = "in"
    document.recompute()
    assert all(" in, " in line and " mm" not in line for line in pins.Misfits)
    assert not any(" mm" in note for note in pins.Notes)


def test_the_place_of_the_least_cover_is_where_it_says(document: Any, stack: Any) -> None:
    import Part

    pins = pinned(stack)
    place = Part.Vertex(pins.CoverPlace)
    assert place.distToShape(document.Foot.Shape.Shells[0])[0] == pytest.approx(pins.LeastCover.Value, abs=0.1)
    assert place.distToShape(pins.Shape)[0] <= 4.1  # on a hole's wall or its bit's point


def test_pins_keep_clear_of_a_tenon_that_comes_after_them(document: Any, stack: Any) -> None:
    from freecad_stacklam.docobjects.making.joints import make_joint
    from freecad_stacklam.lamination.settings.joint import JointSettings

    top = boxed(document, "Top", (-150, -100, 100), (300, 200, 50))
    pins = pinned(stack, count=4)
    settings = JointSettings(
        "Foot to top", (0.0, 0.0, 100.0), size=(40.0,), embed=(("Foot", 60.0), ("Top", 25.0)), relief=0.0
    )
    joint = make_joint(document, [stack, top], settings)
    document.recompute()
    assert all_well(document)
    assert pins.Joints == [joint]
    assert pins.Shape.distToShape(joint.Shape)[0] >= MARGIN
    # Asked for in the other order, all is the same.
    there = sorted((round(s.CenterOfMass.x, 4), round(s.CenterOfMass.y, 4)) for s in pins.Shape.Solids)
    document.removeObject(pins.Name)
    document.recompute()
    again = pinned(stack, count=4)
    assert sorted((round(s.CenterOfMass.x, 4), round(s.CenterOfMass.y, 4)) for s in again.Shape.Solids) == there


def test_pins_follow_their_settings_and_their_stack(document: Any, stack: Any) -> None:
    pins = pinned(stack)
    pins.Diameter = "1/4 in"
    pins.Skip = [2]
    document.recompute()
    assert pins.PinCount == 4
    bore, wide = pi / 4 * 6.35**2 * DEPTH, pi / 4 * 6.75**2 * DEPTH
    assert taken(stack) == pytest.approx([2 * bore, 2 * wide, 2 * bore, 2 * wide], rel=1e-6)
    pins.Skip = []
    stack.Stock = 20
    document.recompute()
    assert (len(stack.Layers), pins.PinCount) == (5, 8)
    document.Foot.Placement.Base.z = 500
    document.recompute()
    assert pins.Shape.BoundBox.ZMin > 500
    assert all_well(document)


def test_pins_in_waste_wood_stand_outside_the_form(document: Any) -> None:
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    cone = document.addObject("Part::Cone", "Cone")
    cone.Radius1, cone.Radius2, cone.Height = 120, 60, 100
    document.recompute()
    stack = make_stack(document, cone, StackSettings(stock=(25.0,), allowance=25.0))
    pins = pinned(stack, waste=True)
    # Between 15 mm of slope and 25 mm of allowance there is no place for 8 mm and the wood around it.
    assert pins.PinCount == 6
    assert "no room in the waste" in pins.Notes[-1]
    stack.Allowance = 30
    document.recompute()
    outside = [s for s in pins.Shape.Solids if s.common(cone.Shape).Volume < 1e-6]
    assert len(outside) == 6
    assert pins.PinCount == 12
    assert pins.LeastCover.Value >= MARGIN


def test_suppressed_pins_leave_the_wood_whole(document: Any, stack: Any) -> None:
    from freecad_stacklam.docobjects.reading.whole import plan_of, settings_of

    pins = pinned(stack)
    pins.Suppressed = True
    document.recompute()
    assert taken(stack) == pytest.approx([0] * 4, abs=0.01)
    assert pins.Verdict == "suppressed"
    assert pins.Shape.isNull()
    assert settings_of(document).stacks[0].pins is None
    assert not plan_of(document).stacks[0].pins
    pins.Suppressed = False
    document.recompute()
    assert taken(stack)[0] == pytest.approx(2 * BORE, rel=1e-6)
    assert all_well(document)


def test_a_copy_is_idle_until_it_is_given_a_stack_of_its_own(document: Any, stack: Any) -> None:
    other = boxed(document, "Other", (300, 0, 0), (160, 120, 75))
    pins = pinned(stack)
    copy = document.copyObject(pins, False)
    document.recompute()
    assert copy.Verdict == "idle"
    assert pins.Label in copy.Notes[0]
    assert taken(stack)[0] == pytest.approx(2 * BORE, rel=1e-6)
    copy.Stack = other
    document.recompute()
    assert (copy.PinCount, copy.Verdict in ("ok", "caution")) == (4, True)
    assert taken(other) == pytest.approx([2 * BORE, 2 * (BORE + WIDE), 2 * WIDE], rel=1e-6)
    # Moved to the other stack's place, the first takes over what the copy did.
    document.removeObject(copy.Name)
    pins.Stack = other
    document.recompute()
    assert taken(other) == pytest.approx([2 * BORE, 2 * (BORE + WIDE), 2 * WIDE], rel=1e-6)
    assert taken(stack) == pytest.approx([0] * 4, abs=0.01)
    assert all_well(document)


def test_a_second_one_takes_over_when_the_first_goes(document: Any, stack: Any) -> None:
    pins = pinned(stack)
    copy = document.copyObject(pins, False)
    copy.Diameter = 6
    document.recompute()
    document.removeObject(pins.Name)
    document.recompute()
    assert copy.Verdict in ("ok", "caution")
    assert taken(stack)[0] == pytest.approx(2 * pi / 4 * 36 * DEPTH, rel=1e-6)


def test_pins_are_one_undo_step(document: Any, stack: Any) -> None:
    steps = document.UndoCount
    name = pinned(stack).Name
    assert document.UndoCount == steps + 1
    document.undo()
    document.recompute()
    assert document.getObject(name) is None
    assert taken(stack) == pytest.approx([0] * 4, abs=0.01)
    document.redo()
    document.recompute()
    assert taken(stack)[1] == pytest.approx(2 * (BORE + WIDE), rel=1e-6)
    document.openTransaction("Delete")
    document.removeObject(name)
    document.recompute()
    document.commitTransaction()
    assert taken(stack) == pytest.approx([0] * 4, abs=0.01)
    document.undo()
    document.recompute()
    assert taken(stack)[1] == pytest.approx(2 * (BORE + WIDE), rel=1e-6)
    assert all_well(document)


def test_pins_of_what_is_no_stack_say_so_and_do_nothing(document: Any, stack: Any) -> None:
    pins = pinned(stack)
    pins.Stack = document.Foot
    document.recompute()
    assert (pins.Verdict, list(pins.Notes)) == (
        "idle", ["“Foot” is no stack: choose the one that “Foot pins” is made for, or delete it."]
    )  # fmt: skip
    pins.Stack = stack
    document.recompute()
    assert taken(stack)[0] == pytest.approx(2 * BORE, rel=1e-6)
    assert all_well(document)


def test_pins_go_with_their_stack_and_come_back_with_it(document: Any, stack: Any) -> None:
    name = pinned(stack).Name
    document.openTransaction("Delete")
    document.removeObject(stack.Name)
    document.recompute()
    document.commitTransaction()
    assert [o.Name for o in document.Objects] == ["Foot"]
    document.undo()
    document.recompute()
    assert document.getObject(name) is not None
    assert taken(document.getObject("Stack"))[0] == pytest.approx(2 * BORE, rel=1e-6)
    assert all_well(document)


def test_saved_and_opened_again(document: Any, stack: Any, tmp_path: Path) -> None:
    import FreeCAD

    from freecad_stacklam.docobjects.reading.whole import plan_of

    pins = pinned(stack, skip=(1,))
    plan = plan_of(document)
    volume, names = pins.Shape.Volume, [o.Name for o in document.Objects]
    document.saveAs(str(tmp_path / "pins.FCStd"))
    FreeCAD.closeDocument(document.Name)
    again = FreeCAD.openDocument(str(tmp_path / "pins.FCStd"))
    try:
        assert [o.Name for o in again.Objects] == names
        for obj in again.Objects:
            obj.touch()
        again.recompute()
        assert all_well(again)
        assert again.getObject("Pins").Shape.Volume == pytest.approx(volume, rel=1e-9)
        assert plan_of(again).stacks == plan.stacks
        assert [o.Name for o in again.Objects] == names
    finally:
        FreeCAD.closeDocument(again.Name)


@pytest.mark.parametrize(
    ("name", "value", "sentence"),
    [
        ("Diameter", 0, "“Diameter” of the pins cannot be 0"),
        ("Depth", 80, "comes through layer"),
        ("Margin", 70, "make the pins or their margin smaller"),
        ("Count", 1, "do not hold it"),
    ],
)
def test_bad_values_are_the_object_s_error_in_one_sentence(
    document: Any, stack: Any, name: str, value: Any, sentence: str
) -> None:
    from freecad_stacklam.docobjects.making.insides import change_pins
    from freecad_stacklam.docobjects.reading.insides import settings_of_pins
    from freecad_stacklam.lamination.refusal import Refusal

    pins = pinned(stack)
    good = getattr(pins, name)
    setattr(pins, name, value)
    document.recompute()
    assert "Invalid" in pins.State
    assert sentence in str(pins.getStatusString())
    assert taken(stack)[0] == pytest.approx(2 * BORE, rel=1e-6), "the layers stay as they were"
    setattr(pins, name, good)
    document.recompute()
    assert all_well(document)
    with pytest.raises(Refusal, match=sentence):
        change_pins(pins, replace(settings_of_pins(pins), **{name.lower(): value}))
    assert getattr(pins, name) == good


def test_what_cannot_be_makes_nothing(document: Any, stack: Any) -> None:
    from freecad_stacklam.lamination.refusal import Refusal

    before = [o.Name for o in document.Objects]
    for wrong in ({"margin": 90.0}, {"waste": "red"}, {"count": 99}):
        with pytest.raises(Refusal):
            pinned(stack, **wrong)
        document.abortTransaction()
    assert [o.Name for o in document.Objects] == before
    pinned(stack)
    with pytest.raises(Refusal, match="pinned already"):
        pinned(stack)


def test_command_line_and_document_agree(document: Any) -> None:
    """The settings of a file make the objects; what the document plans is what the same forms give without it."""
    from jobs import plan_job

    from freecad_stacklam.data import species_table
    from freecad_stacklam.docobjects.base.family import stacks_in
    from freecad_stacklam.docobjects.making.project import fill_document
    from freecad_stacklam.docobjects.reading.stacks import form_of_stack
    from freecad_stacklam.docobjects.reading.whole import plan_of, settings_of
    from freecad_stacklam.lamination.plan.outline import area
    from freecad_stacklam.lamination.settings.job import Settings
    from freecad_stacklam.lamination.settings.stack import StackSettings

    box = document.addObject("Part::Box", "Block")
    box.Length, box.Width, box.Height = 220, 200, 150
    document.recompute()
    settings = Settings(
        stacks=(
            StackSettings(
                form="Block", stock=(25.0,), hollow=HollowSettings(40.0, 1), pins=PinSettings(8.0, skip=(3,))
            ),
        )
    )
    fill_document(document, [box], settings)
    plan = plan_of(document)
    forms = [form_of_stack(stack) for stack in stacks_in(document)]
    assert plan.stacks == plan_job(forms, settings, species_table()).stacks
    assert plan.stacks[0].pins
    assert plan.stacks[0].hollow is not None
    kept = settings_of(document)
    assert kept.stacks[0].pins == PinSettings(8.0, skip=(3,))
    assert plan_job(forms, kept, species_table()).stacks == plan.stacks
    # What is seen is what is planned: no cut meets another here, so their volumes add up.
    (stack,) = stacks_in(document)
    for drawn, layer in zip(stack.Layers, plan.stacks[0].layers):
        cuts = sum(area(cut.outline) * (cut.end - cut.start) for cut in layer.cuts)
        assert drawn.Shape.isValid()
        assert drawn.Shape.Volume == pytest.approx(layer.blank_volume - cuts, rel=1e-8)


def test_a_pin_that_the_maker_moves_stays_and_is_judged(document: Any, stack: Any) -> None:
    pins = pinned(stack)
    pins.At = ["1; 130 mm; 80 mm", "1; 1.15in; 44.5mm"]
    document.recompute()
    assert all_well(document)
    low = [s for s in pins.Shape.Solids if s.BoundBox.ZMin == pytest.approx(15.0, abs=1e-6)]
    places = sorted((round(s.CenterOfMass.x, 3), round(s.CenterOfMass.y, 3)) for s in low)
    assert places == [(-50.79, -15.5), (50.0, 20.0)]  # the axis cross is the block's corner, (-80, -60)
    assert taken(stack)[0] == pytest.approx(2 * BORE, rel=1e-6)
    pins.At = ["1; 130 mm; 80 mm", "1; 138 mm; 80 mm"]
    document.recompute()
    assert "Invalid" in pins.State, "two holes that run into each other are refused, not moved apart"
    pins.At = ["1, 130, 80"]
    document.recompute()
    assert "Invalid" in pins.State
    pins.At = []
    document.recompute()
    assert all_well(document)


def test_pins_set_by_hand_come_from_the_file_and_go_back_to_it(document: Any, stack: Any) -> None:
    from freecad_stacklam.docobjects.reading.insides import settings_of_pins

    at = ((1.0, 130.0, 80.0), (1.0, 29.2, 44.5))
    pins = pinned(stack, at=at)
    assert list(pins.At) == ["1; 130 mm; 80 mm", "1; 29.2 mm; 44.5 mm"]
    assert settings_of_pins(pins).at == at


def test_pins_follow_the_bits_of_the_shop(stack: Any) -> None:
    from freecad_stacklam.docobjects.making.boards import make_shop
    from freecad_stacklam.lamination.settings.shop import Bit, ShopSettings

    pins = pinned(stack)
    document = stack.Document
    first = (pins.PinCount, pins.LeastCover.Value)
    assert first[0] and "Invalid" not in pins.State
    # 10 mm of depth and a point of 20 mm go through a layer of 25 mm and out of the foot.
    make_shop(document, ShopSettings(bits=(Bit(DIAMETER, "brad point", point=20.0),)))
    document.recompute()
    assert "Invalid" in pins.State or pins.LeastCover.Value < first[1]
    make_shop(document, ShopSettings())
    document.recompute()
    assert (pins.PinCount, pins.LeastCover.Value) == first and "Invalid" not in pins.State
