# SPDX-License-Identifier: LGPL-2.1-or-later

"""A stack of every kind of form that FreeCAD has gives the same layers.

The judges: closed forms for cylinders and balls (geometry, derived beside each check), and FreeCAD's own booleans.
"""

from __future__ import annotations

from collections.abc import Callable
from math import pi
from typing import Any

import pytest

pytestmark = pytest.mark.freecad

RADIUS, HEIGHT, STOCK, ALLOWANCE = 60.0, 100.0, 25.0, 3.0
#: Guard beyond the allowance and the most that the fitted outline stands outside: 0.2 mm and about 2 × 0.1 mm; the
#: mesh of a round form may lie up to its deflection inside it.
ROOM = (-0.1, 0.5)


def part(document: Any) -> Any:
    form = document.addObject("Part::Cylinder", "Drum")
    form.Radius, form.Height = RADIUS, HEIGHT
    document.recompute()
    return form


def body(document: Any) -> Any:
    from freecad_stacklam.docobjects.forms.formfile import find_partdesign

    find_partdesign()
    form = document.addObject("PartDesign::Body", "Drum")
    drum = document.addObject("PartDesign::AdditiveCylinder", "Cylinder")
    form.addObject(drum)
    drum.Radius, drum.Height = RADIUS, HEIGHT
    document.recompute()
    return form


def compound(document: Any) -> Any:
    import Part

    form = document.addObject("Part::Feature", "Drum")
    form.Shape = Part.Compound([Part.makeCylinder(RADIUS, HEIGHT)])
    return form


def link(document: Any) -> Any:
    form = document.addObject("App::Link", "Drum")
    form.LinkedObject = part(document)
    document.recompute()
    return form


def mesh(document: Any) -> Any:
    import Mesh
    import Part

    form = document.addObject("Mesh::Feature", "Drum")
    form.Mesh = Mesh.Mesh(Part.makeCylinder(RADIUS, HEIGHT).tessellate(0.05))
    return form


def inside_a_part(document: Any) -> Any:
    holder = document.addObject("App::Part", "Assembly")
    form = part(document)
    holder.addObject(form)
    document.recompute()
    return form


@pytest.mark.parametrize("make", [part, body, compound, link, mesh, inside_a_part])
def test_every_kind_of_form_becomes_four_round_layers(document: Any, make: Callable[[Any], Any]) -> None:
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    form = make(document)
    stack = make_stack(document, form, StackSettings(stock=(STOCK,), allowance=ALLOWANCE))
    document.recompute()
    assert (stack.LayerCount, stack.Verdict, stack.isValid()) == (4, "ok", True)
    assert stack.LeastCover.Value >= ALLOWANCE
    assert [layer.Number for layer in stack.Layers] == [1, 2, 3, 4]
    # A cylinder's blank is a circle: its radius from its area (A = πr²).
    for layer in stack.Layers:
        assert layer.Shape.isValid()
        assert layer.Shape.ShapeType == "Solid"
        radius = (layer.Shape.Volume / STOCK / pi) ** 0.5
        assert RADIUS + ALLOWANCE + ROOM[0] < radius < RADIUS + ALLOWANCE + ROOM[1]
        assert layer.Shape.CenterOfMass.z == pytest.approx((layer.Number - 0.5) * STOCK, abs=1e-6)
        assert layer.Shape.Volume == pytest.approx(layer.BlankVolume.Value, rel=1e-9)
    assert "Invalid" not in str([o.State for o in document.Objects])
    assert document.UndoCount == 0


@pytest.mark.parametrize("make", [part, link, mesh])
def test_layers_lie_where_the_form_lies_and_move_with_it(document: Any, make: Callable[[Any], Any]) -> None:
    import FreeCAD

    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    form = make(document)
    stack = make_stack(document, form, StackSettings(stock=(STOCK,), allowance=ALLOWANCE))
    form.Placement = FreeCAD.Placement(FreeCAD.Vector(500, -40, 7), FreeCAD.Rotation())
    document.recompute()
    centre = stack.Layers[0].Shape.CenterOfMass
    assert (centre.x, centre.y, centre.z) == pytest.approx((500, -40, 7 + STOCK / 2), abs=0.05)


def test_layers_move_with_the_part_that_holds_the_form(document: Any) -> None:
    import FreeCAD

    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    form = inside_a_part(document)
    stack = make_stack(document, form, StackSettings(stock=(STOCK,), allowance=ALLOWANCE))
    document.Assembly.Placement.Base = FreeCAD.Vector(0, 300, 0)
    document.recompute()
    assert stack.Layers[3].Shape.CenterOfMass.y == pytest.approx(300, abs=0.05)


