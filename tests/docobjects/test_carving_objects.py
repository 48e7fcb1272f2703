# SPDX-License-Identifier: LGPL-2.1-or-later

"""The carving guide and the glue lines as objects: drawn in place, following their stacks, kept in the file.

The judges: the closed form of a bored hole (a cylinder with the cone of a 118° point, whose length is D / 2 / tan 59°),
and FreeCAD's own distances and sections between holes, layers and form.
"""

from __future__ import annotations

from math import pi, radians, sqrt, tan
from pathlib import Path
from typing import Any

import pytest

from freecad_stacklam.lamination.settings.pins import PinSettings

pytestmark = pytest.mark.freecad

BIT, LEAVE = 8.0, 1.7
POINT = BIT / 2 / tan(radians(59.0))


def stacked(document: Any, form: Any, **settings: Any) -> Any:
    from freecad_stacklam.docobjects.making.stacks import make_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    document.recompute()
    made = make_stack(document, form, StackSettings(**{"stock": (30.0,), "allowance": 4.0, **settings}))
    document.recompute()
    return made


@pytest.fixture
def block(document: Any) -> Any:
    """A block of 160 × 120 × 100 mm in four layers of 30 mm: 20 mm of wood over its upper face."""
    box = document.addObject("Part::Box", "Block")
    box.Length, box.Width, box.Height = 160, 120, 100
    return stacked(document, box)


@pytest.fixture
def ball(document: Any) -> Any:
    """A ball of 200 mm in eight layers."""
    form = document.addObject("Part::Sphere", "Ball")
    form.Radius = 100
    form.Placement.Base.x = 300
    return stacked(document, form, stock=(25.0,))


def wanted(**other: Any) -> Any:
    from freecad_stacklam.lamination.settings.carving import CarvingSettings

    return CarvingSettings(**{"depth_holes": (("", "top"),), "bit": BIT, "leave": LEAVE, **other})


def guided(document: Any, **other: Any) -> Any:
    from freecad_stacklam.docobjects.making.carving import make_carving

    document.openTransaction("Carving guide")
    carving = make_carving(document, wanted(**other))
    document.recompute()
    document.commitTransaction()
    return carving


def all_well(document: Any) -> bool:
    return all(o.State == ["Up-to-date"] for o in document.Objects)


def test_holes_in_a_flat_top_are_as_deep_as_the_wood_over_it(document: Any, block: Any) -> None:
    carving = guided(document)
    # Of 20 mm of wood 1.7 mm are left, and the 0.2 mm that the mesh may be off; the tip of the bit comes first. 18.1 mm
    # is 18 mm on the safe side of the drill stop's 0.5 mm, the same everywhere.
    depth = 18.0
    assert (carving.StopCount, carving.Deepest.Value, carving.Shallowest.Value) == (1, depth, depth)
    assert carving.HoleCount == len(carving.Shape.Solids) > 4
    one = pi / 4 * BIT**2 * (depth - POINT + POINT / 3)
    assert carving.Shape.isValid()
    assert carving.Shape.Volume == pytest.approx(carving.HoleCount * one, rel=1e-9)
    assert carving.Shape.BoundBox.ZMax == pytest.approx(120.0, abs=1e-6)
    form = document.Block.Shape
    assert carving.Shape.distToShape(form)[0] == pytest.approx(20.0 - depth, abs=1e-6)
    assert carving.Stops == [f"Block, top: 18 mm, {carving.HoleCount} holes"]
    assert carving.ToCarve.Value == pytest.approx(block.CarvedVolume.Value, rel=1e-9)
    assert carving.Hours == "no rate is given"
    assert all_well(document)


