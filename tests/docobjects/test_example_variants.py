# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bundled example made another way: a wedged through tenon, pins in every layer, a hollow pedestal.

The judges: FreeCAD's own booleans and distances between forms, layers, pins, voids and tenon.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.freecad


@pytest.fixture(scope="module")
def stand() -> Iterator[Any]:
    import FreeCAD

    from freecad_stacklam.data import example_form, wedged_settings
    from freecad_stacklam.docobjects.forms.formfile import forms_in
    from freecad_stacklam.docobjects.making.project import fill_document
    from freecad_stacklam.lamination.settings.file import read_settings

    document = FreeCAD.newDocument("Wedged")
    path = wedged_settings()
    settings = read_settings(path.read_text(encoding="utf-8"), path.name)
    fill_document(document, forms_in(example_form(), document), settings)
    yield document
    FreeCAD.closeDocument(document.Name)


def of_kind(document: Any, kind: str) -> list[Any]:
    from freecad_stacklam.objectkinds import kind_of

    return [o for o in document.Objects if kind_of(o) == kind]


def taken(layer: Any) -> float:
    return float(layer.BlankVolume.Value - layer.Shape.Volume)


def test_it_is_proven_and_nothing_says_stop(stand: Any) -> None:
    from freecad_stacklam.docobjects.reading.whole import plan_of

    plan = plan_of(stand)
    assert plan.proven
    assert {c.verdict for c in plan.checks} <= {"ok", "caution"}
    assert all(o.State == ["Up-to-date"] for o in stand.Objects)
    assert [o.Label for o in of_kind(stand, "pins")] == ["Pedestal pins", "Top pins"]
    assert [o.Label for o in of_kind(stand, "hollow")] == ["Pedestal hollow"]
    # Two pins at a glue line; five in the waist of the pedestal share a pattern of three.
    assert [o.PinCount for o in of_kind(stand, "pins")] == [4 * 2 + 5 * 3, 2]
    assert {o.Verdict for kind in ("pins", "joint") for o in of_kind(stand, kind)} == {"ok"}
    # Two voids of 0.17 litres each: all is well with them, but that they save so little.
    (hollow,) = of_kind(stand, "hollow")
    cautions = [c for c in plan.checks if c.verdict != "ok" and c.says in hollow.Notes]
    assert [c.name for c in cautions] == ["Pedestal: what hollowing saves"]


def test_layers_are_whole_solids_less_what_is_cut_into_them(stand: Any) -> None:
    layers = of_kind(stand, "layer")
    (joint,), (hollow,) = of_kind(stand, "joint"), of_kind(stand, "hollow")
    inside = [joint.Shape, hollow.Shape, *(o.Shape for o in of_kind(stand, "pins"))]
    for layer in layers:
        assert layer.Shape.isValid(), layer.Label
        assert len(layer.Shape.Solids) == 1, layer.Label
        # Nothing that lies inside meets the wood of a layer.
        for shape in inside:
            assert shape.common(layer.Shape).Volume == pytest.approx(0, abs=1e-3), layer.Label
    for pins in of_kind(stand, "pins"):
        inner = pins.Shape.common(pins.Stack.Form.Shape).Volume
        assert inner == pytest.approx(pins.Shape.Volume, rel=1e-9), "every pin lies in the finished form"


def test_pins_voids_and_tenon_keep_their_distances(stand: Any) -> None:
    (joint,), (hollow,) = of_kind(stand, "joint"), of_kind(stand, "hollow")
    for pins in of_kind(stand, "pins"):
        form = pins.Stack.Form.Shape
        cover = pins.Shape.distToShape(form.Shells[0])[0]
        # The form's mesh is within 0.2 mm of it.
        assert cover >= pins.Margin.Value
        assert cover - 0.3 * 8.4 - 0.25 <= pins.LeastCover.Value <= cover + 0.25  # to the point of a twist bit, 0.3 Ø
        assert pins.Shape.distToShape(joint.Shape)[0] >= pins.Margin.Value
    assert of_kind(stand, "pins")[0].Shape.distToShape(hollow.Shape)[0] >= 10.0
    assert hollow.Shape.distToShape(joint.Shape)[0] >= 12.0
    vented = sorted(hollow.Shape.Solids, key=lambda s: s.BoundBox.ZMin)
    voids = [s for s in vented if s.BoundBox.XLength > 20]
    wall = min(s.distToShape(hollow.Stack.Form.Shape.Shells[0])[0] for s in voids)
    assert wall >= 30.0
    assert hollow.LeastWall.Value <= wall + 0.25
    assert vented[0].BoundBox.ZMin == pytest.approx(0, abs=1e-6), "the vent opens to the underside"


