# SPDX-License-Identifier: LGPL-2.1-or-later

"""Layer sheets: what a maker lays out from them is the plan, to scale and in figures."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import numpy as np
import pytest
import shapely
import solids
from plans import layer_of, lobed, plant_stand, stack_of, worked_stand
from shapely import MultiPolygon, Point
from sheetsof import all_layer_sheets

from freecad_stacklam.benchsheets.drawing.lettering import number, text_box, units_of
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Polyline, Sheet, Text
from freecad_stacklam.lamination.bandsaw.throat import room_checks
from freecad_stacklam.lamination.layers.fitting import fit_outside, grown
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.layers import LeastWood, ThinZone
from freecad_stacklam.lamination.plan.outline import Outline, area_polygon, circle
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.shop import BandSaw
from freecad_stacklam.lamination.settings.stack import StackSettings, TabSettings

#: Scales of ISO 5455 for reduction, and full size (from memory).
ISO_5455 = {1, 2, 5, 10, 20, 50, 100}


def sheets_of(plan: Plan, paper: str = "A4", units: str = "mm") -> tuple[Sheet, ...]:
    return all_layer_sheets(plan, paper_named(paper), units)


def said(sheet: Sheet) -> list[str]:
    return [m.text for m in sheet.marks if isinstance(m, Text)]


def row_of(sheet: Sheet, first: str) -> list[str]:
    """The cells of the table row that begins with `first`, from left to right."""
    start = next(m for m in sheet.marks if isinstance(m, Text) and m.text == first and m.align == "left" and not m.bold)
    row = [m for m in sheet.marks if isinstance(m, Text) and m.at[1] == start.at[1] and 0 < m.at[0] - start.at[0] < 88]
    return [m.text for m in sorted(row, key=lambda m: m.at[0])]


@pytest.mark.parametrize(("paper", "units"), [("A4", "mm"), ("Letter", "in"), ("A3", "mm")])
def test_the_drawing_is_the_plan_to_scale_with_its_sizes(paper: str, units: str) -> None:
    plan = plant_stand(units)
    sheets = sheets_of(plan, paper, units)
    layers = [(stack, layer) for stack in plan.stacks for layer in stack.layers]
    assert [(s.stack, s.layer) for s in sheets] == [(stack.name, layer.number) for stack, layer in layers]
    for sheet, (stack, layer) in zip(sheets, layers):
        assert sheet.scale is not None
        assert round(1 / sheet.scale) in ISO_5455
        blank = area_polygon(layer.blank)
        for mark in sheet.marks:
            if isinstance(mark, Polyline) and mark.pen == "cut" and len(mark.points) > 8:
                back = shapely.points([sheet.to_stack(*p) for p in mark.points])
                assert shapely.distance(shapely.boundary(blank), back).max() < 0.03 / sheet.scale
        x0, y0, x1, y1 = blank.bounds
        words = said(sheet)
        for size in (x1 - x0, y1 - y0, -x0, x1, -y0, y1):
            assert number(size, units_of(units)) in words
        for wanted in (
            str(layer.number),
            "FRONT",
            "RIGHT",
            "grain",
            "axis",
            "Layer sheet",
            f"{stack.name}-{layer.number}",
        ):
            assert wanted in words
        assert any(w.startswith(f"{layer.number} UP") or w == f"{layer.number} UP" for w in words)
        assert any("above the floor" in w for w in words)
        assert any("THIS FACE UP" in w for w in words)


def test_the_title_block_has_no_empty_box() -> None:
    """A box for each word that is known; ISO 7200's owner, creator and approver are one person, the maker."""
    labels = {"Title", "Kind of sheet", "Page", "Shown", "Part", "Plan", "Note", "Drawn by", "Date", "Scale"}
    plan = plant_stand()
    words = said(sheets_of(plan)[0])
    assert labels <= set(words)
    assert {"Workshop", "2025-03-01", "sheet 1 of 12"} <= set(words)
    bare = said(sheets_of(replace(plan, author="", date=""))[0])
    assert labels - set(bare) == {"Drawn by", "Date"}


def test_no_line_runs_through_a_word_on_the_drawing() -> None:
    for sheet in sheets_of(worked_stand()):
        lines = [np.asarray(m.points) for m in sheet.marks if isinstance(m, Polyline) and m.pen in ("cut", "mortise")]
        lines = [p for p in lines if len(p) > 4]
        drawn = shapely.MultiLineString(lines)
        for mark in sheet.marks:
            if isinstance(mark, Text):
                assert not drawn.intersects(text_box(mark, room=-0.15)), f"{mark.text} in {sheet.title}"


