# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a maker must find on a layer's pages, and that nothing on them is illegible."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
import shapely
import solids
from plans import legs, plant_stand, stack_of, worked_stand
from sheetsof import template_sheets

from freecad_stacklam.benchsheets.book.contents import LINE_KINDS
from freecad_stacklam.benchsheets.drawing.lettering import text_box
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.revision import plan_revision
from freecad_stacklam.benchsheets.drawing.sheet import PENS, FilledRegion, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.layers.layerdrawing import draw_layers
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.layers import LeastWood, ThinZone
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.stack import StackSettings, TabSettings

PAPERS = [("A4", "mm"), ("Letter", "in"), ("A3", "mm"), ("roll 610mm", "mm")]


def texts(sheet: Sheet) -> list[Text]:
    return [m for m in sheet.marks if isinstance(m, Text)]


def lines(sheet: Sheet, *pens: str) -> shapely.MultiLineString:
    return shapely.MultiLineString(
        [np.asarray(m.points) for m in sheet.marks if isinstance(m, Polyline) and m.pen in pens]
    )


def of_layer(sheets: tuple[Sheet, ...], stack: str, number: int) -> list[Sheet]:
    return [s for s in sheets if (s.stack, s.layer) == (stack, number)]


@pytest.mark.parametrize("plan", [plant_stand(), legs()], ids=["stand", "legs"])
@pytest.mark.parametrize(("paper", "units"), PAPERS)
def test_every_text_can_be_read(plan: Plan, paper: str, units: str) -> None:
    for sheet in template_sheets(plan, paper_named(paper), units):
        margin = paper_named(paper).margin
        page = shapely.box(margin - 0.1, margin - 0.8, sheet.paper[0] - margin + 0.1, sheet.paper[1] - margin + 0.1)
        boxes = [(t.text, text_box(t, room=-0.15)) for t in texts(sheet)]
        for words, box in boxes:
            assert page.contains(box), f"“{words}” leaves the page of {sheet.title}"
        for (a, box_a), (b, box_b) in combinations(boxes, 2):
            assert not box_a.intersects(box_b), f"“{a}” lies on “{b}” in {sheet.title}"
        drawn = lines(sheet, "cut", "finished", "hidden", "next", "mortise", "mortise hidden")
        for words, box in boxes:
            if "joins here" not in words:  # these are trimmed away
                assert not box.intersects(shapely.intersection(drawn, shapely.box(0, 46, *sheet.paper))), (
                    f"a line runs through “{words}” in {sheet.title}"
                )


@pytest.mark.parametrize(("paper", "units"), PAPERS)
def test_a_layer_can_be_built_from_its_pages(paper: str, units: str) -> None:
    plan = plant_stand(units)
    sheets = template_sheets(plan, paper_named(paper), units)
    mark = plan_revision(plan)
    for stack in plan.stacks:
        for layer in stack.layers:
            pages = of_layer(sheets, stack.name, layer.number)
            on_wood = [t.text for page in pages for t in texts(page)]
            for words in ("THIS FACE UP", "FRONT", "RIGHT", "grain", "axis", str(layer.number)):
                assert words in on_wood
            assert len({p.tile for p in pages}) == len(pages)
            for page in pages:
                said = "\n".join(t.text for t in texts(page))
                heights = {("Pedestal", 3, "mm"): "90 to 135 mm", ("Pedestal", 3, "in"): "3-17/32 to 5-5/16 in"}
                wanted = heights.get((stack.name, layer.number, units), "Height")
                always = ("Print at 100 % / actual size.", "Measure the check scales before cutting.", "100 mm", "4 in")
                for words in (*always, wanted, mark, "white oak", page.tile, "cut here", f"part {stack.name}"):
                    assert words in said
                assert sum(m.pen == "cut" for m in page.marks if isinstance(m, Polyline)) >= 1
            depth = {("Pedestal", 9): "from the top, ", ("Pedestal", 10): "through this layer", ("Top", 1): "through"}
            if (stack.name, layer.number) in depth:
                labels = [t.text for page in pages for t in texts(page) if t.at[1] > 50]
                assert any(depth[stack.name, layer.number] in text for text in labels)
    thirty = {"mm": "from the top, 30 mm deep", "in": "from the top, 1-3/16 in deep"}[units]
    assert any(thirty in t.text for page in of_layer(sheets, "Pedestal", 9) for t in texts(page))


