# SPDX-License-Identifier: LGPL-2.1-or-later

"""A stack follows its form and its settings: recompute, undo, redo, save, reopen, and what it says to bad input."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.freecad


@pytest.fixture
def cone(document: Any) -> Any:
    form = document.addObject("Part::Cone", "Cone")
    form.Radius1, form.Radius2, form.Height = 80, 0, 100
    document.recompute()
    return form


def sliced(form: Any, stock: float = 25.0, allowance: float = 2.0) -> Any:
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    document = form.Document
    document.openTransaction("Slice")
    stack = make_stack(document, form, StackSettings(stock=(stock,), allowance=allowance))
    document.recompute()
    document.commitTransaction()
    return stack


def layers_in(document: Any) -> list[Any]:
    return [o for o in document.Objects if type(getattr(o, "Proxy", None)).__name__ == "Layer"]


def told(obj: Any) -> str:
    """What the tree shows as the object's error."""
    assert "Invalid" in obj.State
    return str(obj.getStatusString())


def all_well(document: Any) -> bool:
    return all(o.State == ["Up-to-date"] for o in document.Objects)


# --- changes --------------------------------------------------------------------------------------------------------


def test_more_and_fewer_layers_when_the_form_grows_and_shrinks(document: Any, cone: Any) -> None:
    stack = sliced(cone)
    assert len(layers_in(document)) == stack.LayerCount == 4
    first = stack.Layers[0].Shape.Volume
    cone.Height, cone.Radius1 = 190, 90
    document.recompute()
    assert stack.LayerCount == len(stack.Layers) == len(layers_in(document)) == 8
    assert stack.Layers[0].Shape.Volume > first
    assert [layer.Number for layer in stack.Layers] == list(range(1, 9))
    assert all_well(document)
    cone.Height = 50
    document.recompute()
    assert stack.LayerCount == len(stack.Layers) == len(layers_in(document)) == 2
    assert all_well(document)


def test_recompute_twice_changes_nothing(document: Any, cone: Any) -> None:
    stack = sliced(cone)
    before = [(o.Name, o.Label) for o in document.Objects], [layer.Shape.Volume for layer in stack.Layers]
    stack.touch()
    document.recompute(None, True)
    document.recompute(None, True)
    after = [(o.Name, o.Label) for o in document.Objects], [layer.Shape.Volume for layer in stack.Layers]
    assert after == before
    assert all_well(document)


def test_planed_thicknesses_with_units_win_over_the_stock(document: Any, cone: Any) -> None:
    stack = sliced(cone)
    stack.PlanedThicknesses = ["1 in", "24.1mm"]
    document.recompute()
    # An inch is 25.4 mm exactly (international yard and pound agreement, 1959).
    heights = [layer.Top.Value for layer in stack.Layers]
    assert heights == pytest.approx([25.4, 49.5, 74.5, 99.5, 124.5])


