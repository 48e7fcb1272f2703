# SPDX-License-Identifier: LGPL-2.1-or-later

"""A whole piece, its curves and what is left out."""

from __future__ import annotations

import time

import numpy as np
import pytest
from solids import moved
from weakforms import armchair, boxes, mushroom, own, planned, strength, tenoned

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.strength.checks import strength_checks
from freecad_stacklam.lamination.strength.whole import plan_strength
from freecad_stacklam.lamination.usage.use import UseSettings, load_cases


def test_the_worst_height_is_just_beyond_the_tenons_end() -> None:
    plan, meshes = tenoned()
    found = plan_strength(plan, meshes, own(push=300.0), species_table())
    curve = next(c for c in found.curves if c.stack == "High")
    at = int(np.argmax(curve.use))
    # The mortise ends 2 mm of glue room beyond the tenon, at 390 to 392: there the neck is whole again or hollow.
    assert 388.0 < curve.heights[at] < 393.0
    inside = [u for z, u in zip(curve.heights, curve.use) if 300 < z < 380]
    assert max(inside) < 0.7 * curve.use[at]
    # As if there were no joint it grows evenly downwards: 300·(720 − z)·32/(π·60³)/5.5.
    z = curve.heights[3]
    assert curve.whole[3] == pytest.approx(300 * (720 - z) * 32 / (np.pi * 60**3) / 5.5, rel=0.02)


def test_wood_that_is_not_known_is_left_out_with_a_sentence() -> None:
    found = strength({"Post": boxes([(0, 0, 60, 60, 0, 180)])}, UseSettings(), species="sugar maple")
    assert not found.sections and found.left_out[0].what == "Post"


@pytest.mark.parametrize("at", [(5000.0, 0.0, 400.0), (0.0, 0.0, -500.0)])
def test_a_load_beside_the_piece_is_left_out_with_a_sentence(at: tuple[float, float, float]) -> None:
    found = strength({"M": mushroom()}, own(down=500.0, at=at))
    assert not found.sections
    assert [one.what for one in found.left_out] == ["own"] and "Give it a point" in found.left_out[0].says
    assert " mm from the surface" in strength_checks(found)[-1].says
    assert " in from the surface" in strength_checks(found, "in")[-1].says


def test_figures_with_their_variation_and_allowable() -> None:
    found = strength({"M": mushroom()}, own(push=100.0))
    figures = {f.what: f for f in found.wood}
    assert figures["tension across the grain"].allowable is None
    assert figures["bending along the grain"].allowable == pytest.approx(33.64, abs=0.01)


def test_every_kind_of_use_is_judged() -> None:
    for kind in ("stool", "seat", "table", "stand"):
        found = strength({"Chair": armchair()}, UseSettings(kind=kind))
        assert found.kind == kind and found.sections[0].use > 0


def test_a_form_upside_down_and_one_on_its_side_are_judged_alike() -> None:
    turn = np.diag([1.0, -1.0, -1.0])
    down = strength({"M": moved(mushroom(), turn)}, own(push=100.0))
    assert down.worst() is not None
    tilt = np.array([[1.0, 0, 0], [0, 0, -1.0], [0, 1.0, 0]])
    assert strength({"M": moved(mushroom(), tilt)}, own(push=100.0)).worst() is not None


def test_fast_enough_to_type_beside() -> None:
    plan, meshes = planned({"M": mushroom()})
    start = time.perf_counter()
    plan_strength(plan, meshes, UseSettings(), species_table())
    assert time.perf_counter() - start < 3.0  # half a second where nothing else runs


def test_a_back_is_pushed_backward_and_bent_above_the_seat() -> None:
    """450 N 300 mm above the seat on a back 460 × 40: M = 135 N·m, 6 M / (b h²) = 1.10 MPa just above the seat. The
    arms that hang on the back stiffen it between 600 and 645 mm, not below."""
    found = strength({"Chair": armchair()}, own(push=450.0, place="back"))
    worst = max((s for s in found.sections if s.kind == "neck"), key=lambda s: s.bending)
    assert worst.place[2] == pytest.approx(400.0, abs=10.0)
    assert worst.bending == pytest.approx(450 * 300 * 6 / (460 * 40**2), rel=0.1)
    assert "leaning hard against the back" in {load.name for load in load_cases(UseSettings(kind="seat"))}