@pytest.mark.parametrize(("paper", "units"), PAPERS)
def test_front_and_right_are_handed(paper: str, units: str) -> None:
    """FRONT is the −y side of the stack and RIGHT its +x side, whichever way the page lies."""
    plan = plant_stand()
    sheets = template_sheets(plan, paper_named(paper), units)
    for stack in plan.stacks:
        for layer in stack.layers:
            right = area_polygon(layer.blank).bounds[2]
            fronts, rights = [], []
            for page in of_layer(sheets, stack.name, layer.number):
                for m in page.marks:
                    if isinstance(m, FilledRegion) and len(m.loops[0]) == 3:
                        tip, *base = (page.to_stack(*p) for p in m.loops[0])
                        if np.hypot(*np.subtract(*base)) == pytest.approx(7.0):
                            fronts.append((tip, base))
                    if isinstance(m, Polyline) and m.closed and len(m.points) == 3:
                        rights.append(page.to_stack(*m.points[0]))
            assert fronts and rights
            boundary = shapely.boundary(area_polygon(layer.blank))
            for tip, base in fronts:
                assert tip[0] == pytest.approx(0.0, abs=1e-6)
                assert tip[1] < base[0][1] < 0
                assert boundary.distance(shapely.Point(tip)) <= 1.01
            for tip in rights:
                assert tip[1] == pytest.approx(0.0, abs=1e-6)
                assert tip[0] > 0.9 * right - 2


def test_where_a_page_lies_is_what_it_draws() -> None:
    plan = plant_stand()
    for paper in ("A4", "roll 610mm"):
        for sheet in template_sheets(plan, paper_named(paper)):
            layer = next(s for s in plan.stacks if s.name == sheet.stack).layers[(sheet.layer or 0) - 1]
            boundary = shapely.boundary(area_polygon(layer.blank))
            cut = [m for m in sheet.marks if isinstance(m, Polyline) and m.pen == "cut" and len(m.points) > 2]
            assert cut
            for mark in cut:
                back = shapely.points([sheet.to_stack(*p) for p in mark.points])
                assert shapely.distance(boundary, back).max() < 1e-6


def test_islands_are_told_apart() -> None:
    sheets = template_sheets(legs(), paper_named("A4"))
    said = [t.text for s in of_layer(sheets, "Legs", 1) for t in texts(s)]
    assert {"1a", "1b", "1c", "1d"} <= set(said)
    assert said.count("FRONT") >= 4


def test_line_kinds_differ() -> None:
    """ISO 128: wide to narrow is 2:1, and kinds of one width differ in their dashes."""
    assert PENS["cut"].width == 2 * PENS["finished"].width == 2 * PENS["mortise"].width == 0.7
    assert not PENS["cut"].dashes
    assert len({(p.width, p.dashes) for name, p in PENS.items() if name not in ("thin", "fine", "little wood")}) == 11
    # Long-dash double-dot: one long dash and two dots; long-dash dot: one of each; dashed: one dash.
    assert [len(PENS[name].dashes) for name in ("finished", "centre", "hidden")] == [6, 4, 2]


