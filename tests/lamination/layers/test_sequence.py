# SPDX-License-Identifier: LGPL-2.1-or-later

"""Layer sequences against every sequence tried by hand, with the blanks' areas from the cone's own formula."""

from __future__ import annotations

from itertools import product
from math import pi

import numpy as np
import pytest
import solids
from settingstext import write_settings

from freecad_stacklam.lamination.layers.sequence import plan_sequence
from freecad_stacklam.lamination.layers.stack import candidates, plan_stack, preview
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.file import read_settings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.tolerances import GUARD

H, R = 200.0, 150.0
CONE = solids.cone(R, H, 120)
MARGIN = 3.0 + GUARD


def cone_wood(thicknesses: tuple[float, ...], start: float = 0.0) -> float:
    """Σ π (R (1 − z/H) + margin)² t over the layers, z their bottoms: a cone's shadow is its lowest section."""
    bottoms = start + np.concatenate([[0.0], np.cumsum(thicknesses)[:-1]])
    return float(sum(pi * (R * (1 - max(z, 0) / H) + MARGIN) ** 2 * t for z, t in zip(bottoms, thicknesses)))


def every_sequence(stock: tuple[float, ...], most: int) -> dict[int, float]:
    """Least wood for each number of layers, by trying all sequences that just reach the top."""
    least: dict[int, float] = {}
    for n in range(1, most + 1):
        for row in product(stock, repeat=n):
            if sum(row) >= H > sum(row[:-1]):
                least[n] = min(least.get(n, np.inf), cone_wood(row))
    return least


def test_no_sequence_needs_less_wood_than_the_one_found() -> None:
    """Against all 2^n sequences of two thicknesses. The mesh's 120-gon is 5e-4 smaller than its circle."""
    found = candidates(CONE, StackSettings(stock=(45.0, 27.0)))
    least = every_sequence((45.0, 27.0), 8)
    assert [p.layers for p in found.points] == sorted(least)
    for point in found.points:
        assert point.wood == pytest.approx(least[point.layers], rel=2e-3)
        assert cone_wood(point.thicknesses) == pytest.approx(least[point.layers], rel=1e-9)


def test_glue_line_worth_moves_the_pick_and_fewest_layers_wins() -> None:
    free = candidates(CONE, StackSettings(stock=(45.0, 27.0), pick="least wood"))
    assert free.best.wood == min(p.wood for p in free.points)
    dear = candidates(CONE, StackSettings(stock=(45.0, 27.0), pick="least wood", glue_line_worth=1e9))
    few = candidates(CONE, StackSettings(stock=(45.0, 27.0), pick="fewest layers"))
    assert dear.best.layers == few.best.layers == min(p.layers for p in free.points) == 5
    assert few.best.wood <= cone_wood((45.0,) * 5) * (1 + 1e-9)
    some = candidates(CONE, StackSettings(stock=(45.0, 27.0), pick="least wood", glue_line_worth=3e5))
    assert some.best == min(some.points, key=lambda p: p.wood + 3e5 * p.layers)


def test_plan_follows_the_sequence_and_is_proven() -> None:
    settings = StackSettings(stock=(45.0, 27.0))
    plan = plan_stack(CONE, settings, name="cone")
    best = candidates(CONE, settings).best
    assert [n.thickness for n in plan.layers] == pytest.approx(best.thicknesses)
    assert plan.containment.proven
    assert preview(CONE, settings).layers == best.layers
    wood = sum(n.blank_volume for n in plan.layers)
    assert best.wood == pytest.approx(wood, rel=5e-3)


def test_several_thicknesses_need_less_than_one() -> None:
    one = preview(CONE, StackSettings(stock=(45.0,)))
    several = candidates(CONE, StackSettings(stock=(45.0, 27.0)))
    assert several.points[0].wood <= one.wood_volume * (1 + 2e-3)
    assert several.best.wood < 0.95 * one.wood_volume


def test_forced_planes_and_zones_are_kept() -> None:
    settings = StackSettings(stock=(45.0, 27.0), forced=(100.0,), forbidden=((20.0, 40.0), (140.0, 170.0)))
    for point in candidates(CONE, settings).points:
        planes = point.planes
        assert min(abs(z - 100.0) for z in planes) < 0.02
        assert not any(low + 0.01 < z < high - 0.01 for z in planes for low, high in settings.forbidden)
        assert all(t <= b + 0.011 for t, b in zip(point.thicknesses, point.planed_from))
    plan = plan_stack(CONE, settings, name="cone")
    assert plan.containment.proven
    assert 100.0 in [round(n.top, 2) for n in plan.layers]