def test_cuts_are_tabled_with_centre_size_depth_and_face() -> None:
    sheets = sheets_of(worked_stand())
    foot = {s.layer: s for s in sheets if s.stack == "Pedestal"}
    # Written in tests/plans.py: pins of 10 mm, 12 mm deep, at (-40, 12) and (35, -20); a void of 60 mm at (3, -2).
    assert row_of(foot[3], "A")[:6] == ["pin", "-40", "12", "Ø 10", "12", "top"]
    assert not any("pin" in w for w in said(foot[4]))  # its pins are bored from the underside: not on this sheet
    assert row_of(foot[5], "A")[:5] == ["hollow", "3", "-2", "Ø 60", "through"]
    assert row_of(foot[9], "A")[:6] == ["mortise", "0", "0", "40.2 × 40.2", "30", "top"]
    words = said(foot[9])
    assert "“Pedestal to top”" in words
    assert row_of(foot[9], "Ø 38")[:5] == ["-1", "0", "30", "top", "before"]
    top = next(s for s in sheets if s.stack == "Top")
    assert row_of(top, "Ø 38")[:5] == ["-1", "0", "through", "bottom", "after"]
    assert any("wedged here" in w for w in said(top))


def test_seams_between_staves_are_drawn() -> None:
    plan = worked_stand()
    sheet = next(s for s in sheets_of(plan) if s.layer == 2)
    seams = [m for m in sheet.marks if isinstance(m, Polyline) and m.pen == "seam"]
    places = sorted(sheet.to_stack(*m.points[0])[0] for m in seams)
    assert places == pytest.approx([-45.0, 50.0], abs=0.1)


def turned_leg(radius: float) -> Plan:
    """One round layer, blank fitted as the planner fits it."""
    shadow = MultiPolygon([Point(20, 10).buffer(radius, quad_segs=300)])
    layer = replace(layer_of(1, 0.0, 45.0, [shadow.geoms[0]] * 2), blank=fit_outside(grown(shadow, 3.2)))
    return Plan("Leg", "mm", (stack_of("Leg", (layer,)),))


def test_a_circle_is_one_compass_setting() -> None:
    plan = turned_leg(60.0)
    (sheet,) = sheets_of(plan)
    cells = row_of(sheet, "1")
    assert cells[:2] == ["20", "10"]
    assert 63.2 <= float(cells[2]) <= 63.6
    assert any("The cut line is a circle" in w for w in said(sheet))


def test_listed_arcs_lead_round_the_cut_line() -> None:
    """Each arc ends where the next begins, and its ends lie its radius away from its centre, as written to 0.1 mm."""
    discs = [Point(x, y).buffer(r, quad_segs=300) for x, y, r in ((-60, 0, 80), (70, 10, 50), (0, 90, 40))]
    shadow = MultiPolygon([shapely.union_all(discs).convex_hull])  # three rounds and the three straights between them
    layer = replace(layer_of(1, 0.0, 45.0, [shadow.geoms[0]] * 2), blank=fit_outside(grown(shadow, 3.2)))
    plan = Plan("Foot", "mm", (stack_of("Foot", (layer,)),))
    sheets = sheets_of(plan)
    rows: dict[int, list[str]] = {}
    words = [m for s in sheets for m in s.marks if isinstance(m, Text)]
    firsts = [m for m in words if m.text.isdigit() and m.align == "left" and not m.bold and m.height == 2.5]
    for first in firsts:
        row = [m for m in words if m.at[1] == first.at[1] and 0 < m.at[0] - first.at[0] < 88]
        cells = [m.text.strip("()") for m in sorted(row, key=lambda m: m.at[0])]
        if len(cells) == 5 or "straight" in cells:
            rows[int(first.text)] = cells
    assert sorted(rows) == list(range(1, len(rows) + 1))
    assert len(rows) == 6
    ends = np.array([[float(v) for v in rows[i][-2:]] for i in sorted(rows)])
    curved = np.array([len(rows[i]) == 5 for i in sorted(rows)])
    starts = np.roll(ends, 1, axis=0)[curved]
    ends = ends[curved]
    arcs = [rows[i] for i in sorted(rows) if len(rows[i]) == 5]
    centres = np.array([[float(v) for v in arc[:2]] for arc in arcs])
    radii = np.array([float(arc[2]) for arc in arcs])
    for points in (starts, ends):
        assert np.abs(np.hypot(*(points - centres).T) - radii).max() < 0.2  # three figures rounded to 0.1 mm
    assert "or more outside the form" in " ".join(" ".join(w for s in sheets for w in said(s)).split())


def test_a_long_table_goes_on_over_the_page() -> None:
    cuts = tuple(
        replace(worked_stand().stacks[0].layers[2].cuts[0], outline=circle(6.0, (x, y)))
        for x in range(-60, 61, 15)
        for y in range(-60, 61, 15)
    )
    layer = layer_of(1, 0.0, 135.0, [lobed(120.0, 0.05)] * 2, cuts)
    plan = Plan("Sieve", "mm", (stack_of("Sieve", (layer,)),))
    sheets = sheets_of(plan)
    assert len(sheets) >= 2
    words = [w for s in sheets for w in said(s)]
    assert words.count("pin") == len(cuts) == 81
    assert sheets[1].title.endswith("continued")
    assert sheets[0].scale is not None
    assert area_polygon(layer.blank).area > pi * 100**2