def test_holes_from_both_faces_of_a_ball_stop_short_of_it(document: Any, ball: Any) -> None:
    carving = guided(document, depth_holes=(("Ball", "both"),), pitch=25.0, rate=0.5)
    form = document.Ball.Shape
    gaps = [solid.distToShape(form)[0] for solid in carving.Shape.Solids]
    # Never nearer than what is left, and no more than the guard and the 2 mm of the drill stop off.
    assert min(gaps) >= LEAVE - 0.01
    assert max(gaps) < LEAVE + 0.2 + 2.0 + 0.1
    wood = ball.Layers[0].Shape.multiFuse([layer.Shape for layer in ball.Layers[1:]])
    assert carving.Shape.common(wood).Volume == pytest.approx(carving.Shape.Volume, rel=1e-6)
    up = [s for s in carving.Shape.Solids if s.CenterOfMass.z > 0]
    assert 2 * len(up) == carving.HoleCount == len(gaps)
    assert carving.StopCount >= 3
    assert carving.Hours == f"{carving.ToCarve.Value / 1e6 / 0.5:.1f} h"
    # 4/3 π r³ (closed form), less the mesh's 0.1 mm.
    assert carving.ToCarve.Value == pytest.approx(ball.WoodVolume.Value - 4 / 3 * pi * 100**3, rel=0.01)


def test_a_brad_point_leaves_a_spur_and_must_be_measured(document: Any, block: Any) -> None:
    from freecad_stacklam.lamination.refusal import Refusal

    with pytest.raises(Refusal, match="must be measured"):
        guided(document, point="brad point")
    document.abortTransaction()
    assert document.getObject("Carving") is None
    carving = guided(document, point="brad point", point_length=3.0)
    assert carving.Deepest.Value == 18.0
    assert carving.Shape.BoundBox.ZMin == pytest.approx(102.0, abs=1e-6)
    one = pi / 4 * BIT**2 * 15.0 + pi / 4 * (BIT / 5) ** 2 * 3.0
    assert carving.Shape.Volume == pytest.approx(carving.HoleCount * one, rel=1e-9)


def test_the_guide_follows_its_stacks(document: Any, block: Any) -> None:
    carving = guided(document)
    block.Stock = 35
    document.recompute()
    # Three layers of 35 mm: 5 mm of wood, less than the shallowest hole takes.
    assert (carving.HoleCount, carving.Shape.isNull()) == (0, True)
    assert any("too shallow" in line for line in carving.LeftOut)
    block.Stock = 30
    document.Block.Placement.Base.z = 500
    document.recompute()
    assert carving.Shape.BoundBox.ZMax == pytest.approx(620.0, abs=1e-6)
    count = carving.HoleCount
    carving.Pitch = 40
    document.recompute()
    assert 0 < carving.HoleCount < count
    carving.Suppressed = True
    document.recompute()
    assert (carving.Verdict, carving.HoleCount, carving.Shape.isNull()) == ("suppressed", 0, True)
    carving.Suppressed = False
    document.recompute()
    assert 0 < carving.HoleCount < count
    assert all_well(document)


def test_holes_keep_clear_of_pins_that_come_after_them(document: Any, block: Any) -> None:
    from freecad_stacklam.docobjects.making.insides import make_pins

    carving = guided(document, pitch=20.0, cover=40.0)
    before = carving.HoleCount
    # The pins end at 72 mm, 30 mm under the tips.
    pins = make_pins(block, PinSettings(skip=(3,)))
    document.recompute()
    assert carving.HoleCount < before
    assert carving.Shape.distToShape(pins.Shape)[0] >= 40.0 - 0.01
    assert any("joint" in line or "pin" in line for line in carving.LeftOut)
    assert all_well(document)


def test_one_undo_step_and_back(document: Any, block: Any) -> None:
    steps = document.UndoCount
    carving = guided(document)
    count, name = carving.HoleCount, carving.Name
    assert document.UndoCount == steps + 1
    document.undo()
    document.recompute()
    assert document.getObject(name) is None
    document.redo()
    document.recompute()
    assert document.getObject(name).HoleCount == count
    guided(document, pitch=50.0)
    assert document.getObject(name).HoleCount < count
    assert [o.Name for o in document.Objects].count(name) == 1
    document.undo()
    document.recompute()
    assert (document.getObject(name).HoleCount, document.getObject(name).Pitch.Value) == (count, 30.0)
    assert all_well(document)


