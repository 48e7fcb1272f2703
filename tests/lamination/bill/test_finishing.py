# SPDX-License-Identifier: LGPL-2.1-or-later

"""Surfaces against closed forms: on a ball the faces whose square lies within 30° of the grain are two caps, together
1 − cos 30° = 13.4 % of it (Archimedes: a zone's area is 2·π·R times its height)."""

from __future__ import annotations

from dataclasses import replace
from math import acos, cos, pi, radians

import joined
import numpy as np
import pytest
import solids
import trimesh

from freecad_stacklam.lamination.bill.finishing import coverage_text, finish_findings, finish_rows, liquid, surface_of
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.usage.finish import FinishSettings


def stack_of(mesh: Mesh, **settings: object) -> StackPlan:
    return joined.planned({"Form": mesh}, **settings)["Form"]


def test_a_ball_s_end_grain() -> None:
    """4·π·R² = 0.2827 m²; 1 − cos 30° = 0.13397, in each of nine bands cos 10i° − cos 10(i+1)°."""
    mesh = solids.ball(150.0, 6)
    found = surface_of(stack_of(mesh), mesh)
    assert found.area == pytest.approx(4 * pi * 150**2, rel=1e-3)
    assert found.share == pytest.approx(0.13397, abs=1e-3)
    zones = [cos(radians(10 * i)) - cos(radians(10 * i + 10)) for i in range(9)]
    assert np.array(found.bands) / found.area == pytest.approx(zones, abs=2e-3)


@pytest.mark.parametrize("within", [10.0, 45.0, 60.0])
def test_other_limits(within: float) -> None:
    mesh = solids.ball(150.0, 6)
    assert surface_of(stack_of(mesh), mesh, within).share == pytest.approx(1 - cos(radians(within)), abs=2e-3)


def test_a_box_has_two_end_faces_that_turn_with_the_grain() -> None:
    """200 × 100 × 90, grain along its length: two faces of 100 × 90 are end grain; at 90° two of 200 × 90; at 45° none
    within 30°, and the upright faces lie in the band about 45°."""
    mesh = solids.box(200, 100, 90)
    along = stack_of(mesh)
    area = 2 * (200 * 100 + 200 * 90 + 100 * 90)
    for turn, end in ((0.0, 2 * 100 * 90), (90.0, 2 * 200 * 90), (180.0, 2 * 100 * 90), (45.0, 0.0)):
        stack = replace(along, layers=tuple(replace(layer, grain=turn) for layer in along.layers))
        found = surface_of(stack, mesh)
        assert found.area == pytest.approx(area)
        assert found.end == pytest.approx(end)
        assert sum(found.bands) == pytest.approx(area)
    assert found.bands[4] == pytest.approx(2 * 90 * 300)


def test_layers_with_their_own_grain() -> None:
    """Two layers of 45 mm, the upper one turned by 90°: half of each pair of faces."""
    mesh = solids.box(200, 100, 90)
    stack = stack_of(mesh)
    stack = replace(stack, layers=(stack.layers[0], replace(stack.layers[1], grain=90.0)))
    assert surface_of(stack, mesh).end == pytest.approx(2 * 45 * 100 + 2 * 45 * 200)


def test_a_cone_s_mantle() -> None:
    """R 200, H 450: mantle π·R·√(R² + H²), base π·R²; the mantle's square rises at atan(R/H) = 23.96°, so it comes
    within 30° of the grain where cos φ > cos 30°/cos 23.96°."""
    mesh = solids.cone(200.0, 450.0, 720)
    found = surface_of(stack_of(mesh), mesh)
    mantle = pi * 200 * (200**2 + 450**2) ** 0.5
    assert found.area == pytest.approx(mantle + pi * 200**2, rel=1e-3)
    share = 2 * acos(cos(radians(30)) / (450 / (200**2 + 450**2) ** 0.5)) / pi
    assert found.end == pytest.approx(share * mantle, rel=0.01)


def test_the_area_is_trimesh_s() -> None:
    mesh = solids.moved(solids.torus(), solids.turn_z(33.0))
    found = surface_of(stack_of(mesh), mesh)
    assert found.area == pytest.approx(trimesh.Trimesh(mesh.vertices, mesh.triangles).area)


def plan_and_meshes(copies: int = 1) -> tuple[Plan, dict[str, Mesh]]:
    meshes = {"Form": solids.box(1000, 500, 45)}
    stack = joined.planned(meshes)["Form"]
    return Plan("Test", "mm", (replace(stack, copies=copies),)), meshes


def test_litres_and_sheets_by_hand() -> None:
    """1000 × 500 × 45: 2·(0.5 + 0.045 + 0.0225) = 1.135 m², of it 0.045 m² end grain that drinks twice: 1.18 m²; three
    coats at 60 % are 2.2; 15 % lost; 12 m² a litre: 1.18·2.2·1.15/12 = 0.24878 l. Sheets: 1.135/0.3 = 3.8 → 4."""
    plan, meshes = plan_and_meshes()
    finish = FinishSettings(litre_price=30.0, sheet_price=0.5)
    found = finish_findings(plan, meshes, finish)
    assert found.litres == pytest.approx(1.18 * 2.2 * 1.15 / 12) == pytest.approx(0.24878, abs=1e-5)
    assert (found.least, found.most) == (pytest.approx(0.75 * found.litres), pytest.approx(1.25 * found.litres))
    assert found.sheets == ((80, 4), (120, 4), (180, 4), (240, 4))
    rows = finish_rows(found, finish)
    assert [row.item for row in rows] == ["finish", *["abrasive"] * 4]
    assert rows[0].cost == pytest.approx(30 * 0.24878, abs=1e-3)
    assert rows[0].volume == pytest.approx(248_780, abs=10)
    assert (rows[1].count, rows[1].cost) == (4, 0.5)
    assert "0.25 l, between 0.19 l and 0.31 l" in rows[0].how
    assert "catch fire" in rows[0].how


def test_every_copy_is_counted() -> None:
    finish = FinishSettings()
    one, three = (finish_findings(*plan_and_meshes(n), finish) for n in (1, 3))
    assert three.litres == pytest.approx(3 * one.litres)
    assert three.sheets[0][1] == 12  # 3.405 m² at 0.3: 11.35 sheets


def test_oil_is_warned_of() -> None:
    plan, meshes = plan_and_meshes()
    assert any("catch fire" in line for line in finish_findings(plan, meshes, FinishSettings()).cautions)
    water = finish_findings(plan, meshes, FinishSettings(finish="lacquer", heats_itself=False, grits=()))
    assert not any("catch fire" in line or "dust" in line for line in water.cautions)
    assert water.sheets == ()


def test_without_a_form_there_are_no_rows() -> None:
    plan, _ = plan_and_meshes()
    found = finish_findings(plan, {}, FinishSettings())
    assert (found.surfaces, found.litres) == ((), 0.0)
    assert finish_rows(found, FinishSettings()) == ()


def test_liquids_in_both_units() -> None:
    """A US fluid ounce is 29.5735 ml (NIST Handbook 44): a litre 33.8."""
    assert (liquid(1.0), liquid(1.0, "in")) == ("1.00 l", "33.8 fl oz")


def test_how_far_a_finish_goes_in_both_measures() -> None:
    """12 m² a litre · 10.7639 ft²/m² · 3.785412 l a US gallon (NIST SP 811, B.8) = 489 ft² a gallon, 122 a quart."""
    assert coverage_text(12.0) == "12 m² per litre"
    assert coverage_text(12.0, "in") == "122 sq ft per quart (489 per gallon)"
