# SPDX-License-Identifier: LGPL-2.1-or-later

"""SVG in millimetres, read back with a plain XML parser."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree as ET

import numpy as np
import pytest
import shapely
from plans import plant_stand

from freecad_stacklam.benchsheets.book.whole import drawing_book
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Arc, Circle, FilledRegion, Polyline, Sheet, Text
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.sheetwriters.svg import svg_text, write_svg

SVG = "{http://www.w3.org/2000/svg}"


def test_the_cut_line_reads_back_in_millimetres(tmp_path: Path) -> None:
    plan = plant_stand()
    book = drawing_book(plan, paper_named("roll 610mm"))
    sheet = next(s for s in book if s.stack == "Pedestal" and s.layer == 3 and s.kind == "template")
    write_svg(sheet, tmp_path / "layer.svg")
    root = ET.parse(tmp_path / "layer.svg").getroot()
    width, height = sheet.paper
    assert root.get("width") == f"{width:g}mm"
    assert [float(v) for v in root.get("viewBox", "").split()] == pytest.approx([0, 0, width, height], abs=1e-3)
    group = next(g for g in root.iter(f"{SVG}g") if g.get("id") == "cut")
    assert float(group.get("stroke-width", "0")) == 0.7
    boundary = shapely.boundary(area_polygon(plan.stacks[0].layers[2].blank))
    found = 0
    for path in group.iter(f"{SVG}path"):
        points = np.array([[float(v) for v in pair.split(",")] for pair in path.get("d", "").strip("MZ").split("L")])
        if len(points) == 2:
            continue  # the sample in the strip
        back = shapely.points([sheet.to_stack(x, height - y) for x, y in points])
        assert shapely.distance(boundary, back).max() < 2e-4
        found += len(points)
    assert found > 100


def test_all_marks_and_names_survive() -> None:
    marks = (
        Circle((10.0, 20.0), 5.0, "thin"),
        Arc((50.0, 50.0), 10.0, 0.0, 90.0, "thin"),
        Arc((50.0, 50.0), 10.0, 0.0, -270.0, "thin"),
        FilledRegion((((0, 0), (10, 0), (10, 10)), ((2, 1), (4, 1), (4, 3)))),
        Polyline(((0, 0), (5, 5), (9, 0)), "hidden", closed=True),
        Text((30.0, 30.0), "Tisch & <Stuhl> “Žofie” \x07\x00", 3.5, "centre", 30.0, True, fit=20.0),
    )
    root = ET.fromstring(svg_text(Sheet("template", "A & B", (100.0, 200.0), marks)))
    circle = next(root.iter(f"{SVG}circle"))
    assert [float(circle.get(k, "nan")) for k in ("cx", "cy", "r")] == [10.0, 180.0, 5.0]
    arcs = [p.get("d") for p in root.iter(f"{SVG}path") if "A" in p.get("d", "")]
    # Quarter circle counter-clockwise on the page, then three quarters clockwise to the same end.
    assert arcs == ["M60,150A10,10 0 0 0 50,140", "M60,150A10,10 0 1 1 50,140"]
    hidden = next(g for g in root.iter(f"{SVG}g") if g.get("id") == "hidden")
    assert hidden.get("stroke-dasharray")
    text = next(root.iter(f"{SVG}text"))
    assert text.text == "Tisch & <Stuhl> “Žofie” "
    assert text.get("transform") == "rotate(-30 30 170)"
    assert float(text.get("font-size", "0")) == pytest.approx(3.5 / 0.72, abs=1e-3)


def test_an_unwritable_place_is_refused(tmp_path: Path) -> None:
    sheet = drawing_book(plant_stand(), paper_named("A4"))[0]
    with pytest.raises(Refusal, match="choose a folder"):
        write_svg(sheet, tmp_path / "nowhere" / "a.svg")
    (tmp_path / "folder.svg").mkdir()
    with pytest.raises(Refusal, match="could not be written"):
        write_svg(replace(sheet, title="x"), tmp_path / "folder.svg")
    assert [p.name for p in tmp_path.iterdir()] == ["folder.svg"]
