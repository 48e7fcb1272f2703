# SPDX-License-Identifier: LGPL-2.1-or-later

"""DXF judged from outside: ezdxf reads and audits it, FreeCAD imports it."""

from __future__ import annotations

import sys
from dataclasses import replace
from math import pi
from pathlib import Path

import ezdxf
import numpy as np
import pytest
import shapely
from ezdxf import bbox
from plans import layer_of, plant_stand, stack_of

from freecad_stacklam.benchsheets.drawing.backend import draw
from freecad_stacklam.benchsheets.drawing.sheet import Arc, Circle, FilledRegion, Polyline, Text
from freecad_stacklam.benchsheets.layers.layerdrawing import draw_layers
from freecad_stacklam.lamination.plan.layers import Cut, ThinZone
from freecad_stacklam.lamination.plan.outline import Loop, Outline, circle, rectangle
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.marks import is_ours
from freecad_stacklam.sheetwriters.dxf import (
    DxfDrawing,
    _ezdxf,
    write_layer_dxf,
    write_layer_dxfs,
    write_loops_dxf,
)

#: Kinds of unit in the header variable $INSUNITS: 1 inches, 4 millimetres (DXF reference, HEADER section).
INSUNITS = {"in": 1, "mm": 4}


def slotted() -> Plan:
    """One layer with known arcs: a slot-shaped blank 400 × 200 with a round hole, a stopped and a through cut."""
    slot = Loop(((-100.0, -100.0, 0.0), (100.0, -100.0, 1.0), (100.0, 100.0, 0.0), (-100.0, 100.0, 1.0)))
    hole = Loop(tuple((x, y, -b) for x, y, b in reversed(circle(60.0, (120.0, 0.0)).outer.points)))
    cuts = (Cut("mortise", rectangle(40, 40), 10.0, 45.0, "Leg"), Cut("pin", circle(10.0, (-60.0, 20.0)), 0.0, 45.0))
    layer = layer_of(1, 0.0, 45.0, [shapely.Point(0, 0).buffer(80)] * 2, cuts)
    layer = type(layer)(**{**layer.__dict__, "blank": (Outline(slot, (hole,)),)})
    return Plan("Slot", "mm", (stack_of("Seat", (layer,)),))


#: Area of the slot without its hole.
SLOT, HOLE = 200.0 * 200.0 + pi * 100.0**2, pi * 30.0**2


def closed_area(entity: ezdxf.entities.LWPolyline) -> float:
    """Area inside a closed polyline, from the lines and arcs into which ezdxf takes it apart."""
    chain: list[tuple[float, float]] = []
    for part in entity.virtual_entities():
        line = part.dxftype() == "LINE"
        points = [part.dxf.start, part.dxf.end] if line else list(part.flattening(2e-6))
        pairs = [(p.x, p.y) for p in points]
        if chain and np.hypot(*np.subtract(pairs[0], chain[-1])) > 1e-6:
            pairs.reverse()
        chain += pairs
    return shapely.Polygon(chain).area


@pytest.mark.parametrize("units", ["mm", "in"])
def test_audit_units_and_line_kinds(tmp_path: Path, units: str) -> None:
    plan = slotted()
    path = tmp_path / "seat.dxf"
    write_layer_dxf(plan.stacks[0], draw_layers(plan, plan.stacks[0])[0], path, units)
    document = ezdxf.readfile(path)
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    assert document.header["$INSUNITS"] == INSUNITS[units]
    assert document.header["$MEASUREMENT"] == (1 if units == "mm" else 0)
    one = 25.4 if units == "in" else 1.0
    by_layer: dict[str, list] = {}
    for entity in document.modelspace():
        by_layer.setdefault(entity.dxf.layer, []).append(entity)
    assert set(by_layer) == {"CUT LINE", "FINISHED FORM TOP", "FINISHED FORM BOTTOM", "MORTISE STOPPED", "PIN", "AXIS",
                             "WAY INTO VOID", "LETTERING"}  # fmt: skip
    assert set(by_layer) <= {layer.dxf.name for layer in document.layers}
    for name in ("CUT LINE", "MORTISE STOPPED", "PIN"):
        for entity in by_layer[name]:
            assert entity.dxftype() == "LWPOLYLINE"
            assert entity.closed
    areas = sorted(closed_area(e) * one**2 for e in by_layer["CUT LINE"])
    assert areas == pytest.approx([HOLE, SLOT], rel=1e-5)
    outer = max(by_layer["CUT LINE"], key=closed_area)
    assert sorted(p[4] for p in outer.get_points()) == [0.0, 0.0, 1.0, 1.0]
    box = bbox.extents([outer])
    assert (box.size.x * one, box.size.y * one) == pytest.approx((400.0, 200.0))


