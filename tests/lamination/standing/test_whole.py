# SPDX-License-Identifier: LGPL-2.1-or-later

"""Furniture that stands, rocks, tips, rolls and falls. Figures by hand from statics, as beside each."""

from __future__ import annotations

from dataclasses import replace
from math import atan, cos, degrees, pi

import numpy as np
import pytest
from furniture import EVEN, OAK, four_legs, leg, legs_round, one_piece, pedestal, plan_of, ring_base, standing
from models import load_brep
from shapely import Polygon
from solids import ball, box, moved, torus

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.form.mesh import gate
from freecad_stacklam.lamination.standing.checks import standing_checks
from freecad_stacklam.lamination.standing.whole import plan_standing
from freecad_stacklam.lamination.usage.use import UseSettings

GRAVITY = 9.80665


def test_a_square_seat_on_four_legs() -> None:
    piece = one_piece(four_legs(130.0))
    # 400 · 400 · 50 + 4 · 40 · 40 · 400 mm³ of oak; the legs' feet reach to 150.
    mass = (8.0e6 + 2.56e6) * OAK
    high = (8.0 * 425 + 2.56 * 200) / 10.56
    assert piece.mass == pytest.approx(mass)
    assert piece.centre == pytest.approx((0.0, 0.0, high), abs=1e-6)
    assert (len(piece.feet), piece.inside) == (4, pytest.approx(150.0))
    assert piece.tip_angle == pytest.approx(degrees(atan(150 / high)))
    (load,) = piece.loads
    assert load.ratio == pytest.approx((mass * GRAVITY * 0.150 + 600 * 0.010) / 9.0)
    assert len(load.ratios) == 72
    assert not piece.rolls
    assert not piece.falls


def test_four_legs_with_a_short_one_rest_on_three_and_rock_to_the_fourth() -> None:
    piece = one_piece(four_legs(130.0, short=2.0), short_foot=1.0)
    assert piece.levelling.rests_on == (2, 3, 4)
    assert [foot.gap for foot in piece.feet] == pytest.approx([2.0, 0.0, 0.0, 0.0], abs=1e-9)
    assert [foot.off for foot in piece.feet] == pytest.approx([0.0, 2.0, 2.0, 2.0], abs=1e-9)
    assert piece.levelling.scribe == pytest.approx(2.0)
    # Loads tip it over the edges of all four, once it has leant onto the short one: 3 mm over 300 mm.
    assert piece.gap == pytest.approx(2.0)
    assert piece.inside == pytest.approx(150.0, abs=0.1)
    (load,) = piece.loads
    assert piece.mass is not None
    lean = 3.0 / 300.0
    held = piece.mass * GRAVITY * (piece.inside - lean * piece.centre[2]) + 600 * (10 - lean * 450)
    assert load.ratio == pytest.approx(held / 9000.0, rel=1e-6)


def test_a_short_leg_on_its_own_side_of_the_weight_leans_the_piece() -> None:
    # A second weight over the short leg brings the centre of mass to its side: it leans until that leg touches.
    meshes = {**four_legs(130.0, short=2.0), "Weight": box(200, 200, 200, (0, 0, 450))}
    piece = one_piece(meshes)
    assert piece.levelling.tilt == pytest.approx(degrees(atan(2.0 / (130 + 130) * 2**0.5)), rel=0.2)
    assert 1 in piece.levelling.rests_on
    assert piece.levelling.scribe == pytest.approx(2.0, abs=0.05)  # level again, the shortest is 2 mm short
    off = {foot.number: foot.off for foot in piece.feet}
    assert off[1] == pytest.approx(0.0, abs=1e-6)
    assert off[3] == pytest.approx(2.0, abs=0.05)


def test_three_legs_never_rock() -> None:
    piece = one_piece(legs_round(3, 150.0), short_foot=1.0)
    assert piece.levelling.rests_on == (1, 2, 3)
    assert not piece.levelling.rocks
    # One foot out by 1 mm leans it about the line of the two others, 1.5 · 150 away: 450 · 1 / 225 = 2 mm at the top.
    assert piece.levelling.rock == pytest.approx(2.0, rel=0.02)
    assert one_piece(four_legs(), short_foot=1.0).levelling.rocks


@pytest.mark.parametrize("count", [3, 4, 5, 6])
def test_more_feet_on_one_circle_stand_better(count: int) -> None:
    # r · cos(π / n), exact geometry; the pins are 2 mm thick.
    piece = one_piece(legs_round(count, 150.0, turn=0.2))
    assert piece.inside == pytest.approx(150 * cos(pi / count), abs=1.5)