def test_the_mark_follows_the_geometry_alone() -> None:
    plan = plant_stand()
    assert (
        plan_revision(plan)
        == plan_revision(replace(plan, title="Other", author="Other", date=""))
        == plan_revision(plant_stand())
    )
    assert re.fullmatch(r"[0-9a-f]{4}-[0-9a-f]{4}", plan_revision(plan))  # read out loud in two groups
    first = plan.stacks[0]
    thicker = replace(first.layers[0], top=first.layers[0].top + 0.5)
    changed = replace(plan, stacks=(stack_of(first.name, (thicker, *first.layers[1:])), *plan.stacks[1:]))
    assert plan_revision(changed) != plan_revision(plan)
    worked = worked_stand()
    other = replace(worked.joints[0], tenon=replace(worked.joints[0].tenon, length=131.0))
    assert plan_revision(replace(worked, joints=(other,))) != plan_revision(worked)
    uncut = replace(first.layers[-1], cuts=())
    changed = replace(plan, stacks=(stack_of(first.name, (*first.layers[:-1], uncut)), *plan.stacks[1:]))
    assert plan_revision(changed) != plan_revision(plan)


def test_a_cut_from_below_is_hidden_and_says_so() -> None:
    plan = plant_stand()
    top = plan.stacks[1]
    cut = replace(top.layers[0].cuts[0], end=18.0)
    plan = replace(plan, stacks=(stack_of("Top", (replace(top.layers[0], cuts=(cut,)), top.layers[1])),))
    pages = of_layer(template_sheets(plan, paper_named("A4")), "Top", 1)
    said = [t.text for p in pages for t in texts(p)]
    assert "from the UNDERSIDE, 18 mm deep" in said
    pens = {m.pen for p in pages for m in p.marks if isinstance(m, Polyline)}
    assert "mortise hidden" in pens
    assert "mortise" not in pens


def test_a_form_that_ends_inside_its_last_layer_is_still_shown() -> None:
    plan = plant_stand()
    top = plan.stacks[1]
    last = replace(top.layers[1], finished_top=shapely.MultiPolygon())
    plan = replace(plan, stacks=(stack_of("Top", (top.layers[0], last)),))
    pages = of_layer(template_sheets(plan, paper_named("A4")), "Top", 2)
    assert any("finished, widest in this layer" in t.text for t in texts(pages[0]))
    shown = [m for p in pages for m in p.marks if isinstance(m, Polyline) and m.pen == "finished" and len(m.points) > 2]
    assert shown


def test_every_cut_is_lettered_on_its_template() -> None:
    plan = worked_stand()
    sheets = template_sheets(plan, paper_named("A4"))
    for number, letters in ((3, "AB"), (5, "A"), (9, "A")):
        words = [t.text for page in of_layer(sheets, "Pedestal", number) for t in texts(page)]
        for letter in letters:
            assert any(w == letter or w.startswith(f"{letter}: ") for w in words)
    words = [t.text for page in of_layer(sheets, "Pedestal", 3) for t in texts(page)]
    assert "A: pin Ø 10" in words
    assert "from the top, 12 mm deep" in words
    pens = {m.pen for page in of_layer(sheets, "Pedestal", 2) for m in page.marks if isinstance(m, Polyline)}
    assert "seam" in pens


def test_the_outermost_line_is_the_one_to_saw() -> None:
    """The edge of the next layer is drawn on the wood alone, though that layer stands out over this one."""
    plan = plant_stand()
    stack = plan.stacks[0]
    wider = replace(stack, layers=(replace(stack.layers[1], number=1), replace(stack.layers[0], number=2)))
    for drawing in draw_layers(plan, wider):
        wood = drawing.blank.buffer(1e-9)
        for pen, lines in drawing.lines:
            assert pen in ("centre", "fine") or wood.contains(lines), pen
    narrower = draw_layers(plan, stack)[0]
    drawn = next(lines for pen, lines in narrower.lines if pen == "next")
    assert drawn.length == pytest.approx(area_polygon(stack.layers[1].blank).length, rel=1e-3)