def test_the_tenon_comes_through_the_dish_and_is_kerfed(stand: Any) -> None:
    from freecad_stacklam.docobjects.reading.joints import shown_joint

    (joint,) = of_kind(stand, "joint")
    # 75 mm into the pedestal, 38 mm through the dish (tools/examples/plant_stand.py), 3 mm proud.
    assert joint.TenonLength.Value == pytest.approx(75 + 38 + 3, abs=0.1)
    wedge = next(m.wedge for m in shown_joint(joint).members if m.wedge is not None)
    kerfs = wedge.count * wedge.kerf_width * wedge.kerf_depth * 35.8
    assert joint.Shape.Volume == pytest.approx(35.8**2 * joint.TenonLength.Value - kerfs, rel=1e-6)
    assert joint.Shape.isValid()
    top = next(o for o in of_kind(stand, "stack") if o.Piece == "Top")
    for layer in top.Layers:
        assert taken(layer) > 36**2 * 25, "the mortise goes through both layers of the top"


def test_the_command_line_s_settings_and_the_document_agree(stand: Any) -> None:
    from jobs import plan_job

    from freecad_stacklam.data import species_table
    from freecad_stacklam.docobjects.reading.stacks import form_of_stack
    from freecad_stacklam.docobjects.reading.whole import plan_of, settings_of

    forms = [form_of_stack(stack) for stack in of_kind(stand, "stack")]
    plan = plan_of(stand)
    again = plan_job(forms, settings_of(stand), species_table())
    assert again.stacks == plan.stacks
    assert again.joints == plan.joints


def test_the_command_line_writes_the_same_project(
    stand: Any, tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    import FreeCAD

    from freecad_stacklam.commandline import answer
    from freecad_stacklam.data import example_form, wedged_settings
    from freecad_stacklam.docobjects.reading.whole import plan_of

    # In this process, which has looked at the forms already; tests/test_commandline.py plans in one of its own.
    asked = ["plan", str(example_form()), "--settings", str(wedged_settings()), "--out", str(tmp_path)]
    assert answer(asked) == 0, capfd.readouterr().err
    told = json.loads((tmp_path / "plan.json").read_text(encoding="utf-8"))
    plan = plan_of(stand)
    for facts, planned in zip(told["stacks"], plan.stacks):
        found = [(p["interface"], *p["centre"], p["diameter"]) for p in facts["pins"]]
        assert found == [pytest.approx((p.interface, *p.centre, p.diameter), abs=1e-3) for p in planned.pins]
        kinds = [[c["kind"] for c in layer["cuts"]] for layer in facts["layers"]]
        assert kinds == [[c.kind for c in layer.cuts] for layer in planned.layers]
    project = FreeCAD.openDocument(str(tmp_path / "project.FCStd"))
    try:
        project.recompute()
        for kind in ("pins", "hollow", "joint", "layer"):
            assert [o.Shape.Volume for o in of_kind(project, kind)] == pytest.approx(
                [o.Shape.Volume for o in of_kind(stand, kind)], rel=1e-9
            )
        assert not any("Invalid" in o.State for o in project.Objects)
    finally:
        FreeCAD.closeDocument(project.Name)


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("pattern", ["grid", "contours"])
def test_the_dish_of_the_example_is_bored_in_at_most_six_stops(stand: Any, pattern: str, units: str) -> None:
    from freecad_stacklam.docobjects.base.family import name_of_stack, stacks_in
    from freecad_stacklam.docobjects.reading.insides import finished_stacks
    from freecad_stacklam.docobjects.reading.stacks import form_of_stack
    from freecad_stacklam.lamination.carving.depthholes import depth_map
    from freecad_stacklam.lamination.settings.carving import CarvingSettings

    (top,) = [s for s in finished_stacks(stand) if s.name == "Top"]
    (obj,) = [o for o in stacks_in(stand) if name_of_stack(o) == "Top"]
    asked = CarvingSettings(depth_holes=(("Top", "top"),), hole_pattern=pattern)
    found = depth_map(top, form_of_stack(obj).mesh, "top", asked, units=units)
    assert len(found.holes) >= 60
    assert 3 <= len(found.stops) <= 6