@pytest.mark.freecad
@pytest.mark.parametrize("units", ["mm", "in"])
def test_freecad_imports_the_same_areas_and_arcs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, units: str) -> None:
    """FreeCAD's own import, in C++. From 1.0 on it calls modules from FreeCAD's Mod folders, which FreeCAD itself puts
    on the path; and it makes layer objects that 1.0 cannot make without a window, so these are turned off."""
    import FreeCAD
    import Import
    import Part

    bases = {Path(FreeCAD.getHomePath()), Path(FreeCAD.getResourceDir())}
    folders = [str(folder) for base in bases for folder in (base / "Mod").glob("*")]
    monkeypatch.setattr(sys, "path", [*sys.path, *folders])
    plan = slotted()
    path = tmp_path / "seat.dxf"
    write_layer_dxf(plan.stacks[0], draw_layers(plan, plan.stacks[0])[0], path, units)
    choices = FreeCAD.ParamGet("User parameter:BaseApp/Preferences/Mod/Draft")
    layers = choices.GetBool("dxfUseDraftVisGroups", True)
    choices.SetBool("dxfUseDraftVisGroups", False)
    document = FreeCAD.newDocument("dxf")
    try:
        Import.readDXF(str(path), document.Name)
        shapes = [o.Shape for o in document.Objects if getattr(o, "Shape", None) and not o.Shape.isNull()]
        edges = [e for shape in shapes for e in shape.Edges]
        arcs = sorted(round(e.Curve.Radius, 3) for e in edges if isinstance(e.Curve, Part.Circle))
        assert arcs == [5.0, 5.0, 30.0, 30.0, 100.0, 100.0]
        wires = [Part.Wire(chain) for chain in Part.sortEdges(edges)]
        areas = [Part.Face(wire).Area for wire in wires if wire.isClosed()]
        for wanted in (SLOT, HOLE, 40.0 * 40.0, pi * 25.0):
            assert min(abs(found - wanted) / wanted for found in areas) < 1e-5
    finally:
        FreeCAD.closeDocument(document.Name)
        choices.SetBool("dxfUseDraftVisGroups", layers)


def test_a_file_for_each_layer(tmp_path: Path) -> None:
    plan = plant_stand()
    written = write_layer_dxfs(plan, tmp_path, "in")
    assert [p.name for p in written[:2]] == ["Pedestal_01.dxf", "Pedestal_02.dxf"]
    assert len(written) == 12
    assert all(ezdxf.readfile(p).header["$INSUNITS"] == 1 for p in written[::4])
    assert all(is_ours(p) for p in written[::4])
    ezdxf.readfile(written[0]).saveas(tmp_path / "drawn on.dxf")
    assert not is_ours(tmp_path / "drawn on.dxf")


def test_stacks_of_like_names_have_files_of_their_own(tmp_path: Path) -> None:
    layers = plant_stand().stacks[0].layers[:2]
    names = ("A B", "A_B", "a b", "Fuß / Сиденье")
    plan = replace(plant_stand(), stacks=tuple(stack_of(name, layers) for name in names), joints=())
    written = [p.name for p in write_layer_dxfs(plan, tmp_path)]
    assert len({name.lower() for name in written}) == 8
    assert written[::2] == ["A_B_01.dxf", "A_B_2_01.dxf", "a_b_3_01.dxf", "Fuß___Сиденье_01.dxf"]