def test_little_wood_is_hatched_and_told() -> None:
    """The zones of a layer are hatched where they lie, and the strip, the note and the lines page have their words."""
    plan = plant_stand()
    stack = plan.stacks[0]
    zone = area_polygon(stack.layers[0].blank) - area_polygon(stack.layers[0].blank).buffer(-12.0)
    thin = replace(stack.layers[0], thin=(ThinZone(1, zone),))
    least = LeastWood(1.0, (0.0, 0.0, 40.0), "step", 1, 1, 1.5)
    proof = replace(stack.containment, least_wood=least)
    told = replace(stack, layers=(thin, *stack.layers[1:]), containment=proof)
    changed = replace(plan, stacks=(told, *plan.stacks[1:]))
    drawing = draw_layers(changed, told)[0]
    strokes = next(lines for pen, lines in drawing.lines if pen == "little wood")
    assert zone.buffer(0.03).contains(strokes) and strokes.length > 100.0
    pages = [s for s in template_sheets(changed, paper_named("A4"), "mm") if (s.stack, s.layer) == (told.name, 1)]
    assert any(m.pen == "little wood" for s in pages for m in s.marks if isinstance(m, Polyline))
    assert all("under 1.5 mm wood here" in [t.text for t in texts(s)] for s in pages if s.kind == "template")
    assert "little wood" in [pen for pen, _ in LINE_KINDS]
    assert "little wood" not in {pen for pen, _ in draw_layers(plan, stack)[0].lines}


def tabbed(direction: float, out: float) -> Plan:
    """A drum of one layer, radius 80, its allowance 3 mm and guard 0.2 mm, with a tab 70 mm wide."""
    tab = TabSettings((1,), direction, 70.0, out)
    stack = plan_stack(solids.cylinder(80.0, 45.0), StackSettings(stock=(45.0,), tabs=(tab,)), name="Drum")
    return replace(plant_stand(), stacks=(stack,), joints=(), boards=None, bill=())


@pytest.mark.parametrize(("direction", "out"), [(0.0, 60.0), (180.0, 22.0), (37.0, 14.0)])
def test_a_tab_says_that_it_is_waste_and_where_it_comes_off(direction: float, out: float) -> None:
    plan = tabbed(direction, out)
    (layer,) = plan.stacks[0].layers
    (sheet,) = of_layer(template_sheets(plan, paper_named("A3")), "Drum", 1)
    said = texts(sheet)
    (first,) = [t for t in said if t.text == "tab: waste"]
    assert [t.text for t in said if t.text in ("saw off after gluing", "saw off")]
    assert "tab: saw off after gluing" in [t.text for t in said]
    # On the tab, or beside the wood with a leader: off the round blank, whose radius is 83.2 mm (80 + 3 + 0.2).
    box = shapely.transform(text_box(first), lambda at: np.array([sheet.to_stack(*p) for p in at]))
    on_tab = shapely.contains(layer.tabs[0].area, box)
    leaders = [np.asarray(m.points) for m in sheet.marks if isinstance(m, Polyline) and m.pen == "fine"]
    ends = [shapely.Point(sheet.to_stack(*at)) for points in leaders for at in (points[0], points[-1])]
    assert on_tab or any(shapely.distance(end, shapely.boundary(layer.tabs[0].area)) < 0.1 for end in ends)
    assert on_tab or out < 40.0
    # The line to saw on is the round blank's own edge, in its kind of line, from the one side of the tab to the other.
    points = [sheet.to_stack(*p) for m in sheet.marks if isinstance(m, Polyline) and m.pen == "tab" for p in m.points
              if m.points is not None and len(m.points) > 2]  # fmt: skip
    assert np.hypot(*np.array(points).T) == pytest.approx(83.2, abs=0.15)
    wide = np.ptp(np.array(points) @ np.array([-np.sin(np.radians(direction)), np.cos(np.radians(direction))]))
    assert 70.0 < wide < 70.0 + 2 * 16.1  # and under both fillets of radius 16
    assert PENS["tab"].dashes and "tab" in [pen for pen, _ in LINE_KINDS]