@pytest.mark.parametrize(
    ("name", "value", "sentence"),
    [
        ("Bit", 0, "“Bit” of the carving guide cannot be 0"),
        ("Pitch", 5, "run into each other"),
        ("DepthHoles", ["Chair = top"], "no stack here"),
        ("DepthHoles", ["side"], "choose top, bottom, both"),
        ("Planes", ["somewhere"], "is no plane"),
        ("Rate", -1.0, "“You carve” of the carving guide cannot be -1"),
    ],
)
def test_bad_values_are_the_object_s_error_in_one_sentence(
    document: Any, block: Any, name: str, value: Any, sentence: str
) -> None:
    carving = guided(document)
    good, count = getattr(carving, name), carving.HoleCount
    setattr(carving, name, value)
    document.recompute()
    assert "Invalid" in carving.State
    assert sentence in str(carving.getStatusString())
    setattr(carving, name, good)
    document.recompute()
    assert carving.HoleCount == count
    assert all_well(document)


def full_settings() -> Any:
    from freecad_stacklam.lamination.settings.carving import PickedPlane

    return wanted(
        azimuths=(0.0, 12.5, 1 / 3),
        station=40.0,
        stations_along=30.0,
        templates=(0.0, 45.0),
        planes=(PickedPlane("Off: the; middle", (1 / 3, 10.0, 50.0), (0.6, 0.8, 0.0)),),
        level_templates=True,
        gauges=("right", "above"),
        clearance=0.5,
        margin=35.0,
        depth_holes=(("Block", "both"),),
        pitch=27.5,
        cover=11.0,
        landing=2.5,
        least_depth=6.0,
        point="rim",
        point_length=1.5,
        bit_length=120.0,
        stop_step=0.25,
        rate=1.25,
    )


def test_document_and_settings_file_agree(document: Any, block: Any) -> None:
    """What a settings file asks for comes back from the objects to the last bit, and makes the same plan."""
    from jobs import plan_job
    from settingstext import write_settings

    from freecad_stacklam.data import species_table
    from freecad_stacklam.docobjects.making.carving import make_carving
    from freecad_stacklam.docobjects.reading.stacks import form_of_stack
    from freecad_stacklam.docobjects.reading.whole import plan_of, settings_of
    from freecad_stacklam.lamination.settings.file import read_settings
    from freecad_stacklam.lamination.settings.job import Settings
    from freecad_stacklam.lamination.settings.stack import StackSettings

    asked = full_settings()
    carving = make_carving(document, asked)
    kept = settings_of(document)
    assert kept.carving == asked
    assert read_settings(write_settings(kept)).carving == asked
    plan = plan_of(document)
    stacks = (StackSettings(form="Block", stock=(30.0,), allowance=4.0),)
    alone = plan_job([form_of_stack(block)], Settings(stacks=stacks, carving=asked), species_table())
    assert plan.carving is not None
    assert plan.carving == alone.carving
    assert sum(len(m.holes) for m in plan.carving.depth_maps) == carving.HoleCount > 0
    assert plan.carving.hours == pytest.approx(float(carving.Hours.split()[0]), abs=0.05)
    document.removeObject(carving.Name)
    assert plan_of(document).carving is None


def test_filled_from_settings_saved_and_opened_again(document: Any, tmp_path: Path) -> None:
    import FreeCAD

    from freecad_stacklam.docobjects.base.family import stacks_in
    from freecad_stacklam.docobjects.making.gluelines import make_glue_lines
    from freecad_stacklam.docobjects.making.project import fill_document
    from freecad_stacklam.docobjects.reading.whole import plan_of, settings_of
    from freecad_stacklam.lamination.settings.job import Settings
    from freecad_stacklam.lamination.settings.stack import StackSettings

    box = document.addObject("Part::Box", "Block")
    box.Length, box.Width, box.Height = 160, 120, 100
    document.recompute()
    stacks = (StackSettings(form="Block", stock=(30.0,), allowance=4.0),)
    fill_document(document, [box], Settings(units="in", stacks=stacks, carving=wanted()))
    # With inches the stop is set by 3/32 in: 18.1 mm is 7.6 of them, and the safe side is 7.
    (stack,) = stacks_in(document)
    lines = make_glue_lines(stack)
    document.recompute()
    assert document.Carving.Deepest.Value == pytest.approx(7 * 3 * 25.4 / 32)
    volume, length, plan = document.Carving.Shape.Volume, lines.TotalLength.Value, plan_of(document)
    names = [o.Name for o in document.Objects]
    document.saveAs(str(tmp_path / "guide.FCStd"))
    FreeCAD.closeDocument(document.Name)
    again = FreeCAD.openDocument(str(tmp_path / "guide.FCStd"))
    try:
        for obj in again.Objects:
            obj.touch()
        again.recompute()
        assert [o.Name for o in again.Objects] == names
        assert all_well(again)
        assert again.Carving.Shape.Volume == pytest.approx(volume, rel=1e-9)
        assert again.GlueLines.TotalLength.Value == pytest.approx(length)
        assert settings_of(again).carving == wanted()
        assert plan_of(again).carving == plan.carving
    finally:
        FreeCAD.closeDocument(again.Name)


