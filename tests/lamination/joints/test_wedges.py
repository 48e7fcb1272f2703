# SPDX-License-Identifier: LGPL-2.1-or-later

"""Wedges: the spread tenon meets its walls, and no strip breaks on the way. Arithmetic by hand, beams by numpy."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import solids
from hypothesis import given, settings
from hypothesis import strategies as st
from joined import joint, planned, post_and_top

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.joints.checks import joint_checks
from freecad_stacklam.lamination.joints.wedges import STRAIN_SHARE, UNKNOWN_STRAIN, bending_strain, breaking_strain
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.refusal import Refusal

OAK = species_table()["white oak"]


def wedged(size: tuple[float, ...] = (40.0,), **more: object) -> JointPlan:
    section = "square" if len(size) == 1 else "rectangle"
    return joint(post_and_top(), species_table(), section=section, size=size, ends="wedged", **more)


@pytest.mark.parametrize(
    ("strip", "length", "spread", "percent"),
    # A strip of a third of the tenon: 1.5 · 11.2 · 1.5 / 22² = 5.2 %. One near the edge: 1.5 · 4.25 · 1 / 28² = 0.81 %.
    [(11.2, 22.0, 1.5, 5.2), (4.25, 28.0, 1.0, 0.81)],
)
def test_strain_of_a_cantilever_by_hand(strip: float, length: float, spread: float, percent: float) -> None:
    assert 100 * bending_strain(strip, spread, length) == pytest.approx(percent, abs=0.01)


def test_strain_of_a_cantilever_by_finite_differences() -> None:
    """The beam's own equation, w'''' = 0 with w = w' = 0 at the foot, w'' = 0 and w = spread at the end, solved on a
    grid; strain = half the thickness × the curvature at the foot."""
    n, strip, spread, length = 2000, 4.0, 1.2, 30.0
    h = length / n
    x = np.linspace(0.0, length, n + 1)
    # Curvature falls linearly to 0 at the end; integrate twice and scale to the spread.
    curvature = 1.0 - x / length
    slope = np.concatenate([[0.0], np.cumsum((curvature[1:] + curvature[:-1]) / 2) * h])
    bent = np.concatenate([[0.0], np.cumsum((slope[1:] + slope[:-1]) / 2) * h])
    assert bending_strain(strip, spread, length) == pytest.approx(strip / 2 * spread / bent[-1], rel=1e-5)


def bent_round(strip: float, depth: float, lowest: np.ndarray) -> float:
    """Strain of a strip clamped at its foot and nowhere lower than `lowest` (at even steps up to its end): the least
    energy of bending, by finite differences and a set of touching places that is tried until it is right."""
    n = len(lowest)
    h = depth / n
    curve = np.zeros((n, n + 1))
    curve[0, 1] = 2 / h**2  # clamped: the place before the foot mirrors the one after it
    for i in range(1, n):
        curve[i, i - 1 : i + 2] = 1 / h**2, -2 / h**2, 1 / h**2
    curve = curve[:, 1:]
    stiff = curve.T @ curve
    touching = np.zeros(n, dtype=bool)
    touching[-1] = True
    for _ in range(500):
        free, held = np.flatnonzero(~touching), np.flatnonzero(touching)
        bent = np.where(touching, lowest, 0.0)
        bent[free] = np.linalg.solve(stiff[np.ix_(free, free)], -stiff[np.ix_(free, held)] @ bent[held])
        pushed = stiff @ bent
        new = (touching & (pushed > -1e-9)) | (~touching & (bent < lowest - 1e-10))
        if (new == touching).all():
            break
        touching = new
    return float(strip / 2 * np.abs(curve @ bent).max())


def test_the_wedge_presses_at_the_mouth_alone_so_that_the_strain_told_is_that_of_the_strip() -> None:
    """A rigid straight wedge of the sizes told, pressed into a strip. As thin as the kerf at its tip it would press by
    the foot and strain the strip 2.25 times as much (it touches at 3 · (L − l) from the foot: s·δ / (l · 3 · (L − l))).
    """
    made = wedged()
    wedge = made.members[1].wedge
    assert wedge is not None and 0.5 < wedge.tip < wedge.kerf_width
    depth = wedge.kerf_depth - made.proud
    along = depth * np.arange(1, 301) / 300
    up = (along - (depth - wedge.length)) / wedge.length  # 0 at the wedge's tip, 1 at the face

    def strained(tip: float) -> float:
        outer = tip + (wedge.thickness - tip) * up - wedge.kerf_width
        return bent_round(wedge.kerf_from_edge, depth, np.where(up >= 0, outer, -1.0))

    assert strained(wedge.tip) == pytest.approx(wedge.strain, rel=0.01)
    assert strained(wedge.kerf_width) == pytest.approx(2.25 * wedge.strain, rel=0.02)


def test_oak_breaks_at_its_strength_over_its_stiffness() -> None:
    """105 MPa / 12 300 MPa = 0.854 %, FPL-GTR-190 (2010), Table 5-3a: means of small clear specimens."""
    assert 100 * breaking_strain(OAK) == pytest.approx(0.854, abs=0.001)  # type: ignore[operator]
    known = [s for s in map(breaking_strain, species_table().values()) if s is not None]
    assert min(known) == pytest.approx(UNKNOWN_STRAIN, abs=1e-4)
    assert breaking_strain(None) is breaking_strain(replace(OAK, bending=None)) is None


@settings(max_examples=12, deadline=None)
@given(st.floats(20.0, 60.0), st.floats(0.05, 0.15))
def test_the_spread_tenon_is_as_wide_as_the_flared_mortise(side: float, clearance: float) -> None:
    try:
        made = wedged((side,), clearance=clearance)
    except Refusal as refusal:
        assert "17.5" not in str(refusal) or side - 2 * clearance < 17.5 + 1e-9
        return
    member = made.members[1]
    wedge = member.wedge
    assert wedge is not None and member.relief == 0.0
    mouth = made.size[0] + 2 * wedge.flare
    assert made.tenon.size[0] + 2 * wedge.spread == pytest.approx(mouth)
    assert wedge.thickness - wedge.kerf_width == pytest.approx(wedge.spread)
    assert wedge.strain == pytest.approx(1.5 * wedge.kerf_from_edge * wedge.spread / (0.75 * member.embed) ** 2)
    assert wedge.strain <= wedge.strain_limit + 1e-12
    assert wedge.strain_limit == pytest.approx(STRAIN_SHARE * 105 / 12300)


def test_sizes_of_common_practice() -> None:
    """Kerfs 4 to 4.5 mm from the edges, wedges two thirds of the member, tapers of 1:10 to 1:30, a stop hole of one and
    a half kerfs (common practice, no source)."""
    made = wedged()
    member, wedge = made.members[1], made.members[1].wedge
    assert wedge is not None
    assert 4.0 <= wedge.kerf_from_edge <= 4.5
    assert wedge.length == wedge.flare_depth == pytest.approx(member.embed * 2 / 3)
    assert 10 <= wedge.taper <= 30
    assert wedge.stop_hole == pytest.approx(1.5 * wedge.kerf_width)
    near, far = wedge.kerfs(made.tenon.size[0])
    assert far == -near
    assert made.tenon.size[0] / 2 - far - wedge.kerf_width / 2 == pytest.approx(wedge.kerf_from_edge)
    assert wedge.length < wedge.kerf_depth - made.proud < member.embed


def test_kerfs_run_across_the_layers_grain() -> None:
    pieces = post_and_top()
    for grain, turn in ((0.0, 90.0), (30.0, 90.0), (90.0, 0.0)):
        found = joint((planned(pieces[1], grain=grain), pieces[1]), ends="wedged")
        post, top = found.members
        assert post.wedge is None and top.wedge is not None
        assert top.wedge.kerf_turn == pytest.approx(turn, abs=1e-6)


def test_a_thin_member_is_refused_with_the_thickness_that_would_do() -> None:
    """0.5 mm flare and 0.1 mm clearance by a strip of 4 mm at 0.8 × 0.854 %: L = √(1.5 · 4 · 0.6 / 0.00683) = 22.96 mm,
    which is three quarters of 30.6 mm."""
    meshes = {"Post": post_and_top()[1]["Post"], "Top": solids.box(300.0, 200.0, 27.0, (-150.0, -100.0, 300.0))}
    with pytest.raises(Refusal, match=r"27 mm thick there, .* would break: make it 30\.7 mm thick"):
        joint((planned(meshes, stock=(27.0,)), meshes), species_table(), ends="wedged")
    meshes["Top"] = solids.box(300.0, 200.0, 30.7, (-150.0, -100.0, 300.0))
    found = joint((planned(meshes, stock=(27.0,)), meshes), species_table(), ends="wedged").members[1].wedge
    assert found is not None and found.flare == pytest.approx(0.5)


def test_a_slim_tenon_is_refused_with_the_width_that_would_do() -> None:
    with pytest.raises(Refusal, match=r"two kerfs for wedges need 17 mm"):
        wedged((16.0,))
    assert wedged((40.0, 16.0)).members[1].wedge is not None  # its wide side lies along the grain


def test_a_round_tenon_bends_segments_whose_outer_fibre_lies_further_out() -> None:
    """The centroid of a thin circular segment lies at two fifths of its height, so c = 0.6 s and not 0.5 s."""
    segment = np.linspace(0.0, 4.0, 20001)
    width = 2 * np.sqrt(20.0**2 - (16.0 + segment) ** 2)
    centroid = float((segment * width).sum() / width.sum())
    assert 4.0 - centroid == pytest.approx(0.6 * 4.0, rel=0.02)
    assert bending_strain(4.0, 1.0, 30.0, "round") == pytest.approx(bending_strain(4.0, 1.0, 30.0) * 1.2)


def test_checks_say_the_strain_and_what_a_year_does() -> None:
    made = wedged()
    checks = {c.name.split(": ")[1]: c for c in joint_checks(made)}
    strips, moves = checks["wedges in Top"], checks["movement in Top"]
    assert (strips.verdict, strips.limit) == ("ok", pytest.approx(100 * 0.8 * 105 / 12300))
    # White oak, 39.8 mm, 4 points, C = 0.00376 of FPL-GTR-282 (2021), Eq. 13-2: 0.6 mm, and the walls stand still.
    assert (moves.verdict, moves.figure) == ("caution", pytest.approx(0.6, abs=0.01))
    assert "crushed in the wet season" in moves.says
    wedge = made.members[1].wedge
    assert wedge is not None
    unknown = replace(made.members[1], wedge=replace(wedge, strength_known=False))
    found = [c for c in joint_checks(replace(made, members=(made.members[0], unknown))) if "wedges" in c.name]
    assert [c.verdict for c in found] == ["caution"]
    broken = replace(made.members[1], wedge=replace(wedge, strain=0.02))
    found = [c for c in joint_checks(replace(made, members=(made.members[0], broken))) if "wedges" in c.name]
    assert [c.verdict for c in found] == ["stop"]
