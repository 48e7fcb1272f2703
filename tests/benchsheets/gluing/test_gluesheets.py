# SPDX-License-Identifier: LGPL-2.1-or-later

"""The pages of the glue-up: all that the records say stands on them, to scale, and nothing on anything else.

Figures are checked by arithmetic written out beside each check: areas of discs and squares, parts of a bar.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import combinations
from math import hypot, pi

import numpy as np
import pytest
import shapely
from glued import PAD, clock_of, contact_of, glue_up, glued_stand
from plans import large_stack, layer_of, mortise, plant_stand, stack_of, worked_stand

from freecad_stacklam.benchsheets.book.whole import KINDS, drawing_book
from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.lettering import text_box, units_of
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.revision import plan_revision
from freecad_stacklam.benchsheets.drawing.sheet import Circle, FilledRegion, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.gluing.clampplan import _Plan, clamp_plan
from freecad_stacklam.benchsheets.gluing.clockbars import clock_bars, rows_of
from freecad_stacklam.benchsheets.gluing.gluesheets import glue_up_sheets
from freecad_stacklam.benchsheets.gluing.gluewords import clock_text, line_name, place_number, set_up_name
from freecad_stacklam.benchsheets.gluing.ordersheet import dry_run, most_at_once
from freecad_stacklam.benchsheets.gluing.runs import inner_jaw, meeting, parts_of, seat, tightened, triangle
from freecad_stacklam.benchsheets.gluing.sideview import side_view
from freecad_stacklam.benchsheets.gluing.spreadmaps import spread_maps
from freecad_stacklam.lamination.plan.gluing import JOINT, LAYERS, Clock, GlueUpPlan, SetUp
from freecad_stacklam.lamination.plan.insides import PinPlan
from freecad_stacklam.lamination.plan.layers import LeftOut
from freecad_stacklam.lamination.plan.whole import Plan

BOX = (20.0, 20.0, 200.0, 140.0)
EDGES_UP, LIDS, LOW, HIGH, JOIN, JOINED = glue_up().set_ups


@cache
def pages(paper: str = "A4", units: str = "mm") -> tuple[Sheet, ...]:
    return tuple(glue_up_sheets(book_of(glued_stand(), paper_named(paper), units)))


def said(sheets: tuple[Sheet, ...] | list[Sheet]) -> str:
    return " ".join(" ".join(m.text for s in sheets for m in s.marks if isinstance(m, Text)).split())


def of(set_up: SetUp, units: str = "mm") -> list[Sheet]:
    return [s for s in pages(units=units) if s.title.startswith(f"Glue-up {set_up.number}:")]


def squares(count: int) -> Plan:
    """A stack of `count` layers of 32 mm, of 206.4 mm square with a mortise of 40.2 mm square through them."""
    form = [shapely.box(-100.0, -100.0, 100.0, 100.0)] * 2
    layers = tuple(layer_of(i + 1, 32.0 * i, 32.0 * (i + 1), form, mortise(32.0 * i, 32.0 * (i + 1), 0.0, 32.0 * count))
                   for i in range(count))  # fmt: skip
    return Plan("Block", "mm", (stack_of("Block", layers),))


# --- all of it --------------------------------------------------------------------------------------------------------


def faults(sheet: Sheet) -> list[str]:
    """What leaves the printable page, and words that lie on words."""
    page = shapely.box(9.9, 9.2, sheet.paper[0] - 9.9, sheet.paper[1] - 9.9)
    words = [m for m in sheet.marks if isinstance(m, Text)]
    boxes = [text_box(m, room=-0.15) for m in words]
    found = [f"{m.text} leaves the page" for m, box in zip(words, boxes) if not page.contains(box)]
    one, other = shapely.STRtree(boxes).query(boxes, predicate="intersects")
    found += [f"{words[a].text} lies on {words[b].text}" for a, b in zip(one, other) if a < b]
    for mark in sheet.marks:
        if isinstance(mark, (Polyline, FilledRegion)):
            loops = mark.loops if isinstance(mark, FilledRegion) else (mark.points,)
            points = np.vstack([np.asarray(loop) for loop in loops])
            found += [] if page.covers(shapely.MultiPoint(points)) else ["a line leaves the page"]
        if isinstance(mark, Circle) and not page.contains(shapely.Point(mark.centre).buffer(mark.radius)):
            found.append("a circle leaves the page")
    return [f"{sheet.title}: {fault}" for fault in found]


@pytest.mark.parametrize(
    ("paper", "units"),
    [("A4", "mm"), ("Letter", "in"), ("A3", "mm"), ("Letter", "in/16+mm"), ("A4", "mm+in"), ("A2 landscape", "in/64")],
)
def test_nothing_lies_on_anything_else(paper: str, units: str) -> None:
    assert [fault for sheet in pages(paper, units) for fault in faults(sheet)] == []


def test_pages_stand_between_joints_and_carving_and_can_be_left_out() -> None:
    book = drawing_book(glued_stand(), paper_named("A4"))
    kinds = list(dict.fromkeys(s.kind for s in book))
    assert kinds.index("glue-up") == kinds.index("joint") + 1
    assert list(KINDS).index("glue-up") < list(KINDS).index("depth holes")
    titles = [s.title for s in book if s.kind == "glue-up"]
    assert titles[0] == "Glue-up: order and conditions" and titles[-1] == "Glue-up log"
    numbers = [int(t.split(":")[0].split()[-1]) for t in titles[1:-1]]
    assert numbers == sorted(numbers) and set(numbers) == set(range(1, 7))
    assert not [s for s in drawing_book(glued_stand(), paper_named("A4"), without=["glue-up"]) if s.kind == "glue-up"]
    for plan in (
        plant_stand(),
        replace(plant_stand(), glue_up=GlueUpPlan("glue", (1, 2, 3, 4), 20.0, (), (0, 0), True)),
    ):
        assert not [s for s in drawing_book(plan, paper_named("A4")) if s.kind == "glue-up"]


def test_the_contents_name_every_set_up_or_all_at_once() -> None:
    contents = said([s for s in drawing_book(glued_stand(), paper_named("A4")) if s.kind == "contents"])
    assert "Glue-up 3: Pedestal, layers 1 to 4" in contents or "Glue-up: order, set-ups, log" in contents
    many = replace(large_stack(60, 40, 150, 120), glue_up=glue_up())
    contents = said([s for s in drawing_book(many, paper_named("A4")) if s.kind == "contents"])
    assert "Glue-up: order, set-ups, log" in contents and "Glue-up 3" not in contents


def test_the_first_page_says_order_conditions_what_to_lay_out_and_the_dry_run() -> None:
    words = said([pages()[0]])
    for set_up in glue_up().set_ups:
        assert set_up_name(set_up) in words
    assert "CLOCK, CLAMPS" in words
    for condition in glue_up().conditions:
        assert condition.says in words
    assert "NO, do not glue yet" in words and words.index("NO –") < words.index("WAIT –") < words.index("go –")
    assert "feeler of 0.1 mm" in words and "0.004" in said([pages(units="in")[0]])  # 0.1 / 25.4 = 0.0039 in
    assert "4 waits for the glue; an order with 3 is not ruled out; no order has fewer set-ups" in words
    # 5.73 + 33.99 + … g: never less than the sum, from 100 g on to 1 g.
    assert f"{int(np.ceil(glue_up().glue))} g for all set-ups" in words
    assert "566 × 406 mm, 18 mm thick" in words and "middle higher by 1.2 mm" in words
    assert "19.5 kg to be moved" in words and "0.29" in words


def test_presses_of_one_round_are_counted_together() -> None:
    # Round 1: 12 + 8 long ones side by side; rounds 2 to 4 want 6, 6 and 2.
    most = most_at_once(glue_up().set_ups)
    assert {name: count for name, (count, *_) in most.items()} == {"bar clamp 600": 4, "bar clamp 1200": 20}
    assert most["bar clamp 1200"][2] == 540.0


def test_the_log_has_a_row_for_each_set_up_and_every_column() -> None:
    words = said([pages()[-1]])
    for column in ("date", "room", "°C", "%", "glue, batch", "spread", "clamped", "off"):
        assert column in words
    for set_up in glue_up().set_ups:
        assert set_up_name(set_up).split(",")[0].split("“")[0].strip() in words
    assert "°F" in said([pages("Letter", "in")[-1]])


def test_a_set_up_says_all_that_its_record_holds() -> None:
    words = said(of(JOIN))
    for told in (*(limit.says for limit in JOIN.limits), *JOIN.before, *JOIN.helps, *JOIN.cautions, JOIN.why):
        assert all(part in words for part in told.split()), told
    assert "DOES NOT HOLD: clock, clamps" in words and "over by 1 min 50 s" in words
    assert "1 to 4 (one piece), 5 to 8 (one piece), 9 and 10" in words
    assert "486 mm" in words and "15.3 kg" in words and "225 up, in mm" in words
    for pressure in JOIN.pressures:
        assert f"{pressure.mean:.2f} MPa" in words and f"{100 * pressure.reached:.0f} %" in words
    assert "1.00 to 1.50 MPa" in words
    # 4.67 kN are 1049.9 lbf (4.4482 N), 1 MPa is 145 psi.
    inches = said(of(JOIN, "in"))
    assert "1050 lbf" in inches and "145 to 218 psi" in inches and "oz" in inches and "34 lb" in inches
    assert "DOES NOT HOLD" not in said(of(LOW))


def test_names_of_set_ups_and_lines() -> None:
    assert [set_up_name(s) for s in (EDGES_UP, LOW, JOINED)] == [
        "Pedestal, layer 2: 3 staves", "Pedestal, layers 1 to 4", "joint “Pedestal to top”"]  # fmt: skip
    assert [line_name(s, 4) for s in (EDGES_UP, LOW, JOINED)] == ["seam 4", "4 | 5", "its walls"]
    assert [clock_text(t) for t in (0.0, 65.0, 3599.6, 3725.0)] == ["0:00", "1:05", "1:00:00", "1:02:05"]


# --- where pads sit ---------------------------------------------------------------------------------------------------


def test_pads_are_tightened_from_the_middle_outwards_each_once() -> None:
    for set_up in (LIDS, LOW, JOIN):
        order = tightened(set_up)
        assert sorted(p.at for p in order) == sorted(p.at for p in set_up.places)
        far = [hypot(*p.at) for p in order]
        assert all(b > a - PAD / 2 - 1e-9 for a, b in zip(far, far[1:]))
    first, second = tightened(LIDS)[:2]
    assert np.dot(first.at, second.at) < 0.0, "the second stands across from the first"
    assert tightened(replace(LIDS, places=())) == ()


@pytest.mark.parametrize(
    "set_up", [LIDS, LOW, HIGH, JOIN, replace(HIGH, places=(replace(HIGH.places[0], at=(0.0, 0.0)),))]
)
def test_pads_are_drawn_to_scale_where_the_table_says(set_up: SetUp) -> None:
    picture = clamp_plan(glued_stand(), set_up, BOX)
    cross = [m for m in picture.marks if isinstance(m, Polyline) and m.pen == "thin" and len(m.points) == 2]
    x, y = np.mean([p for m in cross for p in m.points], axis=0)
    circles = [m for m in picture.marks if isinstance(m, Circle)]
    pads = shapely.union_all([shapely.Point(m.centre).buffer(m.radius) for m in circles])
    assert not any(shapely.LineString(m.points).intersects(pads) for m in cross), "numbers stand clear of the cross"
    order = tightened(set_up)
    assert len(circles) == len(order)
    for circle, place in zip(circles, order, strict=True):
        assert circle.radius * picture.n == pytest.approx(PAD / 2)
        assert (np.array(circle.centre) - (x, y)) * picture.n == pytest.approx(place.at, abs=1e-6)
    numbers = {m.text: m.at for m in picture.marks if isinstance(m, Text) and m.text.isdigit()}
    assert set(numbers) == {str(i) for i in range(1, len(order) + 1)}
    words = said(of(set_up))
    for place in order:
        assert str(round(place.at[0])) in words


def test_missed_areas_are_hatched_and_pads_sit_on_wood_above_and_below() -> None:
    def hatch(set_up: SetUp) -> float:
        marks = clamp_plan(glued_stand(), set_up, BOX).marks
        return sum(
            shapely.LineString(m.points).length for m in marks if isinstance(m, Polyline) and m.pen == "little wood"
        )

    assert hatch(LIDS) > 100.0 and hatch(replace(LIDS, pressures=())) == 0.0
    plan = squares(3)
    run = SetUp(1, 1, LAYERS, "Block", 1, 3, ((1, 1), (2, 2), (3, 3)), (1, 2), Clock(1, 1, 0, 0), 1.0, 1.0)
    # 206.4² less 40.2²: the allowance and guard are 3.2 mm on each side; corners are rounded by that.
    square = 206.4**2 - (4 - pi) * 3.2**2 - 40.2**2
    assert seat(parts_of(plan.stacks[0], run)).area == pytest.approx(square, rel=1e-4)


def test_a_jaw_on_a_step_inside_the_run_is_named() -> None:
    stack = glued_stand().stacks[0]
    place = JOIN.places[0]
    assert inner_jaw(stack, JOIN, place) == ""
    assert inner_jaw(stack, JOIN, replace(place, foot=stack.layers[3].bottom)) == "jaws on 4 and 10"
    changed = replace(JOIN, places=(replace(place, head=stack.layers[6].top), *JOIN.places[1:]))
    plan = replace(glued_stand(), glue_up=replace(glue_up(), set_ups=(changed,)))
    assert "jaws on 1 and 7" in said(glue_up_sheets(book_of(plan, paper_named("A4"))))


# --- where glue goes --------------------------------------------------------------------------------------------------


def test_glue_is_spread_where_layers_meet_and_mortises_stay_free() -> None:
    plan = squares(2)
    contact, free = meeting(*plan.stacks[0].layers)
    assert free.area == pytest.approx(40.2**2)
    assert contact.area == pytest.approx(206.4**2 - (4 - pi) * 3.2**2 - 40.2**2, rel=1e-4)
    stand = worked_stand().stacks[0]
    for line in range(1, 10):
        assert meeting(stand.layers[line - 1], stand.layers[line])[0].area == pytest.approx(
            contact_of(stand, line).area
        )


def test_without_pins_the_dry_run_says_how_layers_are_kept_from_sliding() -> None:
    plan = glued_stand()
    pinned, bare = (replace(plan, stacks=tuple(replace(s, pins=pins) for s in plan.stacks))
                    for pins in ((PinPlan(1, (0.0, 0.0), 8.0, 12.0, 12.0, 10.0),), ()))  # fmt: skip
    assert "Set the pins dry" in " ".join(dry_run(pinned, units_of("mm")))
    told = " ".join(dry_run(bare, units_of("mm")))
    assert "Set the pins dry" not in told and "brads clipped short" in told and "Pedestal" in told


def test_a_map_for_every_line_with_its_area_and_glue() -> None:
    picture = spread_maps(glued_stand(), LOW, units_of("mm"), BOX)
    words = [m.text for m in picture.marks if isinstance(m, Text)]
    for pressure in LOW.pressures:
        grams = f"{pressure.area * 180e-6 * 1.15:.1f}"
        assert line_name(LOW, pressure.lower) in words
        assert f"{pressure.area / 100:.0f} cm², {grams} g" in words
    pins = [m for m in picture.marks if isinstance(m, Polyline) and m.pen == "mortise"]
    assert len(pins) == 2, "the two pins of line 3 are kept free"
    assert spread_maps(glued_stand(), JOINED, units_of("mm"), BOX).marks == ()
    assert spread_maps(glued_stand(), replace(LOW, stack="None such"), units_of("mm"), BOX).marks == ()


def test_what_could_not_be_planned_is_said_first() -> None:
    left = LeftOut("glue-up of Top", "The press opens 300 mm: take a taller one.")
    plan = replace(glued_stand(), glue_up=replace(glue_up(), left_out=(left,)))
    words = said([glue_up_sheets(book_of(plan, paper_named("A4")))[0]])
    assert words.index("NOT PLANNED") < words.index(left.says) < words.index("Order:")


def test_clamps_across_seams_reach_from_jaw_to_jaw() -> None:
    picture = clamp_plan(glued_stand(), EDGES_UP, BOX)
    bars = [m for m in picture.marks if isinstance(m, Polyline) and m.pen == "mortise hidden"]
    assert len(bars) == len(EDGES_UP.places)
    for bar, place in zip(bars, tightened(EDGES_UP), strict=True):
        long = hypot(*np.subtract(bar.points[1], bar.points[0])) - 4.0  # 2 mm of paper past each jaw
        assert long * picture.n == pytest.approx(place.head - place.foot)
    rings = [shapely.Point(m.centre).buffer(m.radius) for m in picture.marks if isinstance(m, Circle)]
    assert len(rings) == len(bars)
    close = tuple(replace(EDGES_UP.places[0], at=(16.0, 60.0 - 20.0 * i)) for i in range(6))
    crowded = clamp_plan(glued_stand(), replace(EDGES_UP, places=close), BOX)
    for drawn in (picture, crowded):
        rings = [shapely.Point(m.centre).buffer(m.radius) for m in drawn.marks if isinstance(m, Circle)]
        assert not [1 for a, b in combinations(rings, 2) if a.intersects(b)], "numbers stand clear of each other"
        assert all(BOX[0] <= r.bounds[0] and r.bounds[2] <= BOX[2] and r.bounds[3] <= BOX[3] for r in rings)
    seams = [m for m in picture.marks if isinstance(m, Polyline) and m.pen == "cut"]
    assert len(seams) == 2, "three staves have two seams"


def test_both_faces_are_named_where_the_glue_wants_them() -> None:
    plan = replace(glued_stand(), glue_up=replace(glue_up(), faces=2))
    assert "Glue on both faces" in said(glue_up_sheets(book_of(plan, paper_named("A4"))))
    # Below: what stands on every page with a spread map.
    assert "Glue on the upper face of what lies below" in said(pages())


# --- what goes on what ------------------------------------------------------------------------------------------------


def test_the_side_view_draws_every_layer_glue_and_the_triangle() -> None:
    stack = glued_stand().stacks[0]
    picture = side_view(glued_stand(), JOIN, BOX)
    words = [m.text for m in picture.marks if isinstance(m, Text)]
    assert {str(i) for i in range(1, 11)} <= set(words) and {"4 | 5", "8 | 9", "9 | 10", "UP"} <= set(words)
    glue = [m for m in picture.marks if isinstance(m, Polyline) and m.pen == "cut"]
    widths = [abs(m.points[1][0] - m.points[0][0]) * picture.n for m in glue]
    bounds = [contact_of(stack, line).bounds for line in JOIN.lines]
    assert widths == pytest.approx([b[2] - b[0] for b in bounds], abs=0.01)
    heights = [m.points[0][1] for m in glue]
    assert heights == sorted(heights)
    for layer in stack.layers:
        part = shapely.intersection(triangle(stack), shapely.box(-500.0, layer.bottom, 500.0, layer.top))
        assert part.length > layer.thickness, f"layer {layer.number} bears none of the triangle"


# --- the clock --------------------------------------------------------------------------------------------------------


def test_bars_are_as_long_as_their_times() -> None:
    marks = clock_bars(LOW, BOX)
    frames = [m for m in marks if isinstance(m, Polyline) and m.closed and m.pen == "mortise"]
    assembly, opened = (float(np.ptp(np.asarray(m.points)[:, 0])) for m in frames)
    assert opened / assembly == pytest.approx(8 / 15)  # 8 min of 15
    black = [float(np.ptp(np.asarray(m.loops[0])[:, 0])) for m in marks if isinstance(m, FilledRegion)]
    assert black[0] / assembly == pytest.approx(LOW.clock.to_pressure / 900.0)
    assert black[1] / assembly == pytest.approx(LOW.clock.to_contact / 900.0)
    spread = [m for m in LOW.clock.moves if m.what == "spread"]
    assert [b / assembly * 900.0 for b in black[2 : 2 + len(spread)]] == pytest.approx([m.takes for m in spread])
    assert [name for name, _ in rows_of(LOW)] == ["1 | 2", "2 | 3", "3 | 4", "tighten"]
    assert clock_bars(replace(LOW, clock=Clock(0.0, 0.0, 0.0, 0.0)), BOX) == []


@pytest.mark.parametrize("layers", [14, 30, 60])
def test_a_long_run_and_one_without_figures_are_drawn_too(layers: int) -> None:
    plan = squares(layers)
    lines = tuple(range(1, layers))
    clock = clock_of([4e4] * len(lines), lines, 24)
    joins = tuple((i, i) for i in range(1, layers + 1))
    told = ("The clock gives no more. " * 6,) * 5
    bare = SetUp(1, 1, LAYERS, "Block", 1, layers, joins, lines, clock, 50.0, 5e5, before=told, cautions=told)
    lone = SetUp(2, 2, JOINT, "Block", 1, 1, (), (), Clock(60.0, 90.0, 30.0, 40.0), 5.0, 1e4, joint="None such")
    made = GlueUpPlan("glue", (60.0, 90.0, 3600.0, 86400.0), 20.0, (bare, lone), (2, 2), False)
    sheets = glue_up_sheets(book_of(replace(plan, glue_up=made), paper_named("Letter"), "in+mm"))
    words = said(sheets)
    assert f"{layers - 1} | {layers}" in words and "joint “None such”" in words
    assert "2 waits for the glue, and no order needs fewer; an order with fewer set-ups is not ruled out" in words
    assert sum(any(isinstance(m, Text) and m.text == "Time" for m in s.marks) for s in sheets) == 1
    assert [fault for sheet in sheets for fault in faults(sheet)] == []


def test_names_of_any_length_and_pads_too_small_for_their_numbers_stay_on_the_page() -> None:
    name = "An armchair whose name is as long as a maker may ever think of typing"
    stand = glued_stand()
    pads = tuple(replace(p, press="heavy bar clamp with deep throat, 1200 mm", pad=8.0) for p in LIDS.places)
    lids = replace(LIDS, stack=name, places=pads)
    top = replace(stand.stacks[1], name=name)
    plan = replace(stand, stacks=(stand.stacks[0], top), glue_up=replace(glue_up(), set_ups=(lids, JOIN)))
    sheets = glue_up_sheets(book_of(plan, paper_named("A4"), "mm+in"))
    assert [fault for sheet in sheets for fault in faults(sheet)] == []
    assert len([s for s in sheets if s.stack == name]) >= 2, "small pads want a larger plan, on a page of its own"


def test_pages_of_two_glue_ups_bear_different_revisions() -> None:
    marks = {plan_revision(worked_stand()), plan_revision(glued_stand())}
    for changed in (replace(LOW, places=LOW.places[1:]), replace(LOW, clock=replace(LOW.clock, assembly_limit=600.0))):
        marks.add(plan_revision(replace(glued_stand(), glue_up=replace(glue_up(), set_ups=(changed,)))))
    assert len(marks) == 4
    assert plan_revision(glued_stand()) == plan_revision(replace(glued_stand(), glue_up=replace(glue_up(), notes=())))


def test_parts_that_touch_are_a_shape_on_the_page_too() -> None:
    """The second triangle's corner lies at a third of the first one's edge, 2, −19 to −7, 4 and round; at a fifth of
    the size it is rounded into it, and no shape could be taken away from both."""
    first = shapely.Polygon([(-7, 4), (2, -19), (20.5, 1.5)])
    corner = (-7 + 9 / 3, 4 - 23 / 3)
    touching = shapely.MultiPolygon([first, shapely.Polygon([corner, (-26.1, -14.966666666666669),
                                                             (-27.9, -10.366666666666667)])])  # fmt: skip
    drawn = _Plan((-150.0, -150.0, 150.0, 150.0), BOX)
    drawn.n, drawn.x, drawn.y = 5, 105.98963169901715, 102.72289802866784
    assert touching.is_valid
    shape = drawn.shape(touching)
    assert shape.is_valid
    assert shape.area == pytest.approx(touching.area / 25, rel=1e-9)


@pytest.mark.parametrize(
    ("units", "told"),
    [("mm", ("-88", "0", "13")), ("in", ("-3-7/16", "0", "1/2")), ("mm+in", ("-88 [-3-7/16]", "0 [0]", "13 [1/2]"))],
)
def test_places_of_pads_are_told_as_finely_as_they_are_met(units: str, told: tuple[str, ...]) -> None:
    """To 1 mm, and to 1/16 in: -87.6 mm are -3.449 in, 3-7/16 is 3.4375; 12.7 mm are half an inch."""
    assert tuple(place_number(v, units_of(units)) for v in (-87.6, -0.2, 12.7)) == told