def test_glue_lines_of_a_ball_are_its_circles(document: Any, ball: Any) -> None:
    from freecad_stacklam.docobjects.making.gluelines import make_glue_lines
    from freecad_stacklam.docobjects.making.project import make_job
    from freecad_stacklam.lamination.settings.job import Settings

    lines = make_glue_lines(ball)
    assert make_glue_lines(ball) is lines or make_glue_lines(ball).Name == lines.Name
    document.recompute()
    assert (lines.LineCount, len(lines.Shape.Wires)) == (7, 7)
    # At height h above the middle of a ball of radius R the circle is 2 π √(R² - h²) long.
    circles = [2 * pi * sqrt(100**2 - (25.0 * k - 100) ** 2) for k in range(1, 8)]
    assert sorted(w.Length for w in lines.Shape.Wires) == pytest.approx(sorted(circles), rel=2e-3)
    assert lines.TotalLength.Value == pytest.approx(sum(circles), rel=2e-3)
    surface = document.Ball.Shape.Shells[0] if document.Ball.Shape.Shells else document.Ball.Shape
    for wire in lines.Shape.Wires:
        assert wire.isClosed()
        for vertex in wire.Vertexes[::17]:
            assert vertex.distToShape(surface)[0] < 0.15
    # The lowest lies at 25 mm, 63/64 in, and is 2 π √(100² - 75²) = 415.6 mm long, 16-3/8 in (416 mm) or 11/32 (415.1).
    assert lines.Lines[0].startswith("layers 1 and 2: 25 mm high, 41")
    job = make_job(document, Settings())
    document.recompute()
    job.Units = "in"
    document.recompute()
    assert lines.Lines[0] in (f"layers 1 and 2: 31/32 in high, 16-{part} in long" for part in ("11/32", "3/8"))
    document.Ball.Placement.Base.y = 250
    document.recompute()
    assert lines.Shape.BoundBox.Center.y == pytest.approx(250, abs=0.1)
    assert all_well(document)


def test_glue_lines_along_another_axis(document: Any) -> None:
    from freecad_stacklam.docobjects.making.gluelines import make_glue_lines

    box = document.addObject("Part::Box", "Block")
    box.Length, box.Width, box.Height = 120, 80, 50
    stack = stacked(document, box, axis=(1.0, 0.0, 0.0))
    lines = make_glue_lines(stack)
    assert [round(w.BoundBox.XLength, 6) for w in lines.Shape.Wires] == [0, 0, 0]
    assert sorted(round(w.BoundBox.XMin, 3) for w in lines.Shape.Wires) == [30, 60, 90]
    assert lines.TotalLength.Value == pytest.approx(3 * 2 * (80 + 50), rel=1e-6)


def test_glue_lines_go_with_their_stack(document: Any, ball: Any) -> None:
    from freecad_stacklam.docobjects.making.gluelines import make_glue_lines

    make_glue_lines(ball)
    document.recompute()
    document.openTransaction("Delete")
    document.removeObject(ball.Name)
    document.recompute()
    document.commitTransaction()
    assert [o.Name for o in document.Objects] == ["Ball"]
    document.undo()
    document.recompute()
    assert document.getObject("GlueLines") is not None
    assert all_well(document)


