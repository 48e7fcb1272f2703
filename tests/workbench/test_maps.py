# SPDX-License-Identifier: LGPL-2.1-or-later

"""Colours, bands and triangles of a map on the form: plain figures, without FreeCAD.

Outside checks: relative luminance and contrast as the W3C's Web Content Accessibility Guidelines 2.2 define them;
volumes and areas by arithmetic; nearest points by trying every one.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
import solids
from hypothesis import given
from hypothesis import strategies as st

from freecad_stacklam.lamination.findings.deep import DeepFindings, SurfaceMap, WeakSpot
from freecad_stacklam.workbench.scene.deepmap import HURTS, NOTHING, PLACE, USE, choices_of, picture_of
from freecad_stacklam.workbench.scene.ramp import MOST, Bands, bands_for, colour_at, hex_of, ink_on
from freecad_stacklam.workbench.scene.skin import MOST_TRIANGLES, creases, finer, spacing_of, values_at


def luminance(colour: tuple[float, float, float]) -> float:
    """WCAG 2.2, “relative luminance”."""
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour]
    return float(np.dot([0.2126, 0.7152, 0.0722], linear))


def test_every_colour_is_darker_than_the_one_before_so_that_grey_tells_as_much() -> None:
    shades = [luminance(colour_at(part)) for part in np.linspace(0, 1, 101)]
    assert all(dark < light for light, dark in pairwise(shades))


@pytest.mark.parametrize("count", range(2, MOST + 1))
def test_neighbouring_bands_are_told_apart_in_grey(count: int) -> None:
    shades = [luminance(c) for c in Bands(0.1, count).colours]
    # Contrast as WCAG 2.2 defines it; 1.2 between fields that touch is ours, no standard's.
    assert min((light + 0.05) / (dark + 0.05) for light, dark in pairwise(shades)) > 1.2


@given(st.floats(1e-6, 1e4))
def test_the_bands_are_round_few_and_hold_the_greatest(greatest: float) -> None:
    bands = bands_for(greatest)
    assert 1 <= bands.count <= MOST
    assert bands.step * (bands.count - 1) < greatest <= bands.step * bands.count * (1 + 1e-6)
    digits = f"{bands.step:.6e}".split("e")[0].rstrip("0").rstrip(".")
    assert digits in ("1", "2", "2.5", "5")


def test_values_fall_into_their_bands() -> None:
    bands = bands_for(0.097)  # 0.097 / 6 = 0.0162: the next round step is 0.02, five of them
    assert (bands.step, bands.count) == (0.02, 5)
    assert bands.words() == ("0 to 2 %", "2 to 4 %", "4 to 6 %", "6 to 8 %", "8 to 10 %")
    assert bands.of(np.array([-0.5, 0.0, 0.019, 0.02, 0.097, 7.0])).tolist() == [0, 0, 0, 1, 4, 4]
    assert len(bands.colours) == 5


@pytest.mark.parametrize("nothing", [0.0, -1.0, float("nan")])
def test_where_nothing_is_above_nought_there_is_one_band(nothing: float) -> None:
    assert bands_for(nothing).count == 1


def test_a_colour_is_written_as_pages_write_it() -> None:
    assert hex_of((1.0, 0.5, 0.0)) == "#ff8000"


@pytest.mark.parametrize("count", range(1, MOST + 1))
def test_figures_read_on_every_colour(count: int) -> None:
    for colour in Bands(0.1, count).colours:
        shades = sorted((luminance(colour), luminance(ink_on(colour))))
        assert (shades[1] + 0.05) / (shades[0] + 0.05) >= 4.5  # WCAG 2.2, success criterion 1.4.3


def test_a_box_has_twelve_creases_and_a_ball_none() -> None:
    mesh = solids.box(100.0, 60.0, 20.0)
    ends = creases(mesh.vertices, mesh.triangles, 25.0)
    assert len(ends) == 12
    assert np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1).sum() == pytest.approx(4 * (100 + 60 + 20))
    ball = solids.ball(50.0, 4)
    assert len(creases(ball.vertices, ball.triangles, 25.0)) == 0


def test_a_surface_is_cut_small_and_stays_as_large() -> None:
    mesh = solids.box(100.0, 60.0, 20.0)
    faces = finer(mesh.vertices, mesh.triangles, 7.0)
    assert np.linalg.norm(np.roll(faces, -1, axis=1) - faces, axis=2).max() <= 7.0
    normals = np.cross(faces[:, 1] - faces[:, 0], faces[:, 2] - faces[:, 0]) / 2
    # 2 (100·60 + 100·20 + 60·20) mm², and a third of the sum of place · area is the volume: none is turned over.
    assert np.linalg.norm(normals, axis=1).sum() == pytest.approx(2 * (6000 + 2000 + 1200))
    assert (faces.mean(axis=1) * normals).sum() / 3 == pytest.approx(100 * 60 * 20)


def test_no_form_is_cut_without_end() -> None:
    mesh = solids.box(3000.0, 2000.0, 900.0)
    assert len(finer(mesh.vertices, mesh.triangles, 1.0)) <= MOST_TRIANGLES


def test_a_place_takes_the_nearest_value_within_reach() -> None:
    random = np.random.default_rng(5)
    points, values = random.uniform(0, 100, (400, 3)), random.uniform(0, 1, 400)
    places = random.uniform(-20, 120, (300, 3))
    found = values_at(places, points, values, 12.0)
    apart = np.linalg.norm(places[:, None] - points[None], axis=2)
    near = apart.min(axis=1)
    # Places nearer to each other than 4 mm · √3 share a value.
    assert np.isfinite(found[near < 12.0 - 7.0]).all() and np.isnan(found[near > 12.0 + 7.0]).all()
    asked = np.isfinite(found)
    owner = apart[np.arange(300), np.argmax(values[None] == np.where(asked, found, -1.0)[:, None], axis=1)]
    assert (owner[asked] <= near[asked] + 2 * 7.0).all()


def test_of_no_points_nothing_is_known() -> None:
    assert np.isnan(values_at(np.zeros((3, 3)), np.zeros((0, 3)), (), 5.0)).all()
    assert spacing_of(np.zeros((1, 3))) == 0.0


def test_the_spacing_of_a_lattice_is_its_own() -> None:
    grid = np.stack(np.meshgrid(*[np.arange(0, 60, 6.0)] * 3), axis=-1).reshape(-1, 3)
    assert spacing_of(grid) == pytest.approx(6.0)


SPOT = WeakSpot(
    (10.0, 0.0, 300.0), "Neck", 7, "glue line", 0.42, 1.0, 2.4, False, "leaning on the rim", (0.0, 150.0, 400.0),
    (0.0, 30.0, -40.0), "R up",
)  # fmt: skip
MAP = SurfaceMap(((0.0, 0.0, 400.0), (0.0, 100.0, 400.0)), (-0.01, 0.06))


def test_what_there_is_to_show() -> None:
    assert choices_of(None) == choices_of(DeepFindings(refused="No wood.")) == ()
    assert choices_of(DeepFindings(spots=(SPOT,))) == (NOTHING, PLACE)
    assert choices_of(DeepFindings(spots=(SPOT,), influence=MAP, surface=MAP)) == (NOTHING, PLACE, HURTS, USE)


def test_the_worst_place_has_its_load() -> None:
    picture = picture_of(DeepFindings(spots=(SPOT,)), PLACE)
    assert picture.spot == SPOT and picture.load and picture.map is None
    place, load = picture.says
    assert "42 %" in place and "layer 7 of Neck" in place
    assert "50 N" in load and "leaning on the rim" in load  # 3-4-5


def test_without_tenon_its_own_worst_place_is_shown() -> None:
    bare = replace(SPOT, index=0.9)
    both = DeepFindings(spots=(SPOT,), without_tenon=bare)
    assert picture_of(both, PLACE, True).spot == bare
    assert picture_of(both, PLACE).spot == SPOT
    assert picture_of(DeepFindings(spots=(SPOT,)), PLACE, True).spot == SPOT


def test_where_the_load_hurts_what_relieves_falls_into_the_lowest_band() -> None:
    picture = picture_of(DeepFindings(spots=(SPOT,), influence=MAP), HURTS)
    assert picture.bands == Bands(0.01, 6) and picture.words[0] == "less than 1 %" and picture.words[-1] == "5 to 6 %"
    assert picture.spot == SPOT and not picture.load


def test_nothing_chosen_shows_nothing() -> None:
    picture = picture_of(DeepFindings(spots=(SPOT,)), NOTHING)
    assert picture.spot is None and picture.map is None and picture.says == ()
