# SPDX-License-Identifier: LGPL-2.1-or-later

"""The stepped block and the glue lines that are drawn while a form is sliced: plain figures, without FreeCAD.

Outside checks: volume of a closed surface by the divergence theorem; circles of a ball by Pythagoras.
"""

from __future__ import annotations

import numpy as np
import pytest
import solids

from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.layers.stack import preview
from freecad_stacklam.lamination.settings.stack import StackSettings, TabSettings
from freecad_stacklam.workbench.scene.layerlines import BEFORE, OFF, LayerLines, layer_lines


def drawn(mesh: Mesh, settings: StackSettings) -> tuple[LayerLines, float]:
    """The lines, and the wood of the preview they were made of, mm³."""
    found = preview(mesh, settings)
    return layer_lines(mesh, found), found.wood_volume


def volume(faces: np.ndarray) -> float:
    return float(np.einsum("ij,ij->", faces[:, 0], np.cross(faces[:, 1], faces[:, 2])) / 6)


TURNED = np.array([[0, 0, 1, 30], [1, 0, 0, -40], [0, 1, 0, 700], [0, 0, 0, 1.0]])
CASES = {
    "a ball": (solids.ball(), StackSettings()),
    "a ring, whose blanks have holes": (solids.torus(), StackSettings(stock=(27.0,))),
    "a ring, its holes unsawn": (solids.torus(), StackSettings(stock=(27.0,), fill_holes=True)),
    "a lying ring, of blanks in two": (solids.torus(), StackSettings(stock=(20.0,), axis=(1.0, 0.0, 0.0))),
    "a turned ball": (solids.moved(solids.ball(), TURNED), StackSettings(axis=(0.6, 0.0, 0.8), allowance=8.0)),
    "one layer": (solids.box(300, 200, 45), StackSettings()),
    "with a waste tab": (solids.cone(), StackSettings(tabs=(TabSettings(layers=(2, 3)),))),
}


@pytest.mark.parametrize("case", CASES)
def test_the_faces_are_those_of_one_block_that_holds_the_wood(case: str) -> None:
    mesh, settings = CASES[case]
    lines, wood = drawn(mesh, settings)
    # Outlines stray by OFF of their width: both ways round, so the volume strays by less than twice that.
    assert volume(lines.faces) == pytest.approx(wood, rel=4 * OFF)
    # Closed: what looks each way is as large as what looks the other way.
    normals = np.cross(lines.faces[:, 1] - lines.faces[:, 0], lines.faces[:, 2] - lines.faces[:, 0]) / 2
    assert np.abs(normals.sum(axis=0)).max() < 1e-6 * np.abs(normals).sum()


def around(line: np.ndarray) -> float:
    assert np.allclose(line[0], line[-1])
    return float(np.linalg.norm(np.diff(line, axis=0), axis=1).sum())


def test_the_glue_lines_of_a_ball_are_its_circles() -> None:
    lines, _ = drawn(solids.ball(150.0), StackSettings())
    assert len(lines.glue_lines) == 6
    for k, line in enumerate(lines.glue_lines, 1):
        assert np.abs(line[:, 2] - 45.0 * k).max() < 2.0
        assert around(line) == pytest.approx(2 * np.pi * (150.0**2 - (45.0 * k - 150.0) ** 2) ** 0.5, rel=0.01)
    # They lie before the surface, where it does not hide them, and nowhere else.
    away = np.linalg.norm(np.concatenate(lines.glue_lines) - [0, 0, 150.0], axis=1) - 150.0
    assert 0.2 * BEFORE * 300 < away.min() < away.max() < 1.2 * BEFORE * 310


def test_a_lying_ring_has_glue_lines_in_two_where_its_blanks_are_two() -> None:
    lines, _ = drawn(solids.torus(), StackSettings(stock=(50.0,), axis=(1.0, 0.0, 0.0)))
    # The ring is 320 high, its hole from 80 to 240: lines at 100, 150 and 200 cross it twice.
    count = [0] * 7
    for line in lines.glue_lines:
        count[round((line[:, 0].mean() + 160.0) / 50.0)] += 1
    assert count == [0, 1, 2, 2, 2, 1, 1]


def test_rims_lie_at_both_ends_of_every_layer() -> None:
    lines, _ = drawn(solids.cylinder(100, 90), StackSettings())
    assert sorted(set(lines.rims[:, :, 2].round(6).ravel())) == [0.0, 45.0, 90.0]
    radius = np.linalg.norm(lines.rims[:, :, :2], axis=2)
    assert radius.min() > 103.0 - OFF * 206 and radius.max() < 103.5


def test_a_flat_step_on_a_glue_line_is_no_glue_line_by_itself() -> None:
    wide, narrow = solids.revolved(np.array([[0, 0], [100, 0], [100, 45], [60, 45], [60, 90], [0, 90.0]])), 60.0
    lines, _ = drawn(wide, StackSettings())
    # One closed line, round the foot or round the neck, and no web over the step.
    (line,) = lines.glue_lines
    assert around(line) in (pytest.approx(2 * np.pi * 100, rel=0.01), pytest.approx(2 * np.pi * narrow, rel=0.01))