def test_lying_stack_follows_its_axis(document: Any) -> None:
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    form = part(document)
    stack = make_stack(document, form, StackSettings(stock=(30.0,), allowance=0.0, axis=(1, 0, 0)))
    # The drum lies from x = −60 to 60: four layers of 30 mm along x.
    assert stack.LayerCount == 4
    centres = [layer.Shape.CenterOfMass.x for layer in stack.Layers]
    assert centres == pytest.approx([-45, -15, 15, 45], abs=0.1)
    union = stack.Layers[0].Shape.multiFuse([layer.Shape for layer in stack.Layers[1:]])
    assert form.Shape.cut(union).Volume == pytest.approx(0, abs=0.01)


def test_ball_blanks_have_the_radii_of_the_widest_section(document: Any) -> None:
    # Ball of radius 150 in 25 mm layers: a blank's radius is that of the ball's widest section in the layer,
    # √(150² − z²) at the layer's face nearer to the middle (closed form).
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    form = document.addObject("Part::Sphere", "Ball")
    form.Radius = 150
    document.recompute()
    stack = make_stack(document, form, StackSettings(stock=(25.0,), allowance=0.0))
    assert stack.LayerCount == 12
    exact = [(150.0**2 - (25.0 * k) ** 2) ** 0.5 for k in (5, 4, 3, 2, 1, 0, 0, 1, 2, 3, 4, 5)]
    for layer, radius in zip(stack.Layers, exact):
        found = (layer.Shape.Volume / 25.0 / pi) ** 0.5
        assert radius + ROOM[0] < found < radius + ROOM[1], layer.Number
    union = stack.Layers[0].Shape.multiFuse([layer.Shape for layer in stack.Layers[1:]])
    assert form.Shape.cut(union).Volume == pytest.approx(0, abs=0.01)


def test_rings_and_islands_are_drawn_as_rings_and_islands(document: Any) -> None:
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    ring = document.addObject("Part::Torus", "Ring")
    ring.Radius1, ring.Radius2 = 80, 20
    document.recompute()
    stack = make_stack(document, ring, StackSettings(stock=(20.0,), allowance=0.0))
    # Both layers hold the ring's widest section, between the circles of 60 and 100 mm (closed form).
    for layer in stack.Layers:
        assert (len(layer.Shape.Solids), layer.Shape.isValid()) == (1, True)
        outer, inner = 100.0, 60.0
        least = pi * ((outer + ROOM[0]) ** 2 - (inner - ROOM[0]) ** 2) * 20
        most = pi * ((outer + ROOM[1]) ** 2 - (inner - ROOM[1]) ** 2) * 20
        assert least < layer.Shape.Volume < most
    filled = make_stack(document, ring, StackSettings(stock=(20.0,), allowance=0.0, fill_holes=True))
    assert filled.Layers[0].Shape.Volume > pi * 100.0**2 * 20 * 0.998

    arch = document.addObject("Part::Feature", "Arch")
    import FreeCAD
    import Part

    arch.Shape = Part.makeBox(200, 60, 90).cut(Part.makeBox(100, 60, 60, FreeCAD.Vector(50, 0, 0)))
    stack = make_stack(document, arch, StackSettings(stock=(30.0,), allowance=0.0))
    assert [len(layer.Shape.Solids) for layer in stack.Layers] == [2, 2, 1]
    assert all(layer.Shape.isValid() for layer in stack.Layers)
    # Two legs of 50 × 60 mm, and the guard of 0.2 mm round them; the fit stays within 0.25 mm more.
    for layer in stack.Layers[:2]:
        assert 2 * 50.4 * 60.4 - 0.1 < layer.Shape.Volume / 30 < 2 * 50.9 * 60.9


def test_one_solid_of_several_is_chosen_by_its_label(document: Any) -> None:
    import FreeCAD
    import Part

    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.refusal import Refusal
    from freecad_stacklam.lamination.settings.stack import StackSettings

    form = document.addObject("Part::Feature", "Pair")
    one, other = Part.makeBox(50, 50, 50), Part.makeBox(80, 80, 100, FreeCAD.Vector(200, 0, 0))
    form.Shape = Part.Compound([one, other])
    with pytest.raises(Refusal, match="holds 2 solids"):
        make_stack(document, form, StackSettings(stock=(25.0,)))
    assert [o.Name for o in document.Objects] == ["Pair"]
    stack = make_stack(document, form, StackSettings(form="Pair 2", stock=(25.0,)))
    assert (stack.LayerCount, stack.Piece) == (4, "Pair 2")
    document.recompute()
    assert stack.isValid()
