# SPDX-License-Identifier: LGPL-2.1-or-later

"""Stress and use of a section, against statics written out."""

from __future__ import annotations

from math import pi, sqrt

import numpy as np
import pytest
import shapely
from weakforms import boxes, hourglass, own, strength

from freecad_stacklam.lamination.strength.composite import Composite, Material
from freecad_stacklam.lamination.strength.loads import Pushes
from freecad_stacklam.lamination.strength.necks import judge, round_that_does, uses_of
from freecad_stacklam.lamination.strength.planes import level_plane
from freecad_stacklam.lamination.strength.sections import section_of
from freecad_stacklam.lamination.strength.timber import Grade

ACROSS = Grade(5.5, 7.4, 2.484, 90.0)


def made(shape: shapely.Polygon) -> Composite:
    section = section_of([(shape, 1.0)])
    assert section is not None
    return Composite(section, (Material("S", 1, "white oak", ACROSS),), False)


def test_bending_axial_and_shear_together() -> None:
    # 40 × 60, 300 N push along x and 1000 N down at (100, 0), 200 above: M = 300·200 + 1000·100 = 160 N·m about y;
    # σ = 160e3·20/(60·40³/12) = 10.0 in tension at x −20 less 1000/2400 = 0.4167; τ = 1.5·300/2400 = 0.1875.
    box = made(shapely.box(-20, -30, 20, 30))
    pushes = Pushes(np.array([[100.0, 0.0, 700.0]]), np.array([[300.0, 0.0, -1000.0]]))
    judged = judge(box, level_plane(500.0), pushes)
    assert (judged.bending, judged.axial, judged.shear) == pytest.approx((10.0, -1000 / 2400, 0.1875))
    assert judged.place[0] == pytest.approx(-20.0)
    assert judged.use == pytest.approx(sqrt(((10 - 1000 / 2400) / 5.5) ** 2 + (0.1875 / 2.484) ** 2))
    assert judge(box, level_plane(500.0), pushes, factor=0.6).use == pytest.approx(judged.use / 0.6)


def test_torsion_is_part_of_shear() -> None:
    box = made(shapely.box(-20, -20, 20, 20))
    pushes = Pushes(np.array([[0.0, 100.0, 10.0]]), np.array([[300.0, 0.0, 0.0]]))
    judged = judge(box, level_plane(0.0), pushes)
    assert judged.shear == pytest.approx(1.5 * 300 / 1600 + 30e3 * 20 * sqrt(2) / box.section.torsion)


def test_tension_and_compression_have_their_own_strength() -> None:
    assert uses_of(np.array([[5.5, -7.4]]), np.array([[0.0]]), ACROSS).tolist() == [[1.0, 1.0]]


def test_a_neck_that_would_do() -> None:
    # Without axial force and shear d³ = 32 M/(π·f/4): 135 N·m, 5.5 MPa: d = 100.03, so Ø101.
    box = made(shapely.Point(0, 0).buffer(30))
    judged = judge(box, level_plane(0.0), Pushes(np.array([[0.0, 0.0, 135.0]]), np.array([[1000.0, 0.0, 0.0]])))
    wanted = round_that_does(judged, ACROSS)
    assert (32 * 135e3 / (pi * 5.5 / 4)) ** (1 / 3) == pytest.approx(100.0, abs=0.1)
    assert 100.0 <= wanted <= 104.0  # and what the shear of 1 kN asks for besides


def test_the_weakest_place_of_an_hourglass_is_found_between_glue_lines() -> None:
    # Narrowest at 187 mm, R 30, in no cut of its own: 300 N at the top makes 300·213 = 63.9 N·m there; 32 M/(π·60³) =
    # 3.01 MPa. 120 sides: a little less.
    found = strength({"Glass": hourglass()}, own(push=300.0))
    worst = found.worst()
    assert worst is not None and worst.kind == "neck"
    assert worst.height == pytest.approx(187.0, abs=3.0)
    assert worst.bending == pytest.approx(3.01, rel=0.03)
    assert worst.use == pytest.approx(worst.bending / 5.5, rel=0.02)
    assert worst.cov is None
    assert worst.do > 60


def test_a_load_that_stays_uses_more() -> None:
    post = {"Post": boxes([(0, 0, 60, 60, 0, 400)])}
    short, long = (strength(post, own(push=100.0, lasting=stays)).worst() for stays in (False, True))
    assert short is not None and long is not None
    assert long.use == pytest.approx(short.use / 0.6)