def test_new_allowance_needs_no_new_mesh(document: Any, cone: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    from freecad_stacklam.docobjects.forms import plancache

    stack = sliced(cone)
    calls: list[Any] = []
    made = plancache.mesh_and_points
    monkeypatch.setattr(plancache, "mesh_and_points", lambda *given: calls.append(given) or made(*given))
    before = stack.WoodVolume.Value
    stack.Allowance = 5
    document.recompute()
    assert stack.WoodVolume.Value > before
    assert calls == []
    cone.Height = 101
    document.recompute()
    assert len(calls) == 1


def test_changed_through_the_panel_s_function(document: Any, cone: Any) -> None:
    from dataclasses import replace

    from freecad_stacklam.docobjects.making.stacks import change_stack
    from freecad_stacklam.docobjects.reading.stacks import settings_of_stack
    from freecad_stacklam.lamination.refusal import Refusal

    stack = sliced(cone)
    settings = settings_of_stack(stack)
    assert (settings.stock, settings.allowance, settings.axis) == ((25.0,), 2.0, (0.0, 0.0, 1.0))
    change_stack(stack, replace(settings, stock=(20.0,), species="cherry", grain=30.0, copies=2))
    assert (stack.LayerCount, len(stack.Layers), stack.Layers[4].Species) == (5, 5, "cherry")
    assert stack.Layers[0].Grain.Value == pytest.approx(30)
    with pytest.raises(Refusal, match="thicker"):
        change_stack(stack, replace(settings, stock=(400.0,)))
    assert stack.Stock.Value == 20.0
    assert all_well(document)


def test_a_deleted_layer_comes_back_and_a_deleted_stack_takes_its_layers(document: Any, cone: Any) -> None:
    stack = sliced(cone)
    document.removeObject(stack.Layers[2].Name)
    stack.touch()
    document.recompute()
    assert [layer.Number for layer in stack.Layers] == [1, 2, 3, 4]
    document.openTransaction("Delete")
    document.removeObject(stack.Name)
    document.recompute()
    document.commitTransaction()
    assert [o.Name for o in document.Objects] == ["Cone"]
    document.undo()
    assert len(layers_in(document)) == 4
    document.recompute()
    assert all_well(document)
    assert len(layers_in(document)) == 4


# --- undo and redo --------------------------------------------------------------------------------------------------


def test_slicing_is_one_undo_step(document: Any, cone: Any) -> None:
    stack = sliced(cone)
    name = stack.Name
    assert document.UndoNames[0] == "Slice"
    steps = document.UndoCount
    document.undo()
    assert [o.Name for o in document.Objects] == ["Cone"]
    document.recompute()
    assert [o.Name for o in document.Objects] == ["Cone"]
    document.redo()
    stack = document.getObject(name)
    assert [layer.Number for layer in stack.Layers] == [1, 2, 3, 4]
    document.recompute()
    assert [layer.Shape.isValid() for layer in stack.Layers] == [True] * 4
    assert len(layers_in(document)) == 4
    assert document.UndoCount == steps


def test_a_change_of_layer_count_is_one_undo_step(document: Any, cone: Any) -> None:
    stack = sliced(cone)
    volumes = [layer.Shape.Volume for layer in stack.Layers]
    steps = document.UndoCount
    for stock, count in ((10.0, 10), (50.0, 2)):
        document.openTransaction("Other boards")
        stack.Stock = stock
        document.recompute()
        document.commitTransaction()
        assert stack.LayerCount == len(layers_in(document)) == count
        assert document.UndoCount == steps + 1
        document.undo()
        assert (stack.Stock.Value, stack.LayerCount, len(stack.Layers), len(layers_in(document))) == (25.0, 4, 4, 4)
        assert [layer.Shape.Volume for layer in stack.Layers] == pytest.approx(volumes)
        document.recompute()
        assert len(layers_in(document)) == 4
        document.redo()
        assert (stack.Stock.Value, stack.LayerCount, len(layers_in(document))) == (stock, count, count)
        assert [layer.Number for layer in stack.Layers] == list(range(1, count + 1))
        document.undo()
        document.recompute()
        assert all_well(document)


def test_an_aborted_step_leaves_nothing(document: Any, cone: Any) -> None:
    stack = sliced(cone)
    document.openTransaction("Never mind")
    stack.Stock = 10
    document.recompute()
    document.abortTransaction()
    assert (stack.Stock.Value, len(layers_in(document)), len(stack.Layers)) == (25.0, 4, 4)
    document.recompute()
    assert all_well(document)


# --- files ----------------------------------------------------------------------------------------------------------


def test_saved_and_opened_again_gives_the_same_plan(document: Any, cone: Any, tmp_path: Path) -> None:
    import FreeCAD

    from freecad_stacklam.docobjects.forms import plancache
    from freecad_stacklam.docobjects.reading.stacks import planned_stack

    stack = sliced(cone)
    plan, _ = planned_stack(stack)
    volumes = [layer.Shape.Volume for layer in stack.Layers]
    path = tmp_path / "cone.FCStd"
    document.saveAs(str(path))
    FreeCAD.closeDocument(document.Name)
    plancache.clear()
    copy = FreeCAD.openDocument(str(path))
    try:
        again = copy.Stack
        assert type(again.Proxy).__module__ == "freecad_stacklam.docobjects.stack"
        assert all_well(copy)
        assert [layer.Shape.Volume for layer in again.Layers] == pytest.approx(volumes)
        again.touch()
        copy.recompute()
        assert all_well(copy)
        assert planned_stack(again)[0] == plan
        assert [layer.Shape.Volume for layer in again.Layers] == pytest.approx(volumes)
        again.Stock = 20
        copy.recompute()
        assert len(layers_in(copy)) == again.LayerCount == 5
        assert again.getEditorMode("LayerCount") == ["ReadOnly"]
        assert again.Proxy.__dict__ == {}
    finally:
        FreeCAD.closeDocument(copy.Name)


# --- bad input ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "value", "sentence"),
    [
        ("Stock", 0, "“Stock thickness” of the stack cannot be"),
        ("Stock", 200, "thicker"),
        ("Stock", 0.05, "more than 400"),
        ("Axis", (0, 0, 0), "has no length"),
        ("Copies", 0, "“Copies” of the stack cannot be 0: give 1 to 999"),
        ("PlanedThicknesses", ["a plank"], "is not a length"),
        ("PlanedThicknesses", ["-3 mm"], "“As planed, from layer 1” of the stack cannot be"),
    ],
)
def test_bad_values_are_the_object_s_error_in_one_sentence(
    document: Any, cone: Any, name: str, value: Any, sentence: str
) -> None:
    import FreeCAD

    stack = sliced(cone)
    good = getattr(stack, name)
    setattr(stack, name, FreeCAD.Vector(*value) if name == "Axis" else value)
    document.recompute()
    assert sentence in told(stack)
    assert len(layers_in(document)) == 4, "the layers stay as they were"
    setattr(stack, name, good)
    document.recompute()
    assert all_well(document)