def test_heights_count_from_the_floor_for_upper_stacks() -> None:
    sheets = sheets_of(plant_stand())
    top = next(s for s in sheets if s.stack == "Top" and s.layer == 1)
    assert any("450 to 477 mm above the floor, in its stack from 0 to 27 mm" in w for w in said(top))


def test_a_stack_that_lies_tells_its_heights_in_itself() -> None:
    plan = plant_stand()
    lying = (0.0, 0.0, 1.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1.0)
    plan = replace(plan, stacks=(replace(plan.stacks[0], frame=lying),))
    first = sheets_of(plan)[0]
    assert any("in its stack from 0 to 45 mm" in w for w in said(first))


def test_a_square_allowance_is_told_as_such_and_little_wood_has_its_note() -> None:
    plan = turned_leg(60.0)
    stack = plan.stacks[0]
    zone = area_polygon(stack.layers[0].blank).difference(area_polygon(stack.layers[0].blank).buffer(-12.0))
    thin = replace(stack.layers[0], thin=(ThinZone(1, zone), ThinZone(-1, zone)))
    proof = replace(stack.containment, least_wood=LeastWood(1.0, (0.0, 0.0, 40.0), "step", 1, 1, 1.5))
    told = replace(stack, square=True, layers=(thin, *stack.layers[1:]), containment=proof)
    sheet = sheets_of(replace(plan, stacks=(told, *plan.stacks[1:])))[0]
    words = " ".join(" ".join(said(sheet)).split())  # lines are wrapped
    assert "Hatched: at the faces less than 1.5 mm" in words
    assert "of wood is left square to the form" in words and "or more outside the form" not in words


def ringed(throat: float | None = None) -> Plan:
    """A round plate of radius 200, with a round hole of radius 60 in its blank."""
    hole = circle(120.0).outer
    turned = type(hole)(tuple((x, y, -b) for x, y, b in hole.points[::-1]))
    shape = Point(0, 0).buffer(196.0)
    layer = replace(layer_of(1, 0.0, 25.0, [shape] * 2), blank=(Outline(circle(400.0).outer, (turned,)),))
    plan = Plan("Plate", "mm", (stack_of("Plate", (layer,)),))
    return replace(plan, checks=room_checks(plan, BandSaw(throat=throat)))


def test_the_sheet_tells_how_the_blank_turns_at_the_saw() -> None:
    """Arithmetic: from the hole's line to the corner of the square, R·√2 − r = 282.84 − 60 = 222.84, up to 223 mm."""
    words = " ".join(said(sheets_of(ringed())[0])).replace("   ", " ")
    assert "the hole: the blank turned to the column (counter-clockwise" in words.replace("  ", " ")
    assert "223 mm of throat" in words.replace("  ", " ")
    assert "the saw has 300 mm" in " ".join(" ".join(said(sheets_of(ringed(300.0))[0])).split())
    short = " ".join(" ".join(said(sheets_of(ringed(200.0))[0])).split())
    assert "the saw has only 200 mm: bore and jigsaw the hole" in short


def test_usual_layers_have_their_tables_on_one_page() -> None:
    for plan, paper, units in ((worked_stand(), "A4", "mm"), (worked_stand("in"), "Letter", "in")):
        sheets = sheets_of(plan, paper, units)
        assert [s.layer for s in sheets] == [layer.number for stack in plan.stacks for layer in stack.layers]


def test_a_waste_tab_is_named_with_its_size_on_the_layer_sheet() -> None:
    tabs = (TabSettings((1,), -90.0, 60.0, 50.0), TabSettings((1,), 45.0, 40.0, 30.0))
    stack = plan_stack(solids.cylinder(80.0, 45.0), StackSettings(stock=(45.0,), tabs=tabs), name="Drum")
    plan = replace(plant_stand(), stacks=(stack,), joints=(), boards=None, bill=())
    (sheet,) = sheets_of(plan, "A3")
    words = said(sheet)
    assert words.count("tab: waste") == 2
    notes = " ".join(" ".join(words).split())
    assert "Waste tab 270° counter-clockwise from RIGHT, 60 mm wide, 50 mm out" in notes
    assert "Waste tab 45° counter-clockwise from RIGHT, 40 mm wide, 30 mm out" in notes
    assert "Leave them on for gluing and saw them off afterwards" in notes
    assert any(isinstance(m, Polyline) and m.pen == "tab" for m in sheet.marks)
    assert "tab" not in " ".join(said(sheets_of(plant_stand(), "A3")[0])).split()
