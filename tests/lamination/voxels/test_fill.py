# SPDX-License-Identifier: LGPL-2.1-or-later

"""Whole plans as cells. Volumes beside exact arithmetic (πr²h), and tenons beside the joint's own figures."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
import solids
from jobs import plan_job

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.form.mesh import Mesh, gate
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.plan.joints import Tenon
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.voxels.fill import size_for, tenon_surface, voxels_of

LIFT = np.eye(4)
LIFT[2, 3] = 360.0


def job(meshes: dict[str, Mesh], stacks: tuple[StackSettings, ...], **more: object) -> Plan:
    forms = [Form(name, mesh) for name, mesh in meshes.items()]
    return plan_job(forms, Settings(stacks=stacks, **more), species_table())  # type: ignore[arg-type]


@cache
def post_and_top() -> tuple[Plan, dict[str, Mesh]]:
    meshes = {"Post": solids.cylinder(60, 360), "Top": solids.moved(solids.cylinder(150, 54), LIFT)}
    stacks = (StackSettings(form="Post", stock=(45.0,)), StackSettings(form="Top", stock=(27.0,), grain=30.0))
    joint = JointSettings(
        name="j", through=(0.0, 0.0, 360.0), section="square", size=(40.0,), embed=(("Post", 75.0), ("Top", None))
    )
    return job(meshes, stacks, joints=(joint,)), meshes


def test_the_wood_is_what_the_forms_and_the_tenon_have() -> None:
    plan, meshes = post_and_top()
    (joint,) = plan.joints
    cells = voxels_of(plan, meshes, 8.0)
    mortise = 40.0**2 * (joint.members[0].embed + joint.end_room + 54)
    wanted = meshes["Post"].volume + meshes["Top"].volume - mortise + joint.tenon.volume
    proud = joint.tenon.area * max(0.0, joint.end - 54.0)
    assert cells.volume == pytest.approx(wanted - proud, rel=0.002)
    assert cells.heights[0] == 0.0 and cells.heights[-1] == pytest.approx(414.0)


def test_cells_end_on_the_faces_of_all_layers() -> None:
    plan, meshes = post_and_top()
    cells = voxels_of(plan, meshes, 8.0)
    for face in [*np.arange(0, 361, 45), 387, 414]:
        assert np.abs(cells.heights - face).min() < 1e-9
    assert np.allclose(cells.thick, [7.5] * 48 + [9.0] * 6)  # 45 / 8 → 6, 27 / 8 → 3


def test_every_cell_knows_its_layer_and_its_grain() -> None:
    plan, meshes = post_and_top()
    cells = voxels_of(plan, meshes, 8.0)
    x, y, _ = (n // 2 for n in cells.shape)
    column = [cells.layers[i] for i in cells.layer[x + 4, y, :]]
    assert [c.number for c in column] == [n for n in range(1, 9) for _ in range(6)] + [1] * 3 + [2] * 3
    assert [c.stack for c in column] == [0] * 48 + [1] * 6
    assert np.allclose(column[-1].grain, [np.cos(np.pi / 6), 0.5, 0.0])
    assert np.allclose(column[0].normal, [0, 0, 1])
    assert (cells.layer >= 0).sum() == (cells.filled > 0).sum()


def test_the_tenon_stands_in_its_mortise() -> None:
    plan, meshes = post_and_top()
    (joint,) = plan.joints
    cells = voxels_of(plan, meshes, 5.0)
    where = np.argwhere(cells.tenon)
    middle = cells.centres(where)
    assert np.abs(middle[:, :2]).max() < 20.0
    assert middle[:, 2].min() == pytest.approx(360.0 + joint.start, abs=5.0)
    volume = float(cells.tenon_part.sum(axis=(0, 1), dtype=float) @ cells.thick) * 25.0
    assert volume == pytest.approx(joint.tenon.area * (414.0 - 360.0 - joint.start), rel=0.03)
    assert np.allclose(cells.tenons[0].grain, [0, 0, 1]) and cells.tenons[0].joint == "j"
    assert set(np.unique(cells.tenon_of)) == {-1, 0}


def test_hollows_are_air_and_pins_are_wood_with_a_note() -> None:
    meshes = {"Post": solids.cylinder(120, 225)}
    stack = StackSettings(form="Post", stock=(45.0,), hollow=HollowSettings(wall=30.0), pins=PinSettings())
    plan = job(meshes, (stack,))
    (made,) = plan.stacks
    assert made.hollow is not None and made.pins
    cells = voxels_of(plan, meshes, 6.0)
    bored = sum(
        np.pi * (p.radius_below**2 * p.depth_down + p.radius_above**2 * p.depth_up) for p in made.pins if not p.waste
    )
    cut = sum(v.volume for v in made.hollow.voids)
    assert cells.volume == pytest.approx(meshes["Post"].volume - cut, rel=0.003)
    pins = float(cells.pin_part.sum(axis=(0, 1), dtype=float) @ cells.thick) * 36.0
    assert pins == pytest.approx(bored, rel=0.1)


def test_a_stack_laid_on_its_side_takes_its_layers_along() -> None:
    # A rail along x between nothing: stacked along x, so its layers are square to x in the piece's frame.
    meshes = {"Post": solids.box(60, 60, 200), "Rail": solids.box(200, 60, 60, (60, 0, 100))}
    plan = job(meshes, (StackSettings(form="Post"), StackSettings(form="Rail", axis=(1.0, 0.0, 0.0))))
    cells = voxels_of(plan, meshes, 10.0)
    rail = cells.layer >= len(plan.stacks[0].layers)
    assert cells.volume == pytest.approx(60 * 60 * 400.0, rel=0.002)
    assert {cells.layers[i].stack for i in np.unique(cells.layer[rail])} == {1}
    for i in np.unique(cells.layer[rail]):
        assert np.allclose(cells.layers[i].normal, [1, 0, 0])
        numbers = cells.centres(np.argwhere(cells.layer == i))[:, 0] + 0.0
        assert np.ptp(numbers) < 45.0


def test_a_stack_turned_upside_down_keeps_its_layers() -> None:
    meshes = {"A": solids.cylinder(50, 90), "B": solids.moved(solids.cylinder(50, 90), np.diag([1.0, -1.0, -1.0]))}
    plan = job(meshes, (StackSettings(form="A"), StackSettings(form="B", axis=(0.0, 0.0, -1.0))))
    cells = voxels_of(plan, meshes, 10.0)
    assert cells.heights[0] == pytest.approx(-90.0)
    numbers = [cells.layers[i] for i in cells.layer[5, 5, :]]
    assert [(c.stack, c.number) for c in numbers[:: len(numbers) // 4]][:4] == [(1, 2), (1, 1), (0, 1), (0, 2)]


def test_the_size_of_cells_comes_of_how_many_are_wanted() -> None:
    plan, meshes = post_and_top()
    size = size_for(plan, 20_000)
    wood = float(voxels_of(plan, meshes, size).filled.sum())
    assert wood == pytest.approx(20_000, rel=0.1)


def test_too_many_cells_and_no_stack_are_refused() -> None:
    plan, meshes = post_and_top()
    with pytest.raises(Refusal, match="make them larger"):
        voxels_of(plan, meshes, 0.2)
    with pytest.raises(Refusal, match="slice a form first"):
        voxels_of(Plan("", "mm", ()), {}, 5.0)


def test_a_tenon_is_a_closed_surface_of_its_volume() -> None:
    plan, _ = post_and_top()
    (joint,) = plan.joints
    for tenon, area in ((joint.tenon, joint.tenon.area), (Tenon(100.0, "round", (36.0,), "white oak"), np.pi * 18**2)):
        mesh = gate(*tenon_surface(replace(joint, tenon=tenon)))
        assert mesh.volume == pytest.approx(area * (joint.end - joint.start), rel=0.005)
