# SPDX-License-Identifier: LGPL-2.1-or-later

"""Section properties against closed forms, FreeCAD's own, and the transformed section worked by hand."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
import shapely

from freecad_stacklam.lamination.strength.sections import polygon_moments, section_of, torsion_of


def disc(radius: float, x: float = 0.0, y: float = 0.0) -> shapely.Polygon:
    return shapely.Point(x, y).buffer(radius, quad_segs=512)


def bent(section, moment: float) -> list[float]:
    """Greatest stress of each part under a moment about axis 1."""
    stresses = section.stresses(np.zeros(1), np.array([moment]), np.zeros(1))
    return [float(np.abs(s).max()) for s in stresses]


@pytest.mark.parametrize(("diameter", "stress"), [(60, 6.366), (80, 2.686), (100, 1.375)])
def test_round_neck(diameter: float, stress: float) -> None:
    # 32 M / (π d³) with M = 135 N·m: 6.366, 2.686, 1.375 MPa.
    assert bent(section_of([(disc(diameter / 2), 1.0)]), 135e3)[0] == pytest.approx(stress, rel=5e-4)


def test_round_neck_with_a_round_tenon() -> None:
    # I = π/64·60⁴ + 5.1·π/64·36⁴ = 636 173 + 420 477 = 1 056 650 mm⁴; layers 135e3·30/I = 3.83 MPa (3.82 as published
    # with n = 6.13), tenon 6.1·135e3·18/I = 14.0 (14.1).
    tenon = disc(18)
    layers, inner = bent(section_of([(disc(30).difference(tenon), 1.0), (tenon, 6.1)]), 135e3)
    assert layers == pytest.approx(3.833, rel=1e-3)
    assert inner == pytest.approx(14.03, rel=1e-3)
    assert (layers, inner) == (pytest.approx(3.82, rel=0.01), pytest.approx(14.1, rel=0.01))


@pytest.mark.parametrize(("n", "stress", "tenon"), [(6.0, 3.0, 10.9), (14.0, 1.6, 13.9)])
def test_round_neck_with_a_square_tenon(n: float, stress: float, tenon: float) -> None:
    # 36 mm square in Ø60: I = 636 173 + (n − 1)·36⁴/12 (139 968): n 6 → 1 336 013: 3.03 and 6·135e3·18/I = 10.9 MPa;
    # n 14 → 2 455 757: 1.65 and 13.9 MPa.
    square = shapely.box(-18, -18, 18, 18)
    layers, inner = bent(section_of([(disc(30).difference(square), 1.0), (square, n)]), 135e3)
    assert layers == pytest.approx(stress, abs=0.06)
    assert inner == pytest.approx(tenon, abs=0.05)


def test_strip_of_two_materials() -> None:
    # 20 wide, 10 of n 1 below and 10 of n 3 above. Axis at (200·5 + 600·15)/800 = 12.5; I = 20·10³/12 + 200·7.5² +
    # 3·(20·10³/12 + 200·2.5²) = 1666.67 + 11 250 + 5000 + 3750 = 21 666.67. M = 21 666.67: 12.5 below, 3·7.5 above.
    section = section_of([(shapely.box(0, 0, 20, 10), 1.0), (shapely.box(0, 10, 20, 20), 3.0)])
    assert section.centre == pytest.approx((10, 12.5))
    assert section.i11 == pytest.approx(21666.667)
    assert bent(section, 21666.667) == pytest.approx([12.5, 22.5])


def test_axial_force_is_shared_by_stiffness() -> None:
    section = section_of([(shapely.box(0, 0, 10, 10), 1.0), (shapely.box(10, 0, 20, 10), 3.0)])
    # At the stiff centroid all fibres strain alike: 400 N over ΣnA 400 mm² is 1 and 3 MPa.
    one, three = section.stresses(np.array([400.0]), np.zeros(1), np.zeros(1))
    assert np.allclose(one, 1.0) and np.allclose(three, 3.0)


def test_unsymmetrical_section_by_its_principal_axes() -> None:
    # Angle 100 × 100 × 10: A 1900, centroid 28.684; I 1 800 044, Ixy −1 058 (by parts, my arithmetic below).
    angle = shapely.box(0, 0, 100, 10).union(shapely.box(0, 10, 10, 100))
    section = section_of([(angle, 1.0)])
    c = (1000 * 50 + 900 * 5) / 1900
    i = 10 * 100**3 / 12 + 1000 * (50 - c) ** 2 + 90 * 10**3 / 12 + 900 * (5 - c) ** 2
    product = 1000 * (50 - c) * (5 - c) + 900 * (5 - c) * (55 - c)
    assert section.centre == pytest.approx((c, c))
    assert (section.i11, section.i22, section.i12) == pytest.approx((i, i, product))
    greatest, least, turn = section.principal
    assert (greatest, least) == pytest.approx((i + abs(product), i - abs(product)))
    assert abs(turn) == pytest.approx(45.0)
    # Moments come back from the stresses: at three corners the plane a + bx + cy is known, and so ∫yσ and −∫xσ.
    (stress,) = section.stresses(np.array([100.0]), np.array([7e3]), np.array([-3e3]))
    corners = section.parts[0].corners - section.centre
    even, b, d = np.linalg.lstsq(np.column_stack([np.ones(len(corners)), corners]), stress[0], rcond=None)[0]
    assert even * section.area == pytest.approx(100.0)
    assert b * section.i12 + d * section.i11 == pytest.approx(7e3)
    assert -(b * section.i22 + d * section.i12) == pytest.approx(-3e3)


def test_rectangle_bends_its_weak_way() -> None:
    section = section_of([(shapely.affinity.rotate(shapely.box(0, 0, 40, 20), 33), 1.0)])
    assert section.modulus == pytest.approx(40 * 20**2 / 6)


def test_torsion_of_circle_tube_and_square() -> None:
    # St Venant: circle π d⁴/32 (the compact formula gives 39.48/40 of it), tube likewise, square 0.1406 a⁴.
    assert torsion_of(disc(30)) == pytest.approx(pi * 60**4 / 32, rel=0.015)
    assert torsion_of(disc(30).difference(disc(25))) == pytest.approx(pi * (60**4 - 50**4) / 32, rel=0.015)
    assert torsion_of(shapely.box(0, 0, 10, 10)) == pytest.approx(1406, rel=0.12)


def test_slivers_and_nothing_are_no_section() -> None:
    assert section_of([]) is None
    assert section_of([(shapely.Polygon(), 1.0)]) is None


@pytest.mark.freecad
def test_against_the_kernels_own_section_properties() -> None:
    import FreeCAD
    import Part

    area = shapely.affinity.rotate(shapely.box(3, 5, 63, 35), 20).difference(shapely.box(20, 15, 30, 25))
    rings = [area.exterior, *area.interiors]
    wires = [Part.makePolygon([FreeCAD.Vector(x, y, 0) for x, y in ring.coords]) for ring in rings]
    face = Part.Face(wires[0]).cut(Part.Face(wires[1])).Faces[0]
    section = section_of([(area, 1.0)])
    # OCC's matrix of inertia of a plane face is about its centre of mass: Ixx = ∫y², Iyy = ∫x², off-diagonal −∫xy.
    m, c = face.MatrixOfInertia, face.CenterOfMass
    assert section.area == pytest.approx(face.Area, rel=1e-9)
    assert section.centre == pytest.approx((c.x, c.y), rel=1e-9)
    assert (section.i11, section.i22) == pytest.approx((m.A11, m.A22), rel=1e-6)
    assert abs(section.i12) == pytest.approx(abs(m.A12), rel=1e-6)
    assert polygon_moments(area)[0] == pytest.approx(face.Area)