def test_a_guide_without_stacks_says_what_to_do(document: Any, block: Any) -> None:
    carving = guided(document)
    document.removeObject(block.Name)
    document.recompute()
    assert "Invalid" in carving.State
    assert "slice it first" in str(carving.getStatusString())


def test_finished_outlines_and_axis_of_a_ball_s_layer(document: Any, ball: Any) -> None:
    from freecad_stacklam.docobjects.making.gluelines import axis_cross, finished_outline, glue_lines_of

    outline, cross = finished_outline(ball, 3), axis_cross(ball)
    assert finished_outline(ball, 3).Name == outline.Name
    assert glue_lines_of(ball) is None
    # The third layer of 25 mm lies 50 to 25 mm under the middle: circles of √(R² - h²), fitted from outside.
    radii = {50.0: sqrt(100**2 - 50**2), 75.0: sqrt(100**2 - 25**2)}
    for edge in outline.Shape.Edges:
        for end in (vertex.Point for vertex in edge.Vertexes):
            away = sqrt((end.x - 300.0) ** 2 + end.y**2)
            wanted = radii[round(end.z + 100.0, 3)]
            assert -0.1 < away - wanted < 0.2
    around = sum(2 * pi * r for r in radii.values())
    # Long dashes with a gap of a fifth behind each, so that no closed face hides what lies under them.
    assert outline.Shape.Length == pytest.approx(around / 1.2, rel=0.02)
    assert not any(wire.isClosed() for wire in outline.Shape.Wires)
    middle = [v.Point for v in cross.Shape.Vertexes if abs(v.Point.x - 300.0) + abs(v.Point.y) < 1e-9]
    assert len(middle) == 4
    document.Ball.Placement.Base.x = 0
    document.recompute()
    assert cross.Shape.BoundBox.Center.x == pytest.approx(0.0, abs=1e-6)
    assert all_well(document)


def test_pages_to_edit_are_made_once_and_lettered(document: Any, block: Any) -> None:
    """Without a window TechDraw may never draw its views, but the pages, their scale and their fields must be there."""
    from freecad_stacklam.docobjects.making.gluelines import axis_cross, finished_outline
    from freecad_stacklam.docobjects.reading.whole import plan_of
    from freecad_stacklam.sheetwriters.techdrawpages import layer_pages

    def pages() -> list[Any]:
        return layer_pages(
            document,
            plan_of(document),
            lambda _: block.Layers,
            lambda _, number: finished_outline(block, number),
            lambda _: axis_cross(block),
            "mm+in",
        )

    made = pages()
    assert [p.Label for p in made] == [f"Block layer {n}, sheet" for n in range(1, 5)]
    first = made[0]
    fields = dict(first.Template.EditableTexts)
    # The title block of the other sheets, with the names of ISO 7200; a lone maker owns and approves nothing apart.
    # And a scale of ISO 5455: 168 mm of blank do not fit 1:1 with 186 in height.
    assert {"TITLE", "NUMBER", "DATE", "SHEET", "CREATOR", "NOTE", "DOCUMENT_TYPE"} <= set(fields)
    assert not {"OWNER", "APPROVAL"} & set(fields)
    assert (fields["NUMBER"], fields["SHEET"], fields["SCALE"]) == ("Block-1", "sheet 1 of 4", "1:2")
    views = [v for v in first.Views if v.isDerivedFrom("TechDraw::DrawViewPart")]
    assert [[s.Name for s in v.Source] for v in views] == [["Layer", "AxisCross"], ["FinishedOutlines"]]
    assert all(v.Scale == 0.5 for v in views)
    assert any("1-3/16 in" in line for v in first.Views for line in getattr(v, "Text", []))  # 30 mm, to 1/32 in
    assert pages() == []
    block.Stock = 25
    document.recompute()
    assert pages() == []
    assert dict(first.Template.EditableTexts)["REVISION"] != fields["REVISION"]
    # 25 mm are 31.496/32 in: the words on the page are those of the new layers.
    assert any("[31/32 in]" in line for v in first.Views for line in getattr(v, "Text", []))