def test_loops_alone(tmp_path: Path) -> None:
    write_loops_dxf([circle(100.0).outer], tmp_path / "gauge.dxf")
    document = ezdxf.readfile(tmp_path / "gauge.dxf")
    (found,) = list(document.modelspace())
    assert found.dxf.layer == "SECTION TEMPLATE"
    assert closed_area(found) == pytest.approx(pi * 2500.0, rel=1e-4)
    with pytest.raises(Refusal, match="plane that meets"):
        write_loops_dxf([], tmp_path / "none.dxf")
    assert not (tmp_path / "none.dxf").exists()


def test_without_ezdxf_the_sentence_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    _ezdxf.cache_clear()
    with pytest.raises(Refusal, match=r"DXF cannot be written: ezdxf 1\.1 or newer is not there"):
        write_layer_dxfs(plant_stand(), tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_other_units_are_refused(tmp_path: Path) -> None:
    with pytest.raises(Refusal, match="mm or in"):
        write_layer_dxfs(plant_stand(), tmp_path, "cm")


def test_a_form_that_ends_inside_a_layer_shows_how_far_it_reaches(tmp_path: Path) -> None:
    """Its section at the layer's top is empty; its shadow, the ball's great circle of 80 mm, is drawn instead."""
    layer = layer_of(1, 0.0, 45.0, [shapely.Point(0, 0).buffer(80, quad_segs=64)] * 2)
    layer = replace(layer, finished_top=shapely.MultiPolygon())
    plan = Plan("Dome", "mm", (stack_of("Dome", (layer,)),))
    (path,) = write_layer_dxfs(plan, tmp_path)
    found = [e for e in ezdxf.readfile(path).modelspace() if e.dxf.layer == "FINISHED FORM TOP"]
    assert [closed_area(e) for e in found] == pytest.approx([pi * 80.0**2], rel=1e-3)


def test_every_kind_of_mark_is_where_the_sheet_says(tmp_path: Path) -> None:
    """Judged by ezdxf: audit, extents of what it takes apart, and the hatch's own area."""
    marks = (
        Circle((10.0, 20.0), 5.0, "pin"),
        Arc((50.0, 50.0), 10.0, 0.0, 90.0, "hollow"),
        Arc((50.0, 50.0), 20.0, 0.0, -90.0, "hollow"),
        FilledRegion((((0, 0), (10, 0), (10, 10)), ((6, 1), (9, 1), (9, 4)))),
        Polyline(((0, 0), (5, 5), (9, 0)), "cut", closed=True),
        Polyline(((0, 0), (25.4, 0)), "axis"),
        Text((30.0, 30.0), "grain", 4.0, "right", turn=30.0),
    )
    drawing = DxfDrawing("in")
    draw(marks, drawing)
    drawing.save(tmp_path / "marks.dxf")
    document = ezdxf.readfile(tmp_path / "marks.dxf")
    assert not document.audit().has_errors
    space = document.modelspace()
    (circle_,), arcs = space.query("CIRCLE"), list(space.query("ARC"))
    assert (circle_.dxf.layer, circle_.dxf.radius * 25.4) == ("PIN", pytest.approx(5.0))
    ends = [[(p.x * 25.4, p.y * 25.4) for p in (arc.start_point, arc.end_point)] for arc in arcs]
    assert ends[0] == [pytest.approx((60.0, 50.0)), pytest.approx((50.0, 60.0))]
    # Clockwise from 0° over a quarter: DXF has it from -90° to 0°.
    assert ends[1] == [pytest.approx((50.0, 30.0)), pytest.approx((70.0, 50.0))]
    (hatch,) = space.query("HATCH")
    loops = [shapely.Polygon([(v[0] * 25.4, v[1] * 25.4) for v in path.vertices]) for path in hatch.paths]
    assert [loop.area for loop in loops] == [pytest.approx(50.0), pytest.approx(4.5)]
    (chain,), (line,), (words,) = space.query("LWPOLYLINE"), space.query("LINE"), space.query("TEXT")
    assert (chain.closed, len(chain), line.dxf.end.x) == (True, 3, pytest.approx(1.0))
    assert (words.dxf.rotation, words.dxf.height * 25.4) == (30.0, pytest.approx(4.0))
    assert tuple(words.get_placement()[1])[:2] == pytest.approx((30.0 / 25.4, 30.0 / 25.4))


def turned_over() -> Plan:
    """The slot with one quarter-round bite and a mortise from below that lies towards RIGHT and front."""
    plan = slotted()
    layer = plan.stacks[0].layers[0]
    cut = Cut("mortise", rectangle(40, 20, (50.0, -30.0)), 0.0, 18.0, "Leg")
    bitten = Loop(((-100.0, 60.0, 0.0), (-100.0, -100.0, 0.0), (100.0, -100.0, 1.0), (100.0, 100.0, 0.0),
                   (-60.0, 100.0, QUARTER)))  # fmt: skip
    zone = ThinZone(1, shapely.MultiPolygon([shapely.box(-80, -60, -40, -20)]))
    layer = replace(layer, blank=(Outline(bitten, ()),), cuts=(cut,), thin=(zone,))
    return replace(plan, stacks=(stack_of("Seat", (layer,)),))


#: Bulge of a quarter of a circle that bites into the wood: -tan(90° / 4).
QUARTER = -0.41421356


def test_an_underside_has_a_file_as_it_lies_turned_over(tmp_path: Path) -> None:
    """The mortise 30..70 to the right is then 30..70 to the left; the area stays: 200 × 200 + π·100²/2 less a
    quarter of a circle of 40 round the corner."""
    plan = turned_over()
    paths = write_layer_dxfs(plan, tmp_path)
    assert [p.name for p in paths] == ["Seat_01.dxf", "Seat_01_underside.dxf"]
    document = ezdxf.readfile(paths[1])
    assert not document.audit().errors
    loops = {e.dxf.layer: e for e in document.modelspace() if e.dxftype() == "LWPOLYLINE"}
    assert set(loops) >= {"CUT LINE", "MORTISE STOPPED"}
    box = bbox.extents([loops["MORTISE STOPPED"]])
    assert (box.extmin.x, box.extmax.x, box.extmin.y) == pytest.approx((-70.0, -30.0, -40.0))
    there = ezdxf.readfile(paths[0])
    (above,) = [e for e in there.modelspace() if e.dxf.layer == "CUT LINE"]
    assert closed_area(above) == pytest.approx(200**2 + pi * 100**2 / 2 - pi * 40**2 / 4, rel=1e-5)
    assert closed_area(loops["CUT LINE"]) == pytest.approx(closed_area(above), rel=1e-6)
    assert bbox.extents([loops["CUT LINE"]]).extmin.x == pytest.approx(-200.0)  # the round end is on the left now
    words = " ".join(e.dxf.text for e in document.modelspace() if e.dxftype() == "TEXT")
    assert "UNDERSIDE up" in words and "mortise 18 mm deep" in words


def test_zones_of_little_wood_have_a_line_kind_of_their_own(tmp_path: Path) -> None:
    document = ezdxf.readfile(write_layer_dxfs(turned_over(), tmp_path)[0])
    (zone,) = [e for e in document.modelspace() if e.dxf.layer == "LITTLE WOOD TOP"]
    assert closed_area(zone) == pytest.approx(40 * 40)
    assert document.layers.get("LITTLE WOOD TOP").dxf.linetype not in ("CONTINUOUS", "Continuous")