def test_frozen_layers_keep_their_measured_thickness_and_the_rest_is_planned_over_the_true_height() -> None:
    """Seven boards 0.3 mm under size: the stack still ends at the form's height, not 2.1 mm below it."""
    frozen = (24.7,) * 7
    settings = StackSettings(stock=(25.0, 14.0), thicknesses=frozen)
    best = candidates(CONE, settings).best
    assert best.thicknesses[:7] == frozen
    rest = best.thicknesses[7:]
    assert sum(best.thicknesses) >= H > sum(best.thicknesses[:-1])
    tails = [r for n in (1, 2, 3) for r in product((25.0, 14.0), repeat=n) if sum(r) >= H - 172.9 > sum(r[:-1])]
    least = min(cone_wood(t, 172.9) for t in tails)
    assert cone_wood(rest, 172.9) == pytest.approx(least)


def test_a_uniform_stack_is_shifted_to_the_better_place() -> None:
    """A flange from 90 to 170 mm takes two layers of 40 mm, not three, when the first plane lies 30 mm below."""
    profile = np.array([[0, 0], [60, 0], [60, 90], [150, 90], [150, 170], [60, 170], [60, 210], [0, 210]], dtype=float)
    mesh = solids.revolved(profile, 90)
    settings = StackSettings(stock=(40.0,), pick="least wood")
    best = candidates(mesh, settings).best
    assert best.layers == 6
    assert best.shift == pytest.approx(30.0)
    plan = plan_stack(mesh, settings, name="step")
    assert plan.containment.proven
    assert plan.layers[0].bottom == 0.0
    plain = plan_stack(mesh, StackSettings(stock=(40.0,)), name="step")
    wide, narrow = pi * 153.2**2 * 40, pi * 63.2**2 * 40
    assert sum(n.blank_volume for n in plan.layers) == pytest.approx(2 * wide + 4 * narrow, rel=5e-3)
    assert sum(n.blank_volume for n in plain.layers) == pytest.approx(3 * wide + 3 * narrow, rel=5e-3)
    # The frame carries the shift: the form's bottom lies above the stack's.
    assert plan.frame[11] == pytest.approx(plain.frame[11] - best.shift)


def test_many_thicknesses_are_measured_on_a_grid_and_still_reach_the_top() -> None:
    found = candidates(CONE, StackSettings(stock=(44.6, 31.7, 26.8, 18.9, 13.3)))
    for point in found.points:
        assert sum(point.thicknesses) >= H - 0.01 > sum(point.thicknesses[:-1])
        assert point.wood == pytest.approx(cone_wood(point.thicknesses), rel=3e-3)
    least = every_sequence((44.6, 31.7, 26.8, 18.9, 13.3), 6)
    for point in found.points:
        if point.layers in least:
            assert point.wood <= least[point.layers] * 1.01


@pytest.mark.parametrize(
    ("settings", "says"),
    [
        (StackSettings(stock=(45.0, 27.0), forbidden=((60.0, 120.0),)), "more than your thickest stock"),
        (StackSettings(stock=(45.0, 27.0), forced=(250.0,)), "give a height inside it"),
        (StackSettings(stock=(45.0, 27.0), forced=(70.0,), forbidden=((60.0, 80.0),)), "change one of the two"),
        (StackSettings(stock=(300.0, 270.0)), "is thicker than the form is high"),
        (StackSettings(stock=(0.1, 45.0)), "more than 400 are not planned"),
        (StackSettings(stock=(45.0, 27.0), thicknesses=(30.0,), forbidden=((20.0, 40.0),)), "layers already made"),
    ],
)
def test_what_cannot_be_met_is_refused_with_a_sentence(settings: StackSettings, says: str) -> None:
    with pytest.raises(Refusal, match=says.replace("(", r"\(")):
        candidates(CONE, settings)


def test_a_zone_the_wrong_way_round_is_refused() -> None:
    with pytest.raises(Refusal, match="from its lower to its upper height"):
        StackSettings(forbidden=((50.0, 40.0),))


def test_settings_file_carries_planes_and_zones() -> None:
    text = '[[stack]]\nstock = ["45mm", "27mm"]\nforced = ["100mm"]\nforbidden = [["20mm", "4cm"]]\n'
    settings = read_settings(text)
    assert settings.stacks[0].forced == (100.0,)
    assert settings.stacks[0].forbidden == ((20.0, 40.0),)
    assert read_settings(write_settings(settings)).stacks == settings.stacks


def test_sequences_on_the_surface_itself_need_no_frame() -> None:
    found = plan_sequence(CONE.vertices, CONE.triangles, CONE.twins, StackSettings(stock=(50.0,), pick="least wood"))
    assert [p.thicknesses for p in found.points] == [(50.0,) * 4]


def test_a_curve_is_found_once_for_a_form() -> None:
    mesh = solids.cone(R, H, 60)
    one = candidates(mesh, StackSettings(stock=(45.0, 27.0), pick="least wood"))
    other = candidates(mesh, StackSettings(stock=(45.0, 27.0), pick="fewest layers"))
    assert one.points is other.points
    assert other.picked == 0 < one.picked
    assert candidates(mesh, StackSettings(stock=(45.0, 27.0), allowance=9.0)).points is not one.points