def test_a_form_that_is_gone_or_empty_is_said(document: Any, cone: Any) -> None:
    stack = sliced(cone)
    empty = document.addObject("Part::Feature", "Nothing")
    stack.Form = empty
    document.recompute()
    assert "holds no solid" in told(stack)
    document.removeObject("Nothing")
    document.recompute()
    assert "is gone" in told(stack)
    stack.Form = cone
    document.recompute()
    assert all_well(document)


def test_an_open_mesh_makes_no_stack(document: Any) -> None:
    import Mesh
    import Part

    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.refusal import Refusal
    from freecad_stacklam.lamination.settings.stack import StackSettings

    points, corners = Part.makeBox(60, 60, 60).tessellate(1)
    form = document.addObject("Mesh::Feature", "Open")
    form.Mesh = Mesh.Mesh((points, corners[:-1]))
    with pytest.raises(Refusal, match="mesh"):
        make_stack(document, form, StackSettings(stock=(20.0,)))
    assert [o.Name for o in document.Objects] == ["Open"]


def test_objects_of_a_newer_release_are_left_alone(document: Any, cone: Any) -> None:
    stack = sliced(cone)
    stack.SchemaVersion = 1000
    stack.touch()
    document.recompute()
    assert "newer StackLam" in told(stack)
    assert len(layers_in(document)) == 4


def test_views_know_the_workbench_s_own_kinds(document: Any, cone: Any) -> None:
    from freecad_stacklam import objectkinds

    stack = sliced(cone)
    assert [objectkinds.kind_of(o) for o in (stack, stack.Layers[0], cone)] == ["stack", "layer", ""]
    with pytest.raises(ValueError, match="chair"):
        objectkinds.register("chair", lambda view: None)


def test_little_wood_over_a_slope_is_told_with_its_place_and_square_allowance_mends_it(document: Any) -> None:
    form = document.addObject("Part::Cone", "Hat")
    form.Radius1, form.Radius2, form.Height = 200, 0, 50
    form.Placement.Base.x = 500
    document.recompute()
    stack = sliced(form, allowance=3.0)
    # A slope of 50 in 200 leaves 3.2·sin 14.04° = 0.776 mm under a step; the mesh and the fit add a little.
    assert stack.WoodLeft.Value == pytest.approx(0.776, abs=0.08)
    assert stack.CoverVerdict == "caution"
    place = stack.CoverPlace
    assert ((place.x - 500) ** 2 + place.y**2) ** 0.5 == pytest.approx(200 * (1 - place.z / 50), abs=0.5)
    wood = stack.WoodVolume.Value
    stack.AllowanceSquare = True
    document.recompute()
    assert stack.WoodLeft.Value >= 3.0 and stack.CoverVerdict == "ok" and stack.WoodVolume.Value > wood
    assert all_well(document)


def test_an_expression_that_gives_nothing_any_more_is_a_stop_and_not_the_last_value(document: Any, cone: Any) -> None:
    from freecad_stacklam import api

    driver = document.addObject("Part::Cylinder", "Driver")
    driver.Height = 20
    stack = sliced(cone)
    stack.setExpression("Stock", "Driver.Height")
    document.recompute()
    assert (stack.Stock.Value, stack.LayerCount) == (20.0, 5)
    document.removeObject("Driver")
    document.recompute()
    with pytest.raises(api.Refusal, match=r"The expression “Driver.Height” of “.*” gives nothing any more"):
        api.checks(document)
    stack.setExpression("Stock", None)
    document.recompute()
    assert {check.verdict for check in api.checks(document)} <= {"ok", "caution"}
