# SPDX-License-Identifier: LGPL-2.1-or-later

"""How the blade gets into a void: against outlines in closed form and shapely's own distances."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import shapely
import solids
from plans import layer_of

from freecad_stacklam.lamination.inside.checks import hollow_checks, pin_checks
from freecad_stacklam.lamination.inside.hollow import hollow_stack
from freecad_stacklam.lamination.inside.pins import pin_stack
from freecad_stacklam.lamination.inside.waysin import KERF_ROOM, kerfs_of, ring_ways, ways_in
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.areas import blank_area, cut_plan
from freecad_stacklam.lamination.plan.layers import Cut
from freecad_stacklam.lamination.plan.outline import circle
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.stack import StackSettings


def hollowed(grain=0.0, radius=120.0, **asked):
    mesh = solids.cylinder(radius, 225)
    plan = plan_stack(mesh, StackSettings(stock=(45.0,), allowance=3.0, grain=grain), name="Piece")
    return hollow_stack(plan, mesh, HollowSettings(**{"wall": 40.0, "caps": 1, **asked}), grain)


@pytest.mark.parametrize("grain", [0.0, 30.0, 90.0])
def test_a_kerf_runs_along_the_grain_through_plain_wood(grain):
    stack = hollowed(grain)
    ways = stack.hollow.ways_in
    assert [w.layer for w in ways] == [2, 3, 4]
    along = np.array([np.cos(np.radians(grain)), np.sin(np.radians(grain))])
    for way in ways:
        layer = stack.layers[way.layer - 1]
        line = shapely.LineString([way.start, way.end])
        run = np.subtract(way.end, way.start)
        assert abs(run @ along) == pytest.approx(way.length)
        void = cut_plan(layer.cuts[0])
        assert shapely.Point(way.start).distance(blank_area(layer.blank).boundary) < 0.01
        assert shapely.Point(way.end).distance(void.boundary) < 0.01
        assert line.intersection(void).length < 0.01
        # Concentric circles: the way along a radius is the shortest, allowance 3 and wall 40 with their guards.
        assert 43.0 <= way.length <= 44.5
        assert way.around == pytest.approx(void.exterior.length)


def test_a_kerf_goes_round_a_mortise_and_else_gives_way_to_a_hole():
    stack = hollowed()
    layer = stack.layers[2]
    asked = HollowSettings(wall=40.0, caps=1)
    blocked = replace(layer, cuts=(*layer.cuts, Cut("mortise", circle(20.0, (100.0, 0.0)), layer.bottom, layer.top)))
    two = replace(stack, layers=(*stack.layers[:2], blocked, *stack.layers[3:]))
    (way,) = [w for w in ways_in(two, asked) if w.layer == 3]
    assert way.kind == "kerf"
    line = shapely.LineString([way.start, way.end])
    assert line.distance(cut_plan(blocked.cuts[-1])) >= asked.margin - 0.1
    ring = [Cut("mortise", circle(30.0, (95.0 * c, 95.0 * s)), layer.bottom, layer.top)
            for c, s in ((np.cos(a), np.sin(a)) for a in np.radians(np.arange(0, 360, 15)))]  # fmt: skip
    closed = replace(stack, layers=(*stack.layers[:2], replace(layer, cuts=(*layer.cuts, *ring)), *stack.layers[3:]))
    (way,) = [w for w in ways_in(closed, asked) if w.layer == 3]
    assert way.kind == "bored hole"


def test_a_hole_for_the_blade_lies_wholly_in_the_waste():
    stack = hollowed(way_in="bored hole", way_in_bit=14.0)
    for way in stack.hollow.ways_in:
        assert (way.kind, way.bit, way.length) == ("bored hole", 14.0, 0.0)
        void = cut_plan(stack.layers[way.layer - 1].cuts[0])
        # 2 mm off the line, so that no trace stays; and near it, so that little waste is sawn.
        assert 2.0 - 0.02 <= void.exterior.distance(shapely.Point(way.start)) - 7.0 <= 2.2
    with pytest.raises(Refusal, match="wider than the narrowest void"):
        HollowSettings(way_in="bored hole", way_in_bit=40.0).check()


def test_a_vent_is_no_void_to_saw():
    assert [w.layer for w in hollowed(vent=8.0).hollow.ways_in] == [2, 3, 4]


@pytest.mark.parametrize(("units", "unit"), [("mm", " l "), ("in", " in³ ")])
def test_whether_it_is_worth_the_cuts(units, unit):
    stack = hollowed()
    checks = {c.name: c for c in hollow_checks(stack, {}, units=units)}
    good = checks["Piece: what hollowing saves"]
    # A void of radius about 80 - 0.2, 45 high: π · 79.8² · 45 = 0.90 litres.
    assert good.verdict == "ok"
    assert good.figure == pytest.approx(np.pi * 79.8**2 * 45e-6, rel=0.01)
    assert "3 voids to saw, 3 kerfs to glue again" in good.says
    assert unit in good.says.replace(",", " ")
    assert (" mm" in good.says) == (units == "mm")
    poor = {c.name: c for c in hollow_checks(hollowed(cut_worth=1e6), {}, units=units)}["Piece: what hollowing saves"]
    assert poor.verdict == "caution"
    assert "leave it solid" in poor.says


@pytest.mark.parametrize("grain", [0.0, 90.0])
def test_pins_keep_off_the_kerfs_of_both_their_layers(grain):
    """Walls of 40 mm and pins of 8 mm with a margin of 14: the ring that is left for centres is 2 mm wide, and where a
    kerf crosses it a hole would open the glued kerf. Without kerfs the pins stand there."""
    mesh = solids.cylinder(120.0, 225)
    asked = PinSettings(diameter=8.0, depth=10.0, margin=14.0, waste=True)
    for way in ("kerf", "bored hole"):
        stack = pin_stack(hollowed(grain, way_in=way), mesh, asked)
        for pin in stack.pins:
            kerfs = kerfs_of(stack, (pin.interface, pin.interface + 1))
            assert bool(kerfs) == (way == "kerf")
            for kerf in kerfs:
                assert kerf.distance(shapely.Point(pin.centre)) >= pin.radius_above + 3.0 - 1e-6
        assert not any("kerfs" in check.name for check in pin_checks(stack))


def test_a_pin_set_by_hand_on_a_kerf_is_judged():
    stack = hollowed()
    way = stack.hollow.ways_in[0]
    x, y = np.add(way.start, way.end) / 2
    mesh = solids.cylinder(120.0, 225)
    on = pin_stack(stack, mesh, PinSettings(diameter=8.0, depth=10.0, at=((2.0, x, y), (2.0, 0.0, 100.0))))
    (said,) = [check for check in pin_checks(on) if "kerfs" in check.name]
    assert said.verdict == "caution" and "stands on the kerf" in said.says
    beside = pin_stack(stack, mesh, PinSettings(diameter=8.0, depth=10.0, at=((2.0, x, y + 6.2), (2.0, 0.0, 100.0))))
    (said,) = [check for check in pin_checks(beside) if "kerfs" in check.name]
    assert said.figure == pytest.approx(2.0) and "only 2 mm from the kerf" in said.says  # 6.2 − 8.4 / 2
    free = pin_stack(stack, mesh, PinSettings(diameter=8.0, depth=10.0, at=((2.0, x, y + 8.0), (2.0, 0.0, 100.0))))
    assert not any("kerfs" in check.name for check in pin_checks(free))


def ring(grain=0.0, cuts=(), outer=150.0):
    area = shapely.Point(0, 0).buffer(outer, 64).difference(shapely.Point(20, 0).buffer(60.0, 64))
    return replace(layer_of(1, 0.0, 40.0, [area] * 2, cuts), grain=grain)


@pytest.mark.parametrize("grain", [0.0, 30.0, 90.0])
def test_a_ring_is_sawn_into_along_the_grain_where_it_is_thin(grain):
    layer = ring(grain)
    (way,) = ring_ways(layer)
    (blank,) = blank_area(layer.blank).geoms
    (hole,) = blank.interiors
    along = np.array([np.cos(np.radians(grain)), np.sin(np.radians(grain))])
    assert way.kind == "kerf" and way.layer == 1
    assert abs(np.subtract(way.end, way.start) @ along) == pytest.approx(way.length)
    assert shapely.Point(way.start).distance(blank.exterior) < 0.01
    assert shapely.Point(way.end).distance(hole) < 0.01
    assert way.around == pytest.approx(hole.length)
    # Along x two circles, R and r, d apart, come nearest on the line of their centres: R - r - d.
    radii = [np.sqrt(shapely.Polygon(line).area / np.pi) for line in (blank.exterior, hole)]
    if grain == 0.0:
        assert way.length == pytest.approx(radii[0] - radii[1] - 20.0, abs=0.3)


def test_the_kerf_of_a_ring_keeps_off_pins_and_gives_way_to_a_hole_in_the_waste():
    (free,) = ring_ways(ring())
    middle = tuple(np.mean([free.start, free.end], axis=0))
    pin = Cut("pin", circle(8.0, middle), 0.0, 12.0)
    (beside,) = ring_ways(ring(cuts=(pin,)))
    line = shapely.LineString([beside.start, beside.end])
    assert beside.kind == "kerf" and line.distance(cut_plan(pin)) >= KERF_ROOM - 0.01
    full = Cut("mortise", circle(400.0), 0.0, 40.0)
    (way,) = ring_ways(ring(cuts=(full,)))
    assert way.kind == "bored hole"
    (hole,) = next(iter(blank_area(ring().blank).geoms)).interiors
    assert shapely.Polygon(hole).contains(shapely.Point(way.start).buffer(way.bit / 2))
    assert ring_ways(layer_of(1, 0.0, 40.0, [shapely.Point(0, 0).buffer(80.0)] * 2, (full,))) == ()