def test_a_ring_and_a_pedestal_stand_alike_all_round() -> None:
    ring = one_piece(ring_base())
    assert ring.inside == pytest.approx(200.0, abs=0.1)
    assert max(ring.tip_angles) - min(ring.tip_angles) < 0.05
    stand = one_piece(pedestal())
    assert len(stand.feet) == 1
    (load,) = stand.loads
    assert stand.mass is not None
    # Foot 170, load at 220 − 60 = 160 from the middle, 450 high.
    assert load.ratio == pytest.approx((stand.mass * GRAVITY * 0.170 + 600 * 0.010) / 9.0, rel=0.01)


def test_a_round_bottom_rolls_and_a_round_ring_does_not() -> None:
    piece = one_piece({"Ball": ball(150.0)})
    assert piece.rolls
    assert piece.loads == ()
    assert not one_piece({"Torus": torus()}).rolls


def test_what_leans_too_far_falls_over() -> None:
    leaning = moved(box(60, 60, 500), np.array([[1, 0, 0.4], [0, 1, 0], [0, 0, 1.0]]))
    piece = one_piece({"Post": leaning})
    assert piece.falls
    assert piece.tip_direction == 0.0
    assert piece.inside == pytest.approx(60 - (30 + 100), abs=0.1)  # middle at 30 + 0.4 · 250, foot to 60


def test_a_wood_that_is_not_known_holds_nothing_down() -> None:
    known, unknown = one_piece(four_legs()), one_piece(four_legs(), density=None)
    assert unknown.mass is None
    assert unknown.tip_angle == pytest.approx(known.tip_angle)
    assert unknown.loads[0].holding == pytest.approx(6.0)  # 600 N · 10 mm
    assert "not known" in next(c.says for c in standing_checks(standing(four_legs(), density=None)) if "edge" in c.name)


def test_a_soft_floor_and_a_short_foot_hold_less() -> None:
    plain, soft, short = (one_piece(four_legs(), **more).loads[0].ratio for more in
                          ({}, {"soft_floor": 5.0}, {"short_foot": 3.0}))  # fmt: skip
    assert plain is not None
    assert soft is not None
    assert short is not None
    assert soft < short < plain


def test_a_piece_far_from_the_origin_stands_as_well() -> None:
    here = one_piece(four_legs())
    there = one_piece(
        {name: gate(m.vertices + [3000.0, -2000.0, 900.0], m.triangles) for name, m in four_legs().items()}
    )
    assert there.floor == 900.0
    assert there.loads[0].ratio == pytest.approx(here.loads[0].ratio)
    assert there.loads[0].height == pytest.approx(450.0)


def test_what_stands_apart_is_checked_apart() -> None:
    found = standing({"One": box(200, 200, 300), "Other": leg(600.0, 0.0)})
    assert [piece.name for piece in found.pieces] == ["One", "Other"]


def test_a_plan_is_weighed_by_its_species() -> None:
    meshes = {"Drum": box(200, 200, 300)}
    (piece,) = plan_standing(plan_of(meshes), meshes, EVEN, species_table()).pieces
    # White oak: 0.68 · 1.12 · 1000 kg/m³ (FPL-GTR-282 (2021), Eq. 4-14) of 0.012 m³.
    assert piece.mass == pytest.approx(761.6 * 0.012)


@pytest.mark.freecad
def test_a_chair_and_a_table_that_nobody_here_made() -> None:
    """Debian's occt-misc: a chair of four solids, a table on four near legs under a top of a metre."""

    def meshes(name: str) -> dict[str, object]:
        found = {}
        for i, solid in enumerate(load_brep(name)[0], 1):
            points, faces = solid.tessellate(0.1)
            found[f"Part {i}"] = gate(np.array([(p.x, p.y, p.z) for p in points]), np.array(faces))
        return found

    chair = one_piece(meshes("MODERN_Chair_1.brep"), UseSettings("seat"))  # type: ignore[arg-type]
    assert (len(chair.stacks), len(chair.feet), len(chair.tops)) == (4, 4, 1)
    assert chair.tops[0].height == pytest.approx(400.0, abs=0.5)  # the seat, not the back
    assert Polygon(chair.tops[0].outline).area == pytest.approx(350.0**2, rel=0.02)
    assert chair.loads[0].ratio is not None
    assert chair.loads[0].ratio > 2
    table = one_piece(meshes("MODERN_Table_1.brep"), UseSettings("table"))  # type: ignore[arg-type]
    assert len(table.feet) == 4
    (lean,) = table.loads
    # Top a metre square less rounded corners, back feet at 2318: 400 N at 50 mm inside the edge stand 275 mm outside.
    assert lean.direction == pytest.approx(90.0, abs=0.1)
    assert lean.ratio is not None
    assert lean.ratio < 1
    wider = replace(UseSettings("table"), least_ratio=1.0)
    assert one_piece(meshes("MODERN_Table_1.brep"), wider).loads[0].wider < lean.wider  # type: ignore[arg-type]
